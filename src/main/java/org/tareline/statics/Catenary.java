package org.tareline.statics;

import java.util.function.DoubleUnaryOperator;

/**
 * A line between supports at one height that bears a load spread evenly along its own length, such
 * as its weight (Karnovsky &amp; Lebed, Advanced Methods of Structural Analysis, 5.4, eq. 5.24 to
 * 5.30): with a = H / w, y = a cosh(x/a), s = a sinh(x/a) and T = w y, x from the lowest point.
 *
 * @param perLength load for each metre of the line, in N/m
 * @param parameter a, in m
 * @param span in m
 */
public record Catenary(double perLength, double parameter, double span) {

  /** Half spans in units of a, between which a solution is looked for. */
  private static final double LEAST = 1e-9;

  private static final double MOST = 50;

  /** By how far its middle is below the supports: sag / (L/2) = (cosh z − 1) / z. */
  public static Catenary ofSag(double perLength, double span, double sag) {
    double z = solve(at -> 2 * Math.pow(Math.sinh(at / 2), 2) / at, sag / (span / 2));
    return new Catenary(perLength, span / 2 / z, span);
  }

  /** By its length, more than the span: S / L = sinh z / z. */
  public static Catenary ofLength(double perLength, double span, double length) {
    double z = solve(at -> Math.sinh(at) / at, length / span);
    return new Catenary(perLength, span / 2 / z, span);
  }

  /** By the pull at its lowest point, in N. */
  public static Catenary ofHorizontal(double perLength, double span, double horizontal) {
    return new Catenary(perLength, horizontal / perLength, span);
  }

  /** By its length and sag, where the span is asked for: a = (S² / 4 − s²) / (2 s). */
  public static Catenary ofLengthAndSag(double perLength, double length, double sag) {
    double a = (length * length / 4 - sag * sag) / (2 * sag);
    return new Catenary(perLength, a, 2 * a * ShallowLine.asinh(length / (2 * a)));
  }

  /** How high it is above the line that y is counted from, x metres from its lowest point. */
  public double height(double x) {
    return parameter * Math.cosh(x / parameter);
  }

  /** How much line there is between its lowest point and x, in m. */
  public double length(double x) {
    return parameter * Math.sinh(x / parameter);
  }

  /** Its tension x metres from its lowest point, in N. */
  public double tension(double x) {
    return perLength * height(x);
  }

  public double horizontal() {
    return perLength * parameter;
  }

  public double sag() {
    return 2 * parameter * Math.pow(Math.sinh(span / (4 * parameter)), 2);
  }

  public double length() {
    return 2 * length(span / 2);
  }

  /** At the supports, in N. */
  public double greatest() {
    return tension(span / 2);
  }

  /**
   * The span as a share of the length of any such line, by its angle at the supports: asinh(tan α)
   * / tan α, since tan α = s / a there.
   *
   * @param slope α above the horizontal, in rad, between 0 and π/2
   */
  public static double spanOverLength(double slope) {
    double tangent = Math.tan(slope);
    return ShallowLine.asinh(tangent) / tangent;
  }

  /** Where a rising function reaches a value, by halving. */
  private static double solve(DoubleUnaryOperator rising, double value) {
    if (!(rising.applyAsDouble(LEAST) < value && value < rising.applyAsDouble(MOST))) {
      throw new IllegalArgumentException("no line hangs so");
    }
    double low = LEAST;
    double high = MOST;
    for (double middle = (low + high) / 2;
        middle > low && middle < high;
        middle = (low + high) / 2) {
      if (rising.applyAsDouble(middle) < value) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }
}
