package org.tareline.statics;

/**
 * One end of a hang with a structural ridge line. Derived by the balance of the end's joint: the
 * suspension leaves it at θ, the body at α, and the end carries V of the load; the ridge line takes
 * R = V (cot θ − cot α). Where α ≤ θ it would have to push, and is slack.
 *
 * @param tension in the ridge line, in N; 0 where it is slack
 * @param bodyPull along the body, and so along the legs and the bar of its end, in N: V / sin α, or
 *     the pull of the suspension where the ridge line is slack
 */
public record RidgeLine(double tension, double bodyPull) {

  /**
   * One end by its angles.
   *
   * @param vertical what this end carries of the load, in N
   * @param theta of the suspension above the horizontal, in rad, between 0 and π/2
   * @param alpha of the body's end above the horizontal as loaded, likewise
   */
  public static RidgeLine of(double vertical, double theta, double alpha) {
    double tension = vertical * (1 / Math.tan(theta) - 1 / Math.tan(alpha));
    return tension > 0
        ? new RidgeLine(tension, vertical / Math.sin(alpha))
        : new RidgeLine(0, vertical / Math.sin(theta));
  }

  /**
   * The other end of a ridge line whose tension is known: the body takes what it leaves of the pull
   * sideways.
   *
   * @param vertical what this end carries of the load, in N
   * @param horizontal what the suspension pulls sideways, in N
   * @param tension of the ridge line, in N, below that
   */
  static RidgeLine atTension(double vertical, double horizontal, double tension) {
    return new RidgeLine(tension, Math.hypot(vertical, horizontal - tension));
  }

  /**
   * The length between the ends of a body that hangs at an angle, as a share of its flat length:
   * cos a, the triangle of the two. A body is a curve and not a triangle, so this is a first
   * setting to try and no more (common practice, no source).
   */
  public static double shareOfFlatLength(double angle) {
    return Math.cos(angle);
  }

  /** The angle, in rad, at which the length between the ends is that share of the flat length. */
  public static double angleAtShare(double share) {
    return Math.acos(share);
  }
}
