package org.tareline.trip;

import jakarta.persistence.CascadeType;
import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.Fetch;
import org.hibernate.annotations.FetchMode;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;

/** A journey, and what is carried on it. */
@Entity
@Table(name = "trip")
public class Trip {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String code;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(nullable = false)
  private String name;

  @Column private @Nullable LocalDate starts;

  @Column private @Nullable Integer days;

  @Column(name = "coldest_night_typed")
  private @Nullable String coldestNightTyped;

  @Column(name = "target_base_ng")
  private @Nullable Long targetBase;

  @Column(name = "target_base_typed")
  private @Nullable String targetBaseTyped;

  @Column private @Nullable String note;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  @Column(nullable = false)
  private int revision;

  /** How often it was written down what came of it. */
  @Column(name = "afterwards_revision", nullable = false)
  private int afterwardsRevision;

  @OneToMany(mappedBy = "trip", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("position")
  private List<TripLine> lines = new ArrayList<>();

  @ElementCollection(fetch = FetchType.EAGER)
  @Fetch(FetchMode.SUBSELECT)
  @CollectionTable(name = "trip_carrier", joinColumns = @JoinColumn(name = "trip_id"))
  @OrderBy("position")
  private List<Carrier> carriers = new ArrayList<>();

  protected Trip() {}

  Trip(long ledgerId, Trips.Read read, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.createdAt = createdAt;
    describe(read);
  }

  /** Takes on what was read, as a new revision. A line that was there before stays the same row. */
  void describe(Trips.Read read) {
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.starts = read.starts();
    this.days = read.days();
    this.coldestNightTyped = read.coldestNight();
    this.targetBase = read.targetBase() == null ? null : read.targetBase().mass().nanograms();
    this.targetBaseTyped = read.targetBase() == null ? null : read.targetBase().typed();
    this.note = read.note();
    this.revision++;
    carriers.clear();
    read.carriers()
        .forEach(carrier -> carriers.add(new Carrier(ledgerId, carriers.size(), carrier)));

    Map<UUID, TripLine> before = new HashMap<>();
    lines.forEach(line -> before.put(line.uuid(), line));
    lines.clear();
    for (Trips.LineRead lineRead : read.lines()) {
      TripLine line = before.get(lineRead.id());
      if (line == null) {
        line = new TripLine(this, lineRead, lines.size());
      } else {
        line.describe(lineRead, lines.size());
      }
      lines.add(line);
    }
  }

  public long id() {
    return id;
  }

  public UUID uuid() {
    return uuid;
  }

  long ledgerId() {
    return ledgerId;
  }

  public String code() {
    return code;
  }

  public String name() {
    return name;
  }

  /** The first day, where it is set. */
  public Optional<LocalDate> starts() {
    return Optional.ofNullable(starts);
  }

  public Optional<Integer> days() {
    return Optional.ofNullable(days);
  }

  /** The last day, where the first and how many there are is set. */
  public Optional<LocalDate> ends() {
    return starts == null || days == null
        ? Optional.empty()
        : Optional.of(starts.plusDays(days - 1L));
  }

  /** How cold the coldest night is expected to be, as typed; a temperature. */
  public Optional<Quantity> coldestNight() {
    return Optional.ofNullable(coldestNightTyped)
        .map(typed -> Quantity.read(typed, Kind.TEMPERATURE, null));
  }

  /** What the base weight is to be at most, where that is set. */
  public Optional<Amount> targetBase() {
    return targetBase == null || targetBaseTyped == null
        ? Optional.empty()
        : Optional.of(new Amount(new Mass(targetBase), targetBaseTyped));
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  public int revision() {
    return revision;
  }

  /** The revision of what is known to have come of it; 0 where nothing was written down yet. */
  public int afterwardsRevision() {
    return afterwardsRevision;
  }

  /** Takes note that it was written down anew what came of it. */
  void tellAfterwards() {
    this.afterwardsRevision++;
  }

  /** Who carries it, in order; nobody named where one person carries all. */
  public List<Carrier> carriers() {
    return List.copyOf(carriers);
  }

  /** Its lines, in order. */
  public List<TripLine> lines() {
    return List.copyOf(lines);
  }
}
