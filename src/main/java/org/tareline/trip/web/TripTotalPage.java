package org.tareline.trip.web;

import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.rig.OpenTotals;
import org.tareline.rollup.Leaf;
import org.tareline.site.SumTable;
import org.tareline.trip.Packing;
import org.tareline.trip.Trip;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/**
 * A total of a trip as the sum of its parts.
 *
 * @param of what the total is of, as {@code Base, sleep}
 */
record TripTotalPage(String code, String name, String of, SumTable table) {

  static TripTotalPage of(
      Trip trip,
      Packing packing,
      Weights weights,
      TripTotal total,
      @Nullable GearSystem system,
      MassStyle style) {
    Function<Leaf, GearSystem> systems = packing.systems();
    List<Leaf> leaves =
        total.in(weights).leaves().stream()
            .filter(leaf -> system == null || systems.apply(leaf) == system)
            .toList();
    return new TripTotalPage(
        trip.code(),
        trip.name(),
        total.pageWords() + (system == null ? "" : ", " + system.pageWords()),
        OpenTotals.sum(leaves, TripPage::code, style));
  }
}
