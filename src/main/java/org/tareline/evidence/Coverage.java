package org.tareline.evidence;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.statistics.distribution.TDistribution;

/** Coverage factors for 95 %, two-sided (JCGM 100:2008, G.3.2 and table G.2). */
final class Coverage {

  /**
   * The factor where ν is infinite: the normal distribution's, as the tables and the API give it.
   */
  static final double NORMAL = 1.959964;

  private static final double UPPER_TAIL = 0.025;

  /** Keeps a ν that is whole but for the rounding of doubles, such as 3.999999999999, whole. */
  private static final double SLACK = 1e-9;

  /** The same to all digits of a double, for {@link #nearNormal}. */
  private static final double Z = 1.959963984540054;

  /**
   * Finding t takes microseconds and a table of rigs asks for the same few over and over. Beyond
   * this it is near enough to the normal distribution for a short series.
   */
  private static final int KEPT = 1_000;

  private static final Map<Integer, Double> FACTORS = new ConcurrentHashMap<>();

  private Coverage() {}

  /**
   * Student's t for so many effective degrees of freedom, truncated down to a whole number (JCGM
   * 100:2008, G.4.1 note 1) and taken as at least 1, the last row of the table.
   *
   * @param degreesOfFreedom ν, above 0, or infinite
   * @throws IllegalArgumentException if not above 0: TDistribution itself would accept NaN
   */
  static double factor(double degreesOfFreedom) {
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException("No t for " + degreesOfFreedom + " degrees of freedom.");
    }
    if (degreesOfFreedom == Double.POSITIVE_INFINITY) {
      return NORMAL;
    }
    double whole = Math.max(1, Math.floor(degreesOfFreedom + SLACK));
    return whole > KEPT ? nearNormal(whole) : FACTORS.computeIfAbsent((int) whole, Coverage::t);
  }

  /**
   * The asymptotic series in 1/ν of Abramowitz and Stegun, Handbook of Mathematical Functions,
   * 26.7.5; from memory, and held against the distribution itself by a test.
   */
  private static double nearNormal(double degreesOfFreedom) {
    double z2 = Z * Z;
    double first = Z * (z2 + 1) / 4;
    double second = Z * ((5 * z2 + 16) * z2 + 3) / 96;
    double third = Z * (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384;
    return Z + (first + (second + third / degreesOfFreedom) / degreesOfFreedom) / degreesOfFreedom;
  }

  private static double t(double degreesOfFreedom) {
    return TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(UPPER_TAIL);
  }
}
