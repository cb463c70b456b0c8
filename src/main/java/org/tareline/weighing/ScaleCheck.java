package org.tareline.weighing;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Converter;
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
import jakarta.persistence.Transient;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.BatchSize;
import org.hibernate.annotations.Formula;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Repeatability;
import org.tareline.evidence.SpanFit;
import org.tareline.units.Mass;

/**
 * One check of a scale: of its span with check weights, or of its repeatability with one load put
 * on again and again. Never changed and never deleted; a wrong one is struck out and made again.
 */
@Entity
@Immutable
@Table(name = "scale_check")
public class ScaleCheck {

  /** What is checked. */
  public enum Kind {
    SPAN,
    REPEATABILITY;

    /** Stored by its word. */
    @Converter
    static final class Stored implements AttributeConverter<Kind, String> {

      @Override
      public String convertToDatabaseColumn(Kind kind) {
        return kind.name().toLowerCase(Locale.ROOT);
      }

      @Override
      public Kind convertToEntityAttribute(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
      }
    }
  }

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "scale_id", nullable = false)
  private Scale scale;

  @Convert(converter = Kind.Stored.class)
  @Column(nullable = false)
  private Kind kind;

  @Column private @Nullable String note;

  @Column(name = "checked_at", nullable = false)
  private Instant checkedAt;

  @Column(name = "entered_at", nullable = false)
  private Instant enteredAt;

  @Column(name = "entered_by", nullable = false)
  private long enteredBy;

  /** Few, and needed whenever the scale is: what it weighed hangs on them. */
  @ElementCollection(fetch = FetchType.EAGER)
  @BatchSize(size = 200)
  @CollectionTable(name = "scale_check_reading", joinColumns = @JoinColumn(name = "scale_check_id"))
  @OrderColumn(name = "position")
  private List<CheckReading> readings;

  @Formula("(select v.reason from scale_check_void v where v.scale_check_id = id)")
  private @Nullable String voidReason;

  /** Found when first asked for: a table of weighings asks over and over. */
  @Transient private @Nullable Repeatability repeatability;

  protected ScaleCheck() {}

  ScaleCheck(
      Scale scale,
      Kind kind,
      List<CheckReading> readings,
      Instant checkedAt,
      @Nullable String note,
      Instant enteredAt,
      long enteredBy) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = scale.ledgerId();
    this.scale = scale;
    this.kind = kind;
    this.readings = List.copyOf(readings);
    this.checkedAt = checkedAt;
    this.note = note;
    this.enteredAt = enteredAt;
    this.enteredBy = enteredBy;
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

  public Kind kind() {
    return kind;
  }

  public Optional<String> note() {
    return Optional.ofNullable(note);
  }

  public Instant checkedAt() {
    return checkedAt;
  }

  public Instant enteredAt() {
    return enteredAt;
  }

  public List<CheckReading> readings() {
    return List.copyOf(readings);
  }

  /** Why it was struck out; nothing while it stands. */
  public Optional<String> voidReason() {
    return Optional.ofNullable(voidReason);
  }

  boolean stands() {
    return voidReason == null;
  }

  /** Was struck out, in a row of its own. */
  void struckOut(String reason) {
    this.voidReason = reason;
  }

  /** Of a check of repeatability: what it found. */
  public Repeatability repeatability() {
    if (repeatability == null) {
      List<Mass> masses = readings.stream().map(CheckReading::mass).toList();
      repeatability = Repeatability.of("check:" + uuid, masses);
    }
    return repeatability;
  }

  /** Of a check of the span: the line through its points. */
  SpanFit fit(Mass readability, @Nullable Repeatability repeatability) {
    List<SpanFit.Point> points = readings.stream().map(CheckReading::point).toList();
    return SpanFit.of(points, readability, repeatability);
  }
}
