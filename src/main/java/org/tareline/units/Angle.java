package org.tareline.units;

import java.math.BigDecimal;

/**
 * A plane angle. A double: what is asked of it is its sine. May be negative or past a full turn;
 * what an angle is used for sets its bounds.
 *
 * @param degrees the value in degrees, finite
 */
public record Angle(double degrees) implements Comparable<Angle> {

  /**
   * Takes a finite number.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  public Angle {
    if (!(Double.isFinite(degrees))) {
      throw new IllegalArgumentException(degrees + " deg is not an angle");
    }
    degrees += 0.0; // so that minus zero is zero
  }

  /**
   * Reads an angle with its unit, and so what {@link #toString()} writes up to some 9 × 10⁹ deg.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Angle parse(String text) {
    return Quantity.read(text, Kind.ANGLE, null).angle();
  }

  @Override
  public int compareTo(Angle other) {
    return Double.compare(degrees, other.degrees);
  }

  /** The shortest decimal of the value with its unit, as {@code 30 deg}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(degrees).stripTrailingZeros().toPlainString() + " deg";
  }
}
