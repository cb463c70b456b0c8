package org.tareline.exchange;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.exchange.PlainTable.Line;
import org.tareline.exchange.PlainTable.Says;
import org.tareline.exchange.PlainTable.Things;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.units.DecimalMark;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Unit;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Reading;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * Takes in a table of somebody's own, of parts or of weighings, all of it or nothing. Every row
 * goes the way it would go if somebody typed it.
 */
@Service
public class PlainImport {

  /** The name under which its faults stand. */
  private static final String TABLE = "table";

  /** In UTF-8. */
  private static final int MOST_BYTES_OF_A_CHARACTER = 4;

  /** The units that a column of masses can be in. */
  public static final List<String> UNITS = List.of("g", "kg", "oz", "lb", "gr");

  /**
   * A table, and what is to be made of it.
   *
   * @param things {@code parts} or {@code weighings}
   * @param text CSV with a line of headings
   * @param columns for each column what it says, or nothing where it is left out
   * @param units for each column the unit of a mass that is written without one; may be empty
   * @param mark the decimal mark in all its masses and tolerances
   * @param scale of weighings in rows that name none
   * @param tolerance of weighings in rows that have none
   */
  public record Entry(
      @Nullable String things,
      @Nullable String text,
      @Nullable List<@Nullable String> columns,
      @Nullable List<@Nullable String> units,
      DecimalMark mark,
      @Nullable String scale,
      @Nullable String tolerance) {}

  /**
   * A column, before anybody said what it is.
   *
   * @param says what its heading seems to say; empty where that is not plain
   * @param unit that its heading names
   * @param examples what stands in its first rows
   */
  public record Column(String heading, String says, String unit, List<String> examples) {}

  /** Something that a column can say. */
  public record Meaning(String word, String words) {}

  /** A row as it was understood. */
  public record Understood(int line, List<String> values) {}

  /**
   * What came of it.
   *
   * @param headings of the values
   * @param problems with the line each stands in and the heading of its column
   */
  public record Outcome(
      boolean dryRun, List<String> headings, List<Understood> rows, List<BadRow> problems) {

    /** Whether there is nothing against it. */
    public boolean good() {
      return problems.isEmpty();
    }
  }

  private final Parts parts;
  private final Weighings weighings;
  private final TransactionOperations transactions;
  private final Clock clock;

  PlainImport(Parts parts, Weighings weighings, TransactionOperations transactions, Clock clock) {
    this.parts = parts;
    this.weighings = weighings;
    this.transactions = transactions;
    this.clock = clock;
  }

  /**
   * Looks at how large a file is before it is read into memory.
   *
   * @throws Refusal if it holds more than is taken in at once, whatever its characters are
   */
  public static void refuseIfTooLong(long bytes) {
    if (bytes > (long) PlainTable.LONGEST * MOST_BYTES_OF_A_CHARACTER) {
      throw PlainTable.tooLong("file");
    }
  }

  /** All that a column of such things can say. */
  public static List<Meaning> meanings(@Nullable String things) {
    Things read = Things.of(things);
    return Arrays.stream(Says.values())
        .filter(says -> says.isOf(read))
        .map(says -> new Meaning(says.word(), says.words()))
        .toList();
  }

  /**
   * The columns of a table.
   *
   * @throws Refusal if it is none
   */
  public static List<Column> columns(@Nullable String things, @Nullable String text) {
    Things read = Things.of(things);
    PlainTable table = PlainTable.read(text);
    List<Column> columns = new ArrayList<>();
    for (int i = 0; i < table.headings().size(); i++) {
      int at = i;
      String heading = table.headings().get(i);
      String unit = PlainTable.unitIn(heading);
      columns.add(
          new Column(
              heading,
              PlainTable.guess(read, heading),
              UNITS.contains(unit) ? unit : "",
              table.lines().stream().limit(3).map(line -> line.cell(at)).toList()));
    }
    return columns;
  }

  /**
   * Takes it in.
   *
   * @return what was written, or would be; where it has problems, nothing was
   * @throws Refusal if it is no table, or not said what its columns are
   */
  public Outcome takeIn(Member member, Entry entry, boolean dryRun) {
    Things things = Things.of(entry.things());
    PlainTable table = PlainTable.read(entry.text());
    Map<Says, List<Integer>> places = places(things, table, entry);
    return Objects.requireNonNull(
        transactions.execute(
            transaction -> {
              List<BadRow> problems = new ArrayList<>();
              List<Understood> rows = new ArrayList<>();
              Map<String, Part> known =
                  things == Things.WEIGHINGS
                      ? parts.byCodes(
                          member,
                          table.lines().stream()
                              .map(line -> cell(line, places, Says.PART, entry))
                              .toList())
                      : Map.of();
              for (Line line : table.lines()) {
                try {
                  rows.add(
                      new Understood(
                          line.number(),
                          things == Things.PARTS
                              ? part(member, line, places, entry)
                              : weighing(member, line, places, entry, known)));
                } catch (Refusal refusal) {
                  for (Refusal.Fault fault : refusal.faults()) {
                    problems.add(
                        new BadRow(
                            TABLE, line.number(), heading(fault, table, places), fault.message()));
                  }
                }
              }
              if (dryRun || !problems.isEmpty()) {
                transaction.setRollbackOnly();
              }
              return new Outcome(dryRun, headings(things), rows, problems);
            }));
  }

  private static Map<Says, List<Integer>> places(Things things, PlainTable table, Entry entry) {
    Map<Says, List<Integer>> places = new EnumMap<>(Says.class);
    Faults faults = new Faults();
    List<@Nullable String> columns = entry.columns() == null ? List.of() : entry.columns();
    if (columns.size() > table.headings().size()) {
      faults.add("columns", "The table has " + table.headings().size() + " columns.");
    }
    for (int i = 0; i < Math.min(columns.size(), table.headings().size()); i++) {
      String word = columns.get(i);
      String field = "columns[" + i + "]";
      String unit = unit(entry, i);
      if (!unit.isEmpty() && !isMass(unit)) {
        faults.add("units[" + i + "]", "Give a unit of mass, such as g.");
      }
      if (word == null || word.isBlank()) {
        continue;
      }
      Says says = Says.of(things, word);
      if (says == null) {
        faults.add(field, "There is nothing called " + Faults.shortened(word) + " here.");
      } else if (says != Says.READING && places.containsKey(says)) {
        faults.add(field, "Another column says this already.");
      } else {
        places.computeIfAbsent(says, any -> new ArrayList<>()).add(i);
      }
    }
    for (Says needed :
        things == Things.PARTS ? List.of(Says.CODE, Says.NAME) : List.of(Says.PART, Says.READING)) {
      if (!places.containsKey(needed)) {
        faults.add("columns", "Say which column is the " + needed.words() + ".");
      }
    }
    faults.refuseIfAny();
    return places;
  }

  private static boolean isMass(String unit) {
    try {
      return Unit.named(unit).kind() == Kind.MASS;
    } catch (IllegalArgumentException none) {
      return false;
    }
  }

  private static String unit(Entry entry, int column) {
    String unit =
        entry.units() == null || column >= entry.units().size() ? null : entry.units().get(column);
    return unit == null ? "" : unit.strip();
  }

  private static List<String> headings(Things things) {
    return things == Things.PARTS
        ? List.of("Code", "Name", "System", "Owned", "Stated mass", "Exactly", "Good to")
        : List.of("Part", "Readings", "Exactly", "Scale", "On the pan", "When", "Tare", "Good to");
  }

  private static String cell(Line line, Map<Says, List<Integer>> places, Says says, Entry entry) {
    List<String> all = cells(line, places, says, entry);
    return all.isEmpty() ? "" : all.get(0);
  }

  private static List<String> cells(
      Line line, Map<Says, List<Integer>> places, Says says, Entry entry) {
    List<String> cells = new ArrayList<>();
    for (int at : places.getOrDefault(says, List.of())) {
      String text = SafeCell.readForeign(line.cell(at));
      // Several readings in one cell, as on the bench.
      for (String each : says == Says.READING ? text.split(";") : new String[] {text}) {
        if (!each.isBlank()) {
          cells.add(says.isMass() ? mass(each.strip(), unit(entry, at)) : each.strip());
        }
      }
    }
    return cells;
  }

  /** As it was typed; with the unit of the column where it has none. */
  private static String mass(String typed, String unit) {
    boolean bare = typed.chars().noneMatch(Character::isLetter);
    return bare && !unit.isEmpty() ? typed + " " + unit : typed;
  }

  private List<String> part(
      Member member, Line line, Map<Says, List<Integer>> places, Entry entry) {
    Function<Says, String> cell = says -> cell(line, places, says, entry);
    Part part =
        parts.add(
            member,
            new Parts.Entry(
                cell.apply(Says.CODE),
                cell.apply(Says.NAME),
                cell.apply(Says.SYSTEM),
                cell.apply(Says.OWNED),
                new Parts.StatedEntry(
                    cell.apply(Says.STATED), cell.apply(Says.STATED_TOLERANCE), entry.mark()),
                "",
                cell.apply(Says.NOTE)));
    return List.of(
        part.code(),
        part.name(),
        part.system().pageWords(),
        String.valueOf(part.owned()),
        part.statedTyped().orElse("not known"),
        part.stated().map(Mass::toString).orElse(""),
        within(part.statedHalfWidth()));
  }

  private List<String> weighing(
      Member member,
      Line line,
      Map<Says, List<Integer>> places,
      Entry entry,
      Map<String, Part> known) {
    Function<Says, String> cell = says -> cell(line, places, says, entry);
    Faults faults = new Faults();
    String code = cell.apply(Says.PART);
    Part part = known.get(Codes.key(code));
    if (part == null) {
      faults.add("part", "There is no part " + Faults.shortened(code) + " in this ledger.");
    }
    String scale = cell.apply(Says.SCALE);
    String tolerance = cell.apply(Says.TOLERANCE);
    Weighing read =
        weighings.read(
            member,
            new Weighings.Entry(
                scale.isEmpty() && tolerance.isEmpty() ? entry.scale() : scale,
                scale.isEmpty() && tolerance.isEmpty() ? entry.tolerance() : tolerance,
                List.copyOf(cells(line, places, Says.READING, entry)),
                null,
                cell.apply(Says.TARE),
                cell.apply(Says.COUNT),
                cell.apply(Says.CONDITION),
                cell.apply(Says.WEIGHED_AT),
                cell.apply(Says.NOTE),
                entry.mark()),
            faults);
    faults.refuseIfAny();
    Weighing kept =
        weighings.log(
            read, List.of(Placed.part(Objects.requireNonNull(part).id(), read.pieceCount())));
    return List.of(
        part.code(),
        kept.readings().stream().map(Reading::typed).collect(Collectors.joining("; ")),
        kept.readings().stream()
            .map(reading -> reading.mass().toString())
            .collect(Collectors.joining("; ")),
        kept.scale().map(one -> one.code()).orElse("not recorded"),
        String.valueOf(kept.pieceCount()),
        kept.weighedAt().atZone(clock.getZone()).toOffsetDateTime().toString(),
        kept.tareTyped().isEmpty() ? "" : kept.tare().toString(),
        within(kept.tolerance()));
  }

  private static String within(Optional<Mass> tolerance) {
    return tolerance.map(halfWidth -> "± " + halfWidth).orElse("");
  }

  private static String heading(
      Refusal.Fault fault, PlainTable table, Map<Says, List<Integer>> places) {
    String field = fault.field().replaceAll("\\[\\d+]", "");
    Says says =
        switch (field) {
          case "code" -> Says.CODE;
          case "name" -> Says.NAME;
          case "system" -> Says.SYSTEM;
          case "owned" -> Says.OWNED;
          case "stated.mass" -> Says.STATED;
          case "stated.tolerance" -> Says.STATED_TOLERANCE;
          case "part" -> Says.PART;
          case "readings" -> Says.READING;
          case "scale" -> Says.SCALE;
          case "tolerance" -> Says.TOLERANCE;
          case "tare" -> Says.TARE;
          case "count" -> Says.COUNT;
          case "condition" -> Says.CONDITION;
          case "weighedAt" -> Says.WEIGHED_AT;
          default -> Says.NOTE;
        };
    List<Integer> at = places.getOrDefault(says, List.of());
    return at.isEmpty() ? says.words() : table.headings().get(at.get(0));
  }
}
