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
    read(table, "", List.of(), taking);
  }

  /** Those rows that have one of these values in a column. */
  void among(Table table, String column, Collection<?> values, Taking taking) throws SQLException {
    if (!values.isEmpty()) {
      String places = values.stream().map(value -> "?").collect(Collectors.joining(", "));
      read(table, " and t." + column + " in (" + places + ")", values, taking);
    }
  }

  private void read(Table table, String condition, Collection<?> values, Taking taking)
      throws SQLException {
    String sql = select(table) + condition + " order by " + order(table);
    try (PreparedStatement statement =
        connection.prepareStatement(sql, ResultSet.TYPE_FORWARD_ONLY, ResultSet.CONCUR_READ_ONLY)) {
      statement.setFetchSize(FETCHED_AT_ONCE);
      statement.setLong(1, ledger);
      int place = 2;
      for (Object value : values) {
        statement.setObject(place++, value);
      }
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
  }

  private static String select(Table table) {
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
    return columns.append(" from ").append(table.name()).append(" t").append(joins)
        + " where t."
        + table.ledgerColumn()
        + " = ?";
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

  private static String join(String table, String as, String column, String condition) {
    return " left join "
        + table
        + " "
        + as
        + " on "
        + as
        + ".ledger_id = t.ledger_id and "
        + as
        + ".id = t."
        + column
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
                case TEXT -> "t." + column + (onPostgresql ? " collate \"C\"" : "");
                case UUID -> "cast(t." + column + " as varchar(36))";
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
