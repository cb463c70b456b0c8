package org.tareline.weighing;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** The weighings of a ledger. */
@Service
@Transactional(readOnly = true)
public class Weighings {

  /** Reasons that cover most strike-outs, for a page to offer; the first is the likeliest. */
  public static final List<String> REASONS_TO_STRIKE_OUT =
      List.of(
          "mistyped",
          "wrong part",
          "wrong scale or unit",
          "something else lay on the pan",
          "not dry");

  private static final int MOST_READINGS = 100;
  private static final int MOST_PIECES = 100_000;

  /**
   * A weighing as somebody typed it. A bare number is in the unit of the scale.
   *
   * @param scale the scale's code; may be left out where a tolerance is given instead
   * @param tolerance how sure the weight is where the scale was not recorded, such as {@code 2 g}
   * @param weighedAt an ISO 8601 date, or date and time, with or without an offset; now when left
   *     out
   */
  public record Entry(
      @Nullable String scale,
      @Nullable String tolerance,
      @Nullable List<@Nullable String> readings,
      @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note) {}

  /** An entry that could be read. */
  record Read(
      @Nullable Scale scale,
      @Nullable Mass tolerance,
      @Nullable String toleranceTyped,
      List<Quantity> readings,
      Mass tare,
      @Nullable String tareTyped,
      int count,
      Condition condition,
      @Nullable String note,
      Instant weighedAt) {}

  /**
   * A weighing with its subject.
   *
   * @param voidReason why it was struck out; null while it stands
   */
  public record Logged(Weighing weighing, Subject subject, @Nullable String voidReason) {}

  private final WeighingRepository weighings;
  private final PanRepository pans;
  private final VoidingRepository voidings;
  private final Scales scales;
  private final Clock clock;

  Weighings(
      WeighingRepository weighings,
      PanRepository pans,
      VoidingRepository voidings,
      Scales scales,
      Clock clock) {
    this.weighings = weighings;
    this.pans = pans;
    this.voidings = voidings;
    this.scales = scales;
    this.clock = clock;
  }

  /**
   * Reads an entry and says all that is wrong with it, writing nothing.
   *
   * @return the weighing as it would be kept
   */
  public Weighing read(Member member, Entry entry, Faults faults) {
    return new Weighing(
        member.ledgerId(), readEntry(member, entry, faults), now(), member.accountId());
  }

  /** Keeps a weighing that was read without a fault. */
  @Transactional
  public Weighing log(Weighing read, Subject subject) {
    Weighing kept = weighings.save(read);
    pans.save(new OnThePan(kept, subject));
    return kept;
  }

  /**
   * Strikes out a weighing.
   *
   * @throws Refusal if it has been struck out already or no reason is given
   * @throws NotThere if there is no such weighing
   */
  @Transactional
  public Logged strikeOut(Member member, UUID uuid, @Nullable String reason) {
    Weighing weighing =
        weighings
            .findByLedgerIdAndUuid(member.ledgerId(), uuid)
            .orElseThrow(() -> new NotThere("weighing"));
    Faults faults = new Faults();
    String readReason = faults.text("reason", reason, "a reason", 500);
    faults.refuseIfAny();
    if (voidings.existsByLedgerIdAndWeighingId(member.ledgerId(), weighing.id())) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "This weighing has been struck out already.");
    }
    voidings.save(new Voiding(weighing, readReason, now(), member.accountId()));
    Subject subject = get(member, uuid).subject();
    return new Logged(weighing, subject, readReason);
  }

  public Logged get(Member member, UUID uuid) {
    return logged(member, weighings.row(member.ledgerId(), uuid)).stream()
        .findFirst()
        .orElseThrow(() -> new NotThere("weighing"));
  }

  /**
   * The newest weighing of each subject that may say what it weighs; a subject that has none is
   * left out.
   */
  public Map<Long, Weighing> newestUsable(Member member, String kind, Collection<Long> subjectIds) {
    if (subjectIds.isEmpty()) {
      return Map.of();
    }
    Map<Long, Long> subjectOfWeighing = new HashMap<>();
    Long[] distinct = new LinkedHashSet<>(subjectIds).toArray(Long[]::new);
    for (Object[] pair : weighings.newestUsable(member.ledgerId(), kind, distinct)) {
      if (pair[1] != null) {
        subjectOfWeighing.put(((Number) pair[1]).longValue(), ((Number) pair[0]).longValue());
      }
    }
    Map<Long, Weighing> newest = new HashMap<>();
    for (Weighing weighing : withReadings(member, subjectOfWeighing.keySet())) {
      Long subject = subjectOfWeighing.get(weighing.id());
      if (subject != null) {
        newest.put(subject, weighing);
      }
    }
    return newest;
  }

  /** The weighings of a subject, newest first. */
  public List<Logged> historyOf(Member member, Subject subject, int most) {
    return logged(
        member,
        weighings.historyOf(member.ledgerId(), subject.kind(), subject.id(), Limit.of(most)));
  }

  /** What was entered since, newest first. */
  public List<Logged> enteredSince(Member member, Instant since, int most) {
    return logged(member, weighings.enteredSince(member.ledgerId(), since, Limit.of(most)));
  }

  /** Loads scales and readings of all rows in one go, so that no row asks for its own. */
  private List<Logged> logged(Member member, List<WeighingRepository.Row> rows) {
    withReadings(member, rows.stream().map(row -> row.getWeighing().id()).toList());
    return rows.stream()
        .map(
            row ->
                new Logged(
                    row.getWeighing(),
                    new Subject(row.getKind(), row.getSubjectId()),
                    row.getVoidReason()))
        .toList();
  }

  private List<Weighing> withReadings(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : weighings.withReadings(member.ledgerId(), ids);
  }

  private Read readEntry(Member member, Entry entry, Faults faults) {
    Scale scale = null;
    Mass tolerance = null;
    String toleranceTyped =
        faults.optionalText("tolerance", entry.tolerance(), "the tolerance", 200);
    String scaleCode = faults.optionalText("scale", entry.scale(), "the scale's code", 60);
    if (scaleCode != null) {
      scale = scales.find(member, scaleCode).orElse(null);
      if (scale == null) {
        faults.add(
            "scale", "There is no scale " + Faults.shortened(scaleCode) + " in this ledger.");
      }
      if (toleranceTyped != null) {
        faults.add(
            "tolerance",
            "Leave the tolerance out where the scale is named: the scale says how sure it is.");
      }
    } else if (toleranceTyped == null) {
      faults.add(
          "scale", "Name the scale, or, where it was not recorded, give a tolerance such as 2 g.");
    } else {
      Quantity read =
          faults.read(
              "tolerance", () -> Quantity.read(toleranceTyped, Kind.MASS, Unit.GRAM).notNegative());
      tolerance = read == null ? null : read.mass();
    }
    Unit unit = scale == null ? Unit.GRAM : scale.unit();

    List<Quantity> readings = new ArrayList<>();
    List<@Nullable String> typedReadings = entry.readings() == null ? List.of() : entry.readings();
    if (typedReadings.isEmpty()) {
      faults.add("readings", "Give at least one reading, such as 118 g.");
    } else if (typedReadings.size() > MOST_READINGS) {
      faults.add(
          "readings",
          "Give at most " + MOST_READINGS + " readings; there are " + typedReadings.size() + ".");
    } else {
      for (int i = 0; i < typedReadings.size(); i++) {
        String field = "readings[" + i + "]";
        String typed = faults.text(field, typedReadings.get(i), "a reading, such as 118 g", 200);
        Quantity reading =
            typed.isEmpty() || typed.length() > 200
                ? null
                : faults.read(field, () -> Quantity.read(typed, Kind.MASS, unit).positive());
        if (reading == null) {
          continue;
        }
        readings.add(reading);
        if (scale != null && reading.mass().compareTo(scale.capacity()) > 0) {
          faults.add(
              field,
              "The scale "
                  + scale.code()
                  + " ends at "
                  + scale.capacityTyped()
                  + "; read "
                  + typed
                  + ".");
        }
      }
    }

    String tareTyped = faults.optionalText("tare", entry.tare(), "the tare", 200);
    Quantity readTare =
        tareTyped == null
            ? null
            : faults.read("tare", () -> Quantity.read(tareTyped, Kind.MASS, unit).notNegative());
    Mass tare = readTare == null ? Mass.ZERO : readTare.mass();
    if (faults.none()) {
      Mass sum = readings.stream().map(Quantity::mass).reduce(Mass.ZERO, Mass::plus);
      if (sum.compareTo(tare.times(readings.size())) <= 0) {
        faults.add(
            "tare",
            "Give a tare below the reading: "
                + tareTyped
                + " leaves nothing for what was weighed.");
      }
    }

    int count =
        faults.wholeNumber("count", entry.count(), "the count of alike pieces", 1, MOST_PIECES, 1);
    String conditionTyped =
        faults.optionalText("condition", entry.condition(), "the condition", 60);
    Condition condition = Condition.DRY;
    if (conditionTyped != null) {
      Optional<Condition> known = Condition.of(conditionTyped);
      if (known.isEmpty()) {
        faults.add(
            "condition",
            "Say dry, aired, damp or wet; read \"" + Faults.shortened(conditionTyped) + "\".");
      }
      condition = known.orElse(Condition.DRY);
    }
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    Instant weighedAt = time(faults, entry.weighedAt());
    return new Read(
        scale,
        tolerance,
        toleranceTyped,
        readings,
        tare,
        tareTyped,
        count,
        condition,
        note,
        weighedAt);
  }

  private Instant time(Faults faults, @Nullable String typed) {
    if (typed == null || typed.isBlank()) {
      return now();
    }
    String text = typed.strip();
    try {
      Instant read =
          text.length() == 10
              ? LocalDate.parse(text).atStartOfDay(clock.getZone()).toInstant()
              : text.matches(".*(Z|[+-]\\d\\d:?\\d\\d)")
                  ? OffsetDateTime.parse(text).toInstant()
                  : LocalDateTime.parse(text).atZone(clock.getZone()).toInstant();
      if (read.isAfter(Instant.parse("1900-01-01T00:00:00Z"))
          && read.isBefore(Instant.parse("2200-01-01T00:00:00Z"))) {
        return read.truncatedTo(ChronoUnit.MICROS);
      }
    } catch (DateTimeException notATime) {
      // said below
    }
    faults.add(
        "weighedAt",
        "Give the time as 2027-04-11 or 2027-04-11T19:30 or 2027-04-11T19:30:00+02:00; read \""
            + Faults.shortened(text)
            + "\".");
    return now();
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }

  /** The usable weighing before this one in the order in which they count, if there is one. */
  public Optional<Weighing> newestUsable(Member member, Subject subject) {
    return Optional.ofNullable(
        newestUsable(member, subject.kind(), List.of(subject.id())).get(subject.id()));
  }
}
