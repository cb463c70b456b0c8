package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.SpanFit;
import org.tareline.units.Mass;

/** What a scale showed once in a check, and of a check weight what it was said to be. */
@Embeddable
public class CheckReading {

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "reading_ng", nullable = false)
  private long nanograms;

  @Column(nullable = false)
  private String typed;

  @Column(name = "nominal_ng")
  private @Nullable Long nominal;

  @Column(name = "nominal_typed")
  private @Nullable String nominalTyped;

  @Column(name = "half_width_ng")
  private @Nullable Long halfWidth;

  @Column(name = "tolerance_typed")
  private @Nullable String toleranceTyped;

  @Column(name = "weight_class")
  private @Nullable String weightClass;

  protected CheckReading() {}

  CheckReading(long ledgerId, Mass mass, String typed) {
    this.ledgerId = ledgerId;
    this.nanograms = mass.nanograms();
    this.typed = typed;
  }

  /** Of a check weight. */
  CheckReading(
      long ledgerId,
      SpanFit.Point point,
      String typed,
      String nominalTyped,
      @Nullable String toleranceTyped,
      @Nullable String weightClass) {
    this(ledgerId, point.indication(), typed);
    this.nominal = point.nominal().nanograms();
    this.nominalTyped = nominalTyped;
    this.halfWidth = point.halfWidth().nanograms();
    this.toleranceTyped = toleranceTyped;
    this.weightClass = weightClass;
  }

  /** Whether it comes to the same figures. */
  boolean saysAs(CheckReading other) {
    return nanograms == other.nanograms
        && Objects.equals(nominal, other.nominal)
        && Objects.equals(halfWidth, other.halfWidth);
  }

  public Mass mass() {
    return new Mass(nanograms);
  }

  public String typed() {
    return typed;
  }

  /** The check weight against what was shown of it. */
  SpanFit.Point point() {
    if (nominal == null || halfWidth == null) {
      throw new IllegalStateException("Not the reading of a check weight");
    }
    return new SpanFit.Point(new Mass(nominal), new Mass(halfWidth), mass());
  }

  /** What a check weight is marked with, as typed. */
  public String nominalTyped() {
    return nominalTyped == null ? "" : nominalTyped;
  }

  /** How far off a check weight may be, as typed; nothing where its class says so. */
  public Optional<String> toleranceTyped() {
    return Optional.ofNullable(toleranceTyped);
  }

  /** The class of a check weight by OIML R 111. */
  public Optional<String> weightClass() {
    return Optional.ofNullable(weightClass);
  }
}
