package org.tareline.weighing;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.site.Faults;
import org.tareline.site.Meters;
import org.tareline.site.Moments;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.DecimalMark;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** The weighings of a ledger. */
@Service
@Transactional(readOnly = true)
public class Weighings implements ReadAgain {

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
   * @param before readings of what a thing was sewn onto, before it was; none where it lies on the
   *     pan by itself
   * @param tolerance how sure the weight is where the scale was not recorded, such as {@code 2 g}
   * @param weighedAt an ISO 8601 date, or date and time, with or without an offset; now when left
   *     out
   * @param mark what is known of the decimal mark in its masses
   */
  public record Entry(
      @Nullable String scale,
      @Nullable String tolerance,
      @Nullable List<@Nullable String> readings,
      @Nullable List<@Nullable String> before,
      @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      DecimalMark mark) {

    /** One of whose decimal marks nothing is known. */
    public Entry(
        @Nullable String scale,
        @Nullable String tolerance,
        @Nullable List<@Nullable String> readings,
        @Nullable List<@Nullable String> before,
        @Nullable String tare,
        @Nullable String count,
        @Nullable String condition,
        @Nullable String weighedAt,
        @Nullable String note) {
      this(
          scale,
          tolerance,
          readings,
          before,
          tare,
          count,
          condition,
          weighedAt,
          note,
          DecimalMark.POINT);
    }

    /** The same with so many alike pieces on the pan. */
    public Entry counting(int pieces) {
      return new Entry(
          scale,
          tolerance,
          readings,
          before,
          tare,
          String.valueOf(pieces),
          condition,
          weighedAt,
          note,
          mark);
    }

    /** The same on another scale. */
    public Entry on(String scaleCode) {
      return new Entry(
          scaleCode, null, readings, before, tare, count, condition, weighedAt, note, mark);
    }
  }

  /** An entry that could be read. */
  record Read(
      @Nullable Scale scale,
      @Nullable Mass tolerance,
      @Nullable String toleranceTyped,
      List<Quantity> readings,
      List<Quantity> before,
      Mass tare,
      @Nullable String tareTyped,
      int count,
      Condition condition,
      @Nullable String note,
      Instant weighedAt) {}

  /**
   * A weighing with one thing that lay on the pan.
   *
   * @param things how many things lay there, this one among them
   * @param voidReason why it was struck out; null while it stands
   */
  public record Logged(Weighing weighing, Placed placed, int things, @Nullable String voidReason) {

    public Subject subject() {
      return placed.subject();
    }

    /** Whether other things lay on the pan, so that the weighing says their sum. */
    public boolean together() {
      return things > 1;
    }
  }

  /**
   * The newest that says what a subject weighs.
   *
   * @param pieces where that is one of several pieces weighed one by one: the newest weighing of
   *     each, by its label; else empty
   * @param revision of the subject when it was weighed, where it has any
   */
  public record Newest(
      Weighing weighing, SortedMap<String, Weighing> pieces, @Nullable Integer revision) {}

  /** A weighing of several things at once, with all of them. */
  public record Together(Weighing weighing, List<Placed> things) {}

  private final WeighingRepository weighings;
  private final PanRepository pans;
  private final VoidingRepository voidings;
  private final Scales scales;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  Weighings(
      WeighingRepository weighings,
      PanRepository pans,
      VoidingRepository voidings,
      Scales scales,
      ApplicationEventPublisher events,
      Clock clock) {
    this.weighings = weighings;
    this.pans = pans;
    this.voidings = voidings;
    this.scales = scales;
    this.events = events;
    this.clock = clock;
  }

  /**
   * Reads an entry and says all that is wrong with it, writing nothing.
   *
   * @return the weighing as it would be kept
   */
  public Weighing read(Member member, Entry entry, Faults faults) {
    return new Weighing(
        member.ledgerId(),
        readEntry(entry, code -> scales.find(member, code).orElse(null), faults),
        now(),
        member.accountId());
  }

  /**
   * Keeps a weighing that was read without a fault.
   *
   * @param things what lay on the pan, 1 or more
   */
  @Transactional
  public Weighing log(Weighing read, List<Placed> things) {
    Weighing kept = weighings.save(read);
    things.forEach(placed -> pans.save(new OnThePan(kept, placed, things.size() > 1)));
    if (things.size() == 1 && kept.condition().saysTheMass()) {
      events.publishEvent(
          new UsableChanged(kept.ledgerId(), List.of(things.get(0).subject()), true));
    }
    Meters.weighingLogged();
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
    if (voidings.existsByLedgerIdAndId(member.ledgerId(), weighing.id())) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "", "This weighing has been struck out already.");
    }
    voidings.save(new Voiding(weighing, readReason, now(), member));
    List<Logged> things = things(member, uuid);
    events.publishEvent(
        new UsableChanged(member.ledgerId(), things.stream().map(Logged::subject).toList(), false));
    return things.get(0);
  }

  /**
   * A weighing, once for each thing that lay on the pan.
   *
   * @throws NotThere if there is no such weighing
   */
  public List<Logged> things(Member member, UUID uuid) {
    List<Logged> things = logged(member, weighings.row(member.ledgerId(), uuid));
    if (things.isEmpty()) {
      throw new NotThere("weighing");
    }
    return things;
  }

  /** The subjects of a kind that lay on a scale at any time, whatever became of the weighing. */
  public Set<Long> everWeighed(Member member, String kind) {
    return weighings.everWeighed(member.ledgerId(), kind);
  }

  /**
   * The newest weighing of each subject that may say what it weighs; a subject that has none is
   * left out.
   */
  public Map<Long, Newest> newestUsable(Member member, String kind, Collection<Long> subjectIds) {
    if (subjectIds.isEmpty()) {
      return Map.of();
    }
    List<OnThePan> newest =
        pans(member, weighings.newestUsable(member.ledgerId(), kind, distinct(subjectIds)), 1);
    List<Long> inPieces =
        newest.stream()
            .map(OnThePan::placed)
            .filter(placed -> placed.piece() != null)
            .map(placed -> placed.subject().id())
            .toList();
    Map<Long, SortedMap<String, Weighing>> pieces = new HashMap<>();
    if (!inPieces.isEmpty()) {
      for (OnThePan on :
          pans(member, weighings.newestOfPieces(member.ledgerId(), kind, distinct(inPieces)), 0)) {
        Placed placed = on.placed();
        pieces
            .computeIfAbsent(placed.subject().id(), any -> new TreeMap<>())
            .put(String.valueOf(placed.piece()), on.weighing());
      }
    }
    Map<Long, Newest> found = new HashMap<>();
    for (OnThePan on : newest) {
      long subject = on.placed().subject().id();
      found.put(
          subject,
          new Newest(
              on.weighing(),
              pieces.getOrDefault(subject, new TreeMap<>()),
              on.placed().revision()));
    }
    return found;
  }

  /**
   * The newest dry weighing in which each subject lay on the pan with other things; a subject that
   * has none is left out.
   */
  public Map<Long, Together> newestTogether(
      Member member, String kind, Collection<Long> subjectIds) {
    Map<Long, Long> weighingOf = new HashMap<>();
    for (Object[] pair : weighings.newestTogether(member.ledgerId(), kind, distinct(subjectIds))) {
      if (pair[1] != null) {
        weighingOf.put(number(pair[0]), number(pair[1]));
      }
    }
    if (weighingOf.isEmpty()) {
      return Map.of();
    }
    Map<Long, List<OnThePan>> onPan =
        weighings.onThePan(member.ledgerId(), distinct(weighingOf.values())).stream()
            .collect(Collectors.groupingBy(on -> on.weighing().id()));
    Map<Long, Together> found = new HashMap<>();
    weighingOf.forEach(
        (subject, weighing) -> {
          List<OnThePan> things = onPan.getOrDefault(weighing, List.of());
          found.put(
              subject,
              new Together(
                  things.get(0).weighing(), things.stream().map(OnThePan::placed).toList()));
        });
    return found;
  }

  /** What lay on the pan together with one of these, in weighings that stand. */
  public List<Long> companions(Member member, String kind, Collection<Long> subjectIds) {
    return weighings.companions(member.ledgerId(), kind, distinct(subjectIds));
  }

  /**
   * The newest weighing of a rig with what a scope counts of it, that is not struck out: a dry or
   * an aired one, else the newest of any condition.
   */
  public Optional<Logged> newestWhole(Member member, long rigId, String scope) {
    return logged(
            member, weighings.whole(member.ledgerId(), Subject.RIG, rigId, scope, Limit.of(1)))
        .stream()
        .findFirst();
  }

  private static Long[] distinct(Collection<Long> ids) {
    return new LinkedHashSet<>(ids).toArray(Long[]::new);
  }

  private static long number(Object column) {
    return ((Number) column).longValue();
  }

  /** Loads what rows of ids name, scales and readings with them; the ids stand in that column. */
  private List<OnThePan> pans(Member member, List<Object[]> rows, int column) {
    List<Long> ids =
        rows.stream().filter(row -> row[column] != null).map(row -> number(row[column])).toList();
    return ids.isEmpty() ? List.of() : weighings.pans(member.ledgerId(), distinct(ids));
  }

  /** The weighings of a subject, newest first. */
  public List<Logged> historyOf(Member member, Subject subject, int most) {
    return logged(
        member,
        weighings.historyOf(member.ledgerId(), subject.kind(), subject.id(), Limit.of(most)));
  }

  /** All weighings of these subjects, newest first. */
  public List<Logged> historyOf(Member member, String kind, Collection<Long> subjectIds) {
    return subjectIds.isEmpty()
        ? List.of()
        : logged(member, weighings.historyOfAll(member.ledgerId(), kind, distinct(subjectIds)));
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
                    row.getOnThePan().placed(),
                    (int) row.getThings(),
                    row.getVoidReason()))
        .toList();
  }

  private List<Weighing> withReadings(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : weighings.withReadings(member.ledgerId(), distinct(ids));
  }

  @Override
  public String table() {
    return "weighing";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    Set<Long> ofNothing =
        new HashSet<>(weighings.ofNothing(member.ledgerId(), ids.toArray(Long[]::new)));
    return ReadAgain.each(
        withReadings(member, ids),
        Weighing::id,
        weighing -> {
          Faults faults = new Faults();
          Read read = readEntry(weighing.entry(), code -> weighing.scale().orElse(null), faults);
          if (faults.none() && !weighing.saysAs(read)) {
            faults.add("readings", "Let the figures say what is typed beside them.");
          }
          if (ofNothing.contains(weighing.id())) {
            faults.add("", "Say what lay on the pan: nothing names this weighing.");
          }
          faults.refuseIfAny();
        });
  }

  private Read readEntry(Entry entry, Function<String, @Nullable Scale> scaleOf, Faults faults) {
    Scale scale = null;
    Mass tolerance = null;
    String toleranceTyped =
        faults.optionalText("tolerance", entry.tolerance(), "the tolerance", 200);
    String scaleCode = faults.optionalText("scale", entry.scale(), "the scale's code", 60);
    if (scaleCode != null) {
      scale = scaleOf.apply(scaleCode);
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
              "tolerance",
              () ->
                  Quantity.read(toleranceTyped, Kind.MASS, Unit.GRAM, entry.mark()).notNegative());
      tolerance = read == null ? null : read.mass();
    }
    Unit unit = scale == null ? Unit.GRAM : scale.unit();

    if (entry.readings() == null || entry.readings().isEmpty()) {
      faults.add("readings", "Give at least one reading, such as 118 g.");
    }
    List<Quantity> readings = readings("readings", entry.readings(), entry.mark(), scale, faults);
    List<Quantity> before = readings("before", entry.before(), entry.mark(), scale, faults);

    String tareTyped = faults.optionalText("tare", entry.tare(), "the tare", 200);
    Quantity readTare =
        tareTyped == null
            ? null
            : faults.read(
                "tare",
                () -> Quantity.read(tareTyped, Kind.MASS, unit, entry.mark()).notNegative());
    Mass tare = readTare == null ? Mass.ZERO : readTare.mass();
    if (!before.isEmpty() && tareTyped != null) {
      faults.add("tare", "Leave the tare out: what was on the pan before weighs itself off.");
    }
    if (!before.isEmpty() && toleranceTyped != null) {
      faults.add("before", "Name the scale: a difference is no surer than its readings.");
    }
    if (faults.none() && !before.isEmpty()) {
      // Means compared as fractions, so that nothing is rounded: sum/n against sum/m.
      if (sum(readings).times(before.size()).compareTo(sum(before).times(readings.size())) <= 0) {
        faults.add(
            "before",
            "The readings before are not below those after: nothing is left for what was sewn on.");
      }
    }
    if (faults.none() && sum(readings).compareTo(tare.times(readings.size())) <= 0) {
      faults.add(
          "tare",
          "Give a tare below the reading: " + tareTyped + " leaves nothing for what was weighed.");
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
    Instant weighedAt = Moments.read(faults, "weighedAt", entry.weighedAt(), clock);
    return new Read(
        scale,
        tolerance,
        toleranceTyped,
        readings,
        before,
        tare,
        tareTyped,
        count,
        condition,
        note,
        weighedAt);
  }

  private static Mass sum(List<Quantity> readings) {
    return readings.stream().map(Quantity::mass).reduce(Mass.ZERO, Mass::plus);
  }

  private static List<Quantity> readings(
      String name,
      @Nullable List<@Nullable String> typedReadings,
      DecimalMark mark,
      @Nullable Scale scale,
      Faults faults) {
    List<Quantity> readings = new ArrayList<>();
    if (typedReadings == null) {
      return readings;
    }
    if (typedReadings.size() > MOST_READINGS) {
      faults.add(
          name,
          "Give at most " + MOST_READINGS + " readings; there are " + typedReadings.size() + ".");
      return readings;
    }
    Unit unit = scale == null ? Unit.GRAM : scale.unit();
    for (int i = 0; i < typedReadings.size(); i++) {
      String field = name + "[" + i + "]";
      String typed = faults.text(field, typedReadings.get(i), "a reading, such as 118 g", 200);
      Quantity reading =
          typed.isEmpty() || typed.length() > 200
              ? null
              : faults.read(field, () -> Quantity.read(typed, Kind.MASS, unit, mark).positive());
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
    return readings;
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
