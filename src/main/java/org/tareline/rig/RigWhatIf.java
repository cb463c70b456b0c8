package org.tareline.rig;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.CostChange;
import org.tareline.part.Part;
import org.tareline.part.Strength;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.rollup.RollUp;

/**
 * A rig as it is, and as it would be with other materials in the cut lists of its parts, or with
 * other parts. What stays cancels in the difference, error and all.
 *
 * @param before the total as it is
 * @param swaps the materials
 * @param parts counted parts that have one of the materials in their cut list
 * @param exchanges counted parts in whose place others stand
 * @param withoutList counted parts with no cut list: what they are made of is not known
 * @param loads what that does to what holds; null where nobody has said how the rig is hung
 */
public record RigWhatIf(
    RollUp before,
    List<Swap> swaps,
    List<Changed> parts,
    List<Exchange> exchanges,
    List<Part> withoutList,
    @Nullable LoadsChange loads) {

  /** A part that is changed, and how many of it are counted. */
  public record Changed(WhatIf whatIf, long count) {

    public Estimate difference() {
      return whatIf.difference().times(count);
    }
  }

  /**
   * A part in the place of another.
   *
   * @param count how many of the other are counted
   * @param was what they weigh; null where that is not known
   * @param is what so many of the part weigh; null where that is not known
   * @param held what the other holds, and
   * @param holds the part; null where that is not known
   */
  public record Exchange(
      Part from,
      Part to,
      long count,
      @Nullable Estimate was,
      @Nullable Estimate is,
      @Nullable Strength held,
      @Nullable Strength holds) {

    public @Nullable Estimate difference() {
      return was == null || is == null ? null : is.minus(was);
    }
  }

  /**
   * After − before: what all the changes come to.
   *
   * @return null where nothing is known of what an exchanged part weighs
   */
  public @Nullable Estimate difference() {
    Estimate sum = Estimate.sum(parts.stream().map(Changed::difference).toList());
    for (Exchange exchange : exchanges) {
      Estimate difference = exchange.difference();
      if (difference == null) {
        return null;
      }
      sum = sum.plus(difference);
    }
    return sum;
  }

  /** The total as it would be; null as the difference is. */
  public @Nullable Estimate after() {
    Estimate difference = difference();
    return difference == null ? null : before.estimate().plus(difference);
  }

  public Verdict verdict() {
    Estimate difference = difference();
    return difference == null ? Verdict.UNDECIDED : Verdict.of(difference);
  }

  /** What the changed parts cost, as if each were cut by itself; exchanged parts have no price. */
  public CostChange cost() {
    Map<WhatIf, Long> counts = new LinkedHashMap<>();
    parts.forEach(part -> counts.put(part.whatIf(), part.count()));
    CostChange sum = CostChange.sum(counts);
    return exchanges.isEmpty()
        ? sum
        : new CostChange(sum.before(), sum.after(), null, sum.unpriced());
  }
}
