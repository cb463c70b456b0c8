package org.tareline.trip;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.rig.Rig;
import org.tareline.site.Faults;
import org.tareline.trip.Trips.ItemEntry;
import org.tareline.trip.Trips.LineEntry;
import org.tareline.trip.Trips.LineRead;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** Reads the lines of one trip as they were typed, and notes every fault at its field. */
final class LineReading {

  private static final int MOST_LINES = 1_000;
  private static final int MOST_ALIKE = 10_000;

  private final Faults faults;
  private final Things things;
  private final List<LineEntry> typed;

  /** Lines of the trip as it stands that no line typed is known to be. */
  private final Map<UUID, TripLine> unclaimed = new LinkedHashMap<>();

  private LineReading(
      Faults faults, Things things, List<LineEntry> typed, List<TripLine> standing) {
    this.faults = faults;
    this.things = things;
    this.typed = typed;
    standing.forEach(line -> unclaimed.put(line.uuid(), line));
  }

  /**
   * The lines, each with an id; useless where a fault was noted.
   *
   * @param standing the lines that the trip has so far, which stay the lines they are
   */
  static List<LineRead> read(
      Faults faults, Things things, List<@Nullable LineEntry> typed, List<TripLine> standing) {
    if (typed.size() > MOST_LINES) {
      faults.add(
          "lines",
          "Give at most "
              + MOST_LINES
              + " lines; there are "
              + typed.size()
              + ". Put some of the things into a rig.");
      return List.of();
    }
    List<LineEntry> lines =
        typed.stream().map(line -> line == null ? LineEntry.EMPTY : line).toList();
    things.lookUp(lines);
    return new LineReading(faults, things, lines, standing).readAll();
  }

  private List<LineRead> readAll() {
    List<LineRead> lines = new ArrayList<>();
    for (int i = 0; i < typed.size(); i++) {
      lines.add(read("lines[" + i + "]", typed.get(i)));
    }
    return lines.stream().map(this::identified).toList();
  }

  private LineRead read(String at, LineEntry line) {
    String id = typed(line.id());
    String partCode = typed(line.part());
    String rigCode = typed(line.rig());
    String thing = typed(line.thing());
    long given = Stream.of(partCode, rigCode, thing, line.item()).filter(Objects::nonNull).count();
    Part part = null;
    Rig rig = null;
    TripLine.Item item = null;
    if (given == 0) {
      faults.add(at, "Name what the line carries: a part, a rig or an item.");
    } else if (given > 1) {
      faults.add(at, "Let a line carry one thing: a part, a rig or an item.");
    } else if (partCode != null) {
      part = known(at + ".part", "part", partCode, things.part(partCode));
    } else if (rigCode != null) {
      rig = known(at + ".rig", "rig", rigCode, things.rig(rigCode));
    } else if (thing != null) {
      Things.Found found = things.thing(thing);
      part = found.part();
      rig = found.rig();
      if (found.trouble() != null) {
        faults.add(at + ".thing", found.trouble());
      }
    } else if (line.item() != null) {
      item = item(at + ".item", line.item());
    }
    return new LineRead(
        id == null ? null : claimed(at + ".id", id),
        part == null ? null : part.id(),
        rig == null ? null : rig.id(),
        part != null ? part.code() : rig != null ? rig.code() : null,
        item,
        faults.wholeNumber(at + ".quantity", line.quantity(), "how many", 1, MOST_ALIKE, 1),
        carry(at + ".carry", line.carry()),
        faults.optionalText(at + ".place", line.place(), "the bag or pocket", 100));
  }

  private static @Nullable String typed(@Nullable String text) {
    return text == null || text.isBlank() ? null : text.strip();
  }

  private @Nullable UUID claimed(String field, String id) {
    try {
      UUID uuid = UUID.fromString(id);
      if (unclaimed.remove(uuid) != null) {
        return uuid;
      }
    } catch (IllegalArgumentException notAnId) {
      // said below
    }
    faults.add(
        field,
        "Leave the id out: the trip has no line "
            + Faults.shortened(id)
            + ", or another line here has that id already.");
    return null;
  }

  /** A line that came without an id stays the first that carries the same thing, if one does. */
  private LineRead identified(LineRead line) {
    if (line.id() != null) {
      return line;
    }
    Iterator<TripLine> standing = unclaimed.values().iterator();
    while (standing.hasNext()) {
      TripLine one = standing.next();
      if (line.carriesTheSameAs(one)) {
        standing.remove();
        return line.withId(one.uuid());
      }
    }
    return line.withId(UUID.randomUUID());
  }

  private <T> @Nullable T known(String field, String kind, String typed, @Nullable T thing) {
    if (thing == null) {
      faults.add(field, Things.none(kind, typed));
    }
    return thing;
  }

  private TripLine.Item item(String at, ItemEntry item) {
    String name = faults.text(at + ".name", item.name(), "a name", 200);
    String systemTyped = faults.optionalText(at + ".system", item.system(), "the system", 60);
    Optional<GearSystem> system =
        systemTyped == null ? Optional.of(GearSystem.OTHER) : GearSystem.of(systemTyped);
    if (system.isEmpty()) {
      faults.add(
          at + ".system",
          "Say hang, sleep, rain, pack, clothing, cook, water, food, light, repair, hygiene or other.");
    }
    String massTyped = faults.optionalText(at + ".mass", item.mass(), "the mass", 200);
    Quantity mass =
        massTyped == null
            ? null
            : faults.read(
                at + ".mass", () -> Quantity.read(massTyped, Kind.MASS, Unit.GRAM).positive());
    return new TripLine.Item(
        name, system.orElse(GearSystem.OTHER), mass == null ? null : mass.mass(), massTyped);
  }

  private Carry carry(String field, @Nullable String text) {
    String word = typed(text);
    Optional<Carry> carry = word == null ? Optional.of(Carry.BASE) : Carry.of(word);
    if (word != null && carry.isEmpty()) {
      faults.add(field, "Say base, worn or consumable; read \"" + Faults.shortened(word) + "\".");
    }
    return carry.orElse(Carry.BASE);
  }
}
