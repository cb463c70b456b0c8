package org.tareline.trip.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.rollup.Assembly;
import org.tareline.site.Figure;
import org.tareline.trip.HeldToTarget;
import org.tareline.units.MassStyle;

/**
 * The base weight against what it is to be at most, and what to look at first.
 *
 * @param target as typed
 */
record TargetPanel(String target, String words, List<Row> rows) {

  /**
   * A thing worth a look.
   *
   * @param code of the part; null of a free item
   * @param within the rig it is in, in words; null where it is the line's own thing
   * @param reasons as sentences
   * @param lighter null where nothing is
   */
  record Row(
      @Nullable String code,
      @Nullable String count,
      String name,
      @Nullable String within,
      String mass,
      List<String> reasons,
      @Nullable Lighter lighter) {}

  /**
   * What is lighter and at hand.
   *
   * @param strength what is to be said before grams are; null where nothing is
   */
  record Lighter(@Nullable String strength, String code, String name, String words) {}

  static TargetPanel of(HeldToTarget held, MassStyle style) {
    return new TargetPanel(
        held.target().typed().matches(".*[0-9]")
            ? held.target().typed() + " g"
            : held.target().typed(),
        held.words(style),
        held.lookAtFirst().stream().map(of -> row(of, style)).toList());
  }

  private static Row row(HeldToTarget.Thing of, MassStyle style) {
    List<String> reasons = new ArrayList<>();
    if (of.share() != null) {
      reasons.add(
          new BigDecimal(100 * of.share()).setScale(0, RoundingMode.HALF_EVEN).toPlainString()
              + "\u00a0% of base.");
    }
    if (of.useless() != null) {
      int trips = of.useless().trips();
      reasons.add(
          "Not used on "
              + of.useless().unused()
              + " of "
              + trips
              + (trips == 1 ? " trip" : " trips")
              + " with it.");
    }
    Assembly rig = of.thing().rig();
    return new Row(
        of.thing().code(),
        TripPage.count(of.thing().quantity()),
        of.thing().piece().name(),
        rig == null ? null : "in " + rig.name(),
        of.mass() == null ? "not weighed" : Figure.of(of.mass(), style).sentence(),
        reasons,
        of.lighter() == null ? null : lighter(of.lighter(), style));
  }

  private static Lighter lighter(HeldToTarget.Lighter lighter, MassStyle style) {
    return new Lighter(
        lighter.strength() == null
            ? null
            : Objects.requireNonNull(lighter.strength()).pageWords() + ": ",
        lighter.part().code(),
        lighter.part().name(),
        "is owned and lighter by "
            + Figure.of(lighter.saves(), style).sentence()
            + (lighter.sameRole()
                ? "."
                : "; it is for the same system, and whether it does the same is yours to say."));
  }
}
