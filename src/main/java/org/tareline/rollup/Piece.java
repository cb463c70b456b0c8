package org.tareline.rollup;

import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;

/**
 * A thing that is counted and not taken apart.
 *
 * @param each the mass of one; null where nobody knows it yet, which is not the same as nothing
 * @param basis where that mass comes from; null where there is none
 */
public record Piece(
    String id, String code, String name, @Nullable Estimate each, @Nullable Basis basis)
    implements Content {

  /**
   * @throws IllegalArgumentException if there is a mass with no basis or a basis with no mass, or
   *     if the mass is below 0
   */
  public Piece {
    if ((each == null) != (basis == null)) {
      throw new IllegalArgumentException(
          code
              + ": a mass and its basis go together, and they are "
              + each
              + " and "
              + basis
              + ".");
    }
    if (each != null && each.value().signum() < 0) {
      throw new IllegalArgumentException(code + " cannot weigh less than nothing: " + each + ".");
    }
  }
}
