package org.tareline.statics;

/**
 * A straight bar, pinned at both tips and pressed along its axis (Timoshenko &amp; Gere, Theory of
 * Elastic Stability; Gere &amp; Goodno, Mechanics of Materials, ch. 11). Its joints, tips and locks
 * may give way before that, and so may its wall.
 *
 * @param length between the tips, in m
 * @param area of the section, in m²
 * @param secondMoment of the section about its weakest axis, in m⁴
 * @param modulus of elasticity along the bar, in Pa
 */
public record Strut(double length, double area, double secondMoment, double modulus) {

  /**
   * Takes figures above 0.
   *
   * @throws IllegalArgumentException if one is not
   */
  public Strut {
    if (!(length > 0 && area > 0 && secondMoment > 0 && modulus > 0)) {
      throw new IllegalArgumentException("a strut has a length, a section and a modulus above 0");
    }
  }

  /**
   * A round tube: I = π (D⁴ − d⁴) / 64, A = π (D² − d²) / 4.
   *
   * @param wall in m; half the diameter makes it a rod
   */
  public static Strut tube(double length, double outerDiameter, double wall, double modulus) {
    double inner = outerDiameter - 2 * wall;
    if (!(wall > 0 && inner >= 0)) {
      throw new IllegalArgumentException("a wall of " + wall + " m does not fit in the tube");
    }
    return new Strut(
        length,
        Math.PI / 4 * (outerDiameter * outerDiameter - inner * inner),
        Math.PI / 64 * (Math.pow(outerDiameter, 4) - Math.pow(inner, 4)),
        modulus);
  }

  /** A round rod. */
  public static Strut rod(double length, double diameter, double modulus) {
    return tube(length, diameter, diameter / 2, modulus);
  }

  /** What it bows out under, in N: Euler, P = π² E I / L². */
  public double eulerLoad() {
    return Math.PI * Math.PI * modulus * secondMoment / (length * length);
  }

  /** √(I / A), in m. */
  public double radiusOfGyration() {
    return Math.sqrt(secondMoment / area);
  }

  /** Length over radius of gyration. */
  public double slenderness() {
    return length / radiusOfGyration();
  }

  /**
   * The slenderness below which Euler's load is too much to ask, since the bar begins to yield: √(2
   * π² E / σ), where Euler's stress is half the yield stress (Gere &amp; Goodno, ch. 11).
   *
   * @param yield stress in Pa
   */
  public double transition(double yield) {
    return Math.PI * Math.sqrt(2 * modulus / yield);
  }
}
