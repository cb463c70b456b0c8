package org.tareline.exchange;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.RowReader.Row;
import org.tareline.site.Codes;

/** The things that an import has met: which row each is in, and what becomes of it. */
final class Things {

  /** What becomes of a thing that the ledger had before. */
  private enum Fate {
    STAYS,
    /** With all that it holds. */
    CHANGES,
    /** A changed thing held it, and the file has not named it yet. */
    GOES
  }

  private final Connection connection;
  private final long ledger;
  private final Map<String, Map<String, Long>> idsByName = new HashMap<>();
  private final Map<String, Map<UUID, Long>> idsByUuid = new HashMap<>();
  private final Map<String, Set<String>> refused = new HashMap<>();
  private final Map<String, Map<Long, Fate>> fates = new HashMap<>();

  Things(Connection connection, long ledger) {
    this.connection = connection;
    this.ledger = ledger;
  }

  /** What others call the thing of a row: its code in small letters, or its id. */
  static String name(Table table, List<String> cells) {
    return table.hasCode()
        ? Codes.key(SafeCell.read(cells.get(table.index("code"))))
        : cells.get(table.index("uuid"));
  }

  private static String name(Table table, String written) {
    return table.hasCode() ? Codes.key(written) : written.toLowerCase(Locale.ROOT);
  }

  /** The row of a thing that is in the file, or was asked for before; else null. */
  @Nullable Long met(Table table, String written) {
    return idsByName.getOrDefault(table.name(), Map.of()).get(name(table, written));
  }

  boolean metInFile(Table table, Row row) {
    return table.hasUuid()
            && idsByUuid
                .getOrDefault(table.name(), Map.of())
                .containsKey((UUID) row.values()[table.index("uuid")])
        || idsByName.getOrDefault(table.name(), Map.of()).containsKey(name(table, row.cells()));
  }

  /** The row of a thing that only the ledger has, which stays as it is then; null if it has not. */
  @Nullable Long inLedger(Table table, String written) throws SQLException {
    String name = name(table, written);
    Object value = name;
    if (!table.hasCode()) {
      try {
        value = UUID.fromString(name);
      } catch (IllegalArgumentException noId) {
        return null;
      }
    }
    Long id = inLedger(table.name(), table.hasCode() ? "code_key" : "uuid", value);
    if (id != null) {
      idsByName.computeIfAbsent(table.name(), any -> new HashMap<>()).put(name, id);
      fates.computeIfAbsent(table.name(), any -> new HashMap<>()).putIfAbsent(id, Fate.STAYS);
    }
    return id;
  }

  private @Nullable Long inLedger(String table, String column, Object value) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select id from " + table + " where ledger_id = ? and " + column + " = ?")) {
      statement.setLong(1, ledger);
      statement.setObject(2, value);
      try (ResultSet found = statement.executeQuery()) {
        return found.next() ? found.getLong(1) : null;
      }
    }
  }

  /** The row of a thing by the id that it has in every copy of the ledger; null if it has none. */
  @Nullable Long byUuid(String table, UUID uuid) throws SQLException {
    Long known = idsByUuid.getOrDefault(table, Map.of()).get(uuid);
    return known == null ? inLedger(table, "uuid", uuid) : known;
  }

  /** Takes note of the row that a row of the file is in now. */
  void are(Table table, Row row, long id) {
    if (!table.name().equals("ledger") && (table.hasCode() || table.hasUuid())) {
      idsByName
          .computeIfAbsent(table.name(), any -> new HashMap<>())
          .put(name(table, row.cells()), id);
      if (table.hasCode() && row.values()[table.index("uuid")] instanceof UUID uuid) {
        idsByUuid.computeIfAbsent(table.name(), any -> new HashMap<>()).put(uuid, id);
      }
    }
  }

  /** A thing that takes up an old code of its own has it anew, as when it is renamed by hand. */
  void forgetFormerCode(Table table, Row row) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "delete from former_code where ledger_id = ? and kind = ? and code_key = ?")) {
      statement.setLong(1, ledger);
      statement.setString(2, table.name());
      statement.setString(3, name(table, row.cells()));
      statement.executeUpdate();
    }
  }

  void refuse(Table table, List<String> cells) {
    if (table.hasCode() || table.hasUuid()) {
      refused.computeIfAbsent(table.name(), any -> new HashSet<>()).add(name(table, cells));
    }
  }

  boolean isRefused(Table table, String written) {
    return refused.getOrDefault(table.name(), Set.of()).contains(name(table, written));
  }

  /**
   * The file has it as it is; what belongs to a thing that changes is written anew all the same.
   */
  void stays(Table table, long id) {
    fates
        .computeIfAbsent(table.name(), any -> new HashMap<>())
        .merge(id, Fate.STAYS, (before, now) -> before == Fate.STAYS ? now : Fate.CHANGES);
  }

  void changes(Table table, long id) {
    fates.computeIfAbsent(table.name(), any -> new HashMap<>()).put(id, Fate.CHANGES);
  }

  /** Goes unless the file names it. */
  void goes(Table table, long id) {
    fates.computeIfAbsent(table.name(), any -> new HashMap<>()).put(id, Fate.GOES);
  }

  boolean staying(Table table, long id) {
    return fates.getOrDefault(table.name(), Map.of()).get(id) == Fate.STAYS;
  }

  boolean going(Table table, long id) {
    return fates.getOrDefault(table.name(), Map.of()).get(id) == Fate.GOES;
  }

  List<Long> allGoing(Table table) {
    return fates.getOrDefault(table.name(), Map.of()).entrySet().stream()
        .filter(each -> each.getValue() == Fate.GOES)
        .map(Map.Entry::getKey)
        .toList();
  }

  /** Those of which nothing stays that they held, unless the file says so. */
  List<Long> allChanging(Table table) {
    return fates.getOrDefault(table.name(), Map.of()).entrySet().stream()
        .filter(each -> each.getValue() != Fate.STAYS)
        .map(Map.Entry::getKey)
        .toList();
  }
}
