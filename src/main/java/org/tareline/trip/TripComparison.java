package org.tareline.trip;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Comparison;
import org.tareline.rollup.Leaf;

/**
 * The second of two trips against the first, at the start of each. What both share cancels in a
 * difference, error and all: the same part, the span of one scale. Two free items of one name are
 * two things, each with its own error.
 *
 * @param totals in this order: base, worn, consumables, total pack, skin-out
 * @param systems all of each system that either has anything of, in the order of the systems
 */
public record TripComparison(
    Packing first, Packing second, List<Row<String>> totals, List<Row<GearSystem>> systems) {

  /**
   * A figure of both.
   *
   * @param a null where the first has nothing of it
   * @param b null where the second has nothing of it
   */
  public record Row<T>(T of, @Nullable Total a, @Nullable Total b, Comparison.Pair pair) {

    private static <T> Row<T> of(T of, @Nullable Total a, @Nullable Total b) {
      return new Row<>(
          of,
          a,
          b,
          Comparison.Pair.of(a == null ? null : a.leaves(), b == null ? null : b.leaves()));
    }

    /** Whether the two have the same things of it, known or not. */
    public boolean isTheSame() {
      return counts(a).equals(counts(b));
    }

    private static Map<String, Long> counts(@Nullable Total total) {
      return total == null
          ? Map.of()
          : total.leaves().stream()
              .collect(
                  Collectors.toMap(leaf -> leaf.piece().id(), Leaf::multiplicity, Math::addExact));
    }
  }

  /**
   * Compares two trips whose parts were loaded together.
   *
   * @throws ArithmeticException if a count or a mass overflows, naming the thing
   */
  static TripComparison of(Packing first, Packing second) {
    Weights a = Weights.of(first);
    Weights b = Weights.of(second);
    Map<GearSystem, Total> ofA = bySystem(a);
    Map<GearSystem, Total> ofB = bySystem(b);
    return new TripComparison(
        first,
        second,
        List.of(
            total("base", Weights::base, a, b),
            total("worn", Weights::worn, a, b),
            total("consumables", Weights::consumables, a, b),
            total("totalPack", Weights::totalPack, a, b),
            total("skinOut", Weights::skinOut, a, b)),
        Stream.of(GearSystem.values())
            .filter(system -> ofA.containsKey(system) || ofB.containsKey(system))
            .map(system -> Row.of(system, ofA.get(system), ofB.get(system)))
            .toList());
  }

  public Row<String> totalPack() {
    return totals.get(3);
  }

  public Row<String> skinOut() {
    return totals.get(4);
  }

  private static Row<String> total(
      String of, Function<Weights, Total> total, Weights a, Weights b) {
    return Row.of(of, total.apply(a), total.apply(b));
  }

  private static Map<GearSystem, Total> bySystem(Weights weights) {
    Map<GearSystem, Total> totals = new EnumMap<>(GearSystem.class);
    weights.bySystem().forEach(of -> totals.put(of.system(), of.total()));
    return totals;
  }
}
