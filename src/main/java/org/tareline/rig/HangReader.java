package org.tareline.rig;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.material.StrengthKind;
import org.tareline.site.Faults;
import org.tareline.statics.Assessment;
import org.tareline.statics.Element;
import org.tareline.statics.Hang;
import org.tareline.statics.RidgeLine;
import org.tareline.statics.ShallowLine;
import org.tareline.statics.Supports;
import org.tareline.units.Kind;
import org.tareline.units.Range;

/** Reads a hang as somebody typed it, says all that is wrong with it, and works it out. */
public final class HangReader {

  /** Standard gravity, in m/s² (ISO 80000-3). */
  static final double GRAVITY = 9.80665;

  /** Both ends must ask for the same tension of the ridge line, to this share of it. */
  private static final double RIDGE_AGREES = 0.01;

  private static final int MOST_ELEMENTS = 200;

  /** In m: what gives more is not to be hung from. */
  private static final double MOST_GIVEN = 1;

  private final Faults faults;

  HangReader(Faults faults) {
    this.faults = faults;
  }

  /**
   * Reads a hang and works it out.
   *
   * @param designFactor where the entry says none
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  public static HangFigures figures(HangEntry entry, double designFactor) {
    Faults faults = new Faults();
    HangReader reader = new HangReader(faults);
    Range load = reader.load("load", entry.load());
    Range allowance = reader.factor("dynamicAllowance", entry.dynamicAllowance(), "allowance", 1);
    Range wanted =
        reader.factor("designFactor", entry.designFactor(), "design factor", designFactor);
    List<Hang.End> ends = reader.ends(entry.ends(), null);
    List<Element> elements = reader.elements(entry.elements(), ends);
    Range span =
        entry.bodyEdge() == null
            ? null
            : reader.length("bodyEdge.span", entry.bodyEdge().span(), "the span");
    Range sag =
        entry.bodyEdge() == null
            ? null
            : reader.length("bodyEdge.sag", entry.bodyEdge().sag(), "the sag");
    if (entry.bodyEdge() == null) {
      reader.refuseEdges(elements);
    }
    faults.refuseIfAny();
    Hang hang = new Hang(Objects.requireNonNull(load).times(allowance), ends.get(0), ends.get(1));
    refuseUnlikeRidges(hang, faults);
    faults.refuseIfAny();
    return figures(hang, span, sag, elements, wanted.nominal());
  }

  /**
   * Reads how a rig is hung and works it out.
   *
   * @param elements that have been read, in their order
   * @param designFactor where the entry says none
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  static HangFigures figures(RigLoads.Entry entry, List<Element> elements, double designFactor) {
    Faults faults = new Faults();
    HangReader reader = new HangReader(faults);
    Range lies = reader.load("lies", entry.lies());
    String hangsTyped = faults.optionalText("hangs", entry.hangs(), "what hangs with them", 200);
    Range hangs = hangsTyped == null ? null : reader.load("hangs", hangsTyped);
    Range allowance = reader.factor("dynamicAllowance", entry.dynamicAllowance(), "allowance", 1);
    Range wanted =
        reader.factor("designFactor", entry.designFactor(), "design factor", designFactor);
    Range ridgeAngle = reader.ridgeAngle(entry);
    List<Hang.End> ends = reader.ends(entry.ends(), ridgeAngle);
    for (int i = 0; i < elements.size(); i++) {
      reader.refuseWithout("elements[" + i + "].where", elements.get(i).place(), ends);
    }
    boolean edged = isGiven(entry.edgeSpan()) || isGiven(entry.edgeSag());
    Range span = edged ? reader.length("bodyEdge.span", entry.edgeSpan(), "the span") : null;
    Range sag = edged ? reader.length("bodyEdge.sag", entry.edgeSag(), "the sag") : null;
    if (!edged) {
      reader.refuseEdges(elements);
    }
    reader.given("gives.tree", entry.treeGives(), "how far a tree gives");
    reader.given("gives.settling", entry.settles(), "how much an end settles");
    faults.refuseIfAny();
    Range load = Objects.requireNonNull(lies);
    Hang hang =
        new Hang(
            (hangs == null ? load : load.plus(hangs)).times(allowance), ends.get(0), ends.get(1));
    refuseUnlikeRidges(hang, faults);
    faults.refuseIfAny();
    return figures(hang, span, sag, elements, wanted.nominal());
  }

  /** The angle of the body's ends by the ridge line and the flat length, in deg, or null. */
  private @Nullable Range ridgeAngle(RigLoads.Entry entry) {
    if (!isGiven(entry.ridgeLength()) && !isGiven(entry.flatLength())) {
      return null;
    }
    Range ridge = length("ridgeLine.length", entry.ridgeLength(), "the length of the ridge line");
    Range flat = length("ridgeLine.flatLength", entry.flatLength(), "the flat length of the body");
    if (ridge == null || flat == null) {
      return null;
    }
    if (ridge.high() >= flat.low()) {
      faults.add(
          "ridgeLine.length",
          "Give a ridge line shorter than the body is when it lies flat, with their ±.");
      return null;
    }
    return ridge.over(flat).map(share -> Math.toDegrees(RidgeLine.angleAtShare(share)));
  }

  /** What a hang carries, with its elements held against it. */
  static HangFigures figures(
      Hang hang,
      @Nullable Range span,
      @Nullable Range sag,
      List<Element> elements,
      double designFactor) {
    Hang.Loads loads = hang.loads();
    Range edge = null;
    Range horizontal = null;
    if (span != null && sag != null) {
      ShallowLine nominal = ShallowLine.edge(1, span.nominal(), sag.nominal());
      ShallowLine least = ShallowLine.edge(1, span.low(), sag.high());
      ShallowLine most = ShallowLine.edge(1, span.high(), sag.low());
      edge =
          Range.spanning(nominal.greatest(), least.greatest(), most.greatest()).times(hang.load());
      horizontal =
          Range.spanning(nominal.horizontal(), least.horizontal(), most.horizontal())
              .times(hang.load());
    }
    return new HangFigures(
        hang,
        loads,
        edge,
        horizontal,
        designFactor,
        Assessment.of(loads, edge, elements, designFactor));
  }

  static void refuseUnlikeRidges(Hang hang, Faults faults) {
    Hang.Loads loads = hang.loads();
    Range first = loads.first().ridge();
    Range second = loads.second().ridge();
    if (first != null && second != null) {
      double apart = Math.abs(first.nominal() - second.nominal());
      if (apart > RIDGE_AGREES * Math.max(first.nominal(), second.nominal())) {
        faults.add(
            "ends[1].bodyAngle",
            "Give body angles that go together: by the first end the ridge line carries "
                + newtons(first)
                + ", by the second "
                + newtons(second)
                + ", and it is one line. Or leave one of them out.");
      }
    }
  }

  private static String newtons(Range force) {
    return String.format(Locale.ROOT, "%.1f N", force.nominal());
  }

  /**
   * Reads a shallow line: its sag, or what pulls it sideways.
   *
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  public static LineFigures shallowLine(
      @Nullable String span,
      @Nullable String perLength,
      @Nullable String sag,
      @Nullable String horizontal) {
    Faults faults = new Faults();
    HangReader reader = new HangReader(faults);
    Range across = reader.length("span", span, "the span");
    String text = faults.text("perLength", perLength, "the load per length, such as 12 N/m", 200);
    Range load =
        text.isEmpty()
            ? null
            : reader.positive(
                "perLength",
                faults.read(
                    "perLength", () -> weight(text, Kind.LINE_DENSITY, Kind.FORCE_PER_LENGTH)),
                "a load per length");
    Range below = reader.optional("sag", sag, Kind.LENGTH, "a sag");
    Range pull = reader.optional("horizontal", horizontal, Kind.FORCE, "a pull");
    if (isGiven(sag) == isGiven(horizontal)) {
      faults.add("sag", "Give the sag, or the horizontal pull, one of the two.");
    }
    faults.refuseIfAny();
    return LineFigures.of(
        Objects.requireNonNull(load), Objects.requireNonNull(across), below, pull);
  }

  /** A load in N, of a mass or of a force. */
  @Nullable Range load(String field, @Nullable String typed) {
    String text = faults.text(field, typed, "the load, such as 89.6 kg", 200);
    if (text.isEmpty()) {
      return null;
    }
    return positive(field, faults.read(field, () -> weight(text, Kind.MASS, Kind.FORCE)), "a load");
  }

  /** A force, or what something weighs whose mass is given in grams or their like. */
  private static Range weight(String text, Kind mass, Kind force) {
    return Range.kindOf(text) == force
        ? Range.read(text, force, null)
        : Range.read(text, mass, null).times(GRAVITY / 1000);
  }

  private Range factor(String field, @Nullable String typed, String what, double missing) {
    String text = faults.optionalText(field, typed, "the " + what, 60);
    Range read =
        text == null ? Range.of(missing) : faults.read(field, () -> Range.readNumber(text));
    if (read == null) {
      return Range.ONE;
    }
    if (read.low() < 1 || read.high() > 100) {
      faults.add(field, "Give the " + what + " as a number from 1 to 100; read \"" + text + "\".");
    }
    return read;
  }

  /**
   * Reads the ends.
   *
   * @param ridgeAngle of the body by its ridge line: what the first end says nothing of its own
   *     about, the second follows by the balance of both; and, where an end says no angle at all,
   *     its suspension hangs so, the ridge line just taut
   */
  private List<Hang.End> ends(
      @Nullable List<HangEntry.@Nullable EndEntry> entries, @Nullable Range ridgeAngle) {
    if (entries == null || entries.size() != 2) {
      faults.add(
          "ends",
          "Give the two ends, each with an angle such as 30 deg, or with a run and a rise.");
      return List.of();
    }
    List<Hang.End> ends = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      HangEntry.EndEntry entry = entries.get(i);
      String field = "ends[" + i + "]";
      if (entry == null) {
        faults.add(field, "Give an end: an angle, or a run and a rise.");
        continue;
      }
      boolean silent = !isGiven(entry.angle()) && !isGiven(entry.run()) && !isGiven(entry.rise());
      Range angle = silent && ridgeAngle != null ? ridgeAngle : angle(field, entry);
      String body =
          faults.optionalText(field + ".bodyAngle", entry.bodyAngle(), "the body angle", 200);
      ends.add(
          new Hang.End(
              angle == null ? Range.of(45) : angle,
              body != null ? upright(field + ".bodyAngle", body) : i == 0 ? ridgeAngle : null,
              entry.bar() == null ? null : bar(field + ".bar", entry.bar())));
    }
    return ends;
  }

  private @Nullable Range angle(String field, HangEntry.EndEntry entry) {
    String angle = faults.optionalText(field + ".angle", entry.angle(), "the angle", 200);
    boolean sides = isGiven(entry.run()) || isGiven(entry.rise());
    if (angle != null) {
      if (sides) {
        faults.add(field + ".angle", "Give the angle, or the run and the rise, not both.");
      }
      return upright(field + ".angle", angle);
    }
    if (!sides) {
      faults.add(
          field + ".angle",
          "Give the angle above the horizontal, such as 30 deg, or the run and the rise.");
      return null;
    }
    return bySides(
        length(field + ".run", entry.run(), "the run"),
        length(field + ".rise", entry.rise(), "the rise"));
  }

  private static @Nullable Range bySides(@Nullable Range run, @Nullable Range rise) {
    return run == null || rise == null
        ? null
        : Range.spanning(
            degrees(run.nominal(), rise.nominal()),
            degrees(run.high(), rise.low()),
            degrees(run.low(), rise.high()));
  }

  /** An angle, or a run and a rise, or neither: whatever is there has to read. */
  @Nullable Range angleOrSides(
      String holder, @Nullable String angle, @Nullable String run, @Nullable String rise) {
    String typed = faults.optionalText(holder + "Angle", angle, "the angle", 200);
    if (typed != null) {
      if (isGiven(run) || isGiven(rise)) {
        faults.add(holder + "Angle", "Give the angle, or the run and the rise, not both.");
      }
      return upright(holder + "Angle", typed);
    }
    return isGiven(run) || isGiven(rise)
        ? bySides(length(holder + "Run", run, "the run"), length(holder + "Rise", rise, "the rise"))
        : null;
  }

  /** A length that may be left out. */
  @Nullable Range optionalLength(String field, @Nullable String typed, String what) {
    return optional(field, typed, Kind.LENGTH, what);
  }

  private static double degrees(double run, double rise) {
    return Math.toDegrees(Supports.angle(run, rise));
  }

  private static boolean isGiven(@Nullable String typed) {
    return typed != null && !typed.isBlank();
  }

  /** An angle above the horizontal, short of the vertical. */
  private @Nullable Range upright(String field, String text) {
    Range read = faults.read(field, () -> Range.read(text, Kind.ANGLE, null));
    if (read != null && !(read.low() > 0 && read.high() < 90)) {
      faults.add(
          field,
          "Give an angle of more than 0 and less than 90 deg, with its ±; read \""
              + Faults.shortened(text)
              + "\".");
      return null;
    }
    return read;
  }

  @Nullable Range length(String field, @Nullable String typed, String what) {
    String text = faults.text(field, typed, what, 200);
    return text.isEmpty()
        ? null
        : positive(field, faults.read(field, () -> Range.read(text, Kind.LENGTH, null)), what);
  }

  private @Nullable Range optional(String field, @Nullable String typed, Kind kind, String what) {
    String text = faults.optionalText(field, typed, what, 200);
    return text == null
        ? null
        : positive(field, faults.read(field, () -> Range.read(text, kind, null)), what);
  }

  /** A length of nothing or more, which may be left out. */
  private void given(String field, @Nullable String typed, String what) {
    String text = faults.optionalText(field, typed, what, 200);
    Range read =
        text == null ? null : faults.read(field, () -> Range.read(text, Kind.LENGTH, null));
    if (read != null && (read.low() < 0 || read.high() > MOST_GIVEN)) {
      faults.add(field, "Give " + what + " as a length from 0 to 1 m, with its ±.");
    }
  }

  private @Nullable Range positive(String field, @Nullable Range read, String what) {
    if (read != null && !(read.low() > 0)) {
      faults.add(field, "Give " + what + " of more than zero, with its ±.");
      return null;
    }
    return read;
  }

  private Hang.@Nullable Bar bar(String field, HangEntry.BarEntry entry) {
    Range length = length(field + ".length", entry.length(), "the length of the bar");
    Range leg = optional(field + ".leg", entry.leg(), Kind.LENGTH, "the length of a leg");
    Range distance =
        optional(
            field + ".apexDistance",
            entry.apexDistance(),
            Kind.LENGTH,
            "the distance from the apex to the bar");
    if (isGiven(entry.leg()) == isGiven(entry.apexDistance())) {
      faults.add(
          field + ".leg",
          "Give the length of a leg, or the distance from the apex to the bar, one of the two.");
    } else if (leg != null && length != null && leg.low() <= length.high() / 2) {
      faults.add(
          field + ".leg", "Give legs longer than half the bar, with their ±: these do not reach.");
      leg = null;
    }
    Range edge = edgeAngle(field + ".edgeAngle", entry.edgeAngle());
    Hang.Section section = section(field, entry);
    if (length == null || leg == null && distance == null) {
      return null;
    }
    return leg != null
        ? Hang.Bar.ofLegs(length, leg, edge, section)
        : Hang.Bar.ofApexDistance(length, Objects.requireNonNull(distance), edge, section);
  }

  private Range edgeAngle(String field, @Nullable String typed) {
    String text = faults.optionalText(field, typed, "the angle of the edge", 200);
    Range read = text == null ? null : faults.read(field, () -> Range.read(text, Kind.ANGLE, null));
    if (read != null && !(read.low() > -90 && read.high() < 90)) {
      faults.add(field, "Give an angle between -90 and 90 deg to the axis, with its ±.");
      read = null;
    }
    return read == null ? Range.of(0) : read;
  }

  private Hang.@Nullable Section section(String field, HangEntry.BarEntry entry) {
    Range diameter =
        optional(
            field + ".outerDiameter", entry.outerDiameter(), Kind.LENGTH, "the outer diameter");
    Range wall = optional(field + ".wall", entry.wall(), Kind.LENGTH, "the wall");
    Range modulus =
        optional(field + ".modulus", entry.modulus(), Kind.MODULUS, "the modulus of elasticity");
    Range yield =
        optional(field + ".yield", entry.yield(), Kind.MODULUS, "the stress it yields at");
    if (diameter != null && wall != null && wall.high() > diameter.low() / 2) {
      faults.add(field + ".wall", "Give a wall of at most half the outer diameter, with their ±.");
      return null;
    }
    if (isGiven(entry.modulus()) != isGiven(entry.outerDiameter())) {
      faults.add(
          field + (isGiven(entry.modulus()) ? ".outerDiameter" : ".modulus"),
          "Give the outer diameter and the modulus of elasticity together, or neither.");
    } else if (isGiven(entry.wall()) && !isGiven(entry.outerDiameter())) {
      faults.add(field + ".outerDiameter", "Give the outer diameter that the wall belongs to.");
    }
    return diameter == null || modulus == null
        ? null
        : new Hang.Section(diameter, wall, modulus, yield);
  }

  private List<Element> elements(
      @Nullable List<HangEntry.@Nullable ElementEntry> entries, List<Hang.End> ends) {
    List<Element> elements = new ArrayList<>();
    if (entries == null) {
      return elements;
    }
    if (entries.size() > MOST_ELEMENTS) {
      faults.add("elements", "Give at most " + MOST_ELEMENTS + " elements.");
      return elements;
    }
    for (int i = 0; i < entries.size(); i++) {
      HangEntry.ElementEntry entry = entries.get(i);
      String field = "elements[" + i + "]";
      if (entry == null) {
        faults.add(field, "Give an element: a name and, where it is known, its strength.");
        continue;
      }
      LoadPlace place = place(field + ".where", entry.where());
      refuseWithout(field + ".where", place.place(), ends);
      StrengthKind kind =
          StrengthKind.read(faults, field + ".", entry.strength(), entry.strengthKind());
      elements.add(
          new Element(
              faults.text(field + ".name", entry.name(), "a name", 200),
              place.place(),
              optional(field + ".strength", entry.strength(), Kind.FORCE, "a strength"),
              kind == StrengthKind.WORKING_LOAD_LIMIT,
              termination(field + ".termination", entry.termination())));
    }
    return elements;
  }

  LoadPlace place(String field, @Nullable String typed) {
    String word = faults.optionalText(field, typed, "the place", 60);
    if (word == null) {
      return LoadPlace.LINE;
    }
    Optional<LoadPlace> place = LoadPlace.of(word);
    if (place.isEmpty()) {
      faults.add(
          field, "Say one of " + LoadPlace.words() + "; read \"" + Faults.shortened(word) + "\".");
    }
    return place.orElse(LoadPlace.LINE);
  }

  private void refuseWithout(String field, Element.Place place, List<Hang.End> ends) {
    boolean bars = ends.stream().anyMatch(end -> end.bar() != null);
    boolean ridge = ends.stream().anyMatch(end -> end.bodyAngle() != null);
    if (faults.none() && !bars && (place == Element.Place.LEG || place == Element.Place.BAR)) {
      faults.add(
          field, "Give the bar of an end: without one there are no legs and nothing to press.");
    } else if (faults.none() && !ridge && place == Element.Place.RIDGE_LINE) {
      faults.add(field, "Give the body angle of an end: it says what the ridge line carries.");
    }
  }

  private void refuseEdges(List<Element> elements) {
    for (int i = 0; i < elements.size(); i++) {
      if (elements.get(i).place() == Element.Place.BODY_EDGE) {
        faults.add(
            "elements[" + i + "].where", "Give the span and the sag of the edge under bodyEdge.");
      }
    }
  }

  Range termination(String field, @Nullable String typed) {
    String text = faults.optionalText(field, typed, "what the ends leave of it", 60);
    Range read = text == null ? Range.ONE : faults.read(field, () -> Range.readNumber(text));
    if (read != null && !(read.low() > 0 && read.high() <= 1)) {
      faults.add(
          field,
          "Give what the ends leave of the strength as a number of more than 0 and at most 1, with its ±, such as 0.85.");
    }
    return read == null || !(read.low() > 0) ? Range.ONE : read;
  }
}
