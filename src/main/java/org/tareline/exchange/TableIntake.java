package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Unreadable;
import org.tareline.exchange.ImportReport.OfTable;
import org.tareline.exchange.RowReader.NamesRefused;
import org.tareline.exchange.RowReader.Row;
import org.tareline.exchange.StoredRows.Stored;
import org.tareline.site.Faults;

/**
 * The taking in of one file. Every row is held against the one that the ledger has already: the
 * same is left alone; a thing that may change does where the file has a later save of it; all else
 * that differs is refused.
 */
final class TableIntake implements RowReader.Finder {

  /** Rows held against the ledger, and written, at once. */
  private static final int BATCH = 500;

  private final Table table;
  private final Intake intake;
  private final Things things;
  private final Problems problems;
  private final RowReader reader;
  private final RowWriter writer;

  /**
   * The columns by which rows are looked for: what holds them, of which none has many, or those of
   * the key that always say something.
   */
  private final List<String> sought;

  /** Whether the ledger had rows before, and so may have those of the file. */
  private final boolean hadRows;

  /** What changed things held before, as it stood in cells. */
  private final Set<String> before = new HashSet<>();

  private List<Row> waiting = new ArrayList<>();
  private Set<String> waitingKeys = new HashSet<>();
  private long rows;
  private int added;
  private int changed;
  private int unchanged;
  private int refused;

  TableIntake(Table table, Intake intake) throws SQLException {
    this.table = table;
    this.intake = intake;
    this.things = intake.things();
    this.problems = intake.problems();
    Columns columns = intake.columns(table);
    this.reader = new RowReader(table, columns, intake.member().ledgerId(), this, problems);
    this.writer = new RowWriter(intake.connection(), intake.member().ledgerId(), table);
    String holder = table.holder();
    this.sought =
        holder != null && !table.hasUuid()
            ? List.of(holder)
            : table.key().stream()
                .filter(
                    column ->
                        !table.has(column)
                            || !columns.mayBeEmpty(table.fields().get(table.index(column))))
                .toList();
    this.hadRows = intake.hasRows(table);
  }

  /**
   * Takes a file in.
   *
   * @param rowsExpected by the manifest; null where it does not say
   */
  OfTable takeIn(InputStream bytes, @Nullable Long rowsExpected) throws SQLException, IOException {
    makeWay();
    boolean[] begun = {false};
    CsvRows.Broken broken =
        CsvRows.read(
            bytes,
            CSVFormat.RFC4180,
            (line, cells) -> {
              if (!begun[0]) {
                begun[0] = true;
                reader.readHeader(line, cells);
              } else if (reader.readable()) {
                take(line, cells);
              }
            });
    flush();
    if (broken != null) {
      note(broken.line(), "", broken.reason());
    } else if (reader.readable() && rowsExpected != null && rowsExpected != rows) {
      note(1, "", "The manifest says " + rowsExpected + " rows, and there are " + rows + ".");
    }
    return new OfTable(table.file(), added, changed, unchanged, refused);
  }

  /**
   * What a changed thing held is replaced by what the file says that it holds. What has an id of
   * its own keeps its row, and goes where the file does not name it; the rest is written anew.
   */
  private void makeWay() throws SQLException {
    String holder = table.holder();
    if (holder == null) {
      return;
    }
    List<Long> holders = things.allChanging(table.holderTable());
    for (int from = 0; from < holders.size(); from += BATCH) {
      List<Long> some = holders.subList(from, Math.min(from + BATCH, holders.size()));
      intake
          .stored()
          .among(
              table,
              List.of(holder),
              some.stream().map(List::<Object>of).toList(),
              row -> {
                before.add(String.join("\0", row.cells()));
                if (table.hasUuid()) {
                  things.goes(table, row.id());
                }
              });
      if (!table.hasUuid()) {
        writer.delete(holder, some);
      }
    }
  }

  private void take(int line, List<String> cells) {
    rows++;
    intake.progress().row();
    try {
      Row row = reader.read(line, cells, this::refuse);
      if (row == null) {
        return;
      }
      if (table.hasUuid() && (!waitingKeys.add(key(row.cells())) || things.metInFile(table, row))) {
        note(
            line,
            table.hasCode() ? "code" : "id",
            "An earlier row of this file is the same thing.");
        refused++;
        return;
      }
      waiting.add(row);
      if (waiting.size() >= BATCH) {
        flush();
      }
    } catch (SQLException broken) {
      throw new Intake.Broken(broken);
    }
  }

  private void refuse(List<String> cells) {
    refused++;
    if (!cells.isEmpty()) {
      things.refuse(table, cells);
    }
  }

  private void refuse(Row row, String column, String reason) {
    note(row.line(), column, reason);
    refuse(row.cells());
  }

  private void note(int line, String column, String reason) {
    problems.note(table.file(), line, column, reason);
  }

  private String key(List<String> cells) {
    return table.key().stream()
        .map(column -> table.has(column) ? cells.get(table.index(column)) : "")
        .collect(Collectors.joining("\0"));
  }

  /** Holds the rows that wait against the ledger, and writes what is new or has changed. */
  private void flush() throws SQLException {
    List<Row> batch = waiting;
    waiting = new ArrayList<>();
    waitingKeys = new HashSet<>();
    Map<String, Stored> known = new HashMap<>();
    Map<String, Stored> byCode = new HashMap<>();
    if (hadRows) {
      look(batch, known, byCode);
    }
    List<Row> fresh = new ArrayList<>();
    for (Row row : batch) {
      Stored same = known.get(key(row.cells()));
      Stored rival = table.hasCode() ? byCode.get(Things.name(table, row.cells())) : null;
      if (rival != null && (same == null || same.id() != rival.id())) {
        takeRival(row, rival, same == null);
      } else if (same != null) {
        takeKnown(row, same);
      } else if (holderStays(row)) {
        refuse(row, "", "What this belongs to is in the ledger already, without it.");
      } else {
        fresh.add(row);
      }
    }
    writer.insert(
        fresh,
        Stream.concat(reader.present().stream(), reader.stamped().stream()).toList(),
        (row, id) -> {
          intake.wrote(table, row, id);
          if (before.contains(String.join("\0", row.cells()))) {
            unchanged++;
          } else {
            added++;
          }
        },
        (row, reason) -> refuse(row, "", reason));
  }

  private void look(List<Row> batch, Map<String, Stored> known, Map<String, Stored> byCode)
      throws SQLException {
    StoredRows.Taking take = row -> known.put(key(row.cells()), row);
    if (table.name().equals("ledger")) {
      intake.stored().all(table, take);
      return;
    }
    Set<List<Object>> keys = new HashSet<>();
    Set<List<Object>> codes = new HashSet<>();
    for (Row row : batch) {
      keys.add(
          sought.stream()
              .<Object>map(column -> Objects.requireNonNull(row.values()[table.index(column)]))
              .toList());
      if (table.hasCode()) {
        codes.add(List.of(Things.name(table, row.cells())));
      }
    }
    intake.stored().among(table, sought, keys, take);
    intake
        .stored()
        .among(
            table,
            List.of("code_key"),
            codes,
            row -> byCode.put(Things.name(table, row.cells()), row));
  }

  private boolean holderStays(Row row) {
    return table.holder() != null
        && row.values()[table.index(table.holder())] instanceof Long holder
        && things.staying(table.holderTable(), holder);
  }

  /** Another thing of the ledger has the code. A scope that every ledger has is the same one. */
  private void takeRival(Row row, Stored rival, boolean isNew) throws SQLException {
    int uuid = table.index("uuid");
    List<String> asRival = new ArrayList<>(row.cells());
    asRival.set(uuid, rival.cells().get(uuid));
    if (isNew && table.name().equals("scope") && asRival.equals(rival.cells())) {
      writer.update(row, rival.id(), List.of(uuid));
      things.stays(table, rival.id());
      things.are(table, row, rival.id());
      changed++;
    } else {
      refuse(row, "code", "Another " + table.name() + " of this ledger has this code.");
    }
  }

  private void takeKnown(Row row, Stored same) throws SQLException {
    if (sameCells(row.cells(), same.cells())) {
      things.stays(table, same.id());
      things.are(table, row, same.id());
      unchanged++;
    } else if (things.going(table, same.id()) || isLater(row, same)) {
      Field turned = turned(row, same);
      if (turned != null) {
        String here = same.cells().get(table.index(turned.column()));
        refuse(
            row,
            turned.heading(),
            "This is set when a thing is made, and here it is "
                + (here.isEmpty() ? "nothing" : Faults.shortened(here))
                + ".");
        return;
      }
      String reason = writer.update(row, same.id(), reader.present());
      if (reason != null) {
        refuse(row, "", reason);
        return;
      }
      things.changes(table, same.id());
      intake.wrote(table, row, same.id());
      if (table.hasCode()) {
        things.forgetFormerCode(table, row);
      }
      changed++;
    } else {
      refuseChange(row, same);
    }
  }

  /**
   * What points at another row of its table, and elsewhere than here. It is never changed once it
   * is made, and could come round to itself if it were.
   */
  private @Nullable Field turned(Row row, Stored same) {
    return table.fields().stream()
        .filter(field -> table.name().equals(field.of()))
        .filter(field -> !sameCell(table.index(field.column()), row.cells(), same.cells()))
        .findFirst()
        .orElse(null);
  }

  private void refuseChange(Row row, Stored same) {
    int differs = 0;
    while (sameCell(differs, row.cells(), same.cells())) {
      differs++;
    }
    String here = same.cells().get(differs);
    refuse(
        row,
        table.fields().get(differs).heading(),
        "The ledger has this already, and here "
            + (here.isEmpty() ? "nothing" : Faults.shortened(here))
            + (table.revisions().isEmpty()
                ? "; it is not changed by an import."
                : "; the save in the file is no later one, and nothing is overwritten."));
  }

  private boolean sameCells(List<String> cells, List<String> others) {
    for (int i = 0; i < cells.size(); i++) {
      if (!sameCell(i, cells, others)) {
        return false;
      }
    }
    return true;
  }

  /** A column that the file has not is not held against it. */
  private boolean sameCell(int at, List<String> cells, List<String> others) {
    return !reader.isPresent(at)
        || (table.fields().get(at).pointsElsewhere()
            ? cells.get(at).equalsIgnoreCase(others.get(at))
            : cells.get(at).equals(others.get(at)));
  }

  /** Whether the file has a later save: one count of saves is ahead, and none is behind. */
  private boolean isLater(Row row, Stored same) {
    if (table.name().equals("ledger") && intake.wasEmpty()) {
      return true;
    }
    boolean later = false;
    for (String column : table.revisions()) {
      int at = table.index(column);
      int here = Integer.parseInt(same.cells().get(at));
      int there = row.values()[at] instanceof Integer number ? number : here;
      if (there < here) {
        return false;
      }
      later |= there > here;
    }
    return later;
  }

  @Override
  public long id(Table of, String written) throws SQLException {
    Long id = things.met(of, written);
    if (id == null && of == table && !waiting.isEmpty()) {
      flush();
      id = things.met(of, written);
    }
    if (id == null && things.isRefused(of, written)) {
      throw new NamesRefused();
    }
    if (id == null) {
      id = things.inLedger(of, written);
    }
    if (id == null) {
      throw new Unreadable(
          "There is no "
              + of.name().replace('_', ' ')
              + " "
              + Faults.shortened(written)
              + (of == table ? " further up in this file" : " in " + of.file())
              + ", nor in this ledger.");
    }
    return id;
  }

  @Override
  public @Nullable Long byUuid(String name, UUID uuid) throws SQLException {
    return things.byUuid(name, uuid);
  }

  @Override
  public long account(String name) {
    return intake.account(name);
  }

  /** Whoever takes the file in, now. */
  @Override
  public Object stamp(Field field) {
    return field.kind() == Field.Kind.PERSON ? intake.member().accountId() : intake.now();
  }
}
