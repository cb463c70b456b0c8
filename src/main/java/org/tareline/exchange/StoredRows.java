package org.tareline.exchange;

import java.math.BigDecimal;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Kind;

/** The rows of a ledger as they stand in the database, each as the cells of its file. */
final class StoredRows {

  /**
   * A row.
   *
   * @param id the database's own; 0 where it has none
   */
  record Stored(long id, List<String> cells) {}

  /** What is done with a row. */
  interface Taking {
    void take(Stored row) throws SQLException;
  }

  private static final int FETCHED_AT_ONCE = 500;

  private final Connection connection;
  private final long ledger;
  private final KeptStates states;
  private final boolean onPostgresql;

  StoredRows(Connection connection, long ledger, KeptStates states) throws SQLException {
    this.connection = connection;
    this.ledger = ledger;
    this.states = states;
    this.onPostgresql =
        connection.getMetaData().getDatabaseProductName().equalsIgnoreCase("PostgreSQL");
  }

  /** Every row of a table, in the order of its file. */
  void all(Table table, Taking taking) throws SQLException {
    String sql =
        select(table, table.name() + " t")
            + " where t."
            + table.ledgerColumn()
            + " = ? order by "
            + order(table);
    try (PreparedStatement statement = prepared(sql)) {
      statement.setLong(1, ledger);
      read(table, statement, taking);
    }
  }

  /**
   * Those rows that have one of these keys, in any order.
   *
   * @param columns of a key
   * @param keys each with a value for each of the columns
   */
  void among(Table table, List<String> columns, Collection<List<Object>> keys, Taking taking)
      throws SQLException {
    if (keys.isEmpty()) {
      return;
    }
    // As rows to be joined, by an index over the ledger and the columns: for a list behind "in" H2
    // reads the whole ledger.
    List<String> arrays = new ArrayList<>();
    List<String> names = new ArrayList<>();
    StringBuilder same = new StringBuilder(" on t." + table.ledgerColumn() + " = ?");
    for (String column : columns) {
      arrays.add("cast(? as " + type(table, column) + " array)");
      names.add("k_" + column);
      same.append(" and t.").append(column).append(" = k.k_").append(column);
    }
    String from =
        "unnest("
            + String.join(", ", arrays)
            + ") as k("
            + String.join(", ", names)
            + ") join "
            + table.name()
            + " t"
            + same;
    try (PreparedStatement statement = prepared(select(table, from))) {
      for (int i = 0; i < columns.size(); i++) {
        int at = i;
        statement.setArray(
            i + 1,
            connection.createArrayOf(
                type(table, columns.get(i)), keys.stream().map(key -> key.get(at)).toArray()));
      }
      statement.setLong(columns.size() + 1, ledger);
      read(table, statement, taking);
    }
  }

  private static String type(Table table, String column) {
    if (!table.has(column)) {
      return column.equals("id") ? "bigint" : "varchar";
    }
    return switch (table.fields().get(table.index(column)).kind()) {
      case UUID -> "uuid";
      case WHOLE -> "integer";
      case REFERENCE, SUBJECT, PERSON -> "bigint";
      default -> "varchar";
    };
  }

  private PreparedStatement prepared(String sql) throws SQLException {
    PreparedStatement statement =
        connection.prepareStatement(sql, ResultSet.TYPE_FORWARD_ONLY, ResultSet.CONCUR_READ_ONLY);
    statement.setFetchSize(FETCHED_AT_ONCE);
    return statement;
  }

  private void read(Table table, PreparedStatement statement, Taking taking) throws SQLException {
    try (ResultSet found = statement.executeQuery()) {
      while (found.next()) {
        List<String> cells = new ArrayList<>(table.fields().size());
        for (int i = 0; i < table.fields().size(); i++) {
          Field field = table.fields().get(i);
          cells.add(field.write(value(found, i + 2, field)));
        }
        taking.take(new Stored(found.getLong(1), cells));
      }
    }
  }

  private static String select(Table table, String from) {
    StringBuilder columns = new StringBuilder("select ");
    columns.append(table.numbered() ? "t.id" : "0");
    StringBuilder joins = new StringBuilder();
    for (int i = 0; i < table.fields().size(); i++) {
      Field field = table.fields().get(i);
      String at = "r" + i;
      columns.append(", ");
      switch (field.kind()) {
        case REFERENCE -> {
          Table to = LedgerTables.named(String.valueOf(field.of()));
          columns.append(at).append(to.hasCode() ? ".code" : ".uuid");
          joins.append(join(to.name(), at, field.column(), ""));
        }
        case PERSON -> {
          columns.append(at).append(".name");
          joins
              .append(" left join account ")
              .append(at)
              .append(" on ")
              .append(at)
              .append(".id = t.")
              .append(field.column());
        }
        case SUBJECT -> subject(table, field, at, columns, joins);
        default -> columns.append("t.").append(field.column());
      }
    }
    return columns.append(" from ").append(from).append(joins).toString();
  }

  /** What it is called depends on its kind. */
  private static void subject(
      Table table, Field field, String at, StringBuilder columns, StringBuilder joins) {
    List<String> names = new ArrayList<>();
    for (String kind : table.fields().get(table.index("kind")).words().stream().sorted().toList()) {
      Table to = LedgerTables.named(String.valueOf(LedgerTables.SUBJECTS.get(kind)));
      if (!to.name().equals("ledger")) {
        String each = at + "_" + kind.replaceAll("[^a-z]", "");
        names.add(to.hasCode() ? each + ".code" : "cast(" + each + ".uuid as varchar(36))");
        joins.append(join(to.name(), each, field.column(), " and t.kind = '" + kind + "'"));
      }
    }
    columns.append("coalesce(").append(String.join(", ", names)).append(')');
  }

  /**
   * Of the same ledger, but found by its row alone: H2 would else read the whole ledger for each
   * row, by an index that has the ledger and the uuid and so spares it looking into the table.
   */
  private static String join(String table, String as, String column, String condition) {
    return " left join "
        + table
        + " "
        + as
        + " on "
        + as
        + ".id = t."
        + column
        + " and "
        + as
        + ".ledger_id + 0 = t.ledger_id"
        + condition;
  }

  /** Text in the order of its characters, whatever the database makes of a language. */
  private String order(Table table) {
    return table.order().stream()
        .map(
            column -> {
              Kind kind =
                  table.has(column) ? table.fields().get(table.index(column)).kind() : Kind.WHOLE;
              return switch (kind) {
                case TEXT ->
                    "t." + column + (onPostgresql ? " collate \"C\"" : "") + " nulls first";
                case UUID ->
                    "cast(t."
                        + column
                        + " as varchar(36))"
                        + (onPostgresql ? " collate \"C\"" : "")
                        + " nulls first";
                default -> "t." + column;
              };
            })
        .collect(Collectors.joining(", "));
  }

  private @Nullable Object value(ResultSet found, int at, Field field) throws SQLException {
    Object value =
        switch (field.kind()) {
          case MASS, LENGTH -> found.getLong(at);
          case WHOLE -> found.getInt(at);
          case DECIMAL -> found.getObject(at, BigDecimal.class);
          case REAL -> found.getDouble(at);
          case YES_NO -> found.getBoolean(at);
          case UUID -> found.getObject(at, UUID.class);
          case INSTANT -> found.getObject(at, OffsetDateTime.class);
          case DAY -> found.getObject(at, LocalDate.class);
          case STATE -> states.byUuid(found.getString(at));
          default -> found.getString(at);
        };
    return found.wasNull() ? null : value;
  }
}
