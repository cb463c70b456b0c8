package org.tareline.weighing;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Percent;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** The scales of a ledger. */
@Service
@Transactional(readOnly = true)
public class Scales {

  /**
   * A scale as somebody typed it. A bare number is in grams.
   *
   * @param spanTolerance such as {@code 0.1 %}
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String readability,
      @Nullable String capacity,
      @Nullable String repeatability,
      @Nullable String spanTolerance) {}

  /**
   * What a scale was used for.
   *
   * @param weighings how many, those struck out included
   */
  public record Use(long scaleId, long weighings, Instant lastUsed) {}

  /** An entry that could be read. */
  record Read(
      String code,
      String name,
      Unit unit,
      Mass readability,
      String readabilityTyped,
      Mass capacity,
      String capacityTyped,
      @Nullable Mass repeatability,
      @Nullable String repeatabilityTyped,
      @Nullable BigDecimal spanHalfWidth,
      @Nullable String spanTyped) {}

  private final ScaleRepository scales;
  private final Clock clock;

  Scales(ScaleRepository scales, Clock clock) {
    this.scales = scales;
    this.clock = clock;
  }

  public List<Scale> all(Member member) {
    return scales.findByLedgerIdOrderByCodeKey(member.ledgerId());
  }

  public Optional<Scale> find(Member member, String code) {
    return scales.findByLedgerIdAndCodeKey(member.ledgerId(), Codes.key(code));
  }

  public Scale get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere("scale"));
  }

  /** What each scale was used for, by the scale's id; one that was never used is left out. */
  public Map<Long, Use> uses(Member member) {
    return scales.uses(member.ledgerId()).stream()
        .collect(Collectors.toMap(Use::scaleId, Function.identity()));
  }

  /** The scale of the newest weighing that names one, or else the first there is. */
  public Optional<Scale> lastUsed(Member member) {
    return scales.lastUsed(member.ledgerId(), Limit.of(1)).stream()
        .findFirst()
        .or(() -> all(member).stream().findFirst());
  }

  /**
   * Puts a scale into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Scale add(Member member, Entry entry) {
    Read read = read(member, entry);
    try {
      return scales.save(
          new Scale(member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS)));
    } catch (DataIntegrityViolationException taken) {
      // Somebody took the code between the look and the leap; the database is the last judge.
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          "code",
          "Choose another code: " + read.code() + " is a scale already.");
    }
  }

  private Read read(Member member, Entry entry) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    Quantity readability =
        mass(faults, "readability", entry.readability(), "the readability, such as 0.1 g");
    Quantity capacity = mass(faults, "capacity", entry.capacity(), "the capacity, such as 5 kg");
    String repeatabilityTyped =
        faults.optionalText("repeatability", entry.repeatability(), "the repeatability", 200);
    Quantity repeatability =
        repeatabilityTyped == null
            ? null
            : mass(faults, "repeatability", repeatabilityTyped, "the repeatability");
    String spanTyped =
        faults.optionalText("spanTolerance", entry.spanTolerance(), "the span tolerance", 200);
    BigDecimal span =
        spanTyped == null
            ? null
            : faults.read("spanTolerance", () -> Percent.parse(spanTyped).fraction());
    if (readability != null
        && capacity != null
        && capacity.mass().compareTo(readability.mass()) < 0) {
      faults.add("capacity", "Give a capacity above the readability.");
    }
    if (faults.none() && find(member, code).isPresent()) {
      faults.conflict("code", "Choose another code: " + code + " is a scale already.");
    }
    faults.refuseIfAny();
    if (readability == null || capacity == null) {
      throw new IllegalStateException("A fault was noted for what could not be read");
    }
    return new Read(
        code,
        name,
        readability.unit(),
        readability.mass(),
        readability.text(),
        capacity.mass(),
        capacity.text(),
        repeatability == null ? null : repeatability.mass(),
        repeatabilityTyped,
        span,
        spanTyped);
  }

  private static @Nullable Quantity mass(
      Faults faults, String field, @Nullable String typed, String what) {
    if (typed == null || typed.isBlank()) {
      faults.add(field, "Give " + what + ".");
      return null;
    }
    return faults.read(field, () -> Quantity.read(typed, Kind.MASS, Unit.GRAM).positive());
  }
}
