package org.tareline.weighing;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.OrderColumn;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.OutlierScreen;
import org.tareline.evidence.Stated;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.site.AsTyped;
import org.tareline.units.DecimalMark;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * One event on a scale. Never changed and never deleted; a wrong one is struck out and replaced.
 */
@Entity
@Immutable
@Table(name = "weighing")
public class Weighing {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "scale_id")
  private @Nullable Scale scale;

  @Column(name = "tolerance_ng")
  private @Nullable Long tolerance;

  @Column(name = "tolerance_typed")
  private @Nullable String toleranceTyped;

  @Column(name = "tare_ng", nullable = false)
  private long tare;

  @Column(name = "tare_typed")
  private @Nullable String tareTyped;

  @Column(name = "piece_count", nullable = false)
  private int pieceCount;

  @Convert(converter = Condition.Stored.class)
  @Column(nullable = false)
  private Condition condition;

  @Column private @Nullable String note;

  @Column(name = "weighed_at", nullable = false)
  private Instant weighedAt;

  @Column(name = "entered_at", nullable = false)
  private Instant enteredAt;

  @Column(name = "entered_by", nullable = false)
  private long enteredBy;

  @ElementCollection
  @CollectionTable(name = "reading", joinColumns = @JoinColumn(name = "weighing_id"))
  @OrderColumn(name = "position")
  @Column
  private List<Reading> readings;

  @ElementCollection
  @CollectionTable(name = "before_reading", joinColumns = @JoinColumn(name = "weighing_id"))
  @OrderColumn(name = "position")
  @Column
  private List<Reading> before;

  protected Weighing() {}

  Weighing(long ledgerId, Weighings.Read read, Instant enteredAt, long enteredBy) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.scale = read.scale();
    this.tolerance = read.tolerance() == null ? null : read.tolerance().nanograms();
    this.toleranceTyped = read.toleranceTyped();
    this.tare = read.tare().nanograms();
    this.tareTyped = read.tareTyped();
    this.pieceCount = read.count();
    this.condition = read.condition();
    this.note = read.note();
    this.weighedAt = read.weighedAt();
    this.enteredAt = enteredAt;
    this.enteredBy = enteredBy;
    this.readings = readings(read.readings());
    this.before = readings(read.before());
  }

  private List<Reading> readings(List<Quantity> read) {
    List<Reading> readings = new ArrayList<>();
    read.forEach(quantity -> readings.add(new Reading(ledgerId, quantity.mass(), quantity.text())));
    return readings;
  }

  /** As it would be typed; when it was is not said. */
  Weighings.Entry entry() {
    return new Weighings.Entry(
        scale == null ? null : scale.code(),
        toleranceTyped,
        readings.stream().<@Nullable String>map(Reading::typed).toList(),
        before.stream().<@Nullable String>map(Reading::typed).toList(),
        tareTyped,
        String.valueOf(pieceCount),
        condition.word(),
        null,
        note,
        DecimalMark.EITHER);
  }

  /** Whether it comes to the same figures. */
  boolean saysAs(Weighings.Read read) {
    return masses(readings).equals(read.readings().stream().map(Quantity::mass).toList())
        && masses(before).equals(read.before().stream().map(Quantity::mass).toList())
        && tare().equals(read.tare())
        && Objects.equals(tolerance().orElse(null), read.tolerance());
  }

  long id() {
    return id;
  }

  long ledgerId() {
    return ledgerId;
  }

  /** The id by which the API and the pages know it. */
  public UUID uuid() {
    return uuid;
  }

  /** The id by which its sources of error know it. */
  public String sourceId() {
    return "weighing:" + uuid;
  }

  /** The scale, or nothing where it was not recorded. */
  public Optional<Scale> scale() {
    return Optional.ofNullable(scale);
  }

  /** How sure a weight is whose scale was not recorded. */
  public Optional<Mass> tolerance() {
    return Optional.ofNullable(tolerance).map(Mass::new);
  }

  /** The same as it was typed. */
  public Optional<String> toleranceTyped() {
    return Optional.ofNullable(toleranceTyped);
  }

  public List<Reading> readings() {
    return List.copyOf(readings);
  }

  /**
   * What the pan showed before the thing was sewn on; empty where it was weighed by itself. The
   * mass is then the difference.
   */
  public List<Reading> before() {
    return List.copyOf(before);
  }

  public Mass tare() {
    return new Mass(tare);
  }

  public Optional<String> tareTyped() {
    return Optional.ofNullable(tareTyped);
  }

  /** How many alike pieces were on the pan together. */
  public int pieceCount() {
    return pieceCount;
  }

  public Condition condition() {
    return condition;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  public Instant weighedAt() {
    return weighedAt;
  }

  public Instant enteredAt() {
    return enteredAt;
  }

  /** The mass of one piece, and how sure it is. */
  public Estimate estimate() {
    if (scale == null) {
      return asGoodAsItsTolerance();
    }
    Estimate after = evidence(scale).estimate();
    return before.isEmpty()
        ? after
        : after.minus(evidenceBefore(scale).estimate()).dividedBy(pieceCount);
  }

  private Estimate asGoodAsItsTolerance() {
    Mass halfWidth = new Mass(tolerance == null ? 0 : tolerance / pieceCount);
    return Stated.of(
            sourceId(),
            "scale not recorded, taken as good to ±"
                + AsTyped.text(toleranceTyped == null ? "" : toleranceTyped, Unit.GRAM),
            each(),
            halfWidth)
        .estimate();
  }

  /** (mean of the readings − tare) / count, half-even to the nanogram. */
  private Mass each() {
    Mass gross = masses(readings).stream().reduce(Mass.ZERO, Mass::plus);
    return Mass.fromGrams(
        gross
            .minus(tare().times(readings.size()))
            .grams()
            .divide(
                BigDecimal.valueOf((long) readings.size() * pieceCount),
                9,
                RoundingMode.HALF_EVEN));
  }

  /**
   * Whether something is said of how well readings repeat; nothing where the scale was not
   * recorded.
   */
  public Optional<Boolean> repeatabilityKnown() {
    return scale()
        .map(
            on ->
                evidence(on).repeatabilityKnown()
                    && (before.isEmpty() || evidenceBefore(on).repeatabilityKnown()));
  }

  /** The readings that stand apart from the others; they count all the same. */
  public List<OutlierScreen.Flag> flagged() {
    return OutlierScreen.of(masses(readings));
  }

  /**
   * How a check of the scale corrected it.
   *
   * @param uncorrected what one piece would weigh without
   * @param slope what that was divided by
   */
  public record Correction(ScaleCheck check, Mass uncorrected, double slope) {}

  /** The correction by the check in force; nothing where there was none. */
  public Optional<Correction> correction() {
    return scale()
        .flatMap(
            on ->
                on.inForce(ScaleCheck.Kind.SPAN, weighedAt)
                    .map(check -> new Correction(check, uncorrected(on), on.fit(check).slope())));
  }

  private Mass uncorrected(Scale on) {
    Mass after = evidence(on).uncorrected();
    return before.isEmpty()
        ? after
        : Mass.fromGrams(
            after
                .minus(evidenceBefore(on).uncorrected())
                .grams()
                .divide(BigDecimal.valueOf(pieceCount), 9, RoundingMode.HALF_EVEN));
  }

  /** By difference, the pan is not shared out: what was there before weighs itself off. */
  private WeighingEvidence evidence(Scale on) {
    return WeighingEvidence.from(
        sourceId(),
        masses(readings),
        tare(),
        before.isEmpty() ? pieceCount : 1,
        on.instrumentAt(weighedAt));
  }

  private WeighingEvidence evidenceBefore(Scale on) {
    return WeighingEvidence.from(
        sourceId() + "/before", masses(before), Mass.ZERO, 1, on.instrumentAt(weighedAt));
  }

  private static List<Mass> masses(List<Reading> readings) {
    return readings.stream().map(Reading::mass).toList();
  }
}
