package org.tareline.part;

import org.jspecify.annotations.Nullable;
import org.tareline.material.Material;
import org.tareline.material.StrengthKind;
import org.tareline.units.Quantity;

/**
 * What a part holds, new and by itself, before anything is taken off for its ends.
 *
 * @param force as it was stated
 * @param material code of the material that says so; null where the part itself does
 */
public record Strength(Quantity force, StrengthKind kind, @Nullable String material) {

  /** By the line that a part is cut from, where that is known of it. */
  static @Nullable Strength of(Material material) {
    Quantity force = material.strength().orElse(null);
    return force == null
        ? null
        : new Strength(
            force, material.strengthKind().orElse(StrengthKind.MINIMUM_BREAKING), material.code());
  }
}
