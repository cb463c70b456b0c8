package org.tareline.trip.web;

import static org.tareline.site.TableColumn.largestFirst;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.site.Figure;
import org.tareline.site.TableColumn;
import org.tareline.site.TableOrder;
import org.tareline.trip.Packing;
import org.tareline.trip.Total;
import org.tareline.trip.Trip;
import org.tareline.trip.Weights;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** The trips of a ledger as a table, in the order asked for. */
record TripTable(List<Line> lines) {

  /**
   * A trip with what it weighs.
   *
   * @param weights null where they are more than can be added up
   */
  record Line(Trip trip, @Nullable Weights weights) {

    static Line of(Trip trip, Packing packing) {
      try {
        return new Line(trip, Weights.of(packing));
      } catch (ArithmeticException outOfRange) {
        // One trip of mountains does not take the others' figures away.
        return new Line(trip, null);
      }
    }

    /** A sum; null where nothing is known of what it is the sum of. */
    private @Nullable Estimate sum(Function<Weights, Total> total) {
      Total of = weights == null ? null : total.apply(weights);
      return of == null || of.basis() == null ? null : of.estimate();
    }

    private @Nullable BigDecimal grams(Function<Weights, Total> total) {
      Estimate sum = sum(total);
      return sum == null ? null : sum.value().grams();
    }

    private @Nullable BigDecimal uncertainty(Function<Weights, Total> total) {
      Estimate sum = sum(total);
      Mass uncertainty = sum == null ? null : sum.expandedUncertainty();
      return uncertainty == null ? null : uncertainty.grams();
    }

    /** How many things have no mass yet, so that the sum is a least one. */
    private @Nullable Integer missing(Function<Weights, Total> total) {
      return weights == null ? null : total.apply(weights).missing().size();
    }
  }

  /** How many columns stand under the heading of the trip. */
  static final int OF_TRIP = 3;

  /** The columns; one that is not dated yet is to come, and so later than all that are. */
  static List<TableColumn<Line>> columns(MassStyle style) {
    return List.of(
        largestFirst(
            TableColumn.of("day", "Day", "", line -> line.trip().starts().orElse(LocalDate.MAX))),
        TableColumn.of("name", "Name", "", line -> line.trip().name().toLowerCase(Locale.ROOT)),
        TableColumn.of("code", "Code", "", line -> Codes.key(line.trip().code())),
        largestFirst(
            TableColumn.of(
                "total-pack",
                "Total pack, " + style.heading(),
                "mass",
                line -> line.grams(Weights::totalPack))),
        largestFirst(
            TableColumn.uncertainty(
                "total-pack-uncertainty",
                "Uncertainty of the total pack, ",
                line -> line.uncertainty(Weights::totalPack))),
        largestFirst(
            TableColumn.of(
                "skin-out",
                "Skin-out, " + style.heading(),
                "mass",
                line -> line.grams(Weights::skinOut))),
        largestFirst(
            TableColumn.uncertainty(
                "skin-out-uncertainty",
                "Uncertainty of skin-out, ",
                line -> line.uncertainty(Weights::skinOut))));
  }

  static TripTable of(List<Trip> trips, Map<Long, Packing> packings, TableOrder<Line> order) {
    return new TripTable(
        order.sorted(
            trips.stream()
                .map(trip -> Line.of(trip, Objects.requireNonNull(packings.get(trip.id()))))));
  }

  /**
   * A trip as a page shows it.
   *
   * @param gloss when it is, and how many lines it has
   */
  record Row(String code, String name, String gloss, Cell totalPack, Cell skinOut) {}

  List<Row> rows(MassStyle style) {
    int decimals =
        Figure.decimals(lines.stream().map(line -> line.sum(Weights::totalPack)).toList(), style);
    return lines.stream()
        .map(
            line ->
                new Row(
                    line.trip().code(),
                    line.trip().name(),
                    gloss(line.trip()),
                    cell(line, Weights::totalPack, style, decimals),
                    cell(line, Weights::skinOut, style, decimals)))
        .toList();
  }

  private static Cell cell(
      Line line, Function<Weights, Total> total, MassStyle style, int decimals) {
    Weights weights = line.weights();
    return weights == null ? Cell.TOO_MUCH : Cell.of(total.apply(weights), style, decimals);
  }

  private static String gloss(Trip trip) {
    String when = Words.when(trip);
    int lines = trip.lines().size();
    return (when == null ? "no day yet" : when) + "; " + (lines == 1 ? "1 line" : lines + " lines");
  }

  /** All lines as a file. */
  CsvTable csv() {
    CsvTable csv =
        new CsvTable(
            "code",
            "name",
            "starts",
            "ends",
            "days [d]",
            "lines",
            "total pack [g]",
            "expanded uncertainty of the total pack [g]",
            "without a mass in the total pack",
            "skin-out [g]",
            "expanded uncertainty of skin-out [g]",
            "without a mass in skin-out");
    for (Line line : lines) {
      Trip trip = line.trip();
      csv.line(
          trip.code(),
          trip.name(),
          trip.starts().orElse(null),
          trip.ends().orElse(null),
          trip.days().orElse(null),
          trip.lines().size(),
          line.grams(Weights::totalPack),
          line.uncertainty(Weights::totalPack),
          line.missing(Weights::totalPack),
          line.grams(Weights::skinOut),
          line.uncertainty(Weights::skinOut),
          line.missing(Weights::skinOut));
    }
    return csv;
  }
}
