package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.HeldLine;
import org.tareline.rig.Rig;
import org.tareline.rig.RigVariants;

/**
 * A rig in an answer.
 *
 * @param note left out where there is none
 * @param variantOf code of the rig that it is a variant of; left out where it is none, and of lists
 * @param variants codes of its variants; left out where there are none, and of lists
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record RigJson(
    String code,
    String name,
    @Nullable String note,
    int revision,
    @Nullable String variantOf,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> variants,
    List<LineJson> lines) {

  /**
   * A line.
   *
   * @param id survives edits
   * @param part code; left out where the line holds a rig
   * @param rig code; left out where the line holds a part
   * @param name of what it holds
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record LineJson(
      String id,
      @Nullable String part,
      @Nullable String rig,
      String name,
      int quantity,
      String role) {

    static LineJson of(HeldLine line) {
      return new LineJson(
          line.id().toString(), line.part(), line.rig(), line.name(), line.quantity(), line.role());
    }
  }

  /** A rig in a list. */
  static RigJson of(Rig rig, List<HeldLine> lines) {
    return of(rig, new RigVariants.Kin(null, List.of()), lines);
  }

  /** A rig by itself. */
  static RigJson of(Rig rig, RigVariants.Kin kin, List<HeldLine> lines) {
    return new RigJson(
        rig.code(),
        rig.name(),
        rig.note().orElse(null),
        rig.revision(),
        kin.original() == null ? null : kin.original().code(),
        kin.variants().stream().map(Rig::code).toList(),
        lines.stream().map(LineJson::of).toList());
  }
}
