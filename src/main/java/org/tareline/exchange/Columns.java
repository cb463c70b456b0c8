package org.tareline.exchange;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.Field.Kind;

/** What the database asks of the columns of a table. */
final class Columns {

  /**
   * What it asks of one.
   *
   * @param longest characters; 0 of what is no text
   * @param optional may be empty
   * @param given may be left out, for it has something of its own then
   */
  private record Limits(int longest, boolean optional, boolean given) {}

  private static final Limits NONE = new Limits(0, false, false);

  private final Map<String, Limits> limits = new HashMap<>();

  private Columns() {}

  /** Of every table by its name: H2 goes through all tables anyway, whichever is asked for. */
  static Map<String, Columns> ofTables(Connection connection) throws SQLException {
    Map<String, Columns> tables = new HashMap<>();
    try (PreparedStatement statement =
            connection.prepareStatement(
                "select table_name, column_name, character_maximum_length, is_nullable, column_default"
                    + " from information_schema.columns where table_schema = current_schema");
        ResultSet found = statement.executeQuery()) {
      while (found.next()) {
        tables
            .computeIfAbsent(found.getString(1).toLowerCase(Locale.ROOT), table -> new Columns())
            .limits
            .put(
                found.getString(2).toLowerCase(Locale.ROOT),
                new Limits(
                    (int) Math.min(found.getLong(3), Integer.MAX_VALUE),
                    found.getString(4).equals("YES"),
                    found.getString(5) != null));
      }
    }
    return tables;
  }

  private Limits of(Field field) {
    return limits.getOrDefault(field.column(), NONE);
  }

  boolean mayBeEmpty(Field field) {
    return of(field).optional();
  }

  boolean mayBeMissing(Field field) {
    return of(field).optional() || of(field).given();
  }

  /**
   * Checks a value against them.
   *
   * @throws Field.Unreadable if it does not fit
   */
  void check(Field field, @Nullable Object value) {
    Limits limit = of(field);
    if (value == null && !limit.optional() && field.kind() != Kind.SUBJECT) {
      throw new Field.Unreadable("This must not be empty.");
    }
    if (value instanceof String text
        && limit.longest() > 0
        && !field.pointsElsewhere()
        && text.length() > limit.longest()) {
      throw new Field.Unreadable(
          "It has " + text.length() + " characters, and " + limit.longest() + " fit.");
    }
  }
}
