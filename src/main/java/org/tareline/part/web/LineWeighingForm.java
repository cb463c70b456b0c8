package org.tareline.part.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Calculation;
import org.tareline.part.LineWeighings;
import org.tareline.site.Figure;
import org.tareline.site.FormFields.Choice;
import org.tareline.site.Moments;
import org.tareline.units.Kind;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import org.tareline.units.UnreadableQuantity;
import org.tareline.weighing.Weighings;

/**
 * A weighing of a line of a cut list as typed, with all readings in one field.
 *
 * @param line its id
 */
record LineWeighingForm(
    @Nullable String line,
    @Nullable String scale,
    @Nullable String readings,
    @Nullable String count,
    @Nullable String tare) {

  /**
   * One that was logged.
   *
   * @param struckOut the reason; null while it stands
   */
  record Logged(String id, String figure, String what, String when, @Nullable String struckOut) {

    static Logged of(LineWeighings.Logged weighed, MassStyle style, Moments moments) {
      return new Logged(
          weighed.logged().weighing().uuid().toString(),
          Figure.of(weighed.logged().weighing().estimate(), style).sentence(),
          weighed.line().name().orElse(Words.of(weighed.line().form()))
              + (weighed.line().quantity() > 1 ? ", each" : "")
              + (weighed.changed() ? "; something else is cut since" : ""),
          moments.minute(weighed.logged().weighing().weighedAt()),
          weighed.logged().voidReason());
    }
  }

  /** The lines that can be weighed. */
  static List<Choice> choices(Calculation calculation) {
    return calculation.lines().stream()
        .map(Calculation.Line::line)
        .filter(line -> !line.removed())
        .map(
            line ->
                new Choice(
                    line.uuid().toString(),
                    line.name().orElse(Words.of(line.form()))
                        + (line.quantity() > 1 ? ", " + line.quantity() + " of them" : "")))
        .toList();
  }

  Optional<UUID> lineId() {
    try {
      return Optional.ofNullable(line).map(UUID::fromString);
    } catch (IllegalArgumentException notAnId) {
      return Optional.empty();
    }
  }

  Weighings.Entry entry() {
    return new Weighings.Entry(scale, null, each(), null, tare, count, null, null, null);
  }

  /** What cannot be taken apart is handed on whole, to be refused with its reason. */
  private List<@Nullable String> each() {
    if (readings == null || readings.isBlank()) {
      return List.of();
    }
    try {
      return new ArrayList<>(
          Quantity.readMany(readings, Kind.MASS, Unit.GRAM).stream().map(Quantity::text).toList());
    } catch (UnreadableQuantity unreadable) {
      return new ArrayList<>(List.of(readings));
    }
  }
}
