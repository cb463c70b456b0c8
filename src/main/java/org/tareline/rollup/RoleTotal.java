package org.tareline.rollup;

import java.util.List;
import org.tareline.evidence.Estimate;

/**
 * All counted leaf lines of one role together.
 *
 * @param estimate the sum of what is known
 * @param missing the distinct pieces that have no mass
 */
public record RoleTotal(Estimate estimate, List<Piece> missing) {

  public RoleTotal {
    missing = List.copyOf(missing);
  }

  static RoleTotal of(List<Leaf> leaves) {
    List<Piece> missing =
        leaves.stream().filter(leaf -> leaf.estimate() == null).map(Leaf::piece).toList();
    return new RoleTotal(Leaf.sum(leaves), missing.stream().distinct().toList());
  }

  /** Whether something has no mass, so that the sum is a least one. */
  public boolean atLeast() {
    return !missing.isEmpty();
  }
}
