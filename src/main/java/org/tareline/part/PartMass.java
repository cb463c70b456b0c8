package org.tareline.part;

import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.weighing.Weighing;

/**
 * What one piece of a part weighs, and where that comes from. Weighed beats stated; nothing known
 * is null, never zero.
 *
 * @param estimate null when nothing is known
 * @param basis null when nothing is known
 * @param weighing the weighing it comes from; null when it was not weighed
 */
public record PartMass(
    @Nullable Estimate estimate, @Nullable Basis basis, @Nullable Weighing weighing) {

  /** Nothing is known. */
  public static final PartMass UNKNOWN = new PartMass(null, null, null);
}
