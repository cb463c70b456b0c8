package org.tareline.units;

import java.math.BigDecimal;

/**
 * A part of a hundred, exactly: {@code 0.1 %}, {@code 5%}, {@code 1/2 %}. What it is a part of is
 * always named by whoever holds it.
 *
 * @param fraction the value as a fraction of one, from 0 to 10 (1000 %), no trailing zeros
 */
public record Percent(BigDecimal fraction) implements Comparable<Percent> {

  static final BigDecimal MOST = BigDecimal.TEN;

  static final String EXAMPLE = "5 %";

  /**
   * Takes a fraction of one: 0.05 is 5 %.
   *
   * @throws IllegalArgumentException if it is below 0 or above 10
   */
  public Percent {
    fraction = Rational.trimmed(fraction);
    if (fraction.signum() < 0 || fraction.compareTo(MOST) > 0) {
      throw new IllegalArgumentException("a percentage is from 0 % to 1000 %, not " + fraction);
    }
  }

  /**
   * Reads a number and a per cent sign, and so what {@link #toString()} writes.
   *
   * @throws UnreadableQuantity if it is anything else, below 0 %, above 1000 %, or has digits
   *     without end ({@code 1/3 %})
   */
  public static Percent parse(String text) {
    return new QuantityReader(text, null, null, EXAMPLE).percent();
  }

  @Override
  public int compareTo(Percent other) {
    return fraction.compareTo(other.fraction);
  }

  /** The percentage as {@code 0.1 %}. */
  @Override
  public String toString() {
    return Rational.trimmed(fraction.movePointRight(2)).toPlainString() + " %";
  }
}
