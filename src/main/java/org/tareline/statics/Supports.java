package org.tareline.statics;

/**
 * A load that hangs at the joint of two lines, one to either side. By Lamé's theorem (Beer &amp;
 * Johnston, Vector Mechanics: Statics, ch. 2; Hibbeler, Statics, ch. 3), with a and b above the
 * horizontal: T₁ = W cos b / sin(a + b), T₂ = W cos a / sin(a + b). For a = b that is W / (2 sin
 * a).
 *
 * @param first tension of the first line, in N
 * @param second tension of the second line, in N
 * @param horizontal what both pull sideways, in N
 * @param firstVertical what the first carries of the load, in N
 * @param secondVertical what the second carries of the load, in N
 */
public record Supports(
    double first, double second, double horizontal, double firstVertical, double secondVertical) {

  /**
   * Two lines in balance with a load.
   *
   * @param load in N, above 0
   * @param a of the first line above the horizontal at the load, in rad; below 0 where it leads
   *     down
   * @param b of the second line, likewise
   * @throws IllegalArgumentException if the lines cannot hold the load: a + b is not above 0 and
   *     below π, or either is π/2 or more
   */
  public static Supports of(double load, double a, double b) {
    double quarter = Math.PI / 2;
    if (!(load > 0 && a + b > 0 && Math.abs(a) < quarter && Math.abs(b) < quarter)) {
      throw new IllegalArgumentException(
          "lines at " + a + " and " + b + " rad cannot hold " + load + " N");
    }
    double sine = Math.sin(a + b);
    double first = load * Math.cos(b) / sine;
    double second = load * Math.cos(a) / sine;
    return new Supports(
        first, second, first * Math.cos(a), first * Math.sin(a), second * Math.sin(b));
  }

  /** Two lines at the same angle. */
  public static Supports level(double load, double angle) {
    return of(load, angle, angle);
  }

  /** The angle above the horizontal of a line that rises so far over a run, in rad. */
  public static double angle(double run, double rise) {
    return Math.atan2(rise, run);
  }
}
