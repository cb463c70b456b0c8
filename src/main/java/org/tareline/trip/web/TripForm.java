package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.rig.Rig;
import org.tareline.trip.Carry;
import org.tareline.trip.Trip;
import org.tareline.trip.TripLine;
import org.tareline.trip.Trips;

/**
 * A trip as typed.
 *
 * @param revision the one that the change started from; null for a new trip
 */
record TripForm(
    @Nullable String code,
    @Nullable String name,
    @Nullable String starts,
    @Nullable String days,
    @Nullable String note,
    @Nullable String revision,
    @Nullable List<@Nullable LineForm> lines) {

  /**
   * A line as typed: a part or a rig, or else a free item.
   *
   * @param saved what stood in {@code thing} when the form was opened, and of which kind it is:
   *     {@code rig DUSK}
   * @param out set where the line is to be taken out
   */
  record LineForm(
      @Nullable String id,
      @Nullable String thing,
      @Nullable String saved,
      @Nullable ItemForm item,
      @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place,
      @Nullable String out) {

    private static final String PART = "part ";
    private static final String RIG = "rig ";

    /** A row to be filled in with a part or a rig. */
    static final LineForm NEW_THING =
        new LineForm(null, "", null, null, "", Carry.BASE.word(), "", null);

    /** A row to be filled in with a free item. */
    static final LineForm NEW_ITEM =
        new LineForm(
            null,
            null,
            null,
            new ItemForm("", GearSystem.FOOD.word(), ""),
            "",
            Carry.CONSUMABLE.word(),
            "",
            null);

    static LineForm of(TripLine line, Trips.@Nullable Carried carried) {
      Part part = carried == null ? null : carried.part();
      Rig rig = carried == null ? null : carried.rig();
      return new LineForm(
          line.uuid().toString(),
          part != null ? part.code() : rig != null ? rig.code() : null,
          part != null ? PART + part.code() : rig != null ? RIG + rig.code() : null,
          line.item().map(ItemForm::of).orElse(null),
          String.valueOf(line.quantity()),
          line.carry().word(),
          line.place().orElse(""),
          null);
    }

    /** Whether nothing was typed that would be lost without it. */
    boolean blank() {
      return Stream.of(
              id,
              thing,
              item == null ? null : item.name(),
              item == null ? null : item.mass(),
              quantity,
              place)
          .allMatch(text -> text == null || text.isBlank());
    }

    LineForm withoutId() {
      return new LineForm(null, thing, saved, item, quantity, carry, place, out);
    }

    /** What was not touched is still of the kind it was, though a part and a rig share a code. */
    private boolean isStill(String kind) {
      return thing != null && (kind + thing).equals(saved);
    }

    Trips.LineEntry entry() {
      return new Trips.LineEntry(
          id,
          isStill(PART) ? thing : null,
          isStill(RIG) ? thing : null,
          isStill(PART) || isStill(RIG) ? null : thing,
          item == null ? null : item.entry(),
          quantity,
          carry,
          place,
          null,
          null,
          null,
          null,
          null);
    }
  }

  record ItemForm(@Nullable String name, @Nullable String system, @Nullable String mass) {

    static ItemForm of(TripLine.Item item) {
      return new ItemForm(
          item.name(), item.system().word(), item.massTyped() == null ? "" : item.massTyped());
    }

    Trips.ItemEntry entry() {
      return new Trips.ItemEntry(name, system, mass);
    }
  }

  static final TripForm EMPTY = new TripForm("", "", "", "", "", null, List.of());

  static TripForm of(Trip trip, Map<UUID, Trips.Carried> carried) {
    return new TripForm(
        trip.code(),
        trip.name(),
        trip.starts().map(Object::toString).orElse(""),
        trip.days().map(String::valueOf).orElse(""),
        trip.note().orElse(""),
        String.valueOf(trip.revision()),
        trip.lines().stream()
            .<@Nullable LineForm>map(line -> LineForm.of(line, carried.get(line.uuid())))
            .toList());
  }

  /** The lines that are meant: neither left empty nor to be taken out. */
  List<LineForm> kept() {
    List<LineForm> kept = new ArrayList<>();
    if (lines != null) {
      for (LineForm line : lines) {
        if (line != null && line.out() == null && !line.blank()) {
          kept.add(line);
        }
      }
    }
    return kept;
  }

  /** The same with only the lines that are meant, so that faults name them by their place. */
  TripForm settled() {
    return with(kept(), revision);
  }

  /**
   * The same, started from what is saved now; a line that somebody has taken out meanwhile is a new
   * one.
   */
  TripForm startedFrom(Trip now) {
    Set<String> standing =
        Set.copyOf(now.lines().stream().map(line -> line.uuid().toString()).toList());
    return with(
        kept().stream()
            .map(
                line -> line.id() == null || standing.contains(line.id()) ? line : line.withoutId())
            .toList(),
        String.valueOf(now.revision()));
  }

  private TripForm with(List<LineForm> others, @Nullable String otherRevision) {
    return new TripForm(
        code, name, starts, days, note, otherRevision, new ArrayList<@Nullable LineForm>(others));
  }

  Trips.Entry entry() {
    return new Trips.Entry(
        code,
        name,
        starts,
        days,
        null,
        kept().stream().<Trips.@Nullable LineEntry>map(LineForm::entry).toList(),
        note);
  }

  /** The revision named, or one that there never is. */
  int expected() {
    return revision != null && revision.matches("[0-9]{1,9}") ? Integer.parseInt(revision) : 0;
  }
}
