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
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.CsvTable;
import org.tareline.units.Mass;

/**
 * The parts as a table: those asked for, in the order asked for, and added up where that is to be.
 * What a part weighs is dear to find, so it is found of the rows of a page alone, unless something
 * hangs on the masses of all.
 */
final class PartTable {

  static final int PAGE = 200;

  /** A column, and how it is sorted when it is first picked. */
  enum Column {
    CODE("code", false, false, line -> Codes.key(line.part().code())),
    NAME("name", false, false, line -> line.part().name().toLowerCase(Locale.ROOT)),
    MASS("mass", true, true, line -> grams(line.mass().estimate())),
    UNCERTAINTY("uncertainty", true, true, line -> uncertainty(line.mass().estimate())),
    OWNED("owned", true, false, line -> line.part().owned()),
    TOGETHER("together", true, true, line -> grams(line.together())),
    TOGETHER_UNCERTAINTY("together-uncertainty", true, true, line -> uncertainty(line.together())),
    SYSTEM("system", false, false, line -> line.part().system()),
    BASIS("basis", false, true, line -> line.mass().basis()),
    WEIGHED("weighed", true, true, Line::weighedAt);

    private final String word;
    private final boolean descendingFirst;
    private final boolean byMass;
    private final Comparator<Line> ascending;
    private final Comparator<Line> descending;

    <T extends Comparable<? super T>> Column(
        String word, boolean descendingFirst, boolean byMass, Function<Line, @Nullable T> key) {
      this.word = word;
      this.descendingFirst = descendingFirst;
      this.byMass = byMass;
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
   * @param text what code or name has to hold; all do where it is blank
   * @param system null for all
   * @param notWeighed whether only those are asked for that were not weighed
   * @param addedUp whether all are to be weighed and added up even if nothing else hangs on it
   */
  static PartTable of(
      List<Parts.Listed> parts,
      Masses masses,
      String text,
      @Nullable GearSystem system,
      boolean notWeighed,
      Column sortedBy,
      boolean descending,
      boolean addedUp) {
    String key = Codes.key(text);
    List<Line> asked =
        parts.stream()
            .filter(part -> system == null || part.system() == system)
            .filter(
                part ->
                    Codes.key(part.code()).contains(key)
                        || part.name().toLowerCase(Locale.ROOT).contains(key))
            .map(part -> new Line(part, PartMass.UNKNOWN))
            .toList();
    boolean all = addedUp || notWeighed || sortedBy.byMass || asked.size() <= PAGE;
    return new PartTable(
        masses,
        (all ? weighed(asked, masses) : asked)
            .stream()
                .filter(line -> !notWeighed || line.mass().weighing() == null)
                .sorted(
                    (descending ? sortedBy.descending : sortedBy.ascending)
                        .thenComparing(Column.CODE.ascending))
                .toList(),
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

  private static @Nullable BigDecimal uncertainty(@Nullable Estimate estimate) {
    Mass uncertainty = estimate == null ? null : estimate.expandedUncertainty();
    return uncertainty == null ? null : uncertainty.grams();
  }
}
