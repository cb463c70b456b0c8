package org.tareline.units;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/**
 * An exact ratio in lowest terms, its denominator above zero: what was typed and every unit's
 * factor, before the one rounding.
 */
record Rational(BigInteger numerator, BigInteger denominator) implements Comparable<Rational> {

  static final Rational ZERO = new Rational(BigInteger.ZERO, BigInteger.ONE);

  Rational {
    BigInteger divisor = numerator.gcd(denominator);
    if (denominator.signum() < 0) {
      divisor = divisor.negate();
    }
    numerator = numerator.divide(divisor);
    denominator = denominator.divide(divisor);
  }

  static Rational of(BigDecimal decimal) {
    return decimal.scale() > 0
        ? new Rational(decimal.unscaledValue(), BigInteger.TEN.pow(decimal.scale()))
        : new Rational(decimal.toBigIntegerExact(), BigInteger.ONE);
  }

  /** From a decimal, or two parted by a slash: {@code "28.349523125/0.83612736"}. */
  static Rational of(String text) {
    int slash = text.indexOf('/');
    return slash < 0
        ? of(new BigDecimal(text))
        : of(new BigDecimal(text.substring(0, slash)))
            .over(of(new BigDecimal(text.substring(slash + 1))));
  }

  Rational plus(Rational other) {
    return new Rational(
        numerator.multiply(other.denominator).add(other.numerator.multiply(denominator)),
        denominator.multiply(other.denominator));
  }

  Rational minus(Rational other) {
    return plus(other.negated());
  }

  Rational times(Rational other) {
    return new Rational(
        numerator.multiply(other.numerator), denominator.multiply(other.denominator));
  }

  /** The quotient; throws {@link ArithmeticException} for a divisor of zero. */
  Rational over(Rational other) {
    return new Rational(
        numerator.multiply(other.denominator), denominator.multiply(other.numerator));
  }

  Rational negated() {
    return new Rational(numerator.negate(), denominator);
  }

  int signum() {
    return numerator.signum();
  }

  /** Half-even to so many decimals, from the exact value. */
  BigDecimal rounded(int decimals) {
    // Not BigDecimal.divide: where rounding carries a quotient to 2⁶³ it answers -2⁶³, on JDK 17
    // and 25 alike, and so would let a mass just out of range in as one of the other sign.
    BigInteger[] quotient =
        numerator.multiply(BigInteger.TEN.pow(decimals)).divideAndRemainder(denominator);
    int half = quotient[1].abs().shiftLeft(1).compareTo(denominator);
    boolean away = half > 0 || half == 0 && quotient[0].testBit(0);
    BigInteger whole = away ? quotient[0].add(BigInteger.valueOf(signum())) : quotient[0];
    return new BigDecimal(whole, decimals);
  }

  /** Half-even to so many significant digits, from the exact value. */
  BigDecimal toDigits(int digits) {
    return new BigDecimal(numerator)
        .divide(new BigDecimal(denominator), new MathContext(digits, RoundingMode.HALF_EVEN));
  }

  /** The value as a decimal with no trailing zeros, or null where its digits never end. */
  @Nullable BigDecimal decimal() {
    // A reduced fraction ends exactly when its denominator has no prime factors but 2 and 5.
    int twos = denominator.getLowestSetBit();
    BigInteger rest = denominator.shiftRight(twos);
    BigInteger five = BigInteger.valueOf(5);
    int fives = 0;
    while (rest.mod(five).signum() == 0) {
      rest = rest.divide(five);
      fives++;
    }
    if (!rest.equals(BigInteger.ONE)) {
      return null;
    }
    return trimmed(rounded(Math.max(twos, fives)));
  }

  /** The same decimal with no zeros at the end of its decimals, and never a power of ten. */
  static BigDecimal trimmed(BigDecimal decimal) {
    BigDecimal stripped = decimal.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }

  /** The nearest double. */
  double toDouble() {
    // 40 digits are more than twice what a double holds, so rounding twice does no harm here.
    return toDigits(40).doubleValue();
  }

  @Override
  public int compareTo(Rational other) {
    return numerator.multiply(other.denominator).compareTo(other.numerator.multiply(denominator));
  }
}
