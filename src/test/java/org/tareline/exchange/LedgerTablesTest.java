package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestServer;

/** Nothing of a ledger is forgotten when it is taken out. */
@FeatureTest
class LedgerTablesTest {

  private TestServer server;

  @BeforeEach
  void meet(TestServer running) {
    server = running;
  }

  private TreeMap<String, Set<String>> columns() {
    TreeMap<String, Set<String>> columns = new TreeMap<>();
    server
        .database()
        .query(
            "select table_name, column_name from information_schema.columns where table_schema = current_schema",
            row -> {
              columns
                  .computeIfAbsent(
                      row.getString(1).toLowerCase(Locale.ROOT), table -> new TreeSet<>())
                  .add(row.getString(2).toLowerCase(Locale.ROOT));
            });
    return columns;
  }

  @Test
  void every_column_of_every_table_of_a_ledger_is_in_its_files_or_left_out_for_a_reason() {
    List<String> forgotten = new ArrayList<>();
    int seen = 0;
    for (var each : columns().entrySet()) {
      String name = each.getKey();
      boolean ofALedger =
          each.getValue().contains("ledger_id") || Set.of("ledger", "account").contains(name);
      if (!ofALedger || LedgerTables.LEFT_OUT.containsKey(name)) {
        continue;
      }
      Table table =
          LedgerTables.ALL.stream().filter(t -> t.name().equals(name)).findFirst().orElse(null);
      for (String column : each.getValue()) {
        seen++;
        if ((table == null || !table.has(column))
            && !LedgerTables.LEFT_OUT.containsKey(name + "." + column)
            && !LedgerTables.LEFT_OUT.containsKey("*." + column)) {
          forgotten.add(name + "." + column);
        }
      }
    }
    assertThat(seen).isGreaterThan(300);
    assertThat(forgotten)
        .as("add these to LedgerTables, or leave them out there with a reason")
        .isEmpty();
  }

  @Test
  void every_column_named_is_there_and_what_is_left_out_is_there_too() {
    TreeMap<String, Set<String>> columns = columns();
    for (Table table : LedgerTables.ALL) {
      assertThat(columns.get(table.name()))
          .as(table.name())
          .containsAll(table.fields().stream().map(Field::column).toList())
          .containsAll(table.order());
    }
    assertThat(columns.keySet())
        .containsAll(
            LedgerTables.LEFT_OUT.keySet().stream().filter(key -> !key.contains(".")).toList());
    assertThat(LedgerTables.LEFT_OUT.values()).allMatch(reason -> reason.length() > 10);
  }

  @Test
  void a_file_has_each_heading_once_and_each_file_one_table() {
    for (Table table : LedgerTables.ALL) {
      assertThat(table.fields())
          .as(table.file())
          .extracting(Field::heading)
          .doesNotHaveDuplicates();
    }
    assertThat(LedgerTables.ALL).extracting(Table::file).doesNotHaveDuplicates();
    assertThat(LedgerTables.ALL).extracting(Table::name).doesNotHaveDuplicates();
  }
}
