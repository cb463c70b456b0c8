package org.tareline.exchange;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Savepoint;
import java.sql.Types;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.RowReader.Row;
import org.tareline.site.Codes;

/** Writes the rows of one table, many at once. */
final class RowWriter {

  /** What is done with a row that was written. */
  interface Written {
    /**
     * Takes note of it.
     *
     * @param id the database's own; 0 where the table has none
     */
    void take(Row row, long id) throws SQLException;
  }

  /** What is done with a row that the database does not take. */
  interface Refused {
    void take(Row row, String reason);
  }

  private final Connection connection;
  private final long ledger;
  private final Table table;

  RowWriter(Connection connection, long ledger, Table table) {
    this.connection = connection;
    this.ledger = ledger;
    this.table = table;
  }

  /**
   * Adds rows. Where the database refuses one of them, each is tried by itself.
   *
   * @param columns that the rows have something in
   */
  void insert(List<Row> rows, List<Integer> columns, Written written, Refused refused)
      throws SQLException {
    if (rows.isEmpty()) {
      return;
    }
    Savepoint start = connection.setSavepoint();
    try {
      insertAll(rows, columns, written);
      connection.releaseSavepoint(start);
    } catch (SQLException oneOfThem) {
      connection.rollback(start);
      for (Row row : rows) {
        Savepoint each = connection.setSavepoint();
        try {
          insertAll(List.of(row), columns, written);
          connection.releaseSavepoint(each);
        } catch (SQLException refusal) {
          connection.rollback(each);
          refused.take(row, reason(refusal));
        }
      }
    }
  }

  private static String reason(SQLException refusal) throws SQLException {
    String state = String.valueOf(refusal.getSQLState());
    if (state.equals("23505")) {
      return "The ledger, or an earlier row of this file, has this already.";
    }
    if (state.equals("23503") || state.equals("23506")) {
      return "It points at something that is not in this ledger.";
    }
    if (state.startsWith("23")) {
      return "What the row says does not go together, or is out of range.";
    }
    if (state.startsWith("22")) {
      return "A figure of the row is out of range.";
    }
    throw refusal;
  }

  private void insertAll(List<Row> rows, List<Integer> columns, Written written)
      throws SQLException {
    List<String> names = names(columns);
    names.add("ledger_id");
    String sql =
        "insert into "
            + table.name()
            + " ("
            + String.join(", ", names)
            + ") values ("
            + names.stream().map(name -> "?").collect(Collectors.joining(", "))
            + ")";
    try (PreparedStatement statement =
        table.numbered()
            ? connection.prepareStatement(sql, new String[] {"id"})
            : connection.prepareStatement(sql)) {
      for (Row row : rows) {
        statement.setLong(set(statement, row, columns), ledger);
        statement.addBatch();
      }
      statement.executeBatch();
      if (table.numbered()) {
        try (ResultSet ids = statement.getGeneratedKeys()) {
          for (Row row : rows) {
            ids.next();
            written.take(row, ids.getLong(1));
          }
        }
        return;
      }
    }
    for (Row row : rows) {
      written.take(row, 0);
    }
  }

  /**
   * Changes a row.
   *
   * @return why the database does not take it; null where it did
   */
  @Nullable String update(Row row, long id, List<Integer> columns) throws SQLException {
    String sql =
        "update "
            + table.name()
            + " set "
            + names(columns).stream().map(name -> name + " = ?").collect(Collectors.joining(", "))
            + " where "
            + table.ledgerColumn()
            + " = ? and id = ?";
    Savepoint start = connection.setSavepoint();
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      int place = set(statement, row, columns);
      statement.setLong(place, ledger);
      statement.setLong(place + 1, id);
      statement.executeUpdate();
      connection.releaseSavepoint(start);
      return null;
    } catch (SQLException refusal) {
      connection.rollback(start);
      return reason(refusal);
    }
  }

  void delete(String column, Collection<Long> ids) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "delete from " + table.name() + " where ledger_id = ? and " + column + " = ?")) {
      for (Long id : ids) {
        statement.setLong(1, ledger);
        statement.setLong(2, id);
        statement.addBatch();
      }
      statement.executeBatch();
    }
  }

  private boolean withCodeKey(List<Integer> columns) {
    return table.keepsCodeKey() && columns.contains(table.index("code"));
  }

  private List<String> names(List<Integer> columns) {
    List<String> names = new ArrayList<>();
    columns.forEach(at -> names.add(table.fields().get(at).column()));
    if (withCodeKey(columns)) {
      names.add("code_key");
    }
    return names;
  }

  /** Puts what a row says into the first places; answers with the next. */
  private int set(PreparedStatement statement, Row row, List<Integer> columns) throws SQLException {
    int place = 1;
    for (int at : columns) {
      set(statement, place++, table.fields().get(at), row.values()[at]);
    }
    if (withCodeKey(columns)) {
      statement.setString(place++, Codes.key(String.valueOf(row.values()[table.index("code")])));
    }
    return place;
  }

  private static void set(
      PreparedStatement statement, int place, Field field, @Nullable Object value)
      throws SQLException {
    if (value != null) {
      statement.setObject(place, value);
      return;
    }
    statement.setNull(
        place,
        switch (field.kind()) {
          case MASS, LENGTH, REFERENCE, SUBJECT, PERSON -> Types.BIGINT;
          case WHOLE -> Types.INTEGER;
          case REAL -> Types.DOUBLE;
          case DECIMAL -> Types.NUMERIC;
          case YES_NO -> Types.BOOLEAN;
          case UUID -> Types.OTHER;
          case INSTANT -> Types.TIMESTAMP_WITH_TIMEZONE;
          case DAY -> Types.DATE;
          default -> Types.VARCHAR;
        });
  }
}
