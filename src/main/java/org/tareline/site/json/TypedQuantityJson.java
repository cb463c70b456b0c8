package org.tareline.site.json;

import org.jspecify.annotations.Nullable;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * A quantity in an answer that somebody once typed: exactly, and as typed.
 *
 * @param value as of {@link QuantityJson}
 * @param unit a UCUM code
 */
public record TypedQuantityJson(String value, String unit, String typed) {

  public static TypedQuantityJson of(Mass mass, String typed, Unit unit) {
    QuantityJson exact = QuantityJson.of(mass, unit);
    return new TypedQuantityJson(exact.value(), exact.unit(), typed);
  }

  /** What somebody typed of any kind, in the base unit of its kind. */
  public static TypedQuantityJson of(Quantity quantity, String typed) {
    Unit base = quantity.kind().base();
    return new TypedQuantityJson(quantity.in(base).value(), base.ucum(), typed);
  }

  /** As {@link #of}, or null where nothing was typed. */
  public static @Nullable TypedQuantityJson orNull(
      @Nullable Mass mass, @Nullable String typed, Unit unit) {
    return mass == null || typed == null ? null : of(mass, typed, unit);
  }
}
