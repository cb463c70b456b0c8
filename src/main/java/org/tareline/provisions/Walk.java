package org.tareline.provisions;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.provisions.Reckoning.Coefficient;
import org.tareline.provisions.Reckoning.Formula;
import org.tareline.provisions.Reckoning.Sum;

/** How long walking takes and what it costs. */
public final class Walk {

  private static final double MILE = 1609.344;
  private static final double FOOT = 0.3048;
  private static final double LONGEST_DAY = 24;

  /** Rise over way; steeper, one climbs. The limit is ours: none is published. */
  private static final double STEEPEST = 0.5;

  private static final String NO_LIMITS =
      "Fit walkers on fair ground, without rests; load and weather count for nothing. No limits are"
          + " published; no figure is given here for more than 24 h or where ups and downs come to"
          + " more than half of the way.";

  private static final List<Coefficient> LANGMUIR =
      List.of(
          new Coefficient("less for 300 m down at 5° to 12°", 10, "min", "Langmuir, from memory"),
          new Coefficient(
              "more for 300 m down, steeper than 12°", 10, "min", "Langmuir, from memory"));

  private static final Formula METRIC =
      new Formula(
          "Naismith’s rule, metric, with Langmuir’s corrections",
          "hours = distance ÷ 5 km + ascent ÷ 600 m − gentle descent ÷ 300 m × 10 min + steep descent ÷"
              + " 300 m × 10 min",
          both(
              new Coefficient("level way in an hour", 5, "km", "common practice, no source"),
              new Coefficient("ascent in an hour", 600, "m", "common practice, no source")),
          NO_LIMITS,
          "Naismith, Scottish Mountaineering Club Journal II (1892), 136, in the metric form in general"
              + " use; descents: Langmuir, Mountaincraft and Leadership; both from memory");

  private static final Formula ORIGINAL =
      new Formula(
          "Naismith’s rule as first printed",
          "hours = distance ÷ 3 mi + ascent ÷ 2000 ft",
          List.of(
              new Coefficient("level way in an hour", 3, "mi", "Naismith 1892"),
              new Coefficient("ascent in an hour", 2000, "ft", "Naismith 1892")),
          NO_LIMITS + " It says nothing of descents.",
          "Naismith, Scottish Mountaineering Club Journal II (1892), 136; from memory");

  private static final Formula TOBLER =
      new Formula(
          "Tobler’s hiking function",
          "speed = 6 km/h × exp(−3.5 × |slope + 0.05|)",
          List.of(
              new Coefficient("speed at its fastest", 6, "km/h", "Tobler 1993"),
              new Coefficient("steepness", 3.5, "1", "Tobler 1993"),
              new Coefficient("slope where that is", -0.05, "1", "Tobler 1993")),
          "A path, one slope, no load. No limits are published; no figure is given here beyond a slope of"
              + " 50 %.",
          "Tobler, NCGIA Technical Report 93-1 (1993); from memory");

  private static final Formula PANDOLF =
      new Formula(
          "Pandolf, Givoni and Goldman 1977",
          "M = 1.5 W + 2.0 (W + L)(L/W)² + η (W + L)(1.5 V² + 0.35 V G), in watts",
          List.of(
              new Coefficient("standing", 1.5, "W/kg", "Pandolf et al. 1977"),
              new Coefficient("load on a standing body", 2.0, "W/kg", "Pandolf et al. 1977"),
              new Coefficient("speed squared", 1.5, "W s²/(kg m²)", "Pandolf et al. 1977"),
              new Coefficient("speed times grade in %", 0.35, "W s/(kg m)", "Pandolf et al. 1977")),
          "Standing, and walking on the level and uphill: grade 0 or more, to 25 %; to 9 km/h; loads to"
              + " 70 kg (Givoni and Goldman 1971, from memory). It is known to say too little for heavy"
              + " loads, and was measured on soldiers.",
          "J. Appl. Physiol. 43(4), 577 to 581 (1977); η by Soule and Goldman, J. Appl. Physiol. 32, 706"
              + " (1972)");

  private static final Formula LCDA =
      new Formula(
          "LCDA walking equation, without load",
          "M ÷ body mass = 1.44 + 1.94 S^0.43 + 0.24 S⁴ + 0.34 S G (1 − 1.05^(1 − 1.1^(G + 32))), in W/kg",
          List.of(
              new Coefficient("standing", 1.44, "W/kg", "Looney et al. 2019"),
              new Coefficient("speed to the power of 0.43", 1.94, "1", "Looney et al. 2019"),
              new Coefficient("speed to the power of 4", 0.24, "1", "Looney et al. 2019"),
              new Coefficient("speed times grade in %", 0.34, "1", "Looney et al. 2019")),
          "Walking without a load, up and down. The range of the paper was not seen; a figure is given"
              + " here to 1.5 m/s and from −10 % to 10 %, where the formula was checked.",
          "Looney et al., Med. Sci. Sports Exerc. (2019), PMID 30973477");

  private Walk() {}

  private static List<Coefficient> both(Coefficient... naismith) {
    return Stream.concat(Stream.of(naismith), LANGMUIR.stream()).toList();
  }

  /**
   * Hours of a day's way.
   *
   * @param distance in m
   * @param ascent all of it together, in m
   * @param gentle descent on slopes of 5° to 12°, in m
   * @param steep descent on slopes above 12°, in m
   */
  public static Reckoning naismith(double distance, double ascent, double gentle, double steep) {
    Sum sum = new Sum("naismith", METRIC);
    double level = distance / 5000;
    double up = ascent / 600;
    double saved = gentle / 300 / 6;
    double lost = steep / 300 / 6;
    double hours = level + up - saved + lost;
    String outside = outside(distance, ascent + gentle + steep, hours);
    if (outside != null) {
      return sum.outside(outside);
    }
    sum.step("along", Reckoning.said(distance / 1000) + " km ÷ 5 km/h", level, "h");
    sum.step("up", Reckoning.said(ascent) + " m ÷ 600 m/h", up, "h");
    if (gentle > 0) {
      sum.step("down, gently", "− " + Reckoning.said(gentle) + " m ÷ 300 m × 10 min", -saved, "h");
    }
    if (steep > 0) {
      sum.step("down, steeply", Reckoning.said(steep) + " m ÷ 300 m × 10 min", lost, "h");
    }
    sum.result("time on the move", "together", hours, "h");
    sum.result(
        "mean speed",
        Reckoning.said(distance / 1000) + " km ÷ " + Reckoning.said(hours) + " h",
        distance / 1000 / hours,
        "km/h");
    return sum.done();
  }

  /** The same by the rule as it was first printed, in miles and feet; it knows no descents. */
  public static Reckoning naismithOf1892(double distance, double ascent) {
    Sum sum = new Sum("naismith-1892", ORIGINAL);
    double level = distance / MILE / 3;
    double up = ascent / FOOT / 2000;
    String outside = outside(distance, ascent, level + up);
    if (outside != null) {
      return sum.outside(outside);
    }
    sum.step("along", Reckoning.said(distance / MILE) + " mi ÷ 3 mi/h", level, "h");
    sum.step("up", Reckoning.said(ascent / FOOT) + " ft ÷ 2000 ft/h", up, "h");
    sum.result("time on the move", "together", level + up, "h");
    return sum.done();
  }

  private static @Nullable String outside(double distance, double upAndDown, double hours) {
    if (!(distance > 0 && upAndDown <= STEEPEST * distance)) {
      return "ups and downs come to more than half of the way.";
    }
    return hours > 0 && hours <= LONGEST_DAY
        ? null
        : "it comes to " + Reckoning.said(hours) + " h, and a day has 24.";
  }

  /**
   * Speed on a path.
   *
   * @param slope rise over way, below 0 downhill
   */
  public static Reckoning tobler(double slope) {
    Sum sum = new Sum("tobler", TOBLER);
    if (!(Math.abs(slope) <= STEEPEST)) {
      return sum.outside("the slope is steeper than 50 %.");
    }
    sum.result(
        "speed",
        "6 km/h × exp(−3.5 × |" + Reckoning.said(slope) + " + 0.05|)",
        6 * Math.exp(-3.5 * Math.abs(slope + 0.05)),
        "km/h");
    return sum.done();
  }

  /**
   * What walking with a load costs.
   *
   * @param hours on the way; not a number where they are not known
   * @param body in kg
   * @param load in kg
   * @param speed in m/s
   * @param grade in per cent
   * @param terrain factor of the ground
   */
  public static Reckoning pandolf(
      double body, double load, double speed, double grade, double terrain, double hours) {
    Sum sum = new Sum("pandolf", PANDOLF);
    if (!(grade >= 0 && grade <= 25)) {
      return sum.outside("it is of level and rising ground up to 25 %.");
    }
    if (!(speed <= 2.5)) {
      return sum.outside("it is of walking, up to 9 km/h.");
    }
    if (!(load <= 70)) {
      return sum.outside("it is of loads up to 70 kg.");
    }
    double all = body + load;
    String mass = "(" + Reckoning.said(body) + " kg + " + Reckoning.said(load) + " kg)";
    double standing =
        sum.step("standing", "1.5 × " + Reckoning.said(body) + " kg", 1.5 * body, "W");
    double bearing =
        sum.step(
            "bearing the load",
            "2.0 × " + mass + " × (" + Reckoning.said(load) + " ÷ " + Reckoning.said(body) + ")²",
            2.0 * all * (load / body) * (load / body),
            "W");
    double walking =
        sum.step(
            "walking",
            Reckoning.said(terrain)
                + " × "
                + mass
                + " × (1.5 × "
                + Reckoning.said(speed)
                + "² + 0.35 × "
                + Reckoning.said(speed)
                + " × "
                + Reckoning.said(grade)
                + ")",
            terrain * all * (1.5 * speed * speed + 0.35 * speed * grade),
            "W");
    return cost(sum, standing + bearing + walking, hours);
  }

  /**
   * What walking without a load costs, downhill too.
   *
   * @param hours on the way; not a number where they are not known
   * @param body in kg
   * @param speed in m/s
   * @param grade in per cent
   */
  public static Reckoning lcda(double body, double speed, double grade, double hours) {
    Sum sum = new Sum("lcda", LCDA);
    if (!(speed <= 1.5 && Math.abs(grade) <= 10)) {
      return sum.outside("it was checked to 1.5 m/s and from −10 % to 10 %.");
    }
    double level =
        sum.step(
            "on the level",
            "1.44 + 1.94 × "
                + Reckoning.said(speed)
                + "^0.43 + 0.24 × "
                + Reckoning.said(speed)
                + "⁴",
            1.44 + 1.94 * Math.pow(speed, 0.43) + 0.24 * Math.pow(speed, 4),
            "W/kg");
    double slope =
        sum.step(
            "for the slope",
            "0.34 × "
                + Reckoning.said(speed)
                + " × "
                + Reckoning.said(grade)
                + " × (1 − 1.05^(1 − 1.1^("
                + Reckoning.said(grade)
                + " + 32)))",
            0.34 * speed * grade * (1 - Math.pow(1.05, 1 - Math.pow(1.1, grade + 32))),
            "W/kg");
    return cost(sum, sum.step("for each kg of body", "both", level + slope, "W/kg") * body, hours);
  }

  private static Reckoning cost(Sum sum, double watts, double hours) {
    sum.result("power of the body", "together", watts, "W");
    double hourly =
        sum.result(
            "energy in an hour",
            Reckoning.said(watts) + " W × 3.6 kJ/(W h) ÷ " + Food.KILOCALORIE + " kJ/kcal",
            watts * 3.6 / Food.KILOCALORIE,
            "kcal");
    if (!Double.isNaN(hours)) {
      double way =
          sum.result(
              "energy of the way",
              Reckoning.said(hourly) + " kcal/h × " + Reckoning.said(hours) + " h",
              hourly * hours,
              "kcal");
      sum.result(
          "energy of the way, in kJ",
          Reckoning.said(way) + " kcal × " + Food.KILOCALORIE,
          way * Food.KILOCALORIE,
          "kJ");
    }
    return sum.done();
  }
}
