package org.tareline.units;

import java.math.BigDecimal;

/**
 * A volume. A double: it becomes a mass through a measured density, which is never exact.
 *
 * @param millilitres the value in millilitres, finite
 */
public record Volume(double millilitres) implements Comparable<Volume> {

  /**
   * Takes a finite number.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  public Volume {
    if (!(Double.isFinite(millilitres))) {
      throw new IllegalArgumentException(millilitres + " mL is not a volume");
    }
    millilitres += 0.0; // so that minus zero is zero
  }

  /**
   * Reads a volume with its unit, and so what {@link #toString()} writes up to some 9 × 10⁹ mL.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Volume parse(String text) {
    return Quantity.read(text, Kind.VOLUME, null).volume();
  }

  @Override
  public int compareTo(Volume other) {
    return Double.compare(millilitres, other.millilitres);
  }

  /** The shortest decimal of the value with its unit, as {@code 750 mL}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(millilitres).stripTrailingZeros().toPlainString() + " mL";
  }
}
