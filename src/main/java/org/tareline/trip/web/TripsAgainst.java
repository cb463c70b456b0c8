package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Piece;
import org.tareline.site.Figure;
import org.tareline.trip.Packing;
import org.tareline.trip.TripComparison;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * One trip against another, as the page shows them.
 *
 * @param lead whether its pack is lighter, as a sentence
 * @param unknown what has no mass yet on either and so keeps verdicts open; null where all have
 * @param unit of the columns
 */
record TripsAgainst(
    String first,
    String firstName,
    String second,
    String secondName,
    String lead,
    @Nullable String unknown,
    String unit,
    List<Group> groups) {

  /** Rows that stand together. */
  record Group(String name, List<Row> rows) {}

  /** A total or a system; {@code words} is the verdict. */
  record Row(String label, Cell a, Cell b, Figure difference, String words) {}

  private static final Cell NONE = new Cell("none", null);

  static TripsAgainst of(TripComparison comparison, MassStyle style) {
    Packing first = comparison.first();
    Packing second = comparison.second();
    int decimals = decimals(comparison, style);
    return new TripsAgainst(
        first.code(),
        first.name(),
        second.code(),
        second.name(),
        lead(first.code(), second.code(), comparison.totalPack(), style),
        unknown(comparison),
        style.heading(),
        List.of(
            new Group("By how it travels", rows(comparison.totals(), style, decimals)),
            new Group("By what it is for", rows(comparison.systems(), style, decimals))));
  }

  private static String lead(
      String first, String second, TripComparison.Row<?> pack, MassStyle style) {
    return pack.pair().verdict() == Verdict.UNDECIDED
        ? pack.isTheSame()
            ? "The two packs are the same."
            : "Which pack is lighter is not to be told yet."
        : "The total pack of "
            + second
            + " is "
            + pack.pair().verdict().word()
            + " than that of "
            + first
            + " by "
            + by(pack, style)
            + ".";
  }

  /** As the surest figure asks for, down to a tenth of a gram: totals are never that sure. */
  private static int decimals(TripComparison comparison, MassStyle style) {
    List<@Nullable Estimate> all = new ArrayList<>();
    Stream.concat(comparison.totals().stream(), comparison.systems().stream())
        .filter(row -> !row.isTheSame())
        .forEach(row -> all.add(row.pair().difference()));
    return Math.min(Figure.decimals(all, style), style.decimals(Mass.ofGrams("0.1"), 1));
  }

  private static @Nullable String unknown(TripComparison comparison) {
    String codes =
        Stream.of(comparison.skinOut().a(), comparison.skinOut().b())
            .filter(Objects::nonNull)
            .flatMap(total -> total.missing().stream())
            .map(Piece::code)
            .distinct()
            .collect(Collectors.joining(", "));
    return codes.isEmpty() ? null : codes;
  }

  private static List<Row> rows(
      List<? extends TripComparison.Row<?>> rows, MassStyle style, int decimals) {
    return rows.stream()
        .map(
            row ->
                new Row(
                    label(row.of()),
                    row.a() == null ? NONE : Cell.of(row.a(), style, decimals),
                    row.b() == null ? NONE : Cell.of(row.b(), style, decimals),
                    Figure.of(row.pair().difference(), style, decimals),
                    words(row, style)))
        .toList();
  }

  /** What a row is of, in the words of a page. */
  static String label(Object of) {
    return of instanceof GearSystem system
        ? system.pageWords()
        : String.valueOf(of).replace("totalPack", "total pack").replace("skinOut", "skin-out");
  }

  private static String words(TripComparison.Row<?> row, MassStyle style) {
    return row.pair().verdict() == Verdict.UNDECIDED
        ? row.isTheSame() ? "the same" : "not to be told yet"
        : row.pair().verdict().word() + " by " + by(row, style);
  }

  private static String by(TripComparison.Row<?> row, MassStyle style) {
    Mass value = row.pair().difference().value();
    return style.withUncertainty(
        value.signum() < 0 ? value.negated() : value,
        row.pair().difference().expandedUncertainty());
  }
}
