package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.json.PackedSizeJson;
import org.tareline.rollup.Piece;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.trip.PackFit;
import org.tareline.units.Unit;

/**
 * Whether base and consumables go into a pack at the start. What is soft gives way and gaps stay
 * open: the sum is a guide.
 *
 * @param carrier left out, with the name, where nobody is named
 * @param volume the sum of what is known
 * @param atLeast true, or left out: the packed volume of something is not known
 * @param withoutVolume of which things, a part by its code, an item by its name
 * @param packVolume what goes into the pack; left out, as the length, where it is not known
 * @param fits by the sum; null where it is not known, which is never a yes
 * @param tooLong what is longer than the pack; empty too where its length is not known
 * @param withoutLength of how many things the packed length is not known
 */
record PackFitJson(
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String carrier,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String name,
    QuantityJson volume,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Boolean atLeast,
    List<String> withoutVolume,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable TypedQuantityJson packVolume,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable TypedQuantityJson packLength,
    @Nullable Boolean fits,
    List<TooLongJson> tooLong,
    int withoutLength) {

  /**
   * A part that is longer than the pack.
   *
   * @param packed how long it is, as typed
   */
  record TooLongJson(String part, String name, String packed) {}

  static PackFitJson of(PackFit fit) {
    return new PackFitJson(
        fit.carrier() == null ? null : fit.carrier().code(),
        fit.carrier() == null ? null : fit.carrier().name(),
        QuantityJson.of(fit.millilitres(), Unit.MILLILITRE.ucum()),
        fit.withoutVolume().isEmpty() ? null : true,
        fit.withoutVolume().stream().map(Piece::code).toList(),
        fit.carrier() == null ? null : PackedSizeJson.volume(fit.carrier().pack()),
        fit.carrier() == null ? null : PackedSizeJson.length(fit.carrier().pack()),
        fit.fits(),
        fit.tooLong().stream()
            .map(each -> new TooLongJson(each.piece().code(), each.piece().name(), each.packed()))
            .toList(),
        fit.withoutLength().size());
  }
}
