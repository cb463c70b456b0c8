package org.tareline.units;

import java.math.BigDecimal;

/**
 * A force. It enters physics and is never summed as a record, so it is a double.
 *
 * @param newtons the value in newtons, finite
 */
public record Force(double newtons) implements Comparable<Force> {

  /**
   * Takes a finite number.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  public Force {
    if (!(Double.isFinite(newtons))) {
      throw new IllegalArgumentException(newtons + " N is not a force");
    }
    newtons += 0.0; // so that minus zero is zero
  }

  /**
   * Reads a force with its unit, and so what {@link #toString()} writes up to some 9 × 10⁹ N.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Force parse(String text) {
    return Quantity.read(text, Kind.FORCE, null).force();
  }

  @Override
  public int compareTo(Force other) {
    return Double.compare(newtons, other.newtons);
  }

  /** The shortest decimal of the value with its unit, as {@code 833.5 N}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(newtons).stripTrailingZeros().toPlainString() + " N";
  }
}
