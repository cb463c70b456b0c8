package org.tareline.exchange;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.tareline.exchange.RowReader.Row;

/** In which line of its file what an import wrote stands. */
final class WrittenLines {

  /** By table and row. */
  private final Map<String, Map<Long, Integer>> things = new HashMap<>();

  /** By table, row of the holder, and position among what that holds. */
  private final Map<String, Map<Long, TreeMap<Integer, Integer>>> held = new HashMap<>();

  void note(Table table, Row row, long id) {
    if (table.numbered()) {
      things.computeIfAbsent(table.name(), any -> new HashMap<>()).put(id, row.line());
    }
    if (table.heldAs() != null
        && row.values()[table.index(String.valueOf(table.holder()))] instanceof Long holder
        && row.values()[table.index("position")] instanceof Integer position) {
      held.computeIfAbsent(table.name(), any -> new HashMap<>())
          .computeIfAbsent(holder, any -> new TreeMap<>())
          .put(position, row.line());
    }
  }

  /** The things of a table that were written. */
  Collection<Long> of(Table table) {
    return things.getOrDefault(table.name(), Map.of()).keySet();
  }

  /** Line 1, the header's, of what the file does not have. */
  int line(Table table, long id) {
    return things.getOrDefault(table.name(), Map.of()).getOrDefault(id, 1);
  }

  /** The line of one of those that a thing holds, counted by their positions; null of none. */
  @Nullable Integer line(Table table, long holder, int index) {
    TreeMap<Integer, Integer> lines =
        held.getOrDefault(table.name(), Map.of()).getOrDefault(holder, new TreeMap<>());
    return index < lines.size() ? List.copyOf(lines.values()).get(index) : null;
  }
}
