package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.rig.Cautions;
import org.tareline.rig.ComingIn;
import org.tareline.rig.HangFigures;
import org.tareline.rig.HangLoads;
import org.tareline.rig.LoadPlace;
import org.tareline.rig.RigLoad;
import org.tareline.rig.SetUp;
import org.tareline.rig.SetUps;
import org.tareline.rig.Termination;
import org.tareline.statics.Assessment;
import org.tareline.statics.Catenary;
import org.tareline.statics.Hang;
import org.tareline.statics.RidgeLine;
import org.tareline.units.Kind;
import org.tareline.units.Range;

/**
 * The loads of a rig as their page shows them.
 *
 * @param figures null where nobody has said how it is hung
 * @param unsaid codes of parts that carry load by their role and of which nothing is said
 * @param records how it was hung, the favourite first
 * @param trees null where no record says enough
 */
record LoadsPage(
    String code,
    String name,
    @Nullable Figures figures,
    List<String> unsaid,
    List<RecordOf> records,
    @Nullable Trees trees,
    List<String> cautions) {

  /**
   * What there is to say of a hang.
   *
   * @param verdict as a sentence
   * @param steeper what angle would bring it to what is wanted, as a sentence
   * @param facts who lies in it and so on
   * @param ridge null where no body angle is known
   * @param chart null where no strength is known
   * @param lengths of a ridge line for angles of the body; empty where the flat length is not known
   * @param comesIn null where nothing is known of it
   */
  record Figures(
      String verdict,
      String steeper,
      List<Fact> facts,
      List<ElementRow> elements,
      List<EndPanel> ends,
      @Nullable String ridge,
      @Nullable AngleChart chart,
      List<Length> lengths,
      @Nullable ComesIn comesIn,
      List<String> notes) {}

  record Fact(String what, String is) {}

  record ElementRow(
      String code,
      String name,
      String place,
      String carries,
      String strength,
      String ends,
      String factor,
      String wanted,
      String verdict) {}

  record EndPanel(String title, List<Fact> facts, ForceDrawing drawing) {}

  /**
   * A ridge line's length for an angle of the body.
   *
   * @param middle as if the load hung in its middle
   * @param spread as if it hung spread along it
   */
  record Length(String angle, String middle, String spread) {}

  /**
   * By how much the ends come in under the load.
   *
   * @param rows what brings them in
   * @param set how to set a ridge line by it, as a sentence
   */
  record ComesIn(List<Gives> rows, Gives total, String set) {}

  /**
   * Something that gives.
   *
   * @param between the least and the most, or nothing
   */
  record Gives(String what, String by, String between) {

    static Gives of(String what, @Nullable Range length, LoadWords words) {
      return length == null
          ? new Gives(what, "not said", "")
          : new Gives(
              what, words.length(length.nominal()), length.isWide() ? words.between(length) : "");
    }
  }

  /** How it was hung once. */
  record RecordOf(
      String id, String hungOn, boolean favourite, List<Fact> facts, @Nullable String words) {}

  /** What changes if the trees stand closer or further apart than they did. */
  record Trees(String caption, List<TreesRow> rows) {}

  record TreesRow(String distance, String angle, String tension, String least, String keep) {}

  static LoadsPage of(Member member, RigLoad load, List<SetUp> setUps) {
    LoadWords words = LoadWords.of(member.massStyle());
    HangFigures figures = load.figures();
    HangLoads.Entry hung = load.hung();
    return new LoadsPage(
        load.rig().code(),
        load.rig().name(),
        figures == null || hung == null ? null : figures(load, hung, figures, words),
        load.unsaid(),
        setUps.stream().map(LoadsPage::record).toList(),
        figures == null || setUps.isEmpty() ? null : trees(figures, setUps, words),
        Cautions.ALL);
  }

  private static Figures figures(
      RigLoad load, HangLoads.Entry hung, HangFigures figures, LoadWords words) {
    Hang.Loads loads = figures.loads();
    Range ridge = loads.ridge();
    double ridgePull = ridge == null ? 0 : ridge.nominal();
    return new Figures(
        verdict(figures, words),
        steeper(figures),
        facts(hung, figures, words),
        elements(load, figures, words),
        List.of(
            end("first-end", "First end", figures.hang().first(), loads.first(), ridgePull, words),
            end(
                "second-end",
                "Second end",
                figures.hang().second(),
                loads.second(),
                ridgePull,
                words)),
        ridge == null
            ? null
            : loads.slack()
                ? "The ridge line is slack at these angles: it carries nothing."
                : "The ridge line is taut and carries " + words.force(ridge) + ".",
        AngleChart.of(figures),
        lengths(hung, words),
        comesIn(ComingIn.of(hung, figures, load.elements()), words),
        figures.notes());
  }

  private static String verdict(HangFigures figures, LoadWords words) {
    Assessment assessment = figures.assessment();
    List<String> below = named(assessment, Assessment.Verdict.BELOW);
    List<String> unknown = named(assessment, Assessment.Verdict.NOT_KNOWN);
    Assessment.Checked least = assessment.least();
    String weakest =
        least == null || least.factor() == null
            ? ""
            : " The least of those known is "
                + least.element().name()
                + ", "
                + words.factor(least.factor())
                + " stronger than its load; wanted is "
                + LoadWords.decimals(least.wanted(), 1)
                + (least.element().limit()
                    ? " times, for that is a working load limit."
                    : " times.");
    String weak = below.isEmpty() ? "" : " Below what is wanted: " + String.join(", ", below) + ".";
    return switch (assessment.verdict()) {
      case MEETS ->
          "Everything named here has at least what is wanted of it, new and undamaged and hung so."
              + weakest;
      case BELOW ->
          (below.isEmpty() ? "A bar bows out under this load." : "Too weak for this hang.")
              + weak
              + weakest;
      case NOT_KNOWN ->
          assessment.checked().isEmpty()
              ? "Not known: nothing is named that has to hold."
              : "Not known: the strength of "
                  + String.join(", ", unknown)
                  + " is not known."
                  + weak
                  + weakest;
    };
  }

  private static List<String> named(Assessment assessment, Assessment.Verdict verdict) {
    return assessment.checked().stream()
        .filter(one -> one.verdict() == verdict)
        .map(one -> one.element().name())
        .distinct()
        .toList();
  }

  private static String steeper(HangFigures figures) {
    double share = figures.assessment().leastShare();
    if (Double.isInfinite(share)) {
      return "What angle would do cannot be said while no strength is known.";
    }
    OptionalDouble angle = figures.angleThatMeets();
    if (angle.isEmpty()) {
      return "No angle of the suspensions would bring everything that is known to what is wanted.";
    }
    // Rounded up, so that the angle said does do.
    String degrees = LoadWords.decimals(Math.ceil(angle.getAsDouble() * 10) / 10, 1) + "°";
    return share < 1
        ? "Both suspensions at "
            + degrees
            + " or steeper would bring everything that is known to what is wanted."
        : "Everything that is known keeps what is wanted down to both suspensions at "
            + degrees
            + ". That says nothing of what is not known.";
  }

  private static List<Fact> facts(HangLoads.Entry hung, HangFigures figures, LoadWords words) {
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Lies in it", String.valueOf(hung.lies())));
    add(facts, "Hangs with them", hung.hangs());
    facts.add(
        new Fact(
            "Dynamic allowance",
            hung.dynamicAllowance() == null
                ? "none: as if at rest"
                : "times " + hung.dynamicAllowance()));
    facts.add(new Fact("Load in all", words.force(figures.hang().load())));
    facts.add(
        new Fact(
            "Wanted",
            LoadWords.decimals(figures.designFactor(), 1)
                + " times stronger than the load ("
                + (hung.designFactor() == null ? "the ledger's design factor" : "set here")
                + "; Cordage Institute CI 1401: 5 to 12, the low end only with expert knowledge)"));
    add(facts, "Ridge line", hung.ridgeLength());
    add(facts, "Body, flat", hung.flatLength());
    if (figures.edge() != null) {
      facts.add(new Fact("Each edge of the body, at its ends", words.force(figures.edge())));
    }
    return facts;
  }

  private static void add(List<Fact> facts, String what, @Nullable String is) {
    if (is != null) {
      facts.add(new Fact(what, is));
    }
  }

  private static List<ElementRow> elements(RigLoad load, HangFigures figures, LoadWords words) {
    List<ElementRow> rows = new ArrayList<>();
    for (int i = 0; i < load.elements().size(); i++) {
      RigLoad.InPath part = load.elements().get(i);
      Assessment.Checked checked = figures.assessment().checked().get(i);
      rows.add(
          new ElementRow(
              part.part(),
              part.name(),
              part.place().word(),
              checked.load() == null ? "not known" : words.force(checked.load()),
              strength(part, words),
              ends(part),
              checked.factor() == null ? "not known" : words.factor(checked.factor()),
              LoadWords.decimals(checked.wanted(), 1),
              checked.verdict().word()));
    }
    return rows;
  }

  private static String strength(RigLoad.InPath part, LoadWords words) {
    if (part.gone()) {
      return "no longer in this rig";
    }
    if (part.strength() == null) {
      return part.place() == LoadPlace.BAR ? "against bowing out alone" : "not known";
    }
    return words.force(Range.of(part.strength().force().force().newtons()))
        + ", "
        + part.strength().kind().pageWords()
        + (part.strength().material() == null ? "" : " of " + part.strength().material());
  }

  private static String ends(RigLoad.InPath part) {
    if (part.place() == LoadPlace.BAR) {
      return "";
    }
    Termination termination = part.termination();
    String how = termination == null ? "not said" : termination.word();
    return part.factor() == null
        ? how + (part.source() == null ? "" : ": " + part.source())
        : how + ", " + part.factor() + " left: " + part.source();
  }

  private static EndPanel end(
      String id, String title, Hang.End end, Hang.EndLoads loads, double ridge, LoadWords words) {
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Suspension, above the horizontal", words.angle(end.angle())));
    facts.add(new Fact("T, tension of the suspension", words.force(loads.tension())));
    facts.add(new Fact("Pull on the tree, sideways", words.force(loads.horizontal())));
    facts.add(new Fact("Share of the load", words.force(loads.vertical())));
    facts.add(new Fact("B, along the body", words.force(loads.bodyPull())));
    if (ridge > 0) {
      facts.add(new Fact("R, along the ridge line", words.force(Range.of(ridge))));
    }
    Hang.BarLoads bar = loads.bar();
    if (bar != null) {
      facts.add(new Fact("Each leg of the bar", words.force(bar.legTension())));
      facts.add(new Fact("Pressing the bar together", words.force(bar.compression())));
      facts.add(
          new Fact(
              "Bar bows out at",
              bar.bucklingLoad() == null
                  ? "not known"
                  : words.force(bar.bucklingLoad())
                      + (bar.factor() == null ? "" : ", " + words.factor(bar.factor()))));
    }
    return new EndPanel(
        title, facts, ForceDrawing.of(id, title, end, loads, ridge, id.equals("first-end")));
  }

  private static List<Length> lengths(HangLoads.Entry hung, LoadWords words) {
    if (hung.flatLength() == null) {
      return List.of();
    }
    double flat = Range.read(hung.flatLength(), Kind.LENGTH, null).nominal();
    List<Length> lengths = new ArrayList<>();
    for (int degrees = 20; degrees <= 45; degrees += 5) {
      lengths.add(
          new Length(
              degrees + "°",
              words.length(flat * RidgeLine.shareOfFlatLength(Math.toRadians(degrees))),
              words.length(flat * Catenary.spanOverLength(Math.toRadians(degrees)))));
    }
    return lengths;
  }

  private static @Nullable ComesIn comesIn(ComingIn ends, LoadWords words) {
    Range total = ends.total();
    if (total == null) {
      return null;
    }
    List<Gives> rows =
        List.of(
            Gives.of("The body takes its curve", ends.body(), words),
            Gives.of(
                ends.someLines() ? "Lines stretch, those that say" : "Lines stretch",
                ends.lines(),
                words),
            Gives.of("Trees bend in", ends.trees(), words),
            Gives.of("Knots and line settle", ends.settling(), words));
    Range ridge = ends.ridgeLineLonger();
    return new ComesIn(
        rows,
        Gives.of(ends.atLeast() ? "In all, at least" : "In all", total, words),
        "A ridge line that is to be taut under the load is set that much shorter than the ends are apart with nothing in it"
            + (ridge == null
                ? "; what it stretches itself, and is not known, comes on top."
                : ", and by " + words.length(ridge.nominal()) + " more, which it stretches itself.")
            + " The rule of thumb for a bridge with bars is one to two inches in all (common practice, no source).");
  }

  private static RecordOf record(SetUp setUp) {
    SetUps.Entry entry = setUp.entry();
    List<Fact> facts = new ArrayList<>();
    add(facts, "Ridge line, knot to knot", entry.ridgeLength());
    add(facts, "Its mark sits at", entry.ridgeMark());
    add(facts, "Head end, angle", entry.headAngle());
    add(facts, "Head end, out and up", sides(entry.headRun(), entry.headRise()));
    add(facts, "Foot end, angle", entry.footAngle());
    add(facts, "Foot end, out and up", sides(entry.footRun(), entry.footRise()));
    add(facts, "Sag", entry.sag());
    add(facts, "Head strap above the ground", entry.headHeight());
    add(facts, "Foot strap above the ground", entry.footHeight());
    add(facts, "From tree to tree", entry.anchorDistance());
    return new RecordOf(
        setUp.uuid().toString(),
        setUp.hungOn().toString(),
        setUp.favourite(),
        facts,
        entry.words());
  }

  private static @Nullable String sides(@Nullable String run, @Nullable String rise) {
    return run == null || rise == null ? null : run + " out, " + rise + " up";
  }

  private static @Nullable Trees trees(HangFigures figures, List<SetUp> setUps, LoadWords words) {
    for (SetUp setUp : setUps) {
      SetUps.Entry entry = setUp.entry();
      Range angle = setUp.angle();
      if (entry.anchorDistance() == null || entry.ridgeLength() == null || angle == null) {
        continue;
      }
      double distance = Range.read(entry.anchorDistance(), Kind.LENGTH, null).nominal();
      double ridge = Range.read(entry.ridgeLength(), Kind.LENGTH, null).nominal();
      double slope = Math.tan(Math.toRadians(angle.nominal()));
      double rise = (distance - ridge) / 2 * slope;
      List<TreesRow> rows = new ArrayList<>();
      for (double further : new double[] {-1, -0.5, 0, 0.5, 1}) {
        double run = (distance + further - ridge) / 2;
        if (run > 0.05) {
          double degrees = Math.toDegrees(Math.atan2(rise, run));
          double higher = run * slope - rise;
          Assessment there = figures.at(degrees);
          double share = there.leastShare() * figures.designFactor();
          rows.add(
              new TreesRow(
                  words.length(distance + further),
                  LoadWords.decimals(degrees, 1) + "°",
                  words.force(figures.hang().at(degrees).loads().tension()),
                  Double.isInfinite(share)
                      ? "not known"
                      : LoadWords.decimals(Math.floor(share * 100) / 100, 2),
                  Math.abs(higher) < 0.005
                      ? "as it was"
                      : words.length(Math.abs(higher)) + (higher > 0 ? " higher" : " lower")));
        }
      }
      return rows.isEmpty()
          ? null
          : new Trees(
              "With the record of "
                  + setUp.hungOn()
                  + ", its ridge line and its straps at the same height, level ends taken",
              rows);
    }
    return null;
  }

  /** Codes in a row, for a sentence. */
  public String unsaidCodes() {
    return String.join(", ", unsaid);
  }
}
