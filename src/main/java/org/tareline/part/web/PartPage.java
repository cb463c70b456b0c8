package org.tareline.part.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Pieces;
import org.tareline.evidence.Source;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.part.Calculation;
import org.tareline.part.Comfort;
import org.tareline.part.LifeEvent;
import org.tareline.part.LifeEvents;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.PartEvidence;
import org.tareline.part.PartMass;
import org.tareline.part.WhereUsed;
import org.tareline.site.AsTyped;
import org.tareline.site.Figure;
import org.tareline.site.Moments;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Percent;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * A part as its page shows it.
 *
 * @param fibre null where it is not known
 * @param comfort how cold a night it is stated for, as a sentence; null where nothing is said
 * @param packed the room it takes, in words; null where it is not known
 * @param figure null where nothing is known
 * @param whence where the mass comes from, as a sentence
 * @param together what all that are owned weigh; null where that says nothing more
 * @param secondReading what a second reading would add, as a sentence; null where none is wanted
 * @param history weighings and what happened, newest first
 * @param older whether there are weighings older than those shown, or more happened before
 * @param chart null where there are not two masses to draw
 * @param cut null where it has no cut list
 * @param stated null where nothing is stated
 */
record PartPage(
    String code,
    String name,
    String system,
    String owned,
    @Nullable String fibre,
    @Nullable String comfort,
    @Nullable String packed,
    @Nullable String note,
    @Nullable Figure figure,
    String whence,
    @Nullable Figure together,
    @Nullable String secondReading,
    List<Entry> history,
    boolean older,
    @Nullable HistoryChart chart,
    @Nullable CutMass cut,
    @Nullable StatedMass stated,
    List<Use> uses,
    List<String> reasons,
    List<String> eventReasons) {

  /** One of the two. */
  record Entry(@Nullable Weighed weighed, @Nullable Happened happened) {}

  /**
   * A weighing.
   *
   * @param account readings, tare, count, scale and condition
   * @param standing whether it counts, and if not, why
   * @param change against the one before it, as a sentence; null where there is none to compare
   * @param changed whether that is a change that can be told
   * @param between what happened since that one, as a sentence; null where nothing did
   * @param struckOut the reason; null while it stands
   */
  record Weighed(
      String id,
      String when,
      Figure figure,
      String account,
      @Nullable String note,
      String standing,
      boolean counts,
      @Nullable String change,
      boolean changed,
      @Nullable String between,
      @Nullable String struckOut,
      List<Term> terms) {}

  /**
   * What happened to the part.
   *
   * @param count how many, as words; null where it is of no account
   * @param struckOut the reason; null while it stands
   */
  record Happened(
      String id,
      String what,
      String when,
      @Nullable String count,
      @Nullable String note,
      @Nullable String struckOut) {}

  /**
   * What the cut list comes to.
   *
   * @param against the weighing held against it, as a sentence; null where it was not weighed
   */
  record CutMass(Figure figure, String standing, @Nullable String against) {}

  /** The stated mass as evidence. */
  record StatedMass(Figure figure, String account, String standing, List<Term> terms) {}

  /** What one source of error contributes. */
  record Term(String source, String uncertainty, String share) {}

  /** Where the part is used; kind is in the plural, as in the address. */
  record Use(String kind, String code, String name, String words) {}

  static PartPage of(
      Member member, Part part, PartEvidence known, List<WhereUsed.Use> uses, Moments moments) {
    MassStyle style = member.massStyle();
    Estimate estimate = known.mass().estimate();
    Map<UUID, PartEvidence.Change> changes = known.changes();
    return new PartPage(
        part.code(),
        part.name(),
        part.system().pageWords(),
        owned(part, known.lent()),
        part.fibre().map(Fibre::pageWords).orElse(null),
        part.comfort().map(Comfort::sentence).orElse(null),
        packed(part.packed()),
        part.note().orElse(null),
        estimate == null ? null : Figure.of(estimate, style),
        whence(member, part, known, moments),
        together(part, known.mass(), style),
        secondReading(known.mass().weighing()),
        history(known, changes, style, moments),
        known.older() || known.olderEvents(),
        HistoryChart.of(known, changes, style, moments),
        cut(member, known),
        stated(member, part, known),
        uses.stream().map(PartPage::use).toList(),
        Weighings.REASONS_TO_STRIKE_OUT,
        LifeEvents.REASONS_TO_STRIKE_OUT);
  }

  private static @Nullable String packed(PackedSize size) {
    List<String> said =
        Stream.of(
                size.volumeTyped(),
                size.lengthTyped() == null ? null : size.lengthTyped() + " long")
            .filter(Objects::nonNull)
            .toList();
    return said.isEmpty() ? null : "packed " + String.join(", ", said);
  }

  private static String owned(Part part, int lent) {
    String owned = part.owned() == 0 ? "none owned" : part.owned() + " owned";
    return lent == 0
        ? owned
        : owned + ", " + (part.owned() - lent) + " of " + part.owned() + " at hand";
  }

  private static String whence(Member member, Part part, PartEvidence known, Moments moments) {
    Weighing weighing = known.mass().weighing();
    Pieces pieces = known.mass().pieces();
    if (pieces != null) {
      return inPieces(member, pieces);
    }
    if (weighing != null && known.mass().remainder()) {
      return "Not weighed by itself: on "
          + moments.day(weighing.weighedAt())
          + " it lay on the pan with others, and this is what they leave of the sum.";
    }
    if (weighing != null) {
      int count = weighing.pieceCount();
      return "Weighed on "
          + moments.day(weighing.weighedAt())
          + weighing.scale().map(scale -> " on " + scale.name()).orElse("")
          + ", "
          + weighing.condition().word()
          + ": "
          + counted(weighing.readings().size(), "reading")
          + (count == 1 ? "" : " of " + count + " alike together, shared out over " + count)
          + weighing
              .toleranceTyped()
              .map(
                  typed ->
                      "; the scale was not recorded, and it is taken as good to " + within(typed))
              .orElse("")
          + ".";
    }
    if (known.calculationCounts()) {
      return weighedLines(known)
          .map(lines -> "From the cut list, " + lines + ", and not weighed itself yet.")
          .orElse("From the cut list, and not weighed yet.");
    }
    return known.mass().estimate() == null
        ? "Nothing is known of its mass yet. Every total it is part of says so."
        : "Stated, and not weighed yet; " + statedWithin(member, part) + ".";
  }

  private static String inPieces(Member member, Pieces pieces) {
    MassStyle style = member.massStyle();
    if (pieces.spreadInGrams().isEmpty()) {
      return "One piece was weighed by itself; how unlike the others are is not known. Weigh a second one.";
    }
    Mass spread = Mass.fromGrams(pieces.spreadInGrams().getAsDouble());
    return pieces.weighed()
        + " pieces were weighed one by one; this is their mean. Their masses scatter about it by "
        + style.text(spread, style.decimals(spread, 2))
        + " (standard deviation), and a piece that was not weighed is off by as much.";
  }

  private static String statedWithin(Member member, Part part) {
    return part.statedToleranceTyped()
        .map(typed -> "taken as good to " + within(typed) + ", as stated")
        .orElseGet(
            () ->
                "taken as good to "
                    + within(new Percent(member.statedTolerance()).toString())
                    + ", as this ledger takes what nobody gave a tolerance for");
  }

  private static String within(String tolerance) {
    String shown = AsTyped.text(tolerance, Unit.GRAM);
    return shown.startsWith("±") ? shown : "± " + shown;
  }

  private static @Nullable Figure together(Part part, PartMass mass, MassStyle style) {
    if (part.owned() < 2) {
      return null;
    }
    Estimate each = mass.each(part.owned());
    try {
      return each == null ? null : Figure.of(each.times(part.owned()), style);
    } catch (ArithmeticException outOfRange) {
      return null;
    }
  }

  private static @Nullable String secondReading(@Nullable Weighing weighing) {
    return weighing == null || weighing.repeatabilityKnown().orElse(true)
        ? null
        : "It was read once, and how well "
            + weighing.scale().map(scale -> scale.name()).orElse("the scale")
            + " repeats a reading is not known: the ± leaves that out.";
  }

  private static List<Entry> history(
      PartEvidence known,
      Map<UUID, PartEvidence.Change> changes,
      MassStyle style,
      Moments moments) {
    Deque<LifeEvents.Logged> events = new ArrayDeque<>(known.events());
    List<Entry> history = new ArrayList<>();
    for (Weighings.Logged logged : known.weighings()) {
      while (!events.isEmpty()
          && !events.peek().event().happenedAt().isBefore(logged.weighing().weighedAt())) {
        history.add(new Entry(null, happened(events.pop(), moments)));
      }
      history.add(new Entry(weighed(known, changes, logged, style, moments), null));
    }
    events.forEach(event -> history.add(new Entry(null, happened(event, moments))));
    return history;
  }

  private static Happened happened(LifeEvents.Logged logged, Moments moments) {
    LifeEvent event = logged.event();
    return new Happened(
        event.uuid().toString(),
        event.kind().word(),
        moments.minute(event.happenedAt()),
        event.kind().countsPieces() ? count(event) : null,
        event.note().orElse(null),
        logged.voidReason());
  }

  private static String count(LifeEvent event) {
    return event.pieces() == 0 ? "those that were owned already" : counted(event.pieces(), "piece");
  }

  /** How a weighing differs from the one before it. */
  private static String change(PartEvidence.Change change, MassStyle style, Moments moments) {
    Estimate difference = change.difference();
    String since = moments.day(change.since().weighedAt());
    // To two figures, so that what can just be told does not read as 2 g ± 2 g.
    String size =
        style.withUncertainty(
            (difference.value().signum() < 0 ? difference.times(-1) : difference).value(),
            difference.expandedUncertainty());
    return switch (Verdict.of(difference)) {
      case LIGHTER -> "Changed since " + since + ": lighter by " + size + ".";
      case HEAVIER -> "Changed since " + since + ": heavier by " + size + ".";
      case UNDECIDED -> "No change that can be told since " + since + " (" + size + ").";
    };
  }

  private static @Nullable String between(PartEvidence.Change change, Moments moments) {
    if (change.between().isEmpty()) {
      return change.told() ? "Nothing is noted to have happened between." : null;
    }
    return "Between: "
        + change.between().stream()
            .map(event -> event.kind().word() + " " + moments.day(event.happenedAt()))
            .collect(Collectors.joining(", "))
        + ".";
  }

  private static Weighed weighed(
      PartEvidence known,
      Map<UUID, PartEvidence.Change> changes,
      Weighings.Logged logged,
      MassStyle style,
      Moments moments) {
    PartEvidence.Change change = changes.get(logged.weighing().uuid());
    Weighing weighing = logged.weighing();
    boolean counts = known.counts(logged);
    Estimate estimate = known.estimate(logged);
    return new Weighed(
        weighing.uuid().toString(),
        moments.minute(weighing.weighedAt()),
        Figure.of(estimate, style),
        account(logged),
        weighing.note().orElse(null),
        standing(logged, counts),
        counts,
        change == null ? null : change(change, style, moments),
        change != null && change.told(),
        change == null ? null : between(change, moments),
        logged.voidReason(),
        terms(estimate, style));
  }

  private static String account(Weighings.Logged logged) {
    Weighing weighing = logged.weighing();
    Unit unit = weighing.scale().map(Scale::unit).orElse(Unit.GRAM);
    return "Read "
        + weighing.readings().stream()
            .map(reading -> AsTyped.text(reading.typed(), unit))
            .collect(Collectors.joining(", "))
        + weighing.scale().map(scale -> " on " + scale.name()).orElse("; scale not recorded")
        + (weighing.before().isEmpty()
            ? ""
            : "; before it was sewn on "
                + weighing.before().stream()
                    .map(reading -> AsTyped.text(reading.typed(), unit))
                    .collect(Collectors.joining(", ")))
        + weighing.tareTyped().map(typed -> "; tare " + AsTyped.text(typed, unit)).orElse("")
        + (weighing.pieceCount() == 1 ? "" : "; " + weighing.pieceCount() + " alike together")
        + (logged.placed().piece() == null ? "" : "; piece " + logged.placed().piece())
        + (logged.together()
            ? "; " + logged.things() + " things on the pan, this is their sum"
            : "")
        + weighing
            .correction()
            .map(by -> "; divided by " + slope(by) + ", which a check of the scale found")
            .orElse("")
        + "; "
        + weighing.condition().word();
  }

  /** To seven digits, more than any check weight is good for. */
  private static String slope(Weighing.Correction correction) {
    return BigDecimal.valueOf(correction.slope())
        .setScale(6, RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }

  private static String standing(Weighings.Logged logged, boolean counts) {
    if (logged.voidReason() != null) {
      return "struck out";
    }
    if (counts) {
      return "this one counts";
    }
    if (logged.together()) {
      return "kept with each of them; it says their sum";
    }
    return logged.weighing().condition().saysTheMass()
        ? "a newer one counts"
        : "kept, and does not count: " + logged.weighing().condition().word();
  }

  /** How many lines of its cut list were weighed; nothing where none was. */
  private static Optional<String> weighedLines(PartEvidence known) {
    return Optional.ofNullable(known.calculation())
        .filter(calculation -> calculation.weighedLines() > 0)
        .map(
            calculation ->
                calculation.weighedLines()
                    + " of its "
                    + calculation.lines().size()
                    + " lines weighed");
  }

  private static @Nullable CutMass cut(Member member, PartEvidence known) {
    Calculation calculation = known.calculation();
    if (calculation == null) {
      return null;
    }
    CutListPage.Against against =
        CutListPage.against(known, calculation.calculated(), member.massStyle());
    return new CutMass(
        Figure.of(calculation.estimate(), member.massStyle()),
        known.calculationCounts()
            ? "this counts until it is weighed"
            : "a weighing counts for more",
        against == null
            ? null
            : "Weighed minus calculated is "
                + against.difference().sentence()
                + ". "
                + against.words());
  }

  private static @Nullable StatedMass stated(Member member, Part part, PartEvidence known) {
    Estimate estimate = known.stated().estimate();
    return estimate == null
        ? null
        : new StatedMass(
            Figure.of(estimate, member.massStyle()),
            "Stated as "
                + AsTyped.text(part.statedTyped().orElse(""), Unit.GRAM)
                + "; "
                + statedWithin(member, part),
            known.statedCounts() ? "this counts until it is weighed" : "a weighing counts for more",
            terms(estimate, member.massStyle()));
  }

  private static List<Term> terms(Estimate estimate, MassStyle style) {
    double variance = estimate.variance();
    return estimate.coefficients().entrySet().stream()
        .map(term -> term(term, variance, style))
        .toList();
  }

  private static Term term(Map.Entry<Source, Double> term, double variance, MassStyle style) {
    Mass uncertainty = Mass.fromGrams(Math.abs(term.getValue()));
    BigDecimal percent =
        new BigDecimal(100 * term.getValue() * term.getValue() / variance)
            .setScale(0, RoundingMode.HALF_EVEN);
    return new Term(
        term.getKey().label(),
        style.text(uncertainty, style.decimals(uncertainty, 2)),
        (percent.signum() == 0 ? "under 1" : percent.toPlainString()) + "\u00a0%");
  }

  private static Use use(WhereUsed.Use use) {
    return new Use(
        use.kind() + "s",
        use.code(),
        use.name(),
        use.kind() + (use.quantity() == 1 ? "" : ", " + use.quantity() + " of it"));
  }

  private static String counted(int count, String what) {
    return count + " " + what + (count == 1 ? "" : "s");
  }
}
