package org.tareline.site;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * Things to choose between, each in a column, the present one first; every string is ready.
 *
 * @param columns their headings
 * @param rows each with a cell for every column
 */
public record CandidateTable(String caption, List<Column> columns, List<Row> rows) {

  /** More columns than this would not be read. */
  public static final int MOST = 12;

  /** A candidate, or what there is now. */
  public record Column(String code, String name) {}

  public record Row(String label, List<Cell> cells) {

    /** What is said of the present one, then of each candidate. */
    public static <T> Row of(String label, Cell present, List<T> others, Function<T, Cell> cell) {
      return new Row(label, Stream.concat(Stream.of(present), others.stream().map(cell)).toList());
    }
  }

  /**
   * What is said of one of them.
   *
   * @param figure in the unit of the row; null where it is words
   * @param caution whether somebody could be hurt for not reading it
   */
  public record Cell(@Nullable Figure figure, String words, boolean caution) {

    public static Cell of(String words) {
      return new Cell(null, words, false);
    }

    public static Cell of(Estimate estimate, MassStyle style, int decimals) {
      return new Cell(Figure.of(estimate, style, decimals), "", false);
    }
  }

  /** That some candidates are left out, as a sentence; null where all are shown. */
  public static @Nullable String notShown(int shown, int fitting) {
    return shown == fitting
        ? null
        : "The "
            + shown
            + " lightest of "
            + fitting
            + " are shown; narrow them down to see others.";
  }

  /** What a difference says, in words: {@code lighter by 3.2 g ± 0.4 g}. */
  public static String words(Estimate difference, MassStyle style) {
    Mass uncertainty = difference.expandedUncertainty();
    if (difference.value().signum() == 0 && uncertainty.signum() == 0) {
      return "the same";
    }
    return switch (Verdict.of(difference)) {
      case LIGHTER -> "lighter by " + Figure.of(difference.times(-1), style).sentence();
      case HEAVIER -> "heavier by " + Figure.of(difference, style).sentence();
      case UNDECIDED ->
          "cannot tell: "
              + Figure.of(difference, style).sentence()
              + ", which may be nothing at all";
    };
  }
}
