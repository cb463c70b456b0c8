package org.tareline.units;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A mass per length in g/m with ten decimals, as it is stored: {@code numeric(20,10)}. Cord,
 * webbing and thread; 1 tex is 0.001 g/m (ISO 1144).
 *
 * @param gramsPerMetre the value in g/m, always of scale 10
 */
public record LineDensity(BigDecimal gramsPerMetre) implements Comparable<LineDensity> {

  /** Decimals kept. */
  static final int DECIMALS = 10;

  /** Digits before the point that fit the column. */
  private static final int WHOLE_DIGITS = 10;

  /**
   * Brings the value to ten decimals without rounding.
   *
   * @throws ArithmeticException if it has more, or is 10¹⁰ g/m or more either way
   */
  public LineDensity {
    gramsPerMetre = gramsPerMetre.setScale(DECIMALS, RoundingMode.UNNECESSARY);
    if (gramsPerMetre.precision() > WHOLE_DIGITS + DECIMALS) {
      throw new ArithmeticException(gramsPerMetre + " g/m is out of range");
    }
  }

  /** The mass per length nearest to so many g/m, half-even to ten decimals. */
  public static LineDensity from(BigDecimal gramsPerMetre) {
    return new LineDensity(gramsPerMetre.setScale(DECIMALS, RoundingMode.HALF_EVEN));
  }

  /** As {@link #from(BigDecimal)}, from a finite number. */
  public static LineDensity from(double gramsPerMetre) {
    return from(new BigDecimal(gramsPerMetre));
  }

  /**
   * Reads a mass per length with its unit, and so what {@link #toString()} writes.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static LineDensity parse(String text) {
    return Quantity.read(text, Kind.LINE_DENSITY, null).lineDensity();
  }

  /** The value in g/m as the nearest double, for physics. */
  public double inGramsPerMetre() {
    return gramsPerMetre.doubleValue();
  }

  /** -1, 0 or 1 as this is below, at or above zero. */
  public int signum() {
    return gramsPerMetre.signum();
  }

  @Override
  public int compareTo(LineDensity other) {
    return gramsPerMetre.compareTo(other.gramsPerMetre);
  }

  /** The exact value with its unit, as {@code 3.1 g/m}. */
  @Override
  public String toString() {
    return gramsPerMetre.stripTrailingZeros().toPlainString() + " g/m";
  }
}
