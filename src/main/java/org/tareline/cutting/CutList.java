package org.tareline.cutting;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

/**
 * All that is cut for a part, and what it will weigh. Its error is that of each material, one
 * source for all that is cut from it and shared with other parts of the same, and that of cutting:
 * every edge is off together by the same t, anywhere within ± the tolerance (rectangular, JCGM
 * 100:2008, 4.3.7), so that the mass is off by cut edge × mass per area × t.
 *
 * @param id of the part; the error of its cutting is its own
 * @param cuttingTolerance ± of every cut edge, in m; 0 or more
 */
public record CutList(String id, List<Cut> cuts, double cuttingTolerance) {

  /** ± 3 mm: common practice, no source. */
  public static final double COMMON_TOLERANCE = 0.003;

  /**
   * @throws IllegalArgumentException if the tolerance is negative or not a number, or more is cut
   *     away than there is
   */
  public CutList {
    cuts = List.copyOf(cuts);
    if (!(cuttingTolerance >= 0 && cuttingTolerance < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("The cutting tolerance has to be 0 or more.");
    }
    if (grams(cuts) < 0) {
      throw new IllegalArgumentException("More is cut away than there is.");
    }
  }

  /** What it will weigh, rounded half-even to the nanogram, once. */
  public Estimate estimate() {
    return estimate(cuts);
  }

  /** What some of its lines weigh, as part of the whole; may be below nothing. */
  public Estimate estimate(List<Cut> some) {
    Map<Source, Double> terms = new LinkedHashMap<>();
    double edge = 0;
    for (Cut cut : some) {
      terms.merge(
          cut.stock().source(), cut.grams() * cut.stock().relativeUncertainty(), Double::sum);
      edge += cut.gramsPerMetreOfEdge();
    }
    terms.merge(
        Source.of(id + "/cutting", "cutting"), edge * cuttingTolerance / Math.sqrt(3), Double::sum);
    return Estimate.of(Mass.fromGrams(grams(some)), terms);
  }

  private static double grams(List<Cut> cuts) {
    return cuts.stream().mapToDouble(Cut::grams).sum();
  }
}
