package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.material.Learning;
import org.tareline.material.Taken;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;

/**
 * What parts say of the material that they are mostly cut from.
 *
 * @param value weighed to calculated, of whole parts
 * @param standardUncertainty of that, the figure they were calculated with taken as it stands
 * @param agree whether the errors of the parts explain how far apart they are; where not, the
 *     uncertainty is as large as they are scattered
 * @param against nominal or weighed: what the parts were calculated by, also once the learned mass
 *     has been taken
 * @param mass what follows from it, and would be taken
 * @param taken what was taken and is in use; left out where nothing is
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record LearnedJson(
    @Nullable String value,
    @Nullable String standardUncertainty,
    @Nullable String expandedUncertainty,
    @Nullable Boolean agree,
    @Nullable String against,
    @Nullable List<PartJson> parts,
    @Nullable MassPerJson mass,
    @Nullable TakenJson taken) {

  /**
   * A part.
   *
   * @param ratio weighed to calculated
   * @param share of the calculated mass that is this material
   */
  record PartJson(
      String code,
      String name,
      QuantityJson calculated,
      QuantityJson weighed,
      String ratio,
      String standardUncertainty,
      String share) {

    static PartJson of(Learning.Part part) {
      return new PartJson(
          part.made().thing().code(),
          part.made().thing().name(),
          QuantityJson.of(part.made().calculated().value(), Unit.GRAM),
          QuantityJson.of(part.made().weighed().value(), Unit.GRAM),
          QuantityJson.plain(part.ratio()),
          QuantityJson.plain(part.standardUncertainty()),
          QuantityJson.plain(part.share()));
    }
  }

  /** What was taken, as it was then; its mass is the one that is used. */
  record TakenJson(String ratio, int parts, String against, String at) {

    static TakenJson of(Taken taken) {
      return new TakenJson(
          QuantityJson.plain(taken.ratio()),
          taken.parts(),
          taken.against().word(),
          taken.at().toString());
    }
  }

  static @Nullable LearnedJson of(Learning.@Nullable Learned learned, @Nullable Taken taken) {
    TakenJson takenJson = taken == null ? null : TakenJson.of(taken);
    if (learned == null) {
      return takenJson == null
          ? null
          : new LearnedJson(null, null, null, null, null, null, null, takenJson);
    }
    return new LearnedJson(
        QuantityJson.plain(learned.ratio()),
        QuantityJson.plain(learned.standardUncertainty()),
        QuantityJson.plain(learned.expandedUncertainty()),
        learned.agree(),
        learned.against().word(),
        learned.parts().stream().map(PartJson::of).toList(),
        MassPerJson.of(learned.mass()),
        takenJson);
  }
}
