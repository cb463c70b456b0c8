package org.tareline.trip.web;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Figure;
import org.tareline.trip.Packing;
import org.tareline.trip.Trip;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/** The trips of a ledger as a table. */
record TripTable(String heading, List<Row> rows) {

  record Row(
      String code, String name, @Nullable String when, int lines, Cell totalPack, Cell skinOut) {}

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
        Words.when(trip),
        trip.lines().size(),
        Cell.of(weights.totalPack(), style, decimals),
        Cell.of(weights.skinOut(), style, decimals));
  }
}
