package org.tareline.weighing;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.SpanFit;
import org.tareline.evidence.WeightClass;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Tolerance;

/** The checks of the scales of a ledger. */
@Service
@Transactional(readOnly = true)
public class ScaleChecks implements ReadAgain {

  /** Reasons that cover most strike-outs, for a page to offer; the first is the likeliest. */
  public static final List<String> REASONS_TO_STRIKE_OUT =
      List.of("mistyped", "wrong weight", "the scale was not level", "the scale was cold");

  private static final int MOST_WEIGHTS = 50;
  private static final int MOST_READINGS = 100;

  /**
   * A check weight as somebody typed it. A bare number is in the unit of the scale.
   *
   * @param tolerance how far off it may be, such as {@code 0.1 g}; or else
   * @param weightClass of OIML R 111, {@code E1} to {@code M3}
   * @param indication what the scale showed
   */
  public record WeightEntry(
      @Nullable String nominal,
      @Nullable String tolerance,
      @Nullable String weightClass,
      @Nullable String indication) {}

  private static final WeightEntry NOTHING_TYPED = new WeightEntry(null, null, null, null);

  /**
   * A check of the span as somebody typed it.
   *
   * @param checkedAt an ISO 8601 date, or date and time; now when left out
   */
  public record SpanEntry(
      @Nullable List<@Nullable WeightEntry> weights,
      @Nullable String checkedAt,
      @Nullable String note) {}

  /** A check of repeatability as somebody typed it: readings of one load. */
  public record RepeatabilityEntry(
      @Nullable List<@Nullable String> readings,
      @Nullable String testedAt,
      @Nullable String note) {}

  /**
   * A check, and what rests on it.
   *
   * @param until when the next of its kind took over; null while none has
   * @param weighings how many that stand were made under it
   */
  public record Held(Scale scale, ScaleCheck check, @Nullable Instant until, long weighings) {}

  private final Scales scales;
  private final ScaleCheckRepository checks;
  private final CheckVoidingRepository voidings;
  private final Clock clock;

  ScaleChecks(
      Scales scales, ScaleCheckRepository checks, CheckVoidingRepository voidings, Clock clock) {
    this.scales = scales;
    this.checks = checks;
    this.voidings = voidings;
    this.clock = clock;
  }

  /** All checks of a scale, newest first, those struck out included. */
  public List<Held> all(Member member, Scale scale) {
    Map<Long, Long> weighings = new HashMap<>();
    for (Object[] pair : checks.weighings(member.ledgerId(), scale.id())) {
      weighings.put(((Number) pair[0]).longValue(), ((Number) pair[1]).longValue());
    }
    List<Held> all = new ArrayList<>();
    Map<ScaleCheck.Kind, Instant> next = new HashMap<>();
    List<ScaleCheck> oldestFirst = scale.checks();
    for (int i = oldestFirst.size() - 1; i >= 0; i--) {
      ScaleCheck check = oldestFirst.get(i);
      all.add(
          new Held(scale, check, next.get(check.kind()), weighings.getOrDefault(check.id(), 0L)));
      if (check.stands()) {
        next.put(check.kind(), check.checkedAt());
      }
    }
    return List.copyOf(all);
  }

  /** All checks of a kind of the scale of a code, newest first. */
  public List<Held> all(Member member, String scale, ScaleCheck.Kind kind) {
    return all(member, scales.get(member, scale)).stream()
        .filter(held -> held.check().kind() == kind)
        .toList();
  }

  /**
   * Looks a check up.
   *
   * @throws NotThere if there is no such scale, or it has no such check
   */
  public Held get(Member member, String scale, ScaleCheck.Kind kind, UUID uuid) {
    return all(member, scale, kind).stream()
        .filter(held -> held.check().uuid().equals(uuid))
        .findFirst()
        .orElseThrow(() -> new NotThere("check"));
  }

  /**
   * Keeps a check of the span, which corrects what is weighed from it on.
   *
   * @throws Refusal with every fault of the entry
   */
  @Transactional
  public Held log(Member member, String scaleCode, SpanEntry entry) {
    Scale scale = scales.get(member, scaleCode);
    Faults faults = new Faults();
    return keep(
        member,
        scale,
        ScaleCheck.Kind.SPAN,
        weights(scale, entry, faults),
        "checkedAt",
        entry.checkedAt(),
        entry.note(),
        faults);
  }

  private static List<CheckReading> weights(Scale scale, SpanEntry entry, Faults faults) {
    List<CheckReading> readings = new ArrayList<>();
    List<@Nullable WeightEntry> typed = entry.weights() == null ? List.of() : entry.weights();
    if (typed.isEmpty()) {
      faults.add("weights", "Give at least one check weight and what the scale showed of it.");
    } else if (typed.size() > MOST_WEIGHTS) {
      faults.add(
          "weights", "Give at most " + MOST_WEIGHTS + " weights; there are " + typed.size() + ".");
    } else {
      for (int i = 0; i < typed.size(); i++) {
        WeightEntry weight = typed.get(i);
        weight(scale, "weights[" + i + "]", weight == null ? NOTHING_TYPED : weight, faults)
            .ifPresent(readings::add);
      }
    }
    return readings;
  }

  /**
   * Keeps a check of repeatability, which says how far readings scatter from it on.
   *
   * @throws Refusal with every fault of the entry
   */
  @Transactional
  public Held log(Member member, String scaleCode, RepeatabilityEntry entry) {
    Scale scale = scales.get(member, scaleCode);
    Faults faults = new Faults();
    return keep(
        member,
        scale,
        ScaleCheck.Kind.REPEATABILITY,
        readings(scale, entry, faults),
        "testedAt",
        entry.testedAt(),
        entry.note(),
        faults);
  }

  private static List<CheckReading> readings(Scale scale, RepeatabilityEntry entry, Faults faults) {
    List<CheckReading> readings = new ArrayList<>();
    List<@Nullable String> typed = entry.readings() == null ? List.of() : entry.readings();
    if (typed.size() < 2 || typed.size() > MOST_READINGS) {
      faults.add(
          "readings",
          "Give from 2 to "
              + MOST_READINGS
              + " readings of one load, ten if you can; there "
              + (typed.size() == 1 ? "is 1." : "are " + typed.size() + "."));
    } else {
      for (int i = 0; i < typed.size(); i++) {
        Quantity reading =
            mass(scale, "readings[" + i + "]", typed.get(i), "a reading, such as 200 g", faults);
        if (reading != null) {
          checkCapacity(scale, "readings[" + i + "]", reading, faults);
          readings.add(new CheckReading(scale.ledgerId(), reading.mass(), reading.text()));
        }
      }
    }
    return readings;
  }

  @Override
  public String table() {
    return "scale_check";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    Map<Long, List<Refusal.Fault>> found = new HashMap<>();
    for (Scale scale : scales.all(member)) {
      found.putAll(
          ReadAgain.each(
              scale.checks().stream().filter(check -> ids.contains(check.id())).toList(),
              ScaleCheck::id,
              check -> readAgain(scale, check)));
    }
    return found;
  }

  private static void readAgain(Scale scale, ScaleCheck check) {
    Faults faults = new Faults();
    List<CheckReading> read =
        check.kind() == ScaleCheck.Kind.SPAN
            ? weights(
                scale,
                new SpanEntry(
                    check.readings().stream()
                        .<@Nullable WeightEntry>map(
                            reading ->
                                new WeightEntry(
                                    reading.nominalTyped(),
                                    reading.toleranceTyped().orElse(null),
                                    reading.weightClass().orElse(null),
                                    reading.typed()))
                        .toList(),
                    null,
                    null),
                faults)
            : readings(
                scale,
                new RepeatabilityEntry(
                    check.readings().stream().<@Nullable String>map(CheckReading::typed).toList(),
                    null,
                    null),
                faults);
    for (int i = 0; faults.none() && i < read.size(); i++) {
      if (!read.get(i).saysAs(check.readings().get(i))) {
        faults.add("weights[" + i + "]", "Let the figures say what is typed beside them.");
      }
    }
    faults.refuseIfAny();
  }

  private Held keep(
      Member member,
      Scale scale,
      ScaleCheck.Kind kind,
      List<CheckReading> readings,
      String timeField,
      @Nullable String typedTime,
      @Nullable String typedNote,
      Faults faults) {
    String note = faults.optionalText("note", typedNote, "the note", 2000);
    Instant at = Moments.read(faults, timeField, typedTime, clock);
    // A day, for whoever dates it in a zone ahead of the server's.
    if (at.isAfter(clock.instant().plus(Duration.ofDays(1)))) {
      faults.add(timeField, "Give a time that has come: what is to come has not been checked.");
    }
    faults.refuseIfAny();
    ScaleCheck check =
        checks.save(new ScaleCheck(scale, kind, readings, at, note, now(), member.accountId()));
    scale.checked(check);
    return held(member, scale, check);
  }

  /**
   * Strikes out a check: what was weighed under it goes by the one before.
   *
   * @throws NotThere if there is no such scale, or it has no such check
   * @throws Refusal if it has been struck out already or no reason is given
   */
  @Transactional
  public Held strikeOut(
      Member member, String scaleCode, ScaleCheck.Kind kind, UUID uuid, @Nullable String reason) {
    Held held = get(member, scaleCode, kind, uuid);
    Faults faults = new Faults();
    String readReason = faults.text("reason", reason, "a reason", 500);
    faults.refuseIfAny();
    if (!held.check().stands()) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "This check has been struck out already.");
    }
    voidings.save(new CheckVoiding(held.check(), readReason, now(), member));
    held.scale().struckOut(held.check(), readReason);
    return held(member, held.scale(), held.check());
  }

  private Held held(Member member, Scale scale, ScaleCheck check) {
    return all(member, scale).stream()
        .filter(each -> each.check().uuid().equals(check.uuid()))
        .findFirst()
        .orElseThrow();
  }

  private static Optional<CheckReading> weight(
      Scale scale, String field, WeightEntry typed, Faults faults) {
    Quantity nominal =
        mass(
            scale,
            field + ".nominal",
            typed.nominal(),
            "what the weight is marked with, such as 500 g",
            faults);
    Quantity shown =
        mass(
            scale,
            field + ".indication",
            typed.indication(),
            "what the scale showed, such as 500.2 g",
            faults);
    String tolerance =
        faults.optionalText(field + ".tolerance", typed.tolerance(), "the tolerance", 200);
    String named = faults.optionalText(field + ".class", typed.weightClass(), "the class", 60);
    if (nominal == null) {
      return Optional.empty();
    }
    checkCapacity(
        scale, field + ".nominal", nominal, faults); // it may show a little more than it holds
    Mass halfWidth = halfWidth(scale, field, nominal, tolerance, named, faults);
    if (shown == null || halfWidth == null) {
      return Optional.empty();
    }
    SpanFit.Point point = new SpanFit.Point(nominal.mass(), halfWidth, shown.mass());
    if (farOff(point, scale.readability())) {
      faults.add(
          field + ".indication",
          "Look at the unit: "
              + nominal.text()
              + " and "
              + shown.text()
              + " are more than a tenth apart. A scale that is really so far off wants mending.");
      return Optional.empty();
    }
    return Optional.of(
        new CheckReading(scale.ledgerId(), point, shown.text(), nominal.text(), tolerance, named));
  }

  private static @Nullable Mass halfWidth(
      Scale scale,
      String field,
      Quantity nominal,
      @Nullable String tolerance,
      @Nullable String named,
      Faults faults) {
    if ((tolerance == null) == (named == null)) {
      faults.add(
          field + ".tolerance",
          named == null
              ? "Say how far off the weight may be: a tolerance such as 0.1 g, or its class, E1 to M3."
              : "Give either a tolerance or a class, not both.");
      return null;
    }
    if (tolerance != null) {
      Mass halfWidth =
          faults.read(
              field + ".tolerance",
              () -> Tolerance.read(tolerance, Kind.MASS, scale.unit()).ofMass(nominal.mass()));
      if (halfWidth != null && halfWidth.nanograms() > nominal.mass().nanograms() / 10) {
        faults.add(
            field + ".tolerance",
            "Take a better weight: one that may be off by more than a tenth checks nothing.");
        return null;
      }
      return halfWidth;
    }
    Optional<WeightClass> weightClass = WeightClass.of(String.valueOf(named));
    if (weightClass.isEmpty()) {
      faults.add(
          field + ".class",
          "Give the class as E1, E2, F1, F2, M1, M2 or M3; read \""
              + Faults.shortened(String.valueOf(named))
              + "\".");
      return null;
    }
    Optional<Mass> error = weightClass.get().maximumPermissibleError(nominal.mass());
    if (error.isEmpty()) {
      faults.add(
          field + ".class",
          "There is no weight of class "
              + weightClass.get()
              + " of "
              + nominal.text()
              + ": the classes are for 1, 2 and 5 and their tens, up to 50 kg. Give a tolerance"
              + " instead.");
    }
    return error.orElse(null);
  }

  /** By more than a tenth, and by more than its steps alone could do. */
  private static boolean farOff(SpanFit.Point point, Mass step) {
    Mass off = point.deviation().signum() < 0 ? point.deviation().negated() : point.deviation();
    return off.compareTo(step.times(2)) > 0 && off.inGrams() > point.nominal().inGrams() / 10;
  }

  private static @Nullable Quantity mass(
      Scale scale, String field, @Nullable String typed, String what, Faults faults) {
    String text = faults.text(field, typed, what, 200);
    if (text.isEmpty() || text.length() > 200) {
      return null;
    }
    return faults.read(field, () -> Quantity.read(text, Kind.MASS, scale.unit()).positive());
  }

  private static void checkCapacity(Scale scale, String field, Quantity load, Faults faults) {
    if (load.mass().compareTo(scale.capacity()) > 0) {
      faults.add(
          field,
          "The scale "
              + scale.code()
              + " ends at "
              + scale.capacityTyped()
              + "; read "
              + load.text()
              + ".");
    }
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
