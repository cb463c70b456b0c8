package org.tareline.units;

import java.math.BigDecimal;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * A figure with the least and the most that it can be. A worst case, not a standard uncertainty:
 * nothing is squared and nothing averages out. Whoever holds one names its unit.
 *
 * @param low at most the nominal value
 * @param nominal what is shown first
 * @param high at least the nominal value
 */
public record Range(double low, double nominal, double high) {

  /** One and nothing but one. */
  public static final Range ONE = of(1);

  /** Marks that part a figure from how far off it may be. */
  private static final String[] PLUS_MINUS = {"±", "+/-", "+-"};

  /**
   * Takes three numbers in their order, of which any may be without end upwards.
   *
   * @throws IllegalArgumentException if they are out of order or not numbers
   */
  public Range {
    if (!(low > Double.NEGATIVE_INFINITY && low <= nominal && nominal <= high)) {
      throw new IllegalArgumentException(low + ", " + nominal + ", " + high + " is not a range");
    }
  }

  /** A figure that can be nothing else. */
  public static Range of(double exact) {
    return new Range(exact, exact, exact);
  }

  /** The least, the nominal and the most of them, whatever their order. */
  public static Range spanning(double nominal, double one, double other) {
    return new Range(
        Math.min(nominal, Math.min(one, other)), nominal, Math.max(nominal, Math.max(one, other)));
  }

  /**
   * Reads a quantity, with or without how far off it may be: {@code 28 deg}, {@code 28 deg ± 2
   * deg}, {@code 0.70 m ± 5 mm}, {@code 1500 lbf ± 5 %}. After the mark a bare number is in the
   * unit before it.
   *
   * @return in the base unit of the kind
   * @throws UnreadableQuantity if it is anything else
   */
  public static Range read(String text, Kind kind, @Nullable Unit defaultUnit) {
    String[] sides = sides(text);
    Quantity nominal = Quantity.read(sides[0], kind, defaultUnit);
    Rational off =
        sides.length == 1
            ? Rational.ZERO
            : Tolerance.read(sides[1], kind, nominal.unit()).of(nominal).base();
    return about(nominal.base(), off);
  }

  /**
   * Reads a plain decimal number, with or without how far off it may be: {@code 0.85}, {@code 0.65
   * ± 0.15}.
   *
   * @throws UnreadableQuantity if it is anything else
   */
  public static Range readNumber(String text) {
    String[] sides = sides(text);
    Rational nominal = number(sides[0]);
    return about(nominal, sides.length == 1 ? Rational.ZERO : number(sides[1]));
  }

  /**
   * What kind of quantity the figure before the mark is, by its unit.
   *
   * @throws UnreadableQuantity if it is none
   */
  public static Kind kindOf(String text) {
    return Quantity.read(sides(text)[0]).kind();
  }

  private static String[] sides(String text) {
    for (String mark : PLUS_MINUS) {
      int at = text.indexOf(mark);
      if (at > 0) {
        return new String[] {text.substring(0, at), text.substring(at + mark.length())};
      }
    }
    return new String[] {text};
  }

  private static Rational number(String text) {
    String stripped = text.strip();
    if (!stripped.matches("[0-9]{1,12}(\\.[0-9]{1,12})?")) {
      throw new UnreadableQuantity(
          text, 0, "a decimal of zero or more is wanted, in plain digits with a point", "0.85");
    }
    return Rational.of(new BigDecimal(stripped));
  }

  /** The ends are worked out exactly and rounded once each. */
  private static Range about(Rational nominal, Rational off) {
    return new Range(
        nominal.minus(off).toDouble(), nominal.toDouble(), nominal.plus(off).toDouble());
  }

  /** Whether it can be more than one figure. */
  public boolean isWide() {
    return low < high;
  }

  public Range plus(Range other) {
    return new Range(low + other.low, nominal + other.nominal, high + other.high);
  }

  public Range times(double factor) {
    return spanning(nominal * factor, low * factor, high * factor);
  }

  /** Both at their worst, whether or not they have a cause in common. */
  public Range times(Range other) {
    return each(other, (a, b) -> a * b);
  }

  /**
   * Both at their worst.
   *
   * @param other zero or more; by nothing at all this is without end
   */
  public Range over(Range other) {
    return each(other, (a, b) -> a / b);
  }

  private Range each(Range other, DoubleBinaryOperator by) {
    double[] corners = {
      by.applyAsDouble(low, other.low),
      by.applyAsDouble(low, other.high),
      by.applyAsDouble(high, other.low),
      by.applyAsDouble(high, other.high)
    };
    Range wide =
        spanning(by.applyAsDouble(nominal, other.nominal), corners[0], corners[1])
            .including(corners[2]);
    return wide.including(corners[3]);
  }

  /** What a function makes of it that only rises or only falls over it. */
  public Range map(DoubleUnaryOperator monotonous) {
    return spanning(
        monotonous.applyAsDouble(nominal),
        monotonous.applyAsDouble(low),
        monotonous.applyAsDouble(high));
  }

  /** The larger of two, end by end. */
  public Range max(Range other) {
    return new Range(
        Math.max(low, other.low), Math.max(nominal, other.nominal), Math.max(high, other.high));
  }

  /** This, made wide enough to hold a figure. */
  public Range including(double figure) {
    return new Range(Math.min(low, figure), nominal, Math.max(high, figure));
  }
}
