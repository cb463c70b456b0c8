package org.tareline.part.web;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.units.Mass;

/** The parts as a table: those asked for, in the order asked for, and added up. */
final class PartTable {

  /** A column, and how it is sorted when it is first picked. */
  enum Column {
    CODE("code", false, line -> Codes.key(line.part().code())),
    NAME("name", false, line -> line.part().name().toLowerCase(Locale.ROOT)),
    MASS("mass", true, line -> grams(line.mass().estimate())),
    UNCERTAINTY("uncertainty", true, line -> uncertainty(line.mass().estimate())),
    OWNED("owned", true, line -> line.part().owned()),
    TOGETHER("together", true, line -> grams(line.together())),
    TOGETHER_UNCERTAINTY("together-uncertainty", true, line -> uncertainty(line.together())),
    SYSTEM("system", false, line -> line.part().system()),
    BASIS("basis", false, line -> line.mass().basis()),
    WEIGHED("weighed", true, Line::weighedAt);

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

    private static @Nullable BigDecimal grams(@Nullable Estimate estimate) {
      return estimate == null ? null : estimate.value().grams();
    }

    private static @Nullable Double uncertainty(@Nullable Estimate estimate) {
      return estimate == null ? null : estimate.expandedUncertaintyInGrams();
    }
  }

  /** A part with its mass. */
  record Line(Part part, PartMass mass) {

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

  private final List<Line> lines;

  private PartTable(List<Line> lines) {
    this.lines = lines;
  }

  /**
   * A table of parts.
   *
   * @param text what code or name has to hold; all do where it is blank
   * @param system null for all
   * @param notWeighed whether only those are asked for that were not weighed
   */
  static PartTable of(
      List<Part> parts,
      Function<List<Part>, Map<Long, PartMass>> masses,
      String text,
      @Nullable GearSystem system,
      boolean notWeighed) {
    String key = Codes.key(text);
    List<Part> asked =
        parts.stream()
            .filter(part -> system == null || part.system() == system)
            .filter(
                part ->
                    Codes.key(part.code()).contains(key)
                        || part.name().toLowerCase(Locale.ROOT).contains(key))
            .toList();
    Map<Long, PartMass> known = masses.apply(asked);
    return new PartTable(
        asked.stream()
            .map(part -> new Line(part, known.getOrDefault(part.id(), PartMass.UNKNOWN)))
            .filter(line -> !notWeighed || line.mass().weighing() == null)
            .toList());
  }

  PartTable sortedBy(Column column, boolean descending) {
    return new PartTable(
        lines.stream()
            .sorted(
                (descending ? column.descending : column.ascending)
                    .thenComparing(Column.CODE.ascending))
            .toList());
  }

  List<Line> lines() {
    return lines;
  }

  /** The lines of one page, counted from 1. */
  List<Line> page(int page, int size) {
    int from = Math.min((page - 1) * size, lines.size());
    return lines.subList(from, Math.min(from + size, lines.size()));
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
  List<Part> missing() {
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

  private static @Nullable BigDecimal uncertainty(@Nullable Estimate estimate) {
    Mass uncertainty = estimate == null ? null : estimate.expandedUncertainty();
    return uncertainty == null ? null : uncertainty.grams();
  }
}
