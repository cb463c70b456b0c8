package org.tareline.part.web;

import static org.tareline.site.TableColumn.largestFirst;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.part.GearSystem;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.site.TableAsked;
import org.tareline.site.TableColumn;
import org.tareline.site.TableOrder;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * The parts as a table: those asked for, in the order asked for, and added up where that is to be.
 * What a part weighs is dear to find, so it is found of the rows of a page alone, unless something
 * hangs on the masses of all.
 */
final class PartTable {

  static final int PAGE = 200;

  /** The columns that are sorted by what all parts weigh. */
  private static final Set<String> BY_MASS =
      Set.of("mass", "uncertainty", "together", "together-uncertainty", "basis", "weighed");

  static List<TableColumn<Line>> columns(MassStyle style) {
    return List.of(
        TableColumn.of("code", "Code", "", line -> Codes.key(line.part().code())),
        TableColumn.of("name", "Name", "", line -> line.part().name().toLowerCase(Locale.ROOT)),
        largestFirst(
            TableColumn.of(
                "mass", "One, " + style.heading(), "mass", line -> value(line.mass().estimate()))),
        largestFirst(
            TableColumn.uncertainty(
                "uncertainty", "Uncertainty of one, ", line -> inGrams(line.mass().estimate()))),
        largestFirst(TableColumn.of("owned", "Owned", "number", line -> line.part().owned())),
        largestFirst(
            TableColumn.of(
                "together",
                "All owned, " + style.heading(),
                "mass",
                line -> value(line.together()))),
        largestFirst(
            TableColumn.uncertainty(
                "together-uncertainty",
                "Uncertainty of all owned, ",
                line -> inGrams(line.together()))),
        TableColumn.of("system", "For", "", line -> line.part().system()),
        TableColumn.of("basis", "Mass is", "", line -> line.mass().basis()),
        largestFirst(TableColumn.of("weighed", "Last weighed", "", Line::weighedAt)));
  }

  /** A part with its mass. */
  record Line(Parts.Listed part, PartMass mass) {

    /** All that are owned; null where that is not known, or more than can be added up. */
    @Nullable Estimate together() {
      Estimate each = mass.estimate();
      if (each == null) {
        return null;
      }
      try {
        return each.times(part.owned());
      } catch (ArithmeticException outOfRange) {
        return null;
      }
    }

    /** When it was last weighed; null where its mass is not from a weighing. */
    @Nullable Instant weighedAt() {
      return mass.weighing() == null ? null : mass.weighing().weighedAt();
    }
  }

  /** Finds what the parts with these ids weigh. */
  interface Masses {
    Map<Long, PartMass> of(List<Long> ids);
  }

  private final Masses masses;

  /** Of all or, where they are not added up, of none is it known what they weigh. */
  private final List<Line> lines;

  private final boolean addedUp;

  private PartTable(Masses masses, List<Line> lines, boolean addedUp) {
    this.masses = masses;
    this.lines = lines;
    this.addedUp = addedUp;
  }

  /**
   * A table of parts.
   *
   * @param system null for all
   * @param notWeighed whether only those are asked for that were not weighed
   * @param addedUp whether all are to be weighed and added up even if nothing else hangs on it
   */
  static PartTable of(
      List<Parts.Listed> parts,
      Masses masses,
      TableAsked asked,
      @Nullable GearSystem system,
      boolean notWeighed,
      TableOrder<Line> order,
      boolean addedUp) {
    List<Line> found =
        parts.stream()
            .filter(part -> system == null || part.system() == system)
            .filter(part -> asked.finds(part.code(), part.name()))
            .map(part -> new Line(part, PartMass.UNKNOWN))
            .toList();
    boolean all =
        addedUp || notWeighed || BY_MASS.contains(order.by().word()) || found.size() <= PAGE;
    return new PartTable(
        masses,
        order.sorted(
            (all ? weighed(found, masses) : found)
                .stream().filter(line -> !notWeighed || line.mass().weighing() == null)),
        all);
  }

  private static List<Line> weighed(List<Line> lines, Masses masses) {
    Map<Long, PartMass> known = masses.of(lines.stream().map(line -> line.part().id()).toList());
    return lines.stream()
        .map(line -> new Line(line.part(), known.getOrDefault(line.part().id(), PartMass.UNKNOWN)))
        .toList();
  }

  int size() {
    return lines.size();
  }

  int pages() {
    return Math.max(1, (lines.size() + PAGE - 1) / PAGE);
  }

  /** The lines of one page, counted from 1. */
  List<Line> page(int page) {
    int from = Math.min((page - 1) * PAGE, lines.size());
    List<Line> shown = lines.subList(from, Math.min(from + PAGE, lines.size()));
    return addedUp ? shown : weighed(shown, masses);
  }

  /** Whether what they weigh is known of all of them, so that total and file may be asked for. */
  boolean addedUp() {
    return addedUp;
  }

  /** All that is owned and has a mass; null where that is more than can be added up. */
  @Nullable Estimate total() {
    try {
      return Estimate.sum(
          lines.stream()
              .filter(line -> line.mass().estimate() != null)
              .map(
                  line -> Objects.requireNonNull(line.mass().estimate()).times(line.part().owned()))
              .toList());
    } catch (ArithmeticException outOfRange) {
      return null;
    }
  }

  /** How many things are owned. */
  long owned() {
    return lines.stream().mapToLong(line -> line.part().owned()).sum();
  }

  /** Those that are owned and have no mass, so that the total is a least one. */
  List<Parts.Listed> missing() {
    return lines.stream()
        .filter(line -> line.mass().estimate() == null && line.part().owned() > 0)
        .map(Line::part)
        .toList();
  }

  /** All lines as a file. */
  CsvTable csv() {
    CsvTable csv =
        new CsvTable(
            "code",
            "name",
            "system",
            "owned",
            "mass of one [g]",
            "expanded uncertainty of one [g]",
            "mass of all owned [g]",
            "expanded uncertainty of all owned [g]",
            "basis",
            "last weighed");
    for (Line line : lines) {
      Estimate each = line.mass().estimate();
      Estimate together = line.together();
      Basis basis = line.mass().basis();
      csv.line(
          line.part().code(),
          line.part().name(),
          line.part().system().word(),
          line.part().owned(),
          value(each),
          uncertainty(each),
          value(together),
          uncertainty(together),
          basis == null ? null : basis.word(),
          line.weighedAt());
    }
    return csv;
  }

  private static @Nullable BigDecimal value(@Nullable Estimate estimate) {
    return estimate == null ? null : estimate.value().grams();
  }

  private static @Nullable Double inGrams(@Nullable Estimate estimate) {
    return estimate == null ? null : estimate.expandedUncertaintyInGrams();
  }

  private static @Nullable BigDecimal uncertainty(@Nullable Estimate estimate) {
    Mass uncertainty = estimate == null ? null : estimate.expandedUncertainty();
    return uncertainty == null ? null : uncertainty.grams();
  }
}
