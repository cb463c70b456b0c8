package org.tareline.material.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;
import org.tareline.material.MassPer;
import org.tareline.material.Nominal;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * A mass per area, per length or of one as a page shows it: in grams, or in ounces where its reader
 * picked a style of ounces or pounds. The uncertainty has one figure, or two where the first is a
 * 1.
 *
 * @param exact in g/m², g/m or g, for {@code <data value>}
 * @param sentence with its unit and uncertainty
 */
record PerFigure(String exact, String number, String plusMinus, String unit, String sentence) {

  private static final int MOST_DECIMALS = 6;

  /** A figure by itself. */
  static PerFigure of(MassPer mass, MassStyle style) {
    return of(mass, style, decimals(mass, style));
  }

  /** A figure in a column whose figures all have so many decimals. */
  static PerFigure of(MassPer mass, MassStyle style, int decimals) {
    Unit unit = unit(mass.per(), style);
    BigDecimal value = in(unit, mass.per(), mass.grams());
    BigDecimal uncertainty = uncertaintyIn(mass, style);
    String number = value.setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
    String plusMinus =
        "± " + uncertainty.setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
    String with = "\u00a0" + unit.symbol();
    return new PerFigure(
        mass.grams().stripTrailingZeros().toPlainString(),
        number,
        plusMinus,
        unit.symbol(),
        number + with + " " + plusMinus + with);
  }

  /** A standard deviation of the same, by itself, to two figures. */
  static String uncertainty(double grams, Per per, MassStyle style) {
    Unit unit = unit(per, style);
    return in(unit, per, new BigDecimal(grams)).round(new MathContext(2)).toPlainString()
        + "\u00a0"
        + unit.symbol();
  }

  /**
   * A difference without its sign, to two figures of its uncertainty, so that what can just be told
   * does not read as 2 ± 2.
   */
  static PerFigure ofDifference(Per per, Estimate difference, MassStyle style) {
    MassPer size =
        new MassPer(per, difference.value().signum() < 0 ? difference.times(-1) : difference);
    return of(size, style, decimals(size, style, 2));
  }

  private static BigDecimal in(Unit unit, Per per, BigDecimal grams) {
    return grams.divide(
        new BigDecimal(Quantity.of("1", unit).in(Nominal.unit(per)).value()),
        MathContext.DECIMAL64);
  }

  /** As many as the uncertainty asks for: one figure of it, or two where the first is a 1. */
  static int decimals(MassPer mass, MassStyle style) {
    boolean beginsWithOne =
        uncertaintyIn(mass, style)
            .round(new MathContext(2))
            .unscaledValue()
            .toString()
            .startsWith("1");
    return decimals(mass, style, beginsWithOne ? 2 : 1);
  }

  /** Enough to show so many figures of the uncertainty. */
  static int decimals(MassPer mass, MassStyle style, int figures) {
    BigDecimal shown = uncertaintyIn(mass, style).round(new MathContext(figures));
    int decimals =
        shown.signum() == 0 ? MOST_DECIMALS : figures - shown.precision() + shown.scale();
    return Math.max(0, Math.min(decimals, MOST_DECIMALS));
  }

  private static BigDecimal uncertaintyIn(MassPer mass, MassStyle style) {
    return in(unit(mass.per(), style), mass.per(), new BigDecimal(mass.expandedUncertainty()));
  }

  private static Unit unit(Per per, MassStyle style) {
    boolean metric = style.alone().unit() != Unit.OUNCE;
    return switch (per) {
      case SQUARE_METRE -> metric ? Unit.GRAM_PER_SQUARE_METRE : Unit.OUNCE_PER_SQUARE_YARD;
      case METRE -> metric ? Unit.GRAM_PER_METRE : Unit.OUNCE_PER_YARD;
      case PIECE -> metric ? Unit.GRAM : Unit.OUNCE;
    };
  }
}
