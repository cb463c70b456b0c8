package org.tareline.rig.web;

import java.util.Locale;
import org.tareline.units.MassStyle;
import org.tareline.units.Range;

/**
 * Forces, lengths, angles and factors as pages say them: in the units that go with those of the
 * reader's masses. The ends of a range stand behind its figure.
 */
record LoadWords(boolean inches) {

  private static final double POUND_FORCE = 4.4482216152605;
  private static final double INCH = 0.0254;
  private static final String SPACE = "\u00a0";

  static LoadWords of(MassStyle style) {
    return new LoadWords(style.alone().heading().contains("oz"));
  }

  String force(Range newtons) {
    return inches
        ? said(newtons.times(1 / POUND_FORCE), 0, SPACE + "lbf")
        : said(newtons, 0, SPACE + "N");
  }

  String length(double metres) {
    return inches
        ? said(Range.of(metres / INCH), 1, SPACE + "in")
        : said(Range.of(metres * 100), 1, SPACE + "cm");
  }

  /** The least and the most of a length. */
  String between(Range metres) {
    return decimals(metres.low() * (inches ? 1 / INCH : 100), 1) + " to " + length(metres.high());
  }

  String angle(Range degrees) {
    return said(degrees, 1, "°");
  }

  /** How many times stronger; rounded down, so that it never reads as more than it is. */
  String factor(Range factor) {
    if (Double.isInfinite(factor.nominal())) {
      return "carries nothing";
    }
    String words = down(factor.nominal()) + SPACE + "times";
    return factor.isWide()
        ? words
            + " ("
            + down(factor.low())
            + (Double.isInfinite(factor.high()) ? " and more)" : " to " + down(factor.high()) + ")")
        : words;
  }

  private static String down(double factor) {
    // A hair up first: five times is not to read as 4.99 for the last bit of a double.
    return decimals(Math.floor(factor * (1 + 1e-9) * 100) / 100, 2);
  }

  private static String said(Range range, int decimals, String unit) {
    String words = decimals(range.nominal(), decimals) + unit;
    return range.isWide()
        ? words
            + " ("
            + decimals(range.low(), decimals)
            + " to "
            + decimals(range.high(), decimals)
            + ")"
        : words;
  }

  static String decimals(double number, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", number);
  }
}
