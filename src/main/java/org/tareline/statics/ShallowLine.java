package org.tareline.statics;

/**
 * A line between supports at one height with a load spread evenly over its span: a parabola (Hicks,
 * Civil Engineering Formulas, eq. 10.57 to 10.59 and 10.81 to 10.85; Hibbeler, Statics, ch. 7).
 *
 * @param perLength load for each metre of the span, in N/m
 * @param span in m
 * @param sag of the middle below the supports, in m
 */
public record ShallowLine(double perLength, double span, double sag) {

  /**
   * Takes figures above 0.
   *
   * @throws IllegalArgumentException if one is not
   */
  public ShallowLine {
    if (!(perLength > 0 && span > 0 && sag > 0)) {
      throw new IllegalArgumentException("a shallow line has a load, a span and a sag above 0");
    }
  }

  /** By what pulls it sideways, in N: sag = w L² / (8 H). */
  public static ShallowLine ofHorizontal(double perLength, double span, double horizontal) {
    return new ShallowLine(perLength, span, perLength * span * span / (8 * horizontal));
  }

  /**
   * The edge of a body that bears half of a load: H = W L / (16 s).
   *
   * @param load of both edges together, in N
   */
  public static ShallowLine edge(double load, double span, double sag) {
    return new ShallowLine(load / (2 * span), span, sag);
  }

  /**
   * How far its lowest point is from the first of two supports at different heights, in m: L √h₁ /
   * (√h₁ + √h₂). To that point it is half of a level line of twice the distance.
   *
   * @param first height of the first support above the lowest point, in m
   * @param second height of the second, in m
   */
  public static double lowest(double span, double first, double second) {
    return span * Math.sqrt(first) / (Math.sqrt(first) + Math.sqrt(second));
  }

  /** The pull at its lowest point and sideways everywhere, in N: w L² / (8 s). */
  public double horizontal() {
    return perLength * span * span / (8 * sag);
  }

  /** The pull at a support, in N: H √(1 + 16 (s/L)²). */
  public double greatest() {
    return Math.hypot(horizontal(), perLength * span / 2);
  }

  /** The angle at a support above the horizontal, in rad: tan = 4 s / L. */
  public double slope() {
    return Math.atan(4 * sag / span);
  }

  /** How long the line is, in m: (L/2) (√(1 + k²) + asinh(k)/k) with k = 4 s/L, exact. */
  public double length() {
    double k = 4 * sag / span;
    return span / 2 * (Math.hypot(1, k) + asinh(k) / k);
  }

  /** Without losing the digits of a small one to the sum under the logarithm. */
  static double asinh(double x) {
    return Math.log1p(x + x * x / (1 + Math.hypot(1, x)));
  }
}
