package org.tareline.units;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import org.jspecify.annotations.Nullable;

/**
 * How a person likes masses written. Every figure is rounded half-even once, from the exact mass;
 * the point, U+2212 for minus and U+00A0 before a unit are the same in every locale.
 *
 * <p>Decimals are of the style's {@linkplain #unit() first unit}; where two are shown side by side
 * the second has the decimals that come nearest to the same step. In pounds and ounces the total is
 * rounded in ounces before it is split, so that no {@code 16.0 oz} can come about.
 */
public enum MassStyle {
  GRAMS("g", Unit.GRAM, 3),
  KILOGRAMS("kg", Unit.KILOGRAM, 6),
  OUNCES("oz", Unit.OUNCE, 4),
  POUNDS_AND_OUNCES("lb + oz", Unit.OUNCE, 4),
  GRAMS_AND_OUNCES("g (oz)", GRAMS, OUNCES, 1),
  KILOGRAMS_AND_POUNDS("kg (lb + oz)", KILOGRAMS, POUNDS_AND_OUNCES, -2);

  /** Most decimals ever shown. */
  private static final int MOST_DECIMALS = 6;

  private static final BigDecimal OUNCES_IN_A_POUND = BigDecimal.valueOf(16);
  private static final String NO_BREAK_SPACE = "\u00a0";
  private static final String MINUS = "\u2212";

  private final String heading;
  private final Unit unit;

  /** Decimals of the unit that a mass with no uncertainty is shown to: about a milligram. */
  private final int finest;

  private final @Nullable MassStyle first;
  private final @Nullable MassStyle beside;

  /** Decimals that the second style shows more than the first. */
  private final int moreBeside;

  MassStyle(String heading, Unit unit, int finest) {
    this.heading = heading;
    this.unit = unit;
    this.finest = finest;
    this.first = null;
    this.beside = null;
    this.moreBeside = 0;
  }

  MassStyle(String heading, MassStyle first, MassStyle beside, int moreBeside) {
    this.heading = heading;
    this.unit = first.unit;
    this.finest = first.finest;
    this.first = first;
    this.beside = beside;
    this.moreBeside = moreBeside;
  }

  /** The unit or units, for the heading of a table's column and for a choice of styles. */
  public String heading() {
    return heading;
  }

  /** The same without what stands beside it in brackets, for where there is no room for two. */
  public MassStyle alone() {
    return first == null ? this : first;
  }

  /** The unit whose decimals are counted, and which a bare number is taken to be in. */
  public Unit unit() {
    return unit;
  }

  /**
   * The most decimals, 0 to 6, with which an expanded uncertainty shows no more than so many
   * significant figures (GUM 7.2.6: at most two). For none at all, about a milligram's worth.
   *
   * @throws IllegalArgumentException for an uncertainty below zero, or less than one figure
   */
  public int decimals(Mass expandedUncertainty, int significantFigures) {
    if (expandedUncertainty.signum() < 0 || significantFigures < 1) {
      throw new IllegalArgumentException(
          "an uncertainty of " + expandedUncertainty + " to " + significantFigures + " figures");
    }
    if (expandedUncertainty.signum() == 0) {
      return finest;
    }
    int decimals = MOST_DECIMALS;
    // Looks at the rounded figure, since 0.096 to one decimal is 0.1, and to two is 0.10.
    while (decimals > 0
        && rounded(expandedUncertainty, decimals).precision() > significantFigures) {
      decimals--;
    }
    return decimals;
  }

  /** The fewest decimals that show a mass exactly, but no more than about a milligram's worth. */
  public int decimals(Mass mass) {
    int decimals = 0;
    while (decimals < finest && rounded(mass, decimals).compareTo(rounded(mass, finest)) != 0) {
      decimals++;
    }
    return decimals;
  }

  /**
   * A table's cell, under {@link #heading()}: {@code 612.4}, {@code 1 lb 5.6 oz}, {@code 612
   * (21.6)}.
   *
   * @param decimals 0 or more
   */
  public String number(Mass mass, int decimals) {
    return first == null || beside == null
        ? figure(mass, decimals, "")
        : first.number(mass, decimals) + " (" + beside.number(mass, besideDecimals(decimals)) + ")";
  }

  /**
   * The mass with its unit: {@code 612.4 g}, {@code 1 lb 5.6 oz}, {@code 612 g (21.6 oz)}.
   *
   * @param decimals 0 or more
   */
  public String text(Mass mass, int decimals) {
    return first == null || beside == null
        ? figure(mass, decimals, NO_BREAK_SPACE + unit.symbol())
        : first.text(mass, decimals) + besideText(mass, decimals);
  }

  /** As {@link #withUncertainty(Mass, Mass, int)}, the uncertainty to two significant figures. */
  public String withUncertainty(Mass mass, Mass expandedUncertainty) {
    return withUncertainty(mass, expandedUncertainty, 2);
  }

  /**
   * The mass and its expanded uncertainty to the same decimal: {@code 612 g ± 2 g (21.6 oz)}.
   *
   * @param significantFigures of the uncertainty, at most
   * @throws IllegalArgumentException for an uncertainty below zero, or less than one figure
   */
  public String withUncertainty(Mass mass, Mass expandedUncertainty, int significantFigures) {
    int decimals =
        expandedUncertainty.signum() == 0
            ? decimals(mass)
            : decimals(expandedUncertainty, significantFigures);
    MassStyle style = alone();
    return style.text(mass, decimals)
        + " ± "
        + style.text(expandedUncertainty, decimals)
        + besideText(mass, decimals);
  }

  /**
   * Whether rows of a column, each rounded for itself, add up to the total as it is rounded; else a
   * table has to say so.
   */
  public boolean addsUp(Collection<Mass> rows, Mass total, int decimals) {
    if (first != null && beside != null) {
      return first.addsUp(rows, total, decimals)
          && beside.addsUp(rows, total, besideDecimals(decimals));
    }
    return rows.stream()
            .map(row -> rounded(row, decimals))
            .reduce(BigDecimal.ZERO, BigDecimal::add)
            .compareTo(rounded(total, decimals))
        == 0;
  }

  private String besideText(Mass mass, int decimals) {
    return beside == null ? "" : " (" + beside.text(mass, besideDecimals(decimals)) + ")";
  }

  private int besideDecimals(int decimals) {
    return Math.max(0, decimals + moreBeside);
  }

  private String figure(Mass mass, int decimals, String unitText) {
    BigDecimal rounded = rounded(mass, decimals);
    String minus = rounded.signum() < 0 ? MINUS : "";
    BigDecimal size = rounded.abs();
    if (this != POUNDS_AND_OUNCES) {
      return minus + size.toPlainString() + unitText;
    }
    BigDecimal[] split = size.divideAndRemainder(OUNCES_IN_A_POUND);
    String pounds = split[0].signum() == 0 ? "" : split[0].toBigInteger() + NO_BREAK_SPACE + "lb ";
    return minus
        + pounds
        + split[1].setScale(decimals).toPlainString()
        + NO_BREAK_SPACE
        + Unit.OUNCE.symbol();
  }

  private BigDecimal rounded(Mass mass, int decimals) {
    if (unit == Unit.GRAM) {
      // The same rounding of the same value, and no ratio on the way: a table has thousands of
      // these.
      return mass.grams().setScale(decimals, RoundingMode.HALF_EVEN);
    }
    return unit.fromBase(Rational.of(mass.grams())).rounded(decimals);
  }
}
