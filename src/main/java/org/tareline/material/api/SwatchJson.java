package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.material.Swatch;
import org.tareline.material.Swatches;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.units.Length;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.weighing.json.WeighingJson;

/**
 * A swatch in an answer.
 *
 * @param length left out of what goes by the piece
 * @param width left out of what does not go by area
 * @param sizeError how far off each side is taken to be, as typed or the 1 mm that serves
 * @param mass what it says of the material by itself
 * @param counts whether it is one of those that say what the material weighs
 * @param weighing the weighing of it, by whose id it is struck out
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record SwatchJson(
    String id,
    @Nullable TypedQuantityJson length,
    @Nullable TypedQuantityJson width,
    @Nullable String sizeError,
    @Nullable String place,
    @JsonUnwrapped MassPerJson mass,
    boolean counts,
    List<String> notes,
    WeighingJson weighing) {

  static SwatchJson of(Swatches.Weighed weighed) {
    Swatch swatch = weighed.swatch();
    return new SwatchJson(
        swatch.uuid().toString(),
        side(swatch.length(), swatch.lengthTyped()),
        side(swatch.width(), swatch.widthTyped()),
        swatch
            .sizeErrorTyped()
            .or(() -> swatch.length().map(any -> Swatches.COMMON_SIZE_ERROR))
            .orElse(null),
        swatch.place().orElse(null),
        MassPerJson.of(weighed.mass()),
        weighed.counts(),
        weighed.notes(),
        WeighingJson.of(
            weighed.logged(), weighed.logged().weighing().estimate(), weighed.counts(), Unit.GRAM));
  }

  private static @Nullable TypedQuantityJson side(Optional<Length> length, Optional<String> typed) {
    return length.isEmpty() || typed.isEmpty()
        ? null
        : TypedQuantityJson.of(Quantity.of(length.get()), typed.get());
  }
}
