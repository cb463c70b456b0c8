package org.tareline.cutting;

/** A parabola over a straight chord, deepest in the middle. Lengths in metres. */
final class Parabola {

  private Parabola() {}

  /** ⅔ of chord times depth (Archimedes, Quadrature of the Parabola), in m². */
  static double area(double chord, double depth) {
    return 2.0 / 3 * chord * depth;
  }

  /**
   * The length of the curve, (L/2)(√(1 + k²) + asinh(k)/k) with k = 4 depth/chord, by integrating
   * √(1 + y'²).
   */
  static double arc(double chord, double depth) {
    double k = 4 * depth / chord;
    double asinh = Math.log1p(k + k * k / (1 + Math.sqrt(1 + k * k)));
    return chord / 2 * (Math.sqrt(1 + k * k) + asinh / k);
  }

  /** How far it is from the chord, so far along. */
  static double height(double chord, double depth, double along) {
    double x = along / chord;
    return 4 * depth * x * (1 - x);
  }
}
