package org.tareline.rig;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.OrderColumn;
import jakarta.persistence.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.hibernate.annotations.BatchSize;
import org.jspecify.annotations.Nullable;

/** How a rig is hung, as far as its loads go: what was typed, since a figure may carry a ±. */
@Entity
@Table(name = "rig_loads")
class RigLoads {

  /** More than the rigs that are ever compared on one page. */
  private static final int AT_ONCE = 50;

  /**
   * That as somebody typed it.
   *
   * @param lies mass of who lies in it
   * @param hangs mass of what hangs with them; may be left out
   * @param designFactor the ledger's own when left out
   * @param ridgeLength with flatLength, where a ridge line sets the angle of the body's ends
   * @param edgeSpan with edgeSag, of the long edge of the body between two bars
   * @param treeGives how far each tree comes in where the strap sits, under this load
   * @param settles by how much the knots and the line of one end settle and creep
   */
  record Entry(
      @Nullable String lies,
      @Nullable String hangs,
      @Nullable String dynamicAllowance,
      @Nullable String designFactor,
      @Nullable String ridgeLength,
      @Nullable String flatLength,
      @Nullable String edgeSpan,
      @Nullable String edgeSag,
      @Nullable String treeGives,
      @Nullable String settles,
      @Nullable List<HangEntry.@Nullable EndEntry> ends) {}

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(name = "rig_id", nullable = false, updatable = false)
  private long rigId;

  @Column(nullable = false)
  private String lies;

  @Column private @Nullable String hangs;

  @Column(name = "dynamic_allowance")
  private @Nullable String dynamicAllowance;

  @Column(name = "design_factor")
  private @Nullable String designFactor;

  @Column(name = "ridge_length")
  private @Nullable String ridgeLength;

  @Column(name = "flat_length")
  private @Nullable String flatLength;

  @Column(name = "edge_span")
  private @Nullable String edgeSpan;

  @Column(name = "edge_sag")
  private @Nullable String edgeSag;

  @Column(name = "tree_gives")
  private @Nullable String treeGives;

  @Column private @Nullable String settles;

  @Column(nullable = false)
  private int revision;

  @ElementCollection
  @BatchSize(size = AT_ONCE)
  @CollectionTable(name = "rig_loads_end", joinColumns = @JoinColumn(name = "loads_id"))
  @OrderColumn(name = "position")
  private List<LoadsEnd> ends = new ArrayList<>();

  @ElementCollection
  @BatchSize(size = AT_ONCE)
  @CollectionTable(name = "rig_loads_element", joinColumns = @JoinColumn(name = "loads_id"))
  @OrderColumn(name = "position")
  private List<LoadsElement> elements = new ArrayList<>();

  protected RigLoads() {}

  RigLoads(long ledgerId, long rigId) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.rigId = rigId;
    this.lies = "";
  }

  /** Takes on what was read, as a new revision. */
  void describe(Entry entry, List<LoadsElement> described) {
    this.lies = String.valueOf(LoadsEnd.stripped(entry.lies()));
    this.hangs = LoadsEnd.stripped(entry.hangs());
    this.dynamicAllowance = LoadsEnd.stripped(entry.dynamicAllowance());
    this.designFactor = LoadsEnd.stripped(entry.designFactor());
    this.ridgeLength = LoadsEnd.stripped(entry.ridgeLength());
    this.flatLength = LoadsEnd.stripped(entry.flatLength());
    this.edgeSpan = LoadsEnd.stripped(entry.edgeSpan());
    this.edgeSag = LoadsEnd.stripped(entry.edgeSag());
    this.treeGives = LoadsEnd.stripped(entry.treeGives());
    this.settles = LoadsEnd.stripped(entry.settles());
    ends.clear();
    if (entry.ends() != null) {
      for (HangEntry.EndEntry end : entry.ends()) {
        if (end != null) {
          ends.add(LoadsEnd.of(ledgerId, end));
        }
      }
    }
    elements.clear();
    elements.addAll(described);
    revision++;
  }

  /** As an entry that says all that is kept of it but its elements. */
  Entry entry() {
    List<HangEntry.@Nullable EndEntry> all = new ArrayList<>();
    ends.forEach(end -> all.add(end.entry()));
    return new Entry(
        lies,
        hangs,
        dynamicAllowance,
        designFactor,
        ridgeLength,
        flatLength,
        edgeSpan,
        edgeSag,
        treeGives,
        settles,
        all);
  }

  List<LoadsElement> elements() {
    return List.copyOf(elements);
  }

  long id() {
    return id;
  }

  long rigId() {
    return rigId;
  }

  int revision() {
    return revision;
  }
}
