package org.tareline.rollup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;

/**
 * A counted line that holds a piece, over all ways that lead to it.
 *
 * @param multiplicity how many of the piece the whole holds by way of this line
 * @param estimate of all of them together; null where the piece has no mass
 * @param shareOfVariance of the whole total, see {@link Entry#shareOfVariance()}
 */
public record Leaf(
    Line line,
    Piece piece,
    long multiplicity,
    @Nullable Estimate estimate,
    double shareOfVariance) {

  /** Sum of what is known. */
  static Estimate sum(List<Leaf> leaves) {
    return Estimate.sum(leaves.stream().map(Leaf::estimate).filter(Objects::nonNull).toList());
  }

  /** By the line's own role, in the order met. */
  static Map<String, List<Leaf>> byRole(List<Leaf> leaves) {
    Map<String, List<Leaf>> byRole = new LinkedHashMap<>();
    for (Leaf leaf : leaves) {
      byRole.computeIfAbsent(leaf.line.role(), role -> new ArrayList<>()).add(leaf);
    }
    return byRole;
  }
}
