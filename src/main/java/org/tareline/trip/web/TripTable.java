package org.tareline.trip.web;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
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
    Map<Long, Weights> weights =
        trips.stream()
            .collect(
                Collectors.toMap(
                    Trip::id, trip -> Weights.of(Objects.requireNonNull(packings.get(trip.id())))));
    int decimals =
        Figure.decimals(
            weights.values().stream().map(one -> one.totalPack().estimate()).toList(), style);
    return new TripTable(
        style.heading(),
        trips.stream()
            .map(trip -> row(trip, Objects.requireNonNull(weights.get(trip.id())), style, decimals))
            .toList());
  }

  private static Row row(Trip trip, Weights weights, MassStyle style, int decimals) {
    return new Row(
        trip.code(),
        trip.name(),
        gloss(trip),
        Cell.of(weights.totalPack(), style, decimals),
        Cell.of(weights.skinOut(), style, decimals));
  }

  private static String gloss(Trip trip) {
    String when = Words.when(trip);
    int lines = trip.lines().size();
    return (when == null ? "no day yet" : when) + "; " + (lines == 1 ? "1 line" : lines + " lines");
  }
}
