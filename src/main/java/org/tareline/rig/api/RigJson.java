package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.HeldLine;
import org.tareline.rig.Rig;

/**
 * A rig in an answer.
 *
 * @param note left out where there is none
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record RigJson(
    String code, String name, @Nullable String note, int revision, List<LineJson> lines) {

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

  static RigJson of(Rig rig, List<HeldLine> lines) {
    return new RigJson(
        rig.code(),
        rig.name(),
        rig.note().orElse(null),
        rig.revision(),
        lines.stream().map(LineJson::of).toList());
  }
}
