package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.site.Codes;
import org.tareline.site.FormFields.Choice;
import org.tareline.trip.Carry;
import org.tareline.trip.web.TripForm.CarrierForm;
import org.tareline.trip.web.TripForm.LineForm;

/**
 * The page around the form.
 *
 * @param code of the trip that is described; null for a new one
 * @param stale whether somebody else has saved since the form was opened
 * @param carriers those typed, the empty ones last
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
    List<CarrierForm> carriers,
    List<Row> things,
    List<Row> items,
    List<Choice> systems,
    List<Choice> ownSystems,
    List<Choice> carries,
    List<String> places) {

  /**
   * A line.
   *
   * @param at its name as the faults have it: {@code lines[3]}; lines keep their order by it,
   *     whichever of the two lists they stand in
   * @param parts of the rig that it carries, to be left at home
   */
  record Row(String at, int number, LineForm line, List<Choice> parts) {}

  private static final int MORE_THINGS = 4;
  private static final int MORE_ITEMS = 2;
  private static final int MORE_CARRIERS = 2;

  /**
   * Lays out the form.
   *
   * @param partsOfRigs by the key of the rig's code
   */
  static TripFormPage of(
      @Nullable String code,
      TripForm form,
      boolean stale,
      List<String> places,
      Map<String, List<Part>> partsOfRigs) {
    List<CarrierForm> carriers = new ArrayList<>(form.keptCarriers());
    for (int i = 0; i < MORE_CARRIERS; i++) {
      carriers.add(CarrierForm.NEW);
    }
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
      rows.add(
          new Row(
              "lines[" + i + "]", rows.size() + 1, lines.get(i), parts(lines.get(i), partsOfRigs)));
    }
    return new TripFormPage(
        code == null ? "New trip" : "Edit " + code,
        code == null ? "Put it into the ledger" : "Save",
        code,
        form,
        stale,
        carriers,
        things,
        items,
        systemChoices().toList(),
        Stream.concat(Stream.of(new Choice("", "what each thing is for")), systemChoices())
            .toList(),
        Arrays.stream(Carry.values())
            .map(carry -> new Choice(carry.word(), carry.pageWords()))
            .toList(),
        places);
  }

  private static Stream<Choice> systemChoices() {
    return Arrays.stream(GearSystem.values())
        .map(system -> new Choice(system.word(), system.pageWords()));
  }

  /** Those in the rig, and those that are left at home already though the rig has them no more. */
  private static List<Choice> parts(LineForm line, Map<String, List<Part>> partsOfRigs) {
    List<Choice> parts = new ArrayList<>();
    List<String> gone = new ArrayList<>(line.leftAtHomeCodes());
    line.rigCode()
        .map(code -> partsOfRigs.getOrDefault(Codes.key(code), List.of()))
        .orElse(List.of())
        .forEach(
            part -> {
              parts.add(new Choice(part.code(), part.name() + " " + part.code()));
              gone.remove(part.code());
            });
    gone.forEach(code -> parts.add(new Choice(code, code + ", not in the rig")));
    return parts;
  }
}
