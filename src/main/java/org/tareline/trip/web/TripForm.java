package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.rig.Rig;
import org.tareline.site.FormFields;
import org.tareline.trip.Amount;
import org.tareline.trip.Carrier;
import org.tareline.trip.Carry;
import org.tareline.trip.Trip;
import org.tareline.trip.TripLine;
import org.tareline.trip.Trips;
import org.tareline.units.Quantity;

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
    @Nullable String coldestNight,
    @Nullable String targetBase,
    @Nullable String note,
    @Nullable String revision,
    @Nullable List<@Nullable CarrierForm> carriers,
    @Nullable List<@Nullable LineForm> lines) {

  /** A carrier as typed. */
  record CarrierForm(
      @Nullable String code,
      @Nullable String name,
      @Nullable String bodyMass,
      @Nullable String packVolume,
      @Nullable String packLength) {

    static final CarrierForm NEW = new CarrierForm("", "", "", "", "");

    static CarrierForm of(Carrier carrier) {
      return new CarrierForm(
          carrier.code(),
          carrier.name(),
          carrier.body().map(Amount::typed).orElse(""),
          Objects.requireNonNullElse(carrier.pack().volumeTyped(), ""),
          Objects.requireNonNullElse(carrier.pack().lengthTyped(), ""));
    }

    boolean blank() {
      return Stream.of(code, name, bodyMass, packVolume, packLength)
          .allMatch(text -> text == null || text.isBlank());
    }

    Trips.CarrierEntry entry() {
      return new Trips.CarrierEntry(
          code, name, bodyMass, new PackedSize.Entry(packVolume, packLength));
    }
  }

  /**
   * A line as typed: a part or a rig, or else a free item.
   *
   * @param saved what stood in {@code thing} when the form was opened, and of which kind it is:
   *     {@code rig DUSK}
   * @param out set where the line is to be taken out
   * @param leftAtHome codes of the parts of its rig that are ticked
   * @param standsInFor {@code HANG: BAR; HANG: TIP}
   * @param taken {@code 1: 2 L; 3: 1 L}
   * @param used in the same way
   */
  record LineForm(
      @Nullable String id,
      @Nullable String thing,
      @Nullable String saved,
      @Nullable ItemForm item,
      @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place,
      @Nullable String out,
      @Nullable String carrier,
      @Nullable String system,
      @Nullable List<String> leftAtHome,
      @Nullable String standsInFor,
      @Nullable String taken,
      @Nullable String used,
      @Nullable String perDay,
      @Nullable String density) {

    private static final String PART = "part ";
    private static final String RIG = "rig ";

    /** A row to be filled in with a part or a rig. */
    static final LineForm NEW_THING =
        new LineForm(
            null,
            "",
            null,
            null,
            "",
            Carry.BASE.word(),
            "",
            null,
            "",
            "",
            List.of(),
            "",
            "",
            "",
            "",
            "");

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
            null,
            "",
            "",
            List.of(),
            "",
            "",
            "",
            "",
            "");

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
          null,
          line.carrier().orElse(""),
          line.system().map(GearSystem::word).orElse(""),
          carried == null ? List.of() : carried.leftAtHome().stream().map(Part::code).toList(),
          carried == null
              ? ""
              : carried.standsInFor().stream()
                  .map(place -> place.rig().code() + ": " + place.part().code())
                  .collect(Collectors.joining("; ")),
          byDay(line.supply().taken()),
          byDay(line.supply().used()),
          line.supply().perDay() == null ? "" : line.supply().perDay().typed(),
          line.supply().densityTyped() == null ? "" : line.supply().densityTyped());
    }

    private static String byDay(SortedMap<Integer, Amount> amounts) {
      return amounts.entrySet().stream()
          .map(each -> each.getKey() + ": " + each.getValue().typed())
          .collect(Collectors.joining("; "));
    }

    /** Whether it says more than its row shows. */
    public boolean more() {
      return !leftAtHomeCodes().isEmpty()
          || Stream.of(carrier, system, standsInFor, taken, used, perDay, density)
              .anyMatch(text -> text != null && !text.isBlank());
    }

    public List<String> leftAtHomeCodes() {
      return leftAtHome == null ? List.of() : leftAtHome;
    }

    /** The code of what may be a rig, for its parts to be shown. */
    Optional<String> rigCode() {
      return thing == null || thing.isBlank() || isStill(PART)
          ? Optional.empty()
          : Optional.of(thing.startsWith(RIG) ? thing.substring(RIG.length()) : thing);
    }

    /** Whether nothing was typed that would be lost without it. */
    boolean blank() {
      return Stream.of(
              id,
              thing,
              item == null ? null : item.name(),
              item == null ? null : item.mass(),
              quantity,
              place,
              standsInFor,
              taken,
              used,
              perDay)
          .allMatch(text -> text == null || text.isBlank());
    }

    LineForm withoutId() {
      return new LineForm(
          null,
          thing,
          saved,
          item,
          quantity,
          carry,
          place,
          out,
          carrier,
          system,
          leftAtHome,
          standsInFor,
          taken,
          used,
          perDay,
          density);
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
          carrier,
          system,
          List.copyOf(leftAtHomeCodes()),
          entries(standsInFor).stream()
              .<Trips.@Nullable StandInEntry>map(
                  each -> new Trips.StandInEntry(before(each), after(each)))
              .toList(),
          new Trips.SupplyEntry(amounts(taken), amounts(used), perDay, density));
    }

    private static Map<String, @Nullable String> amounts(@Nullable String typed) {
      Map<String, @Nullable String> amounts = new LinkedHashMap<>();
      for (String each : entries(typed)) {
        String day = before(each);
        // What cannot be told apart is passed on whole, to be refused in its own words.
        amounts.put(
            day == null || amounts.containsKey(day) ? each : day, day == null ? "" : after(each));
      }
      return amounts;
    }

    private static List<String> entries(@Nullable String typed) {
      return typed == null
          ? List.of()
          : Arrays.stream(typed.split("[;\n]"))
              .map(String::strip)
              .filter(each -> !each.isEmpty())
              .toList();
    }

    private static @Nullable String before(String entry) {
      int colon = entry.indexOf(':');
      return colon < 0 ? null : entry.substring(0, colon).strip();
    }

    private static String after(String entry) {
      return entry.substring(entry.indexOf(':') + 1).strip();
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

  static final TripForm EMPTY =
      new TripForm("", "", "", "", "", "", "", null, List.of(), List.of());

  static TripForm of(Trip trip, Map<UUID, Trips.Carried> carried) {
    return new TripForm(
        trip.code(),
        trip.name(),
        trip.starts().map(Object::toString).orElse(""),
        trip.days().map(String::valueOf).orElse(""),
        trip.coldestNight().map(Quantity::text).orElse(""),
        trip.targetBase().map(Amount::typed).orElse(""),
        trip.note().orElse(""),
        String.valueOf(trip.revision()),
        trip.carriers().stream().<@Nullable CarrierForm>map(CarrierForm::of).toList(),
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

  /** The carriers that are meant; one emptied by hand is taken out. */
  List<CarrierForm> keptCarriers() {
    List<CarrierForm> kept = new ArrayList<>();
    if (carriers != null) {
      for (CarrierForm carrier : carriers) {
        if (carrier != null && !carrier.blank()) {
          kept.add(carrier);
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
        code,
        name,
        starts,
        days,
        coldestNight,
        targetBase,
        note,
        otherRevision,
        new ArrayList<@Nullable CarrierForm>(keptCarriers()),
        new ArrayList<@Nullable LineForm>(others));
  }

  Trips.Entry entry() {
    return new Trips.Entry(
        code,
        name,
        starts,
        days,
        coldestNight,
        keptCarriers().stream().<Trips.@Nullable CarrierEntry>map(CarrierForm::entry).toList(),
        kept().stream().<Trips.@Nullable LineEntry>map(LineForm::entry).toList(),
        targetBase,
        note);
  }

  /** The revision named, or one that there never is. */
  int expected() {
    return FormFields.revision(revision);
  }
}
