package org.tareline.trip.web;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Figure;
import org.tareline.trip.Days;
import org.tareline.trip.Figures;
import org.tareline.units.MassStyle;

/**
 * The pack by day, as a sentence, a drawing and a table of the same.
 *
 * @param heaviest the heaviest morning, with its day
 * @param rest the lightest evening and the mean, as a sentence
 */
record DaysPanel(String heaviest, String onDay, String rest, DayChart chart, List<Row> rows) {

  /** A day; {@code date} is empty where the first is not known. */
  record Row(String day, String date, Cell start, Cell end, Cell mean, Cell startSkinOut) {}

  /** Null where the days are not known, or nothing is. */
  static @Nullable DaysPanel of(Figures figures, Optional<LocalDate> starts, MassStyle style) {
    List<Days.Day> days = figures.days().days();
    Days.OnDay heaviest = figures.days().heaviest().orElse(null);
    Days.OnDay lightest = figures.days().lightest().orElse(null);
    if (heaviest == null || lightest == null || figures.totalPack().basis() == null) {
      return null;
    }
    String atLeast = figures.totalPack().atLeast() ? "at least " : "";
    int decimals =
        Figure.decimals(
            days.stream().flatMap(day -> Stream.of(day.start(), day.end())).toList(), style);
    boolean least = figures.totalPack().atLeast();
    return new DaysPanel(
        atLeast + Figure.of(heaviest.mass(), style).sentence(),
        "day " + heaviest.day(),
        "Lightest on the evening of day "
            + lightest.day()
            + ": "
            + atLeast
            + Figure.of(lightest.mass(), style).sentence()
            + ". Mean over the days: "
            + atLeast
            + figures
                .days()
                .mean()
                .map(mean -> Figure.of(mean, style).sentence())
                .orElse("not known")
            + ".",
        DayChart.of(days, figures.base().estimate(), style),
        days.stream()
            .map(
                day ->
                    new Row(
                        String.valueOf(day.day()),
                        starts.map(first -> first.plusDays(day.day() - 1L).toString()).orElse(""),
                        Cell.of(day.start(), least, style, decimals),
                        Cell.of(day.end(), least, style, decimals),
                        Cell.of(day.mean(), least, style, decimals),
                        Cell.of(day.startSkinOut(), figures.skinOut().atLeast(), style, decimals)))
            .toList());
  }
}
