package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Instrument;
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

  @Column(name = "created_at", nullable = false)
  private Instant createdAt;

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
    this.spanTyped = read.spanTyped();
    this.createdAt = createdAt;
  }

  public long id() {
    return id;
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

  /** The scale as the sources of error know it. */
  public Instrument instrument() {
    return new Instrument(
        "scale:" + uuid,
        name,
        readability(),
        repeatability(),
        repeatabilityDegreesOfFreedom == null
            ? Double.POSITIVE_INFINITY
            : repeatabilityDegreesOfFreedom,
        spanHalfWidth == null ? 0 : spanHalfWidth.doubleValue());
  }
}
