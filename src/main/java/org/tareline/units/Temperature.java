package org.tareline.units;

import java.math.BigDecimal;

/**
 * A temperature on the Celsius scale. A double: it is measured, never summed.
 *
 * @param degreesCelsius the value in degrees Celsius, finite and not below -273.15
 */
public record Temperature(double degreesCelsius) implements Comparable<Temperature> {

  /**
   * Takes a finite number.
   *
   * @throws IllegalArgumentException if it is not finite or below absolute zero
   */
  public Temperature {
    if (!(degreesCelsius >= -273.15 && degreesCelsius < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(degreesCelsius + " °C is not a temperature");
    }
    degreesCelsius += 0.0; // so that minus zero is zero
  }

  /**
   * Reads a temperature with its unit, and so what {@link #toString()} writes up to some 9 × 10⁹
   * °C.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Temperature parse(String text) {
    return Quantity.read(text, Kind.TEMPERATURE, null).temperature();
  }

  @Override
  public int compareTo(Temperature other) {
    return Double.compare(degreesCelsius, other.degreesCelsius);
  }

  /** The shortest decimal of the value with its unit, as {@code -5 °C}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(degreesCelsius).stripTrailingZeros().toPlainString() + " °C";
  }
}
