package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.site.FormFields.Choice;
import org.tareline.trip.Carry;
import org.tareline.trip.web.TripForm.LineForm;

/**
 * The page around the form.
 *
 * @param code of the trip that is described; null for a new one
 * @param stale whether somebody else has saved since the form was opened
 * @param things lines of parts and rigs, the empty ones last
 * @param items lines of free items, the empty ones last
 * @param places bags and pockets that are known by name
 */
record TripFormPage(
    String title,
    String action,
    @Nullable String code,
    TripForm form,
    boolean stale,
    List<Row> things,
    List<Row> items,
    List<Choice> systems,
    List<Choice> carries,
    List<String> places) {

  /**
   * A line.
   *
   * @param at its name as the faults have it: {@code lines[3]}; lines keep their order by it,
   *     whichever of the two lists they stand in
   */
  record Row(String at, int number, LineForm line) {}

  private static final int MORE_THINGS = 4;
  private static final int MORE_ITEMS = 2;

  static TripFormPage of(@Nullable String code, TripForm form, boolean stale, List<String> places) {
    List<LineForm> lines = new ArrayList<>(form.kept());
    for (int i = 0; i < MORE_THINGS; i++) {
      lines.add(LineForm.NEW_THING);
    }
    for (int i = 0; i < MORE_ITEMS; i++) {
      lines.add(LineForm.NEW_ITEM);
    }
    List<Row> things = new ArrayList<>();
    List<Row> items = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      List<Row> rows = lines.get(i).item() == null ? things : items;
      rows.add(new Row("lines[" + i + "]", rows.size() + 1, lines.get(i)));
    }
    return new TripFormPage(
        code == null ? "New trip" : "Edit " + code,
        code == null ? "Put it into the ledger" : "Save",
        code,
        form,
        stale,
        things,
        items,
        Arrays.stream(GearSystem.values())
            .map(system -> new Choice(system.word(), system.pageWords()))
            .toList(),
        Arrays.stream(Carry.values())
            .map(carry -> new Choice(carry.word(), carry.pageWords()))
            .toList(),
        places);
  }
}
