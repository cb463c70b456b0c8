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

  /**
   * Finding t takes microseconds and a table of rigs asks for the same few over and over. ν beyond
   * this is rare and not kept, which bounds the memory.
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
    return whole > KEPT ? t(whole) : FACTORS.computeIfAbsent((int) whole, Coverage::t);
  }

  private static double t(double degreesOfFreedom) {
    return TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(UPPER_TAIL);
  }
}
