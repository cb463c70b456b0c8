package org.tareline.units;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A mass per area in g/m² with ten decimals, as it is stored: {@code numeric(20,10)}. Cloth and
 * netting.
 *
 * @param gramsPerSquareMetre the value in g/m², always of scale 10
 */
public record AreaDensity(BigDecimal gramsPerSquareMetre) implements Comparable<AreaDensity> {

  /** Decimals kept. */
  static final int DECIMALS = 10;

  /** Digits before the point that fit the column. */
  private static final int WHOLE_DIGITS = 10;

  /**
   * Brings the value to ten decimals without rounding.
   *
   * @throws ArithmeticException if it has more, or is 10¹⁰ g/m² or more either way
   */
  public AreaDensity {
    gramsPerSquareMetre = gramsPerSquareMetre.setScale(DECIMALS, RoundingMode.UNNECESSARY);
    if (gramsPerSquareMetre.precision() > WHOLE_DIGITS + DECIMALS) {
      throw new ArithmeticException(gramsPerSquareMetre + " g/m² is out of range");
    }
  }

  /** The mass per area nearest to so many g/m², half-even to ten decimals. */
  public static AreaDensity from(BigDecimal gramsPerSquareMetre) {
    return new AreaDensity(gramsPerSquareMetre.setScale(DECIMALS, RoundingMode.HALF_EVEN));
  }

  /** As {@link #from(BigDecimal)}, from a finite number. */
  public static AreaDensity from(double gramsPerSquareMetre) {
    return from(new BigDecimal(gramsPerSquareMetre));
  }

  /**
   * Reads a mass per area with its unit, and so what {@link #toString()} writes.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static AreaDensity parse(String text) {
    return Quantity.read(text, Kind.AREA_DENSITY, null).areaDensity();
  }

  /** The value in g/m² as the nearest double, for physics. */
  public double inGramsPerSquareMetre() {
    return gramsPerSquareMetre.doubleValue();
  }

  /** -1, 0 or 1 as this is below, at or above zero. */
  public int signum() {
    return gramsPerSquareMetre.signum();
  }

  @Override
  public int compareTo(AreaDensity other) {
    return gramsPerSquareMetre.compareTo(other.gramsPerSquareMetre);
  }

  /** The exact value with its unit, as {@code 54 g/m²}. */
  @Override
  public String toString() {
    return gramsPerSquareMetre.stripTrailingZeros().toPlainString() + " g/m²";
  }
}
