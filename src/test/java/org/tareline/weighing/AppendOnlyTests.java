package org.tareline.weighing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.UUID;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.tareline.ledger.Member;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** The database itself keeps what a reading said, whoever holds the connection. */
@FeatureTest
class AppendOnlyTests {

  @Autowired private JdbcTemplate database;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "weighing",
        "reading",
        "weighing_subject",
        "weighing_void",
        "scale_check",
        "scale_check_reading",
        "scale_check_void",
        "stock_entry",
        "stock_entry_void"
      })
  void a_row_is_neither_changed_nor_deleted(String table, TestLedger ledger) {
    weighAndStrikeOut(ledger.member());
    List<?> before = rows(table, ledger.member());
    assertThat(before).hasSize(1);

    assertRefused("update " + table + " set ledger_id = ledger_id where ledger_id = ?", ledger);
    assertRefused("delete from " + table + " where ledger_id = ?", ledger);

    assertThat(rows(table, ledger.member())).isEqualTo(before);
  }

  private void assertRefused(String statement, TestLedger ledger) {
    assertThatThrownBy(() -> database.update(statement, ledger.member().ledgerId()))
        .isInstanceOf(DataAccessException.class)
        .rootCause()
        .hasMessageContaining("append-only");
  }

  private List<?> rows(String table, Member member) {
    return database.queryForList(
        "select * from " + table + " where ledger_id = ?", member.ledgerId());
  }

  private void weighAndStrikeOut(Member member) {
    long ledger = member.ledgerId();
    database.update(
        """
        insert into weighing (uuid, ledger_id, tolerance_ng, tolerance_typed, tare_ng, piece_count,
            condition, weighed_at, entered_at, entered_by)
        values (?, ?, 1000000000, '1 g', 0, 1, 'dry', current_timestamp, current_timestamp, ?)
        """,
        UUID.randomUUID(),
        ledger,
        member.accountId());
    database.update(
        """
        insert into reading (weighing_id, ledger_id, position, reading_ng, typed)
        select id, ledger_id, 0, 118000000000, '118 g' from weighing where ledger_id = ?
        """,
        ledger);
    database.update(
        """
        insert into weighing_subject (weighing_id, ledger_id, kind, subject_id, quantity, usable, weighed_at)
        select id, ledger_id, 'part', 1, 1, true, weighed_at from weighing where ledger_id = ?
        """,
        ledger);
    database.update(
        """
        insert into weighing_void (weighing_id, ledger_id, reason, voided_at, voided_by)
        select id, ledger_id, 'wrong part', current_timestamp, ? from weighing where ledger_id = ?
        """,
        member.accountId(),
        ledger);
    database.update(
        """
        insert into scale (uuid, ledger_id, code, code_key, name, unit, readability_ng, readability_typed,
            capacity_ng, capacity_typed, created_at)
        values (?, ?, 'K1', 'k1', 'Bench', 'g', 1, '1 ng', 2, '2 ng', current_timestamp)
        """,
        UUID.randomUUID(),
        ledger);
    database.update(
        """
        insert into scale_check (uuid, ledger_id, scale_id, kind, checked_at, entered_at, entered_by)
        select uuid, ledger_id, id, 'repeatability', current_timestamp, current_timestamp, ?
        from scale where ledger_id = ?
        """,
        member.accountId(),
        ledger);
    database.update(
        """
        insert into scale_check_reading (scale_check_id, ledger_id, position, reading_ng, typed)
        select id, ledger_id, 0, 1, '1 ng' from scale_check where ledger_id = ?
        """,
        ledger);
    database.update(
        """
        insert into scale_check_void (scale_check_id, ledger_id, reason, voided_at, voided_by)
        select id, ledger_id, 'mistyped', current_timestamp, ? from scale_check where ledger_id = ?
        """,
        member.accountId(),
        ledger);
    database.update(
        """
        insert into material (uuid, ledger_id, code, code_key, name, kind, revision, created_at)
        values (?, ?, 'M', 'm', 'Cloth', 'fabric', 1, current_timestamp)
        """,
        UUID.randomUUID(),
        ledger);
    database.update(
        """
        insert into stock_entry (uuid, ledger_id, material_id, kind, amount, typed, happened_at, entered_at, entered_by)
        select uuid, ledger_id, id, 'added', 1, '1 m', current_timestamp, current_timestamp, ? from material
        where ledger_id = ?
        """,
        member.accountId(),
        ledger);
    database.update(
        """
        insert into stock_entry_void (stock_entry_id, ledger_id, reason, voided_at, voided_by)
        select id, ledger_id, 'mistyped', current_timestamp, ? from stock_entry where ledger_id = ?
        """,
        member.accountId(),
        ledger);
  }
}
