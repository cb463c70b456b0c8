package org.tareline.trip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Entry;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.rollup.Tree;

/**
 * What a trip weighs, as a whole, by system, by carrier and line by line.
 *
 * @param all of the whole trip
 * @param bySystem of every system that anything belongs to, in the order of the systems
 * @param byCarrier in their order; none where nobody is named
 * @param lines what each line contributes, in the order of the lines
 */
public record Weights(
    Figures all, List<OfSystem> bySystem, List<OfCarrier> byCarrier, List<OfLine> lines) {

  /** What one person carries. */
  public record OfCarrier(Packing.Bearer carrier, Figures figures) {}

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

  public Weights {
    bySystem = List.copyOf(bySystem);
    byCarrier = List.copyOf(byCarrier);
    lines = List.copyOf(lines);
  }

  /**
   * Weighs a trip.
   *
   * @throws ArithmeticException if a count or a mass overflows, naming the thing
   */
  public static Weights of(Packing packing) {
    Tree trip = Tree.of(packing.assembly());
    Figures all = Figures.of(packing, trip, line -> true);
    RollUp everything = RollUp.of(trip, Scope.COMPLETE);
    return new Weights(
        all,
        bySystem(packing, all),
        packing.carriers().stream()
            .map(
                carrier ->
                    new OfCarrier(
                        carrier,
                        Figures.of(packing, trip, line -> carrier.code().equals(line.carrier()))))
            .toList(),
        ofLines(packing, everything));
  }

  public Total base() {
    return all.base();
  }

  public Total worn() {
    return all.worn();
  }

  public Total consumables() {
    return all.consumables();
  }

  public Total totalPack() {
    return all.totalPack();
  }

  public Total skinOut() {
    return all.skinOut();
  }

  private static List<OfSystem> bySystem(Packing packing, Figures all) {
    Function<Leaf, GearSystem> systems = packing.systems();
    Map<GearSystem, List<Leaf>> ofBase = bySystem(systems, all.base());
    Map<GearSystem, List<Leaf>> ofWorn = bySystem(systems, all.worn());
    Map<GearSystem, List<Leaf>> ofConsumables = bySystem(systems, all.consumables());
    List<OfSystem> totals = new ArrayList<>();
    bySystem(systems, all.skinOut())
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

  private static Map<GearSystem, List<Leaf>> bySystem(
      Function<Leaf, GearSystem> systems, Total total) {
    Map<GearSystem, List<Leaf>> leaves = new EnumMap<>(GearSystem.class);
    for (Leaf leaf : total.leaves()) {
      leaves.computeIfAbsent(systems.apply(leaf), any -> new ArrayList<>()).add(leaf);
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
