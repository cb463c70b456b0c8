package org.tareline.trip;

import org.jspecify.annotations.Nullable;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;

/**
 * So much of something that is used up: a mass, or a volume of what has a known mass per volume.
 *
 * @param mass what it weighs; 0 or more
 * @param typed as it was typed
 */
public record Amount(Mass mass, String typed) {

  /**
   * Of water, near enough: it is 0.9982 g/mL at 20 °C (Tanaka et al. 2001, Metrologia 38, 301). To
   * count a litre as a kilogram is common practice.
   */
  private static final Quantity WATER = Quantity.of("1", Unit.KILOGRAM_PER_LITRE);

  /**
   * Reads an amount. A bare number is in grams.
   *
   * @param density of what is given by volume; that of water where it is null
   * @throws UnreadableQuantity if it is neither a mass nor a volume, or is less than nothing
   */
  static Amount of(String typed, @Nullable Quantity density) {
    Quantity read = read(typed).notNegative();
    return new Amount(
        read.kind() == Kind.VOLUME
            ? read.atDensity(density == null ? WATER : density).mass()
            : read.mass(),
        typed);
  }

  /** What was typed, as the mass or the volume that it is. */
  public static Quantity read(String typed) {
    try {
      return Quantity.read(typed, Kind.MASS, Unit.GRAM);
    } catch (UnreadableQuantity noMass) {
      try {
        return Quantity.read(typed, Kind.VOLUME, null);
      } catch (UnreadableQuantity noVolumeEither) {
        throw noMass;
      }
    }
  }

  /** Reads a mass per volume. A bare number is in kg/L. */
  public static Quantity density(String typed) {
    return Quantity.read(typed, Kind.DENSITY, Unit.KILOGRAM_PER_LITRE).positive();
  }
}
