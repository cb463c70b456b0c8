package org.tareline.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.tareline.exchange.ImportReport.OfTable;
import org.tareline.exchange.RowReader.Row;
import org.tareline.ledger.Authors;
import org.tareline.ledger.Member;

/**
 * One taking in of the files of a ledger, within a transaction of the caller's. Files come one
 * after another, rows in batches, and no more is kept in memory than which thing has which row, and
 * the line of what was written.
 */
final class Intake {

  /** A fault of the database on the way through a reader that knows of none. */
  static final class Broken extends RuntimeException {
    Broken(SQLException cause) {
      super(cause);
    }
  }

  private final Connection connection;
  private final Member member;
  private final Authors authors;
  private final ImportProgress progress;
  private final StoredRows stored;
  private final Things things;
  private final Problems problems;
  private final WrittenLines lines;
  private final Map<String, Columns> columns;
  private final Map<String, Long> accounts = new HashMap<>();
  private final OffsetDateTime now;
  private final boolean wasEmpty;

  Intake(
      Connection connection,
      Member member,
      Authors authors,
      ImportProgress progress,
      OffsetDateTime now,
      Problems problems,
      WrittenLines lines)
      throws SQLException {
    this.connection = connection;
    this.member = member;
    this.authors = authors;
    this.progress = progress;
    this.now = now;
    this.problems = problems;
    this.lines = lines;
    this.columns = Columns.ofTables(connection);
    this.stored =
        new StoredRows(connection, member.ledgerId(), KeptStates.of(connection, member.ledgerId()));
    this.things = new Things(connection, member.ledgerId());
    boolean empty = true;
    for (String each : List.of("scale", "material", "part", "weighing", "rig", "trip")) {
      empty &= !hasRows(LedgerTables.named(each));
    }
    this.wasEmpty = empty;
  }

  /** Takes in all that the files have; what stands in the way is among the problems then. */
  List<OfTable> takeIn(LedgerFiles files) throws SQLException, IOException {
    List<OfTable> tables = new ArrayList<>();
    for (Table table : LedgerTables.ALL) {
      try (InputStream bytes = files.read(table.file())) {
        if (bytes != null) {
          progress.begin(table.file());
          tables.add(new TableIntake(table, this).takeIn(bytes, files.rowsOf(table.file())));
        }
      }
    }
    deleteWhatGoes();
    return tables;
  }

  /** What a changed thing no longer holds, after all that hung on it. */
  private void deleteWhatGoes() throws SQLException {
    List<Table> lastFirst = new ArrayList<>(LedgerTables.ALL);
    Collections.reverse(lastFirst);
    for (Table table : lastFirst) {
      String holder = table.holder();
      if (holder != null) {
        RowWriter writer = new RowWriter(connection, member.ledgerId(), table);
        writer.delete(holder, things.allGoing(table.holderTable()));
        if (table.hasUuid()) {
          writer.delete("id", things.allGoing(table));
        }
      }
    }
  }

  boolean hasRows(Table table) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select 1 from "
                + table.name()
                + " where "
                + table.ledgerColumn()
                + " = ? fetch first 1 rows only")) {
      statement.setLong(1, member.ledgerId());
      try (ResultSet found = statement.executeQuery()) {
        return found.next();
      }
    }
  }

  /** Takes note that a row of a file was added, or changed what was there. */
  void wrote(Table table, Row row, long id) {
    things.are(table, row, id);
    lines.note(table, row, id);
  }

  /** The account that stands for somebody of this name. */
  long account(String name) {
    return accounts.computeIfAbsent(name, any -> authors.named(member, any));
  }

  /** Whether nothing was in the ledger yet, so that its settings are nobody's choice. */
  boolean wasEmpty() {
    return wasEmpty;
  }

  /** When it is taken in, which is when rows were entered that do not say. */
  OffsetDateTime now() {
    return now;
  }

  /** What the database asks of a table's columns. */
  Columns columns(Table table) {
    return Objects.requireNonNull(columns.get(table.name()), table.name());
  }

  Connection connection() {
    return connection;
  }

  Member member() {
    return member;
  }

  ImportProgress progress() {
    return progress;
  }

  StoredRows stored() {
    return stored;
  }

  Things things() {
    return things;
  }

  Problems problems() {
    return problems;
  }
}
