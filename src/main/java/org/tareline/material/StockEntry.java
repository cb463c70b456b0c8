package org.tareline.material;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;

/**
 * What came to or went from the stock of a material, or was counted of it. Never changed and never
 * deleted; a wrong one is struck out.
 */
@Entity
@Immutable
@Table(name = "stock_entry")
public class StockEntry {

  /** What happened. */
  public enum Kind {
    /** So much there is, whatever was thought before. */
    COUNTED,
    ADDED,
    CUT;

    /** The word in pages, API and database. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Optional<Kind> of(@Nullable String word) {
      return Arrays.stream(values()).filter(kind -> kind.word().equals(word)).findFirst();
    }
  }

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "material_id", nullable = false)
  private long materialId;

  @Column(nullable = false)
  private String kind;

  @Column(nullable = false)
  private BigDecimal amount;

  @Column(nullable = false)
  private String typed;

  @Column(name = "part_id")
  private @Nullable Long partId;

  @Column private @Nullable String note;

  @Column(name = "entry_key")
  private @Nullable String key;

  @Column(name = "happened_at", nullable = false)
  private Instant happenedAt;

  @Column(name = "entered_at", nullable = false)
  private Instant enteredAt;

  @Column(name = "entered_by", nullable = false)
  private long enteredBy;

  protected StockEntry() {}

  StockEntry(Material material, long ledgerId, StockEntries.Read read, Instant enteredAt, long by) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.materialId = material.id();
    this.kind = read.kind().word();
    this.amount = read.amount();
    this.typed = read.typed();
    this.partId = read.partId();
    this.note = read.note();
    this.key = read.key();
    this.happenedAt = read.happenedAt();
    this.enteredAt = enteredAt;
    this.enteredBy = by;
  }

  long id() {
    return id;
  }

  long ledgerId() {
    return ledgerId;
  }

  long materialId() {
    return materialId;
  }

  /** The id by which the API and the pages know it. */
  public UUID uuid() {
    return uuid;
  }

  public Kind kind() {
    return Kind.of(kind).orElseThrow(() -> new IllegalStateException("Stock is stored as " + kind));
  }

  /** In metres, pieces or grams. */
  public BigDecimal amount() {
    return amount;
  }

  public String typed() {
    return typed;
  }

  /** The row of the part that it was cut for. */
  public @Nullable Long partId() {
    return partId;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  public Instant happenedAt() {
    return happenedAt;
  }

  /** Whether it says the same, the time aside, which may be that of its arrival. */
  boolean saysAs(StockEntries.Read read) {
    return kind() == read.kind()
        && amount.compareTo(read.amount()) == 0
        && java.util.Objects.equals(partId, read.partId())
        && java.util.Objects.equals(note, read.note());
  }
}
