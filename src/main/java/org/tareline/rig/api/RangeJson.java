package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Range;
import org.tareline.units.Unit;

/**
 * A computed figure in an answer.
 *
 * @param unit a UCUM code; left out of plain numbers
 * @param low left out, with high, where nothing that was given carries a ±
 * @param high left out too where there is no end to it
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record RangeJson(String value, @Nullable String unit, @Nullable String low, @Nullable String high) {

  /** A figure in a unit. */
  static RangeJson of(Range range, Unit unit) {
    return new RangeJson(QuantityJson.plain(range.nominal()), unit.ucum(), low(range), high(range));
  }

  /** As {@link #of}, or null where there is none. */
  static @Nullable RangeJson orNull(@Nullable Range range, Unit unit) {
    return range == null ? null : of(range, unit);
  }

  /** The low end of a wide range, or null. */
  static @Nullable String low(Range range) {
    return range.isWide() && !Double.isInfinite(range.low())
        ? QuantityJson.plain(range.low())
        : null;
  }

  /** The high end of a wide range, or null where it is narrow or has none. */
  static @Nullable String high(Range range) {
    return range.isWide() && !Double.isInfinite(range.high())
        ? QuantityJson.plain(range.high())
        : null;
  }
}
