package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.MigrationInfo;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestDatabase;

/**
 * The tables as the migrations make them from nothing. That they are the ones the entities expect
 * is seen by the server itself when it starts, in every feature test.
 */
@FeatureTest
class MigrationTests {

  /** Accounts, with what opens them, stand above ledgers, and the last is Flyway's own. */
  private static final Set<String> BELONGING_TO_NO_LEDGER =
      Set.of(
          "account",
          "recovery_code",
          "password_link",
          "ledger",
          "session",
          "session_attributes",
          "flyway_schema_history");

  @Autowired private Flyway flyway;
  @Autowired private JdbcTemplate database;

  @Test
  void every_migration_has_run_and_none_has_changed_since() {
    flyway.validate();

    assertThat(flyway.info().pending()).isEmpty();
    assertThat(flyway.info().applied())
        .extracting(MigrationInfo::getScript)
        .contains("V1__the_three_jobs.sql", "V2__append_only.sql");
  }

  @Test
  void the_tests_run_on_the_database_they_were_asked_to() {
    String product =
        database.execute(
            (org.springframework.jdbc.core.ConnectionCallback<String>)
                connection -> connection.getMetaData().getDatabaseProductName());

    assertThat(product).isEqualTo(TestDatabase.onPostgresql() ? "PostgreSQL" : "H2");
  }

  @Test
  void every_row_belongs_to_a_ledger() {
    List<String> tables =
        database.queryForList(
            """
            select lower(table_name) from information_schema.tables
            where lower(table_schema) = 'public'
            """,
            String.class);
    assertThat(tables)
        .contains("part", "weighing", "rig_line", "trip")
        .containsAll(BELONGING_TO_NO_LEDGER);

    List<String> withLedger =
        database.queryForList(
            """
            select lower(table_name) from information_schema.columns
            where lower(table_schema) = 'public' and lower(column_name) = 'ledger_id' and is_nullable = 'NO'
            """,
            String.class);

    assertThat(tables)
        .filteredOn(table -> !BELONGING_TO_NO_LEDGER.contains(table))
        .isSubsetOf(withLedger);
  }
}
