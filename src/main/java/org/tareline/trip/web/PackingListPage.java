package org.tareline.trip.web;

import java.net.URI;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Assembly;
import org.tareline.site.CsvTable;
import org.tareline.trip.Carrier;
import org.tareline.trip.Carry;
import org.tareline.trip.Checklist;
import org.tareline.trip.Packed;
import org.tareline.trip.Trip;

/**
 * A trip's packing list: a box for each thing, a rig unfolded into its parts, by system or by bag;
 * what is still to pack comes first.
 *
 * @param printed the day it is printed, so that an old sheet shows its age
 * @param owner who looks, and into which ledger: what a browser keeps, it keeps for them
 * @param mayCheck whether they may do more than look
 * @param seen stands for all that the page says of how far things are
 * @param left how many things are not packed yet, of all {@code things}
 * @param toFetch how many of those have to be got from somewhere
 * @param here the address of the page as it is shown
 * @param leftOnly whether what is packed is left out
 * @param filters with that and without
 * @param groupings by what it can be grouped
 * @param dense whether it is long enough for two columns on paper
 */
record PackingListPage(
    String code,
    String name,
    @Nullable String when,
    int revision,
    String printed,
    String owner,
    boolean mayCheck,
    String seen,
    int things,
    long left,
    long toFetch,
    String here,
    boolean leftOnly,
    List<Choice> filters,
    List<Choice> groupings,
    boolean dense,
    List<Group> groups) {

  /** One of a few ways to show the list. */
  record Choice(String words, String address, boolean current) {}

  /**
   * Things that stand together.
   *
   * @param id of its heading
   * @param mayCheck whether they may do more than look
   * @param seen stands for all that the page says of how far things are
   * @param left how many are not packed yet
   */
  record Group(String id, String name, long left, List<Thing> things) {}

  /**
   * A thing with its box.
   *
   * @param id the same on every page and device: the line, and the part where the line is a rig
   * @param part its code, where the line carries a rig
   * @param count {@code 6 ×}; null of one alone
   * @param aside where it belongs and how it travels; null where there is nothing to say
   */
  record Thing(
      String id,
      String line,
      @Nullable String part,
      @Nullable String count,
      @Nullable String code,
      String name,
      @Nullable String aside,
      Packed state,
      @Nullable String by) {

    public boolean packed() {
      return state == Packed.PACKED;
    }

    public boolean toFetch() {
      return state == Packed.TO_FETCH;
    }

    /** What the form sends to say that it is so far. */
    private String sets(Packed state) {
      return line + "|" + (part == null ? "" : part) + "|" + state.word();
    }

    public String setsPacked() {
      return sets(packed() ? Packed.OPEN : Packed.PACKED);
    }

    public String setsToFetch() {
      return sets(toFetch() ? Packed.OPEN : Packed.TO_FETCH);
    }
  }

  /** As many as stand in one column of a sheet, in small print. */
  private static final int ON_ONE_COLUMN = 44;

  static PackingListPage of(
      Checklist list, Member member, String printed, boolean byBag, boolean leftOnly) {
    Trip trip = list.trip();
    Map<String, String> carriers =
        trip.carriers().stream().collect(Collectors.toMap(Carrier::code, Carrier::name));
    List<Group> groups = new ArrayList<>();
    (byBag ? TripPage.byBag(list.things(), Checklist.Thing::line) : bySystem(list))
        .forEach(
            (name, things) ->
                groups.add(
                    new Group(
                        "group-" + groups.size(),
                        name,
                        things.stream().filter(thing -> thing.state() != Packed.PACKED).count(),
                        things.stream()
                            .sorted(Comparator.comparing(thing -> thing.state() == Packed.PACKED))
                            .map(thing -> thing(thing, carriers, member, byBag))
                            .toList())));
    int things = list.things().size();
    return new PackingListPage(
        trip.code(),
        trip.name(),
        Words.when(trip),
        trip.revision(),
        printed,
        owner(member),
        member.mayChange(),
        seen(trip, list.checks()),
        things,
        things - list.count(Packed.PACKED),
        list.count(Packed.TO_FETCH),
        address(trip.code(), byBag, leftOnly).toString(),
        leftOnly,
        List.of(
            new Choice("Everything", address(trip.code(), byBag, false).toString(), !leftOnly),
            new Choice("Still to pack", address(trip.code(), byBag, true).toString(), leftOnly)),
        List.of(
            new Choice("by system", address(trip.code(), false, leftOnly).toString(), !byBag),
            new Choice("by bag", address(trip.code(), true, leftOnly).toString(), byBag)),
        things + 2 * groups.size() > ON_ONE_COLUMN,
        groups);
  }

  /** Every thing of the list with its mass at the start, as a file. */
  static CsvTable csv(Checklist list) {
    CsvTable csv =
        new CsvTable(
            "trip",
            "carrier",
            "system",
            "bag",
            "rig",
            "quantity",
            "code",
            "name",
            "carry",
            "all [g]",
            "expanded uncertainty of all [g]",
            "packed");
    for (Checklist.Thing thing : list.things()) {
      Estimate each = thing.piece().each();
      Estimate all = each == null ? null : each.times(thing.quantity());
      csv.line(
          list.trip().code(),
          thing.line().carrier(),
          thing.system().word(),
          thing.line().place(),
          thing.rig() == null ? null : thing.rig().code(),
          thing.quantity(),
          thing.code(),
          thing.piece().name(),
          thing.line().carry().word(),
          all == null ? null : all.value().grams(),
          all == null ? null : all.expandedUncertainty().grams(),
          thing.state().word());
    }
    return csv;
  }

  /** Who looks, and into which ledger. */
  static String owner(Member member) {
    return member.accountId() + "-" + member.ledgerId();
  }

  /** Checks are never taken back, so that as many as before are the same as before. */
  static String seen(Trip trip, long checks) {
    return trip.revision() + "." + checks;
  }

  static URI address(String code, boolean byBag, boolean leftOnly) {
    return UriComponentsBuilder.fromPath("/trips/{code}/packing-list")
        .queryParamIfPresent("by", Optional.ofNullable(byBag ? "bag" : null))
        .queryParamIfPresent("show", Optional.ofNullable(leftOnly ? "left" : null))
        .encode()
        .buildAndExpand(code)
        .toUri();
  }

  /** Every thing, for telling how far it is. */
  static List<Thing> things(Checklist list, Member member) {
    return list.things().stream().map(thing -> thing(thing, Map.of(), member, false)).toList();
  }

  private static Map<String, List<Checklist.Thing>> bySystem(Checklist list) {
    Map<GearSystem, List<Checklist.Thing>> bySystem = new EnumMap<>(GearSystem.class);
    for (Checklist.Thing thing : list.things()) {
      bySystem.computeIfAbsent(thing.system(), any -> new ArrayList<>()).add(thing);
    }
    Map<String, List<Checklist.Thing>> groups = new LinkedHashMap<>();
    bySystem.forEach((system, things) -> groups.put(capital(system.pageWords()), things));
    return groups;
  }

  private static String capital(String words) {
    return Character.toTitleCase(words.charAt(0)) + words.substring(1);
  }

  private static Thing thing(
      Checklist.Thing thing, Map<String, String> carriers, Member member, boolean byBag) {
    Checklist.Check newest = thing.newest();
    return new Thing(
        id(thing),
        thing.line().id(),
        thing.rig() == null ? null : thing.code(),
        TripPage.count(thing.quantity()),
        thing.code(),
        thing.piece().name(),
        aside(thing, carriers, byBag),
        thing.state(),
        newest == null || member.guest() || newest.byAccount() == member.accountId()
            ? null
            : newest.by());
  }

  /** Letters, digits and hyphens. */
  static String id(Checklist.Thing thing) {
    return thing.line().id() + (thing.part() == null ? "" : "-" + thing.part());
  }

  private static @Nullable String aside(
      Checklist.Thing thing, Map<String, String> carriers, boolean byBag) {
    List<String> said = new ArrayList<>();
    Assembly rig = thing.rig();
    if (rig != null) {
      said.add(rig.name());
    }
    String place = thing.line().place();
    if (!byBag && place != null) {
      said.add(place);
    }
    if (carriers.size() > 1) {
      said.add("carried by " + carriers.get(thing.line().carrier()));
    }
    Carry carry = thing.line().carry();
    if (carry != Carry.BASE) {
      said.add(carry.pageWords());
    }
    return said.isEmpty() ? null : String.join(" · ", said);
  }
}
