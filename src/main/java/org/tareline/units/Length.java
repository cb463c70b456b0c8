package org.tareline.units;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A length as a whole number of nanometres, so that sums are exact. The inch is 25 400 000 nm (NIST
 * HB 44, App. C), and so is every binary fraction of it down to 1/64 a whole number. May be
 * negative, as a difference. Range: some ±9.2 million kilometres; past it every operation throws
 * {@link ArithmeticException} and never wraps.
 *
 * @param nanometres the length in nanometres
 */
public record Length(long nanometres) implements Comparable<Length> {

  /** No length at all. */
  public static final Length ZERO = new Length(0);

  /** Nanometres in a metre, as a power of ten. */
  private static final int SCALE = 9;

  /**
   * The length of exactly so many metres.
   *
   * @throws ArithmeticException if the metres are not a whole number of nanometres, or out of range
   */
  public static Length ofMetres(BigDecimal metres) {
    return new Length(metres.movePointRight(SCALE).longValueExact());
  }

  /** As {@link #ofMetres(BigDecimal)}, from decimal text such as {@code "3.35"}. */
  public static Length ofMetres(String metres) {
    return ofMetres(new BigDecimal(metres));
  }

  /**
   * The length nearest to so many metres, half-even to a whole nanometre.
   *
   * @throws ArithmeticException if out of range
   */
  public static Length fromMetres(BigDecimal metres) {
    return ofMetres(metres.setScale(SCALE, RoundingMode.HALF_EVEN));
  }

  /** As {@link #fromMetres(BigDecimal)}, from a finite number. */
  public static Length fromMetres(double metres) {
    return fromMetres(new BigDecimal(metres));
  }

  /**
   * Reads a length with its unit, and so what {@link #toString()} writes.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Length parse(String text) {
    return Quantity.read(text, Kind.LENGTH, null).length();
  }

  public Length plus(Length other) {
    return new Length(Math.addExact(nanometres, other.nanometres));
  }

  public Length minus(Length other) {
    return new Length(Math.subtractExact(nanometres, other.nanometres));
  }

  public Length times(long factor) {
    return new Length(Math.multiplyExact(nanometres, factor));
  }

  public Length negated() {
    return new Length(Math.negateExact(nanometres));
  }

  /** -1, 0 or 1 as this is below, at or above zero. */
  public int signum() {
    return Long.signum(nanometres);
  }

  /** The length in metres, exactly, with no trailing zeros. */
  public BigDecimal metres() {
    return Rational.trimmed(BigDecimal.valueOf(nanometres, SCALE));
  }

  /** The length in metres as the nearest double: for physics and drawing, never for sums. */
  public double inMetres() {
    return nanometres / 1e9;
  }

  @Override
  public int compareTo(Length other) {
    return Long.compare(nanometres, other.nanometres);
  }

  /** The exact length with its unit, as {@code 3.35 m}. */
  @Override
  public String toString() {
    return metres().toPlainString() + " m";
  }
}
