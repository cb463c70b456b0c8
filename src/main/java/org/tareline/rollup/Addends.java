package org.tareline.rollup;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Numbering;
import org.tareline.evidence.Tally;

/**
 * A sum of some leaves, opened: what each adds to it and how much of its doubt is theirs.
 *
 * @param sum of what is known
 * @param each in the order of the leaves
 */
public record Addends(Estimate sum, List<Addend> each) {

  /**
   * One of them.
   *
   * @param shareOfMass of the sum, 0 to 1; 0 where it has no mass
   * @param shareOfVariance of the sum, as of {@link Entry#shareOfVariance()}; shares add up to 1
   */
  public record Addend(Leaf leaf, double shareOfMass, double shareOfVariance) {}

  public Addends {
    each = List.copyOf(each);
  }

  /** Opens the sum of these leaves. */
  public static Addends of(List<Leaf> leaves) {
    List<Estimate> known = new ArrayList<>();
    for (Leaf leaf : leaves) {
      if (leaf.estimate() != null) {
        known.add(leaf.estimate());
      }
    }
    Numbering numbering = Numbering.of(known);
    Tally tally = new Tally(numbering);
    numbering.estimates().forEach(estimate -> tally.add(estimate, 1));
    double[] covariances = numbering.estimates().stream().mapToDouble(tally::covariance).toArray();
    Estimate sum = tally.take();
    double grams = sum.value().inGrams();
    double variance = sum.variance();
    List<Addend> each = new ArrayList<>();
    int at = 0;
    for (Leaf leaf : leaves) {
      @Nullable Estimate estimate = leaf.estimate();
      each.add(
          estimate == null
              ? new Addend(leaf, 0, 0)
              : new Addend(
                  leaf,
                  grams == 0 ? 0 : estimate.value().inGrams() / grams,
                  variance == 0 ? 0 : covariances[at] / variance));
      at += estimate == null ? 0 : 1;
    }
    return new Addends(sum, each);
  }
}
