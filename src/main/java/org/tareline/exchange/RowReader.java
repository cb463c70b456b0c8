package org.tareline.exchange;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Kind;
import org.tareline.exchange.Field.Unreadable;
import org.tareline.site.Faults;
import org.tareline.units.DecimalMark;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.UnreadableQuantity;

/** Reads the rows of one file: each cell by its column, and what a cell names by its row. */
final class RowReader {

  /**
   * A row of a file, read.
   *
   * @param cells as an export would write them, in the order of the columns of the table
   * @param values as the database takes them, in the same order
   */
  record Row(int line, List<String> cells, @Nullable Object[] values) {}

  /** Finds what cells name. */
  interface Finder {

    /**
     * The row of a thing.
     *
     * @throws Unreadable if there is none
     * @throws NamesRefused if it was refused
     */
    long id(Table of, String written) throws SQLException;

    @Nullable Long byUuid(String table, UUID uuid) throws SQLException;

    long account(String name);

    /** What stands in a column of who entered a row, or when, where the file does not say. */
    Object stamp(Field field);
  }

  /** The thing named is of a row that was refused: mending the one mends the other. */
  static final class NamesRefused extends RuntimeException {
    NamesRefused() {
      super(null, null, false, false);
    }
  }

  private final Table table;
  private final Columns columns;
  private final long ledger;
  private final Finder finder;
  private final Problems problems;

  /** Which column of the table each column of the file is. */
  private List<Integer> places = List.of();

  private List<Integer> stamped = List.of();
  private boolean readable = true;

  RowReader(Table table, Columns columns, long ledger, Finder finder, Problems problems) {
    this.table = table;
    this.columns = columns;
    this.ledger = ledger;
    this.finder = finder;
    this.problems = problems;
  }

  /** Reads which column stands where; where it cannot be told, no row is read. */
  void readHeader(int line, List<String> headings) {
    int before = problems.count();
    List<String> known = table.fields().stream().map(Field::heading).toList();
    List<Integer> found = new ArrayList<>();
    for (String heading : headings) {
      int at = known.indexOf(heading);
      if (at < 0 || found.contains(at)) {
        note(
            line,
            Faults.shortened(heading),
            at < 0 ? "There is no such column in this file." : "This column is there twice.");
      }
      found.add(at);
    }
    for (int i = 0; i < known.size(); i++) {
      Field field = table.fields().get(i);
      if (!found.contains(i) && !columns.mayBeMissing(field) && !field.isStamp()) {
        note(line, known.get(i), "This column is missing.");
      }
    }
    places = found;
    stamped =
        IntStream.range(0, known.size())
            .filter(at -> table.fields().get(at).isStamp() && !found.contains(at))
            .boxed()
            .toList();
    readable = problems.count() == before;
  }

  /** Whether the header could be read, and so the rows can. */
  boolean readable() {
    return readable;
  }

  /** The columns of the table that the file has, in their order. */
  List<Integer> present() {
    return places.stream().sorted().toList();
  }

  /** Those that it leaves out and a row has all the same: who entered it, and when. */
  List<Integer> stamped() {
    return stamped;
  }

  boolean isPresent(int at) {
    return places.contains(at);
  }

  /**
   * Reads a row, and notes every cell that cannot be.
   *
   * @param refused is given the cells of a row that cannot be taken in, as far as they could be
   *     read
   * @return null of such a row
   */
  @Nullable Row read(int line, List<String> cells, Consumer<List<String>> refused)
      throws SQLException {
    int before = problems.count();
    if (cells.size() != places.size()) {
      note(
          line, "", "The row has " + cells.size() + " cells and the header " + places.size() + ".");
      refused.accept(List.of());
      return null;
    }
    @Nullable Object[] values = new Object[table.fields().size()];
    String[] written = new String[values.length];
    Arrays.fill(written, "");
    for (int i = 0; i < cells.size(); i++) {
      int at = places.get(i);
      Field field = table.fields().get(at);
      try {
        values[at] = field.read(cells.get(i));
        columns.check(field, values[at]);
        written[at] = field.write(values[at]);
      } catch (Unreadable unreadable) {
        note(line, field.heading(), unreadable.getMessage());
      }
    }
    boolean namesRefused = false;
    for (int i = 0; i < values.length; i++) {
      Field field = table.fields().get(i);
      try {
        values[i] = found(field, values, values[i]);
      } catch (NamesRefused mended) {
        namesRefused = true;
      } catch (Unreadable unreadable) {
        note(line, field.heading(), unreadable.getMessage());
      }
    }
    for (int at : stamped) {
      values[at] = finder.stamp(table.fields().get(at));
    }
    compareWithTyped(line, values);
    if (problems.count() > before || namesRefused) {
      refused.accept(List.of(written));
      return null;
    }
    return new Row(line, List.of(written), values);
  }

  /** What the database takes in the place of what names something. */
  private @Nullable Object found(Field field, @Nullable Object[] values, @Nullable Object value)
      throws SQLException {
    if (field.kind() == Kind.SUBJECT) {
      return subject(values[table.index("kind")], value);
    }
    if (!(value instanceof String text)) {
      return value;
    }
    return switch (field.kind()) {
      case REFERENCE -> finder.id(LedgerTables.named(String.valueOf(field.of())), text);
      case PERSON -> finder.account(text);
      case STATE ->
          KeptStates.byId(
              text,
              (kind, uuid) -> {
                try {
                  return finder.byUuid(kind, uuid);
                } catch (SQLException broken) {
                  throw new Intake.Broken(broken);
                }
              });
      default -> text;
    };
  }

  private long subject(@Nullable Object kind, @Nullable Object named) throws SQLException {
    if ("settings".equals(kind)) {
      // Those of the ledger itself, which no file names.
      return ledger;
    }
    if (!(named instanceof String text)) {
      throw new Unreadable("This must not be empty.");
    }
    if (kind == null) {
      throw new NamesRefused();
    }
    return finder.id(
        LedgerTables.named(String.valueOf(LedgerTables.SUBJECTS.get(String.valueOf(kind)))), text);
  }

  /** An exact mass has to be what stands beside it as typed, where that is a mass with its unit. */
  private void compareWithTyped(int line, @Nullable Object[] values) {
    for (int i = 0; i + 1 < values.length; i++) {
      if (table.fields().get(i).kind() == Kind.MASS
          && table.fields().get(i + 1).kind() == Kind.TYPED
          && values[i] instanceof Long nanograms
          && values[i + 1] instanceof String typed
          && !says(typed, nanograms)) {
        note(
            line,
            table.fields().get(i).heading(),
            "Here it is "
                + new Mass(nanograms)
                + ", and as typed it is "
                + Faults.shortened(typed)
                + ": make the two the same.");
      }
    }
  }

  private static boolean says(String typed, long nanograms) {
    try {
      Quantity read = Quantity.read(typed, org.tareline.units.Kind.MASS, null, DecimalMark.EITHER);
      return read.mass().nanograms() == nanograms;
    } catch (UnreadableQuantity noMassOfItsOwn) {
      // A bare number in the unit of its scale, a percentage, a volume.
      return true;
    }
  }

  private void note(int line, String column, @Nullable String reason) {
    problems.note(table.file(), line, column, reason);
  }
}
