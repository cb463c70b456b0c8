package org.tareline.part.json;

import org.jspecify.annotations.Nullable;
import org.tareline.part.PackedSize;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;

/** The room that things take, or that a pack has, in an answer. */
public final class PackedSizeJson {

  private PackedSizeJson() {}

  /** Null where it is not known. */
  public static @Nullable TypedQuantityJson volume(PackedSize size) {
    return typed(size.volumeTyped(), Kind.VOLUME);
  }

  /** Null where it is not known. */
  public static @Nullable TypedQuantityJson length(PackedSize size) {
    return typed(size.lengthTyped(), Kind.LENGTH);
  }

  private static @Nullable TypedQuantityJson typed(@Nullable String typed, Kind kind) {
    return typed == null ? null : TypedQuantityJson.of(Quantity.read(typed, kind, null), typed);
  }
}
