package org.tareline.trip.web;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Figure;
import org.tareline.trip.Packing;
import org.tareline.trip.Trip;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/** The trips of a ledger as a table. */
record TripTable(String heading, List<Row> rows) {

  /**
   * A trip.
   *
   * @param gloss when it is, and how many lines it has
   */
  record Row(String code, String name, String gloss, Cell totalPack, Cell skinOut) {}

  static TripTable of(List<Trip> trips, Map<Long, Packing> packings, MassStyle style) {
    Map<Long, Weights> weights = new HashMap<>();
    for (Trip trip : trips) {
      try {
        weights.put(trip.id(), Weights.of(Objects.requireNonNull(packings.get(trip.id()))));
      } catch (ArithmeticException outOfRange) {
        // One trip of mountains does not take the others' figures away.
      }
    }
    int decimals =
        Figure.decimals(
            weights.values().stream().map(one -> one.totalPack().estimate()).toList(), style);
    return new TripTable(
        style.heading(),
        trips.stream().map(trip -> row(trip, weights.get(trip.id()), style, decimals)).toList());
  }

  private static Row row(Trip trip, @Nullable Weights weights, MassStyle style, int decimals) {
    return new Row(
        trip.code(),
        trip.name(),
        gloss(trip),
        weights == null ? Cell.TOO_MUCH : Cell.of(weights.totalPack(), style, decimals),
        weights == null ? Cell.TOO_MUCH : Cell.of(weights.skinOut(), style, decimals));
  }

  private static String gloss(Trip trip) {
    String when = Words.when(trip);
    int lines = trip.lines().size();
    return (when == null ? "no day yet" : when) + "; " + (lines == 1 ? "1 line" : lines + " lines");
  }
}
