package org.tareline.units;

import java.math.BigDecimal;

/**
 * An energy, of food or fuel. A double: no label states it to better than a few per cent.
 *
 * @param kilojoules the value in kilojoules, finite
 */
public record Energy(double kilojoules) implements Comparable<Energy> {

  /**
   * Takes a finite number.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  public Energy {
    if (!(Double.isFinite(kilojoules))) {
      throw new IllegalArgumentException(kilojoules + " kJ is not an energy");
    }
    kilojoules += 0.0; // so that minus zero is zero
  }

  /**
   * Reads an energy with its unit, and so what {@link #toString()} writes up to some 9 × 10⁹ kJ.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Energy parse(String text) {
    return Quantity.read(text, Kind.ENERGY, null).energy();
  }

  @Override
  public int compareTo(Energy other) {
    return Double.compare(kilojoules, other.kilojoules);
  }

  /** The shortest decimal of the value with its unit, as {@code 1882.8 kJ}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(kilojoules).stripTrailingZeros().toPlainString() + " kJ";
  }
}
