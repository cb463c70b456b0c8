package org.tareline.part;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Embeddable;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.MapKeyColumn;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Cut;
import org.tareline.cutting.Shape;
import org.tareline.cutting.Stock;

/**
 * A line of a part's cut list, as it was typed. It keeps its row when the list is changed, so that
 * its weighings stay with it.
 */
@Entity
@Table(name = "cut_line")
public class CutLine {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "part_id", nullable = false)
  private long partId;

  @Column(nullable = false)
  private int position;

  @Column private @Nullable String name;

  @Column(nullable = false)
  private String form;

  @Column(name = "material_id", nullable = false)
  private long materialId;

  @Column(nullable = false)
  private int quantity;

  @Column(nullable = false)
  private boolean removed;

  @Column(nullable = false)
  private int revision;

  @ElementCollection
  @CollectionTable(name = "cut_size", joinColumns = @JoinColumn(name = "cut_line_id"))
  @MapKeyColumn(name = "name")
  private Map<String, Size> sizes;

  /** A size, in the base unit of its kind and as it was typed. */
  @Embeddable
  public static class Size {

    @Column(name = "ledger_id", nullable = false)
    private long ledgerId;

    @Column(nullable = false)
    private BigDecimal amount;

    @Column(nullable = false)
    private String typed;

    protected Size() {}

    Size(long ledgerId, BigDecimal amount, String typed) {
      this.ledgerId = ledgerId;
      this.amount = amount;
      this.typed = typed;
    }
  }

  protected CutLine() {}

  CutLine(long ledgerId, long partId, int position, CutSheet.Line read) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.partId = partId;
    this.sizes = new LinkedHashMap<>();
    describe(position, read);
  }

  /** A line as it is kept, still without its sizes. */
  CutLine(long ledgerId, CutRow row) {
    this.ledgerId = ledgerId;
    this.id = row.id();
    this.uuid = row.uuid();
    this.partId = row.partId();
    this.position = row.position();
    this.name = row.name();
    this.form = row.form();
    this.materialId = row.materialId();
    this.quantity = row.quantity();
    this.removed = row.removed();
    this.revision = row.revision();
    this.sizes = new HashMap<>();
  }

  /** Takes on the size of a row, if it has one. */
  void take(CutRow row) {
    if (row.size() != null && row.amount() != null && row.typed() != null) {
      sizes.put(row.size(), new Size(ledgerId, row.amount(), row.typed()));
    }
  }

  /** Takes on what was read; as a new revision where something else is cut. */
  void describe(int position, CutSheet.Line read) {
    this.position = position;
    this.name = read.name();
    if (revision > 0 && cutsAs(read)) {
      return;
    }
    this.revision++;
    this.form = read.form().word();
    this.materialId = read.materialId();
    this.quantity = read.quantity();
    this.removed = read.removed();
    this.sizes.clear();
    read.sizes()
        .forEach(
            (size, given) ->
                sizes.put(size.word(), new Size(ledgerId, given.amount(), given.typed())));
  }

  /** Whether the same is cut, whatever it is called. */
  boolean cutsAs(CutSheet.Line read) {
    Map<CutSize, String> typed = new EnumMap<>(CutSize.class);
    read.sizes().forEach((size, given) -> typed.put(size, given.typed()));
    return form.equals(read.form().word())
        && materialId == read.materialId()
        && quantity == read.quantity()
        && removed == read.removed()
        && typed().equals(typed);
  }

  /** As it would be typed, cut from a material of this code. */
  Parts.CutEntry entry(String material) {
    return new Parts.CutEntry(
        uuid.toString(),
        name,
        form().kind(),
        form().shape().orElse(null),
        material,
        String.valueOf(quantity),
        removed,
        null,
        new EnumMap<>(typed()));
  }

  /** Whether its sizes come to the same figures. */
  boolean saysAs(CutSheet.Line read) {
    return sizes.entrySet().stream()
        .allMatch(
            size ->
                Optional.ofNullable(read.sizes().get(CutSize.named(size.getKey())))
                    .filter(given -> given.amount().compareTo(size.getValue().amount) == 0)
                    .isPresent());
  }

  long id() {
    return id;
  }

  /** The id by which the API and the pages know it. */
  public UUID uuid() {
    return uuid;
  }

  /** Counts what was cut differently from before. */
  int revision() {
    return revision;
  }

  long partId() {
    return partId;
  }

  int position() {
    return position;
  }

  public Optional<String> name() {
    return Optional.ofNullable(name);
  }

  public CutForm form() {
    return CutForm.named(form);
  }

  public long materialId() {
    return materialId;
  }

  public int quantity() {
    return quantity;
  }

  /** Whether it is cut out of something else, and so is not there. */
  public boolean removed() {
    return removed;
  }

  /** The sizes as typed, in the order of {@link CutSize}. */
  public Map<CutSize, String> typed() {
    Map<CutSize, String> typed = new EnumMap<>(CutSize.class);
    sizes.forEach((size, given) -> typed.put(CutSize.named(size), given.typed));
    return typed;
  }

  /** A size in the base unit of its kind; null where it was not given. */
  @Nullable Double amount(CutSize size) {
    Size given = sizes.get(size.word());
    return given == null ? null : given.amount.doubleValue();
  }

  /** The line cut from its material. */
  Cut cut(Stock stock) {
    return cut(stock, this::amount);
  }

  /** The line cut from its material in other sizes. */
  Cut cut(Stock stock, CutForm.Sizes sizes) {
    return form().cut(stock, sizes, quantity, removed);
  }

  /** The outline of a panel, allowances included. */
  public Shape outline() {
    return form().outline(this::amount);
  }

  /** The outline of a panel as it would be without allowances. */
  public Shape outlineWithoutAllowances() {
    return form()
        .outline(
            size ->
                size == CutSize.LENGTH_ALLOWANCE || size == CutSize.WIDTH_ALLOWANCE
                    ? null
                    : amount(size));
  }
}
