package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.trip.Carry;
import org.tareline.trip.Packing;
import org.tareline.trip.Trip;

/**
 * A trip's packing list: a box to tick for each thing, by bag; a rig unfolds into its parts.
 *
 * @param printed the day it is printed, so that an old sheet shows its age
 * @param things how many boxes there are
 * @param dense whether it is long enough for two columns on paper
 */
record PackingListPage(
    String code,
    String name,
    @Nullable String when,
    int revision,
    String printed,
    int things,
    boolean dense,
    List<Bag> bags) {

  record Bag(String name, List<Group> groups) {}

  /**
   * Things that stand together.
   *
   * @param rig the rig that they are the parts of; null where they stand for themselves
   */
  record Group(@Nullable String rig, List<Thing> things) {}

  /**
   * A thing with its box.
   *
   * @param count {@code 6 ×}; null of one alone
   * @param travels how; null where it simply goes into the pack
   */
  record Thing(
      String id,
      @Nullable String count,
      @Nullable String code,
      String name,
      @Nullable String travels) {}

  /** As many as stand in one column of a sheet, in small print. */
  private static final int ON_ONE_COLUMN = 44;

  static PackingListPage of(Trip trip, Packing packing, String printed) {
    List<Bag> bags = new ArrayList<>();
    TripPage.byBag(packing.lines(), line -> line)
        .forEach((name, lines) -> bags.add(new Bag(name, groups(lines))));
    int things =
        bags.stream()
            .flatMap(bag -> bag.groups().stream())
            .mapToInt(group -> group.things().size())
            .sum();
    return new PackingListPage(
        trip.code(),
        trip.name(),
        Words.when(trip),
        trip.revision(),
        printed,
        things,
        things + 2 * bags.size() > ON_ONE_COLUMN,
        bags);
  }

  /** Lines that are no rigs stand together where they follow each other. */
  private static List<Group> groups(List<Packing.Line> lines) {
    List<Group> groups = new ArrayList<>();
    List<Thing> open = new ArrayList<>();
    for (Packing.Line line : lines) {
      if (line.content() instanceof Assembly rig) {
        close(groups, open);
        open = new ArrayList<>();
        groups.add(new Group(title(rig, line.quantity()), parts(rig, line)));
      } else {
        open.add(thing(line.id(), line.quantity(), line.content(), line));
      }
    }
    close(groups, open);
    return groups;
  }

  private static void close(List<Group> groups, List<Thing> open) {
    if (!open.isEmpty()) {
      groups.add(new Group(null, open));
    }
  }

  private static String title(Assembly rig, int quantity) {
    return rig.name() + ", " + rig.code() + (quantity == 1 ? "" : ", " + quantity + " of it");
  }

  /** Every part once, however many lines of the rig hold it. */
  private static List<Thing> parts(Assembly rig, Packing.Line line) {
    Map<String, Piece> pieces = new LinkedHashMap<>();
    Map<String, Long> counts = new LinkedHashMap<>();
    for (Leaf leaf : RollUp.of(rig, Scope.COMPLETE).leaves()) {
      pieces.putIfAbsent(leaf.piece().id(), leaf.piece());
      counts.merge(leaf.piece().id(), leaf.multiplicity(), Math::addExact);
    }
    List<Thing> things = new ArrayList<>();
    counts.forEach(
        (id, count) -> {
          Piece piece = pieces.get(id);
          if (piece != null) {
            things.add(
                thing(
                    line.id() + "-" + things.size(),
                    Math.multiplyExact(count, line.quantity()),
                    piece,
                    line));
          }
        });
    return things;
  }

  private static Thing thing(String id, long quantity, Content content, Packing.Line line) {
    return new Thing(
        "tick-" + id,
        TripPage.count(quantity),
        TripPage.code(content),
        content.name(),
        line.carry() == Carry.BASE ? null : line.carry().pageWords());
  }
}
