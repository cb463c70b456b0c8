package org.tareline.weighing;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
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
import org.tareline.evidence.AccuracyClass;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
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
public class Scales implements ReadAgain {

  /**
   * A scale as somebody typed it. A bare number is in grams.
   *
   * @param spanTolerance such as {@code 0.1 %}; or else
   * @param accuracyClass of OIML R 76, {@code I} to {@code IIII}, and
   * @param verificationInterval its e, such as {@code 1 g}
   * @param checkEvery after how many days a check is due again
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String readability,
      @Nullable String capacity,
      @Nullable String repeatability,
      @Nullable String repeatabilityDegreesOfFreedom,
      @Nullable String spanTolerance,
      @Nullable String accuracyClass,
      @Nullable String verificationInterval,
      @Nullable String checkEvery) {

    /** What stands on most scales and in their leaflets. */
    public Entry(
        @Nullable String code,
        @Nullable String name,
        @Nullable String readability,
        @Nullable String capacity,
        @Nullable String repeatability,
        @Nullable String spanTolerance) {
      this(code, name, readability, capacity, repeatability, null, spanTolerance, null, null, null);
    }
  }

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
      @Nullable Integer repeatabilityDegreesOfFreedom,
      @Nullable BigDecimal spanHalfWidth,
      @Nullable String spanTyped,
      @Nullable AccuracyClass accuracyClass,
      @Nullable Mass interval,
      @Nullable String intervalTyped,
      @Nullable Integer checkEveryDays) {}

  private static final int MOST_DEGREES_OF_FREEDOM = 1_000;
  private static final int MOST_DAYS = 3_650;

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
   * What is to be said of a scale whose span ought to be checked.
   *
   * @param lastChecked null where it never was
   */
  public record Overdue(@Nullable Instant lastChecked, int everyDays) {

    /** For a page. */
    public String words(Moments moments) {
      return lastChecked == null
          ? "never checked with a weight."
          : "not checked with a weight since "
              + moments.day(lastChecked)
              + "; due every "
              + everyDays
              + " days.";
    }
  }

  /** That a check of a scale is due; nothing while it is not. */
  public Optional<Overdue> overdue(Member member, Scale scale) {
    int every = scale.checkEveryDays(member.settings());
    Instant now = clock.instant();
    Instant last = scale.inForce(ScaleCheck.Kind.SPAN, now).map(ScaleCheck::checkedAt).orElse(null);
    boolean due = last == null || last.plus(every, ChronoUnit.DAYS).isBefore(now);
    return due ? Optional.of(new Overdue(last, every)) : Optional.empty();
  }

  /**
   * Puts a scale into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Scale add(Member member, Entry entry) {
    Read read = read(member, entry, null);
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

  @Override
  public String table() {
    return "scale";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    return ReadAgain.each(
        all(member).stream().filter(scale -> ids.contains(scale.id())).toList(),
        Scale::id,
        scale -> {
          Read read = read(member, scale.entry(), scale);
          Faults faults = new Faults();
          if (read.unit() != scale.unit()) {
            faults.add("unit", "Say " + read.unit().ucum() + ", in which the readability is.");
          }
          BigDecimal span = scale.spanHalfWidth();
          if (span == null
              ? read.spanHalfWidth() != null
              : read.spanHalfWidth() == null || span.compareTo(read.spanHalfWidth()) != 0) {
            faults.add("spanHalfWidth", "Say what is typed beside it, as a fraction.");
          }
          faults.refuseIfAny();
        });
  }

  private Read read(Member member, Entry entry, @Nullable Scale itself) {
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
    Integer degreesOfFreedom =
        wholeNumber(
            faults,
            "repeatabilityDegreesOfFreedom",
            entry.repeatabilityDegreesOfFreedom(),
            "the degrees of freedom, one less than the readings it was found from,",
            MOST_DEGREES_OF_FREEDOM);
    if (degreesOfFreedom != null && repeatabilityTyped == null) {
      faults.add(
          "repeatabilityDegreesOfFreedom",
          "Give the repeatability of which these are the degrees.");
    }
    AccuracyClass accuracyClass = accuracyClass(faults, entry, spanTyped);
    String intervalTyped =
        faults.optionalText(
            "verificationInterval", entry.verificationInterval(), "the verification interval", 200);
    Quantity interval =
        intervalTyped == null && accuracyClass == null
            ? null
            : mass(
                faults,
                "verificationInterval",
                intervalTyped,
                "the verification interval, the e on the plate of the scale, such as 1 g");
    if (accuracyClass != null && interval != null && readability != null && capacity != null) {
      checkInterval(faults, accuracyClass, interval, readability.mass(), capacity);
    }
    Integer checkEvery =
        wholeNumber(
            faults, "checkEvery", entry.checkEvery(), "the days from check to check", MOST_DAYS);
    if (readability != null
        && capacity != null
        && capacity.mass().compareTo(readability.mass()) < 0) {
      faults.add("capacity", "Give a capacity above the readability.");
    }
    if (itself == null && faults.none() && find(member, code).isPresent()) {
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
        degreesOfFreedom,
        span,
        spanTyped,
        accuracyClass,
        interval == null ? null : interval.mass(),
        intervalTyped,
        checkEvery);
  }

  private static @Nullable Integer wholeNumber(
      Faults faults, String field, @Nullable String typed, String what, int most) {
    int number = faults.wholeNumber(field, typed, what, 1, most, 0);
    return number == 0 ? null : number;
  }

  private static @Nullable AccuracyClass accuracyClass(
      Faults faults, Entry entry, @Nullable String spanTyped) {
    String typed = faults.optionalText("class", entry.accuracyClass(), "the accuracy class", 60);
    if (typed == null) {
      if (entry.verificationInterval() != null && !entry.verificationInterval().isBlank()) {
        faults.add(
            "class", "Give the accuracy class with the verification interval: I, II, III or IIII.");
      }
      return null;
    }
    if (spanTyped != null) {
      faults.add("class", "Give either a span tolerance or an accuracy class, not both.");
    }
    Optional<AccuracyClass> known = AccuracyClass.of(typed);
    if (known.isEmpty()) {
      faults.add(
          "class",
          "Give the accuracy class as I, II, III or IIII; read \""
              + Faults.shortened(typed)
              + "\".");
    }
    return known.orElse(null);
  }

  /**
   * d ≤ e ≤ 10 d but in class I (OIML R 76-1:2006, 3.4.2, from memory), and Max/e as in table 3.
   */
  private static void checkInterval(
      Faults faults, AccuracyClass accuracyClass, Quantity interval, Mass step, Quantity capacity) {
    Mass e = interval.mass();
    boolean related = e.compareTo(step) >= 0 && e.compareTo(step.times(10)) <= 0;
    if (!related && accuracyClass != AccuracyClass.I) {
      faults.add(
          "verificationInterval",
          "Give a verification interval from one to ten of the steps the scale shows; read "
              + interval.text()
              + ".");
    } else if (!accuracyClass.reaches(e, capacity.mass())) {
      faults.add(
          "verificationInterval",
          "Look at the plate again: with an interval of "
              + interval.text()
              + ", class "
              + accuracyClass.name()
              + " does not reach up to "
              + capacity.text()
              + ".");
    }
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
