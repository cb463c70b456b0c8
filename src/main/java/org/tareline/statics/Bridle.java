package org.tareline.statics;

/**
 * An end with a spreader bar: two equal legs from the apex to the tips of the bar. Derived by
 * equilibrium of the apex and of a tip: a leg carries T / (2 cos φ), the bar is pressed by (T / 2)
 * (tan φ + tan ψ), where φ is half the angle between the legs and ψ how far the body's edge
 * converges towards the axis at the bar.
 *
 * @param halfAngle φ, in rad, above 0 and below π/2
 */
public record Bridle(double halfAngle) {

  /**
   * Takes half the angle between the legs.
   *
   * @throws IllegalArgumentException if it is not above 0 and below π/2
   */
  public Bridle {
    if (!(halfAngle > 0 && halfAngle < Math.PI / 2)) {
      throw new IllegalArgumentException(
          "legs do not reach a bar at " + halfAngle + " rad from the axis");
    }
  }

  /** By the length of the legs, more than half the bar: sin φ = b / (2 ℓ). */
  public static Bridle ofLegs(double bar, double leg) {
    return new Bridle(Math.asin(bar / (2 * leg)));
  }

  /** By how far the apex is from the bar: tan φ = b / (2 d). */
  public static Bridle ofApexDistance(double bar, double distance) {
    return new Bridle(Math.atan(bar / (2 * distance)));
  }

  /** The tension of one leg, in N, of a pull along the axis in N. */
  public double legTension(double pull) {
    return pull / (2 * Math.cos(halfAngle));
  }

  /**
   * What presses the bar together, in N; below 0 where the edges pull it apart.
   *
   * @param pull along the axis, in N
   * @param edgeAngle ψ in rad: above 0 where the body's edges converge towards the axis, below
   *     where they spread
   */
  public double compression(double pull, double edgeAngle) {
    return pull / 2 * (Math.tan(halfAngle) + Math.tan(edgeAngle));
  }
}
