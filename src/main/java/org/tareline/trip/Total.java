package org.tareline.trip;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;

/**
 * What some of a trip weighs together.
 *
 * @param estimate the sum of what is known
 * @param basis null where nothing is known
 * @param lines how many distinct lines are beneath, each rig unfolded
 * @param unweighedLines those of them whose mass was not weighed, the ones with no mass included
 * @param missing the distinct things that have no mass yet
 * @param leaves what it is the sum of, line by line, each rig unfolded
 */
public record Total(
    Estimate estimate,
    @Nullable Basis basis,
    int lines,
    int unweighedLines,
    List<Piece> missing,
    List<Leaf> leaves) {

  static Total of(RollUp rollUp) {
    return new Total(
        rollUp.estimate(),
        rollUp.basis(),
        rollUp.leafLines(),
        rollUp.unweighedLines(),
        rollUp.missing(),
        rollUp.leaves());
  }

  static Total of(List<Leaf> leaves) {
    return new Total(
        Estimate.sum(leaves.stream().map(Leaf::estimate).filter(Objects::nonNull).toList()),
        leaves.stream()
            .map(leaf -> leaf.piece().basis())
            .filter(Objects::nonNull)
            .reduce(Basis::of)
            .orElse(null),
        leaves.size(),
        (int) leaves.stream().filter(leaf -> leaf.piece().basis() != Basis.WEIGHED).count(),
        leaves.stream()
            .filter(leaf -> leaf.estimate() == null)
            .map(Leaf::piece)
            .distinct()
            .toList(),
        leaves);
  }

  /** Whether something has no mass yet, so that the sum is a least one. */
  public boolean atLeast() {
    return !missing.isEmpty();
  }
}
