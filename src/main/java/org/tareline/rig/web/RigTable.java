package org.tareline.rig.web;

import static org.tareline.site.TableColumn.largestFirst;

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
import org.tareline.site.TableAsked;
import org.tareline.site.TableColumn;
import org.tareline.site.TableOrder;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** The rigs as a table: those asked for, complete, in the order asked for. */
final class RigTable {

  /** The columns; the first two stand under one heading. */
  static List<TableColumn<Line>> columns(MassStyle style) {
    return List.of(
        TableColumn.of("code", "Code", "", line -> Codes.key(line.rig().code())),
        TableColumn.of("name", "Name", "", line -> line.rig().name().toLowerCase(Locale.ROOT)),
        largestFirst(
            TableColumn.of(
                "mass",
                "Complete, " + style.heading(),
                "mass",
                line -> line.total() == null ? null : line.total().value())),
        largestFirst(
            TableColumn.uncertainty(
                "uncertainty",
                "Uncertainty, ",
                line -> line.total() == null ? null : line.total().expandedUncertaintyInGrams())),
        largestFirst(
            TableColumn.of(
                "not-weighed",
                "Not weighed",
                "number",
                line -> line.rollUp() == null ? null : line.rollUp().unweighedLines())),
        TableColumn.of("basis", "Mass is", "", Line::basis));
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

  static RigTable of(
      List<Rig> rigs, Function<List<Rig>, Forest> load, TableAsked asked, TableOrder<Line> order) {
    List<Rig> found = rigs.stream().filter(rig -> asked.finds(rig.code(), rig.name())).toList();
    Forest forest = load.apply(found);
    return new RigTable(order.sorted(found.stream().map(rig -> Line.of(rig, forest))));
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
