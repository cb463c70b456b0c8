package org.tareline.trip;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Entry;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.rollup.Tree;

/**
 * What a trip weighs, or one carrier's share of it. Every total is a roll-up of the one tree of the
 * trip, never a sum of uncertainties: what base and worn share, such as the span error of one
 * scale, moves both, and is counted as the one error it is in what they weigh together.
 *
 * @param base in the pack and brought home
 * @param worn on the body or in the hand
 * @param consumables used up on the way; what there is of them at the start
 * @param totalPack base and consumables, at the start
 * @param skinOut everything, at the start
 * @param days the pack from day to day
 */
public record Figures(
    Total base, Total worn, Total consumables, Total totalPack, Total skinOut, Days days) {

  /**
   * Adds up some lines of a trip.
   *
   * @param tree of the whole trip
   */
  static Figures of(Packing packing, Tree tree, Predicate<Packing.Line> counted) {
    Total base = total(packing, tree, counted, EnumSet.of(Carry.BASE));
    Total worn = total(packing, tree, counted, EnumSet.of(Carry.WORN));
    RollUp consumables = RollUp.of(tree, scope(packing, counted, EnumSet.of(Carry.CONSUMABLE)));
    return new Figures(
        base,
        worn,
        Total.of(consumables),
        total(packing, tree, counted, EnumSet.of(Carry.BASE, Carry.CONSUMABLE)),
        total(packing, tree, counted, EnumSet.allOf(Carry.class)),
        Days.of(
            base.estimate(),
            worn.estimate(),
            flows(packing, consumables, counted),
            packing.days()));
  }

  private static Total total(
      Packing packing, Tree tree, Predicate<Packing.Line> counted, Set<Carry> carries) {
    return Total.of(RollUp.of(tree, scope(packing, counted, carries)));
  }

  /** What travels so: by leaving out single lines, for roles within a rig are not the trip's. */
  private static Scope scope(Packing packing, Predicate<Packing.Line> counted, Set<Carry> carries) {
    return new Scope(
        "trip",
        "Trip",
        Scope.Mode.LEAVES_OUT,
        Set.of(),
        packing.lines().stream()
            .filter(line -> !counted.test(line) || !carries.contains(line.carry()))
            .map(Packing.Line::id)
            .collect(Collectors.toSet()));
  }

  private static List<Days.Flow> flows(
      Packing packing, RollUp consumables, Predicate<Packing.Line> counted) {
    List<Days.Flow> flows = new ArrayList<>();
    List<Packing.Line> lines =
        packing.lines().stream()
            .filter(line -> line.carry() == Carry.CONSUMABLE && counted.test(line))
            .toList();
    List<Entry> entries = consumables.lines();
    for (int i = 0; i < lines.size(); i++) {
      Packing.Line line = lines.get(i);
      Course course = course(line, entries.get(i).estimate(), packing.days());
      Estimate all = line.supplied() == null ? entries.get(i).estimate() : line.supplied();
      if (course != null && all != null && all.value().signum() > 0) {
        flows.add(new Days.Flow(course, all));
      }
    }
    return flows;
  }

  /**
   * How much there is of a line from day to day.
   *
   * @param atStart what it weighs at the start; null where nobody knows
   * @param days of the trip; 0 where nobody has said
   * @return null of what is not used up, has no mass, or where the days are not known
   */
  static @Nullable Course course(Packing.Line line, @Nullable Estimate atStart, int days) {
    return line.carry() != Carry.CONSUMABLE || atStart == null || days == 0
        ? null
        : Course.of(atStart.value(), line.supply(), days);
  }
}
