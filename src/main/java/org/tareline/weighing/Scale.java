package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.BatchSize;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.AccuracyClass;
import org.tareline.evidence.Instrument;
import org.tareline.evidence.Repeatability;
import org.tareline.evidence.Span;
import org.tareline.evidence.SpanFit;
import org.tareline.ledger.Settings;
import org.tareline.site.Codes;
import org.tareline.units.Mass;
import org.tareline.units.Unit;

/** A weighing instrument, as its data sheet and its owner state it. */
@Entity
@Immutable
@Table(name = "scale")
public class Scale {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String code;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(nullable = false)
  private String name;

  @Column(nullable = false)
  private String unit;

  @Column(name = "readability_ng", nullable = false)
  private long readability;

  @Column(name = "readability_typed", nullable = false)
  private String readabilityTyped;

  @Column(name = "capacity_ng", nullable = false)
  private long capacity;

  @Column(name = "capacity_typed", nullable = false)
  private String capacityTyped;

  @Column(name = "repeatability_ng")
  private @Nullable Long repeatability;

  @Column(name = "repeatability_typed")
  private @Nullable String repeatabilityTyped;

  @Column(name = "repeatability_dof")
  private @Nullable Integer repeatabilityDegreesOfFreedom;

  @Column(name = "span_half_width")
  private @Nullable BigDecimal spanHalfWidth;

  @Column(name = "span_typed")
  private @Nullable String spanTyped;

  @Column(name = "accuracy_class")
  private @Nullable String accuracyClass;

  @Column(name = "interval_ng")
  private @Nullable Long interval;

  @Column(name = "interval_typed")
  private @Nullable String intervalTyped;

  @Column(name = "check_every_days")
  private @Nullable Integer checkEveryDays;

  @Column(name = "created_at", nullable = false)
  private Instant createdAt;

  /** Oldest first. They come with the scale, for what it weighed hangs on them. */
  @OneToMany(mappedBy = "scale", fetch = FetchType.EAGER)
  @BatchSize(size = 50)
  @OrderBy("checkedAt, id")
  private List<ScaleCheck> checks = new ArrayList<>();

  /** Found when first asked for: a table of weighings asks for the same few over and over. */
  @Transient private final Map<UUID, SpanFit> fits = new HashMap<>();

  protected Scale() {}

  Scale(long ledgerId, Scales.Read read, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.code = read.code();
    this.codeKey = Codes.key(read.code());
    this.name = read.name();
    this.unit = read.unit().ucum();
    this.readability = read.readability().nanograms();
    this.readabilityTyped = read.readabilityTyped();
    this.capacity = read.capacity().nanograms();
    this.capacityTyped = read.capacityTyped();
    this.repeatability = read.repeatability() == null ? null : read.repeatability().nanograms();
    this.repeatabilityTyped = read.repeatabilityTyped();
    this.spanHalfWidth = read.spanHalfWidth();
    this.repeatabilityDegreesOfFreedom = read.repeatabilityDegreesOfFreedom();
    this.spanTyped = read.spanTyped();
    AccuracyClass given = read.accuracyClass();
    this.accuracyClass = given == null ? null : given.name();
    this.interval = read.interval() == null ? null : read.interval().nanograms();
    this.intervalTyped = read.intervalTyped();
    this.checkEveryDays = read.checkEveryDays();
    this.createdAt = createdAt;
  }

  /** As it would be typed. */
  Scales.Entry entry() {
    return new Scales.Entry(
        code,
        name,
        readabilityTyped,
        capacityTyped,
        repeatabilityTyped,
        repeatabilityDegreesOfFreedom == null
            ? null
            : String.valueOf(repeatabilityDegreesOfFreedom),
        spanTyped,
        accuracyClass,
        intervalTyped,
        checkEveryDays == null ? null : String.valueOf(checkEveryDays));
  }

  public long id() {
    return id;
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

  /** The unit it reads in, and so the unit of a bare number typed as a reading on it. */
  public Unit unit() {
    return Unit.named(unit);
  }

  public Mass readability() {
    return new Mass(readability);
  }

  public String readabilityTyped() {
    return readabilityTyped;
  }

  public Mass capacity() {
    return new Mass(capacity);
  }

  public String capacityTyped() {
    return capacityTyped;
  }

  public @Nullable Mass repeatability() {
    return repeatability == null ? null : new Mass(repeatability);
  }

  public @Nullable String repeatabilityTyped() {
    return repeatabilityTyped;
  }

  /** Half-width of the span error as a fraction of what is read; null when none is stated. */
  public @Nullable BigDecimal spanHalfWidth() {
    return spanHalfWidth;
  }

  public @Nullable String spanTyped() {
    return spanTyped;
  }

  /** ν of the recorded repeatability; null where not known, counted as infinite. */
  public @Nullable Integer repeatabilityDegreesOfFreedom() {
    return repeatabilityDegreesOfFreedom;
  }

  /** What it is permitted by its accuracy class; nothing where none is stated. */
  public Optional<Span.Permitted> permitted() {
    return accuracyClass == null || interval == null
        ? Optional.empty()
        : Optional.of(
            new Span.Permitted(
                sourceId() + "/span", AccuracyClass.valueOf(accuracyClass), new Mass(interval)));
  }

  /** The verification interval of its accuracy class. */
  public Optional<String> intervalTyped() {
    return Optional.ofNullable(intervalTyped);
  }

  /** After how many days a check of its span is due again: its own, or else those of the ledger. */
  public int checkEveryDays(Settings ledger) {
    return checkEveryDays == null ? ledger.checkEveryDays() : checkEveryDays;
  }

  /** All its checks, oldest first, those struck out included. */
  public List<ScaleCheck> checks() {
    return List.copyOf(checks);
  }

  void checked(ScaleCheck check) {
    checks.add(check);
    checks.sort(Comparator.comparing(ScaleCheck::checkedAt).thenComparing(ScaleCheck::id));
    fits.clear();
  }

  void struckOut(ScaleCheck check, String reason) {
    check.struckOut(reason);
    fits.clear();
  }

  /** The newest check of a kind that had been made by then and stands. */
  public Optional<ScaleCheck> inForce(ScaleCheck.Kind kind, Instant at) {
    for (int i = checks.size() - 1; i >= 0; i--) {
      ScaleCheck check = checks.get(i);
      if (check.kind() == kind && check.stands() && !check.checkedAt().isAfter(at)) {
        return Optional.of(check);
      }
    }
    return Optional.empty();
  }

  /** The line through the points of a check of its span. */
  public SpanFit fit(ScaleCheck check) {
    return fits.computeIfAbsent(
        check.uuid(), asked -> check.fit(readability(), repeatabilityAt(check.checkedAt())));
  }

  /** What a check of repeatability had found by then, else what is stated, else null. */
  public @Nullable Repeatability repeatabilityAt(Instant at) {
    Optional<ScaleCheck> check = inForce(ScaleCheck.Kind.REPEATABILITY, at);
    if (check.isPresent()) {
      return check.get().repeatability();
    }
    return repeatability == null
        ? null
        : new Repeatability(
            sourceId() + "/repeatability",
            new Mass(repeatability),
            repeatabilityDegreesOfFreedom == null
                ? Double.POSITIVE_INFINITY
                : repeatabilityDegreesOfFreedom);
  }

  /**
   * What a check of the span had found by then, else what its class permits, else what is stated.
   */
  public Span spanAt(Instant at) {
    Optional<ScaleCheck> check = inForce(ScaleCheck.Kind.SPAN, at);
    if (check.isPresent()) {
      return fit(check.get()).span(sourceId() + "/check:" + check.get().uuid());
    }
    Optional<Span.Permitted> permitted = permitted();
    return permitted.isPresent()
        ? permitted.get()
        : new Span.Stated(
            sourceId() + "/span", spanHalfWidth == null ? 0 : spanHalfWidth.doubleValue());
  }

  /**
   * The scale as the sources of error know it, with the checks that were in force at a moment: a
   * later check changes nothing of what was weighed before.
   */
  public Instrument instrumentAt(Instant at) {
    return new Instrument(name, readability(), repeatabilityAt(at), spanAt(at));
  }

  private String sourceId() {
    return "scale:" + uuid;
  }
}
