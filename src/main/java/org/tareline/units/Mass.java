package org.tareline.units;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A mass as a whole number of nanograms, so that sums are exact and never depend on their order.
 * The ounce, the pound and the grain are each a whole number of nanograms (NIST HB 44, App. C). May
 * be negative, as a difference. Range: some ±9 223 tonnes; past it every operation throws {@link
 * ArithmeticException} and never wraps.
 *
 * @param nanograms the mass in nanograms
 */
public record Mass(long nanograms) implements Comparable<Mass> {

  /** No mass at all. */
  public static final Mass ZERO = new Mass(0);

  /** Nanograms in a gram, as a power of ten. */
  private static final int SCALE = 9;

  /**
   * The mass of exactly so many grams.
   *
   * @throws ArithmeticException if the grams are not a whole number of nanograms, or out of range
   */
  public static Mass ofGrams(BigDecimal grams) {
    return new Mass(grams.movePointRight(SCALE).longValueExact());
  }

  /** As {@link #ofGrams(BigDecimal)}, from decimal text such as {@code "381.5"}. */
  public static Mass ofGrams(String grams) {
    return ofGrams(new BigDecimal(grams));
  }

  /**
   * The mass nearest to so many grams, half-even to a whole nanogram.
   *
   * @throws ArithmeticException if out of range
   */
  public static Mass fromGrams(BigDecimal grams) {
    return ofGrams(grams.setScale(SCALE, RoundingMode.HALF_EVEN));
  }

  /** As {@link #fromGrams(BigDecimal)}, from a finite number. */
  public static Mass fromGrams(double grams) {
    return fromGrams(new BigDecimal(grams));
  }

  /**
   * Reads a mass with its unit, and so what {@link #toString()} writes.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Mass parse(String text) {
    return Quantity.read(text, Kind.MASS, null).mass();
  }

  public Mass plus(Mass other) {
    return new Mass(Math.addExact(nanograms, other.nanograms));
  }

  public Mass minus(Mass other) {
    return new Mass(Math.subtractExact(nanograms, other.nanograms));
  }

  public Mass times(long factor) {
    return new Mass(Math.multiplyExact(nanograms, factor));
  }

  public Mass negated() {
    return new Mass(Math.negateExact(nanograms));
  }

  /** -1, 0 or 1 as this is below, at or above zero. */
  public int signum() {
    return Long.signum(nanograms);
  }

  /** The mass in grams, exactly, with no trailing zeros. */
  public BigDecimal grams() {
    return Rational.trimmed(BigDecimal.valueOf(nanograms, SCALE));
  }

  /** The mass in grams as the nearest double: for physics and drawing, never for sums. */
  public double inGrams() {
    return nanograms / 1e9;
  }

  @Override
  public int compareTo(Mass other) {
    return Long.compare(nanograms, other.nanograms);
  }

  /** The exact mass with its unit, as {@code 381.5 g}. */
  @Override
  public String toString() {
    return grams().toPlainString() + " g";
  }
}
