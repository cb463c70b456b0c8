package org.tareline.rig.web;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.units.Mass;

/** The rigs as a table: those asked for, complete, in the order asked for. */
final class RigTable {

  /** A column, and how it is sorted when it is first picked. */
  enum Column {
    CODE("code", false, line -> Codes.key(line.rig().code())),
    NAME("name", false, line -> line.rig().name().toLowerCase(Locale.ROOT)),
    MASS("mass", true, line -> line.total() == null ? null : line.total().value()),
    UNCERTAINTY(
        "uncertainty",
        true,
        line -> line.total() == null ? null : line.total().expandedUncertaintyInGrams()),
    NOT_WEIGHED(
        "not-weighed", true, line -> line.rollUp() == null ? null : line.rollUp().unweighedLines()),
    BASIS("basis", false, Line::basis);

    private final String word;
    private final boolean descendingFirst;
    private final Comparator<Line> ascending;
    private final Comparator<Line> descending;

    <T extends Comparable<? super T>> Column(
        String word, boolean descendingFirst, Function<Line, @Nullable T> key) {
      this.word = word;
      this.descendingFirst = descendingFirst;
      // What is not known comes last, whichever way it is sorted.
      this.ascending = Comparator.comparing(key, Comparator.nullsLast(Comparator.naturalOrder()));
      this.descending = Comparator.comparing(key, Comparator.nullsLast(Comparator.reverseOrder()));
    }

    static Column of(@Nullable String word) {
      for (Column column : values()) {
        if (column.word.equals(word)) {
          return column;
        }
      }
      return CODE;
    }

    String word() {
      return word;
    }

    boolean descendingFirst() {
      return descendingFirst;
    }
  }

  /**
   * A rig with all that is in it.
   *
   * @param rollUp null where it is more than can be added up
   */
  record Line(Rig rig, @Nullable RollUp rollUp) {

    static Line of(Rig rig, Forest forest) {
      try {
        return new Line(rig, forest.rollUp(rig.id(), Scope.COMPLETE));
      } catch (ArithmeticException outOfRange) {
        return new Line(rig, null);
      }
    }

    /** What it weighs; null where nothing in it has a mass. */
    @Nullable Estimate total() {
      return rollUp == null || rollUp.basis() == null ? null : rollUp.estimate();
    }

    @Nullable Basis basis() {
      return rollUp == null ? null : rollUp.basis();
    }
  }

  private final List<Line> lines;

  private RigTable(List<Line> lines) {
    this.lines = lines;
  }

  /**
   * A table of rigs.
   *
   * @param text what code or name has to hold; all do where it is blank
   */
  static RigTable of(List<Rig> rigs, Function<List<Rig>, Forest> load, String text) {
    String key = Codes.key(text);
    List<Rig> asked =
        rigs.stream()
            .filter(
                rig ->
                    Codes.key(rig.code()).contains(key)
                        || rig.name().toLowerCase(Locale.ROOT).contains(key))
            .toList();
    Forest forest = load.apply(asked);
    return new RigTable(asked.stream().map(rig -> Line.of(rig, forest)).toList());
  }

  RigTable sortedBy(Column column, boolean descending) {
    return new RigTable(
        lines.stream()
            .sorted(
                (descending ? column.descending : column.ascending)
                    .thenComparing(Column.CODE.ascending))
            .toList());
  }

  List<Line> lines() {
    return lines;
  }

  /** All lines as a file. */
  CsvTable csv() {
    CsvTable csv =
        new CsvTable(
            "code",
            "name",
            "mass [g]",
            "expanded uncertainty [g]",
            "basis",
            "lines not weighed",
            "lines",
            "without a mass");
    for (Line line : lines) {
      Estimate total = line.total();
      RollUp rollUp = line.rollUp();
      Mass uncertainty = total == null ? null : total.expandedUncertainty();
      Basis basis = line.basis();
      csv.line(
          line.rig().code(),
          line.rig().name(),
          total == null ? null : total.value().grams(),
          uncertainty == null ? null : uncertainty.grams(),
          basis == null ? null : basis.word(),
          rollUp == null ? null : rollUp.unweighedLines(),
          rollUp == null ? null : rollUp.leafLines(),
          rollUp == null ? null : rollUp.missing().size());
    }
    return csv;
  }
}
