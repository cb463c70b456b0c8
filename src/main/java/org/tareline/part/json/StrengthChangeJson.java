package org.tareline.part.json;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.material.Material;
import org.tareline.material.StrengthKind;
import org.tareline.part.Swap;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;

/**
 * What a change of material does to the strength.
 *
 * @param replaced code of the old material
 * @param by code of the new one
 * @param before null where it is not known
 * @param after null where it is not known
 * @param ratio after over before; left out unless both are known and are of one kind
 * @param verdict {@code weaker}, {@code as-strong}, {@code stronger}, {@code not-known} or {@code
 *     not-comparable}
 * @param words the same as a sentence
 */
public record StrengthChangeJson(
    String replaced,
    String by,
    @Nullable StrengthJson before,
    @Nullable StrengthJson after,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String ratio,
    String verdict,
    String words) {

  /** A strength with what it says. */
  public record StrengthJson(TypedQuantityJson strength, String kind) {

    private static @Nullable StrengthJson of(Material material) {
      Optional<String> kind = material.strengthKind().map(StrengthKind::word);
      return material
          .strength()
          .map(
              strength ->
                  new StrengthJson(
                      TypedQuantityJson.of(strength, strength.text()), kind.orElse("")))
          .orElse(null);
    }
  }

  public static StrengthChangeJson of(Swap swap) {
    return new StrengthChangeJson(
        swap.from().code(),
        swap.to().code(),
        StrengthJson.of(swap.from()),
        StrengthJson.of(swap.to()),
        swap.ratio().map(QuantityJson::plain).orElse(null),
        swap.holds().word(),
        swap.words());
  }
}
