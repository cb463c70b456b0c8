package org.tareline.trip;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.rig.Rig;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.trip.Trips.CarrierRead;
import org.tareline.trip.Trips.ItemEntry;
import org.tareline.trip.Trips.LineEntry;
import org.tareline.trip.Trips.LineRead;
import org.tareline.trip.Trips.Named;
import org.tareline.trip.Trips.PlaceRead;
import org.tareline.trip.Trips.StandInEntry;
import org.tareline.trip.Trips.SupplyEntry;
import org.tareline.units.Quantity;
import org.tareline.units.UnreadableQuantity;

/** Reads the lines of one trip as they were typed, and notes every fault at its field. */
final class LineReading {

  private static final int MOST_LINES = 1_000;
  private static final int MOST_ALIKE = 10_000;
  private static final String SYSTEMS =
      "Say hang, sleep, rain, pack, clothing, cook, water, food, light, repair, hygiene or other.";

  private final Faults faults;
  private final Things things;
  private final List<CarrierRead> carriers;
  private final SupplyReading supplies;
  private final List<LineEntry> typed;

  /** Lines of the trip as it stands that no line typed is known to be. */
  private final Map<UUID, TripLine> unclaimed = new LinkedHashMap<>();

  private LineReading(
      Faults faults,
      Things things,
      List<CarrierRead> carriers,
      int days,
      List<LineEntry> typed,
      List<TripLine> standing) {
    this.faults = faults;
    this.things = things;
    this.carriers = carriers;
    this.supplies = new SupplyReading(faults, days);
    this.typed = typed;
    standing.forEach(line -> unclaimed.put(line.uuid(), line));
  }

  /**
   * The lines, each with an id; useless where a fault was noted.
   *
   * @param carriers of the trip
   * @param days of the trip; 0 where nobody has said
   * @param standing the lines that the trip has so far, which stay the lines they are
   */
  static List<LineRead> read(
      Faults faults,
      Things things,
      List<CarrierRead> carriers,
      int days,
      List<@Nullable LineEntry> typed,
      List<TripLine> standing) {
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
    return new LineReading(faults, things, carriers, days, lines, standing).readAll();
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
      item = item(at + ".item", line.item(), density(line));
    }
    Supply supply = supply(at, line, item != null);
    boolean byDays = supply != Supply.EVEN;
    Carry carry = carry(at + ".carry", line.carry(), byDays ? Carry.CONSUMABLE : Carry.BASE);
    if (byDays && carry != Carry.CONSUMABLE) {
      faults.add(at + ".carry", "Say consumable, or leave out how it is used up.");
    }
    int quantity =
        faults.wholeNumber(at + ".quantity", line.quantity(), "how many", 1, MOST_ALIKE, 1);
    if (!supply.taken().isEmpty() && item != null) {
      if (item.mass() != null) {
        faults.add(at + ".item.mass", "Give the mass or what is taken by days, not both.");
      }
      if (quantity != 1) {
        faults.add(at + ".quantity", "Leave out how many: what is taken by days is all of it.");
      }
    }
    return new LineRead(
        id == null ? null : claimed(at + ".id", id),
        part == null ? null : part.id(),
        rig == null ? null : rig.id(),
        part != null ? part.code() : rig != null ? rig.code() : null,
        item,
        quantity,
        carry,
        faults.optionalText(at + ".place", line.place(), "the bag or pocket", 100),
        carrier(at + ".carrier", typed(line.carrier())),
        system(at + ".system", line.system()),
        leftAtHome(at, line, part != null || item != null),
        standsInFor(at, line),
        supply);
  }

  private Supply supply(String at, LineEntry line, boolean isItem) {
    SupplyEntry ofLine = line.supply() == null ? SupplyEntry.NONE : line.supply();
    SupplyEntry ofItem =
        line.item() == null || line.item().supply() == null
            ? SupplyEntry.NONE
            : line.item().supply();
    if (!ofLine.isEmpty() && !ofItem.isEmpty()) {
      faults.add(at + ".item", "Say how it is used up once: of the line or of the item.");
    }
    if (ofLine.isEmpty() && ofItem.isEmpty()) {
      return Supply.EVEN;
    }
    return ofLine.isEmpty()
        ? supplies.read(at + ".item", ofItem, isItem)
        : supplies.read(at, ofLine, isItem);
  }

  private @Nullable String carrier(String field, @Nullable String code) {
    if (code == null) {
      return null;
    }
    for (CarrierRead carrier : carriers) {
      if (Codes.key(carrier.code()).equals(Codes.key(code))) {
        return carrier.code();
      }
    }
    faults.add(
        field,
        "There is no carrier "
            + Faults.shortened(code)
            + " on this trip"
            + (carriers.isEmpty()
                ? "; nobody is named."
                : ": name one of "
                    + carriers.stream().map(CarrierRead::code).collect(Collectors.joining(", "))
                    + "."));
    return null;
  }

  private List<Named> leftAtHome(String at, LineEntry line, boolean isNoRig) {
    List<Named> parts = new ArrayList<>();
    List<@Nullable String> codes = line.leftAtHome() == null ? List.of() : line.leftAtHome();
    if (isNoRig && !codes.isEmpty()) {
      faults.add(at + ".leftAtHome[0]", "Leave this out: only of a rig can a part stay at home.");
      return parts;
    }
    for (int i = 0; i < codes.size(); i++) {
      Named part = part(at + ".leftAtHome[" + i + "]", codes.get(i));
      if (part != null && parts.contains(part)) {
        faults.add(
            at + ".leftAtHome[" + i + "]",
            "Name each part once; " + part.code() + " is there twice.");
      } else if (part != null) {
        parts.add(part);
      }
    }
    return parts;
  }

  private List<PlaceRead> standsInFor(String at, LineEntry line) {
    List<PlaceRead> places = new ArrayList<>();
    List<@Nullable StandInEntry> typedPlaces =
        line.standsInFor() == null ? List.of() : line.standsInFor();
    for (int i = 0; i < typedPlaces.size(); i++) {
      String field = at + ".standsInFor[" + i + "]";
      StandInEntry place = typedPlaces.get(i) == null ? StandInEntry.EMPTY : typedPlaces.get(i);
      String rigCode = typed(place.rig());
      Rig rig = rigCode == null ? null : known(field + ".rig", "rig", rigCode, things.rig(rigCode));
      if (rigCode == null) {
        faults.add(field + ".rig", "Name the rig whose part it serves for.");
      }
      Named part = part(field + ".part", place.part());
      if (rig != null && part != null) {
        places.add(new PlaceRead(new Named(rig.id(), rig.uuid(), rig.code()), part));
      }
    }
    return places;
  }

  private @Nullable Named part(String field, @Nullable String text) {
    String code = typed(text);
    if (code == null) {
      faults.add(field, "Name a part.");
      return null;
    }
    Part part = known(field, "part", code, things.part(code));
    return part == null ? null : new Named(part.id(), part.uuid(), part.code());
  }

  private @Nullable GearSystem system(String field, @Nullable String text) {
    String word = faults.optionalText(field, text, "the system", 60);
    GearSystem system = word == null ? null : GearSystem.of(word).orElse(null);
    if (word != null && system == null) {
      faults.add(field, SYSTEMS);
    }
    return system;
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

  /** Of the item, whichever of the two places it is said in; a fault in it is noted elsewhere. */
  private static @Nullable Quantity density(LineEntry line) {
    for (SupplyEntry supply :
        new @Nullable SupplyEntry[] {
          line.supply(), line.item() == null ? null : line.item().supply()
        }) {
      String density = supply == null ? null : typed(supply.density());
      if (density != null) {
        try {
          return Amount.density(density);
        } catch (UnreadableQuantity unreadable) {
          return null;
        }
      }
    }
    return null;
  }

  private TripLine.Item item(String at, ItemEntry item, @Nullable Quantity density) {
    String name = faults.text(at + ".name", item.name(), "a name", 200);
    GearSystem system = system(at + ".system", item.system());
    String massTyped = faults.optionalText(at + ".mass", item.mass(), "the mass", 200);
    Amount mass = massTyped == null ? null : supplies.amount(at + ".mass", massTyped, density);
    if (mass != null && mass.mass().signum() == 0) {
      faults.add(at + ".mass", "Give a mass of more than nothing, or leave it out.");
    }
    return new TripLine.Item(
        name,
        system == null ? GearSystem.OTHER : system,
        mass == null || mass.mass().signum() == 0 ? null : mass.mass(),
        massTyped);
  }

  private Carry carry(String field, @Nullable String text, Carry otherwise) {
    String word = typed(text);
    Optional<Carry> carry = word == null ? Optional.of(otherwise) : Carry.of(word);
    if (word != null && carry.isEmpty()) {
      faults.add(field, "Say base, worn or consumable; read \"" + Faults.shortened(word) + "\".");
    }
    return carry.orElse(Carry.BASE);
  }
}
