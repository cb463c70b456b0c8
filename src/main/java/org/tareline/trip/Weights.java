package org.tareline.trip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Entry;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.rollup.Tree;

/**
 * What a trip weighs. Every total is a roll-up of the one tree of the trip, never a sum of
 * uncertainties: what base and worn share, such as the span error of one scale, moves both, and is
 * counted as the one error it is in what they weigh together.
 *
 * @param base in the pack and brought home
 * @param worn on the body or in the hand
 * @param consumables used up on the way
 * @param totalPack base and consumables
 * @param skinOut everything
 * @param bySystem of every system that anything belongs to, in the order of the systems
 * @param lines what each line contributes, in the order of the lines
 * @param shortages what is packed more often than it is owned, by code
 */
public record Weights(
    Total base,
    Total worn,
    Total consumables,
    Total totalPack,
    Total skinOut,
    List<OfSystem> bySystem,
    List<OfLine> lines,
    List<Shortage> shortages) {

  /** How all of one system travels. */
  public record OfSystem(
      GearSystem system, Total base, Total worn, Total consumables, Total total) {}

  /**
   * What one line contributes.
   *
   * @param estimate the sum of what is known; null where nothing is
   * @param basis null where nothing is known
   * @param unweighedLines distinct lines of its rig that are not weighed; of a part or an item, 1
   *     or 0
   * @param atLeast whether something in it has no mass yet
   * @param shareOfMass of the skin-out weight, 0 to 1
   */
  public record OfLine(
      Packing.Line line,
      @Nullable Estimate estimate,
      @Nullable Basis basis,
      int unweighedLines,
      boolean atLeast,
      double shareOfMass) {}

  /** A thing that is packed more often than it is owned. */
  public record Shortage(Piece piece, long packed, int owned) {

    /** As a sentence. */
    public String words() {
      return piece.code()
          + ", "
          + piece.name()
          + ", is packed "
          + (packed == 1 ? "once" : packed == 2 ? "twice" : packed + " times")
          + ", and "
          + (owned == 0 ? "none is" : owned == 1 ? "one is" : owned + " are")
          + " owned.";
    }
  }

  public Weights {
    bySystem = List.copyOf(bySystem);
    lines = List.copyOf(lines);
    shortages = List.copyOf(shortages);
  }

  /**
   * Weighs a trip.
   *
   * @throws ArithmeticException if a count or a mass overflows, naming the thing
   */
  public static Weights of(Packing packing) {
    Tree trip = Tree.of(packing.assembly());
    RollUp base = RollUp.of(trip, counting(packing, EnumSet.of(Carry.BASE)));
    RollUp worn = RollUp.of(trip, counting(packing, EnumSet.of(Carry.WORN)));
    RollUp consumables = RollUp.of(trip, counting(packing, EnumSet.of(Carry.CONSUMABLE)));
    RollUp pack = RollUp.of(trip, counting(packing, EnumSet.of(Carry.BASE, Carry.CONSUMABLE)));
    RollUp everything = RollUp.of(trip, Scope.COMPLETE);
    return new Weights(
        Total.of(base),
        Total.of(worn),
        Total.of(consumables),
        Total.of(pack),
        Total.of(everything),
        bySystem(packing, base, worn, consumables, everything),
        ofLines(packing, everything),
        shortages(packing, everything));
  }

  /** What travels so: by leaving out single lines, for roles within a rig are not the trip's. */
  private static Scope counting(Packing packing, Set<Carry> counted) {
    return new Scope(
        "trip",
        "Trip",
        Scope.Mode.LEAVES_OUT,
        Set.of(),
        packing.lines().stream()
            .filter(line -> !counted.contains(line.carry()))
            .map(Packing.Line::id)
            .collect(Collectors.toSet()));
  }

  private static List<OfSystem> bySystem(
      Packing packing, RollUp base, RollUp worn, RollUp consumables, RollUp everything) {
    Map<GearSystem, List<Leaf>> ofBase = leavesBySystem(packing, base);
    Map<GearSystem, List<Leaf>> ofWorn = leavesBySystem(packing, worn);
    Map<GearSystem, List<Leaf>> ofConsumables = leavesBySystem(packing, consumables);
    List<OfSystem> totals = new ArrayList<>();
    leavesBySystem(packing, everything)
        .forEach(
            (system, leaves) ->
                totals.add(
                    new OfSystem(
                        system,
                        Total.of(ofBase.getOrDefault(system, List.of())),
                        Total.of(ofWorn.getOrDefault(system, List.of())),
                        Total.of(ofConsumables.getOrDefault(system, List.of())),
                        Total.of(leaves))));
    return totals;
  }

  private static Map<GearSystem, List<Leaf>> leavesBySystem(Packing packing, RollUp rollUp) {
    Map<GearSystem, List<Leaf>> leaves = new EnumMap<>(GearSystem.class);
    for (Leaf leaf : rollUp.leaves()) {
      leaves
          .computeIfAbsent(packing.kind(leaf.piece()).system(), any -> new ArrayList<>())
          .add(leaf);
    }
    return leaves;
  }

  private static List<OfLine> ofLines(Packing packing, RollUp everything) {
    List<Entry> entries = everything.lines();
    List<OfLine> lines = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      Entry entry = entries.get(i);
      lines.add(
          new OfLine(
              packing.lines().get(i),
              entry.estimate(),
              entry.basis(),
              entry.unweighedLines(),
              entry.atLeast(),
              entry.shareOfMass()));
    }
    return lines;
  }

  private static List<Shortage> shortages(Packing packing, RollUp everything) {
    Map<String, Piece> pieces = new LinkedHashMap<>();
    Map<String, Long> packed = new HashMap<>();
    for (Leaf leaf : everything.leaves()) {
      pieces.putIfAbsent(leaf.piece().id(), leaf.piece());
      packed.merge(leaf.piece().id(), leaf.multiplicity(), Math::addExact);
    }
    List<Shortage> shortages = new ArrayList<>();
    for (Piece piece : pieces.values()) {
      Integer owned = packing.kind(piece).owned();
      long count = packed.getOrDefault(piece.id(), 0L);
      if (owned != null && count > owned) {
        shortages.add(new Shortage(piece, count, owned));
      }
    }
    shortages.sort(Comparator.comparing(shortage -> shortage.piece().code()));
    return shortages;
  }

  /** The lines that anything is known of, the heaviest first. */
  public List<OfLine> heaviest(int most) {
    return lines.stream()
        .filter(line -> line.estimate() != null)
        .sorted(
            Comparator.comparing(
                (OfLine line) -> Objects.requireNonNull(line.estimate()).value(),
                Comparator.reverseOrder()))
        .limit(most)
        .toList();
  }
}
