package org.tareline.evidence;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;
import org.tareline.units.Mass;

/**
 * Readings of one weighing that stand apart from the others. They are flagged for somebody to look
 * at and never dropped: whether a reading was wrong, no test can say.
 *
 * <p>Two tests look, and a reading is flagged if either says so:
 *
 * <ul>
 *   <li>Grubbs, two-sided at 5 %, of the one reading farthest from the mean, or of all that are
 *       equally far (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1; Grubbs 1969);
 *   <li>the modified z-score 0.6745 (x − median)/MAD beyond ±3.5, of every reading; silent where
 *       MAD, the median absolute deviation, is 0, as it is where more than half of the readings are
 *       alike (Iglewicz and Hoaglin 1993; e-Handbook 1.3.5.17).
 * </ul>
 *
 * Both take the readings for draws from a normal distribution and know nothing of the steps of a
 * display: where all readings but one are alike, Grubbs flags that one, be it a single step away.
 * Fewer than three readings, or readings all alike, are never flagged.
 *
 * <p>Distances are taken in whole nanograms and ties are exact; how heavy the load is makes no
 * difference.
 */
public final class OutlierScreen {

  /** A test that flags readings. */
  public enum Test {
    GRUBBS("grubbs"),
    MODIFIED_Z("modified z");

    private final String word;

    Test(String word) {
      this.word = word;
    }

    /** The word the API and files use. */
    public String word() {
      return word;
    }
  }

  /**
   * A reading that stands apart.
   *
   * @param index its place among the readings, from 0
   * @param tests which tests say so, at least one
   */
  public record Flag(int index, Mass reading, List<Test> tests) {}

  private static final int LEAST_READINGS = 3;
  private static final double SIGNIFICANCE = 0.05;

  // 0.6745 and 3.5 in ten-thousandths, so that the limit is compared without rounding.
  private static final BigInteger FACTOR = BigInteger.valueOf(6745);
  private static final BigInteger LIMIT = BigInteger.valueOf(35_000);

  private OutlierScreen() {}

  /** The readings that stand apart, in the order of the readings; none where none does. */
  public static List<Flag> of(List<Mass> readings) {
    if (readings.size() < LEAST_READINGS) {
      return List.of();
    }
    List<BigInteger> fromMean = timesCount(readings);
    BigInteger farthest = fromMean.stream().reduce(BigInteger.ZERO, BigInteger::max);
    boolean grubbs = grubbs(readings) > criticalGrubbs(readings.size());
    List<BigInteger> fromMedian = timesFour(readings);
    BigInteger spread = median(fromMedian);

    List<Flag> flags = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      List<Test> tests = new ArrayList<>();
      if (grubbs && fromMean.get(i).equals(farthest)) {
        tests.add(Test.GRUBBS);
      }
      if (spread.signum() > 0
          && fromMedian.get(i).multiply(FACTOR).compareTo(spread.multiply(LIMIT)) > 0) {
        tests.add(Test.MODIFIED_Z);
      }
      if (!tests.isEmpty()) {
        flags.add(new Flag(i, readings.get(i), List.copyOf(tests)));
      }
    }
    return List.copyOf(flags);
  }

  /** G = max |x − mean| / s; 0 where all readings are alike. */
  static double grubbs(List<Mass> readings) {
    List<BigInteger> fromMean = timesCount(readings);
    double farthest = 0;
    double sumOfSquares = 0;
    for (BigInteger each : fromMean) {
      double distance = each.doubleValue();
      farthest = Math.max(farthest, distance);
      sumOfSquares += distance * distance;
    }
    // Both are n times what they measure, which cancels: s = √(Σ(x − mean)²/(n − 1)).
    return sumOfSquares == 0 ? 0 : farthest / Math.sqrt(sumOfSquares / (readings.size() - 1));
  }

  /**
   * ((n − 1)/√n) √(t²/(n − 2 + t²)), with t the upper 0.05/(2n) point of Student's distribution of
   * n − 2 degrees of freedom.
   *
   * @param n 3 or more
   */
  static double criticalGrubbs(int n) {
    double t = TDistribution.of(n - 2).inverseSurvivalProbability(SIGNIFICANCE / (2 * n));
    return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
  }

  /** n |x − mean| of each, which is whole. */
  private static List<BigInteger> timesCount(List<Mass> readings) {
    BigInteger sum = nanograms(readings).stream().reduce(BigInteger.ZERO, BigInteger::add);
    BigInteger count = BigInteger.valueOf(readings.size());
    return nanograms(readings).stream().map(x -> x.multiply(count).subtract(sum).abs()).toList();
  }

  /** 4 |x − median| of each: the median of an even number of them is then whole, as they are. */
  private static List<BigInteger> timesFour(List<Mass> readings) {
    List<BigInteger> fourfold = nanograms(readings).stream().map(x -> x.shiftLeft(2)).toList();
    BigInteger median = median(fourfold);
    return fourfold.stream().map(x -> x.subtract(median).abs()).toList();
  }

  /** The middle one, or halfway between the middle two, which have to be even. */
  private static BigInteger median(List<BigInteger> numbers) {
    List<BigInteger> sorted = numbers.stream().sorted().toList();
    int middle = sorted.size() / 2;
    return sorted.size() % 2 == 1
        ? sorted.get(middle)
        : sorted.get(middle - 1).add(sorted.get(middle)).shiftRight(1);
  }

  private static List<BigInteger> nanograms(List<Mass> readings) {
    return readings.stream().map(each -> BigInteger.valueOf(each.nanograms())).toList();
  }
}
