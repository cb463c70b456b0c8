package org.tareline.rig;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.RollUp;

/**
 * How the complete total of a rig moved.
 *
 * @param before null where nothing in it had a mass
 * @param after the sum of what is known now
 * @param change after − before
 * @param atLeast whether something in it still has no mass, so that the total is a least one
 */
public record Moved(
    String code,
    String name,
    @Nullable Estimate before,
    Estimate after,
    Estimate change,
    boolean atLeast) {

  /** Nothing where neither the total nor its uncertainty is another one now. */
  static Optional<Moved> of(RollUp before, RollUp after) {
    Estimate then = before.estimate();
    Estimate now = after.estimate();
    if (then.value().equals(now.value())
        && then.expandedUncertainty().equals(now.expandedUncertainty())
        && before.missing().equals(after.missing())) {
      return Optional.empty();
    }
    return Optional.of(
        new Moved(
            after.assembly().code(),
            after.assembly().name(),
            before.basis() == null ? null : then,
            now,
            now.minus(then),
            after.atLeast()));
  }
}
