package org.tareline.benchmarks;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.IntStream;
import org.springframework.security.crypto.bcrypt.BCryptPasswordEncoder;

/**
 * Makers with a ledger each, written straight into PostgreSQL: a scale; parts, of which one in
 * twenty was never weighed; three years of weighings, one in four of three readings and one in a
 * hundred struck out; and a rig of the first forty parts. The weighings of all ledgers are written
 * in turn, as they would come, so that those of one do not lie side by side on the disk.
 */
record Club(String name, int ledgers, int parts, int weighings) {

  static final String PASSWORD = "all of a club alike";

  private static final int ROWS_AT_ONCE = 100_000;

  private static final String MAKERS =
      """
      insert into account (id, uuid, name, name_key, password_hash, mass_style, created_at)
      select :account + l, gen_random_uuid(), ':name ' || l, ':name ' || l, ':hash', 'GRAMS', now()
      from generate_series(1, :ledgers) l;
      insert into ledger (id, uuid, name, created_at)
      select :ledger + l, gen_random_uuid(), ':name ' || l, now() from generate_series(1, :ledgers) l;
      insert into member (ledger_id, account_id, role, joined_at)
      select :ledger + l, :account + l, 'OWNER', now() from generate_series(1, :ledgers) l;
      insert into scale (id, uuid, ledger_id, code, code_key, name, unit, readability_ng, readability_typed,
        capacity_ng, capacity_typed, span_half_width, span_typed, created_at)
      select :scale + l, gen_random_uuid(), :ledger + l, 'K1', 'k1', 'Bench', 'g', 100000000, '0.1 g',
        5000000000000, '5 kg', 0.001, '0.1 %', now()
      from generate_series(1, :ledgers) l;
      insert into part (id, uuid, ledger_id, code, code_key, name, system, owned, created_at, revision)
      select :part + (l - 1) * :parts + p, gen_random_uuid(), :ledger + l, 'P' || lpad(p::text, 5, '0'),
        'p' || lpad(p::text, 5, '0'), 'Part ' || p, 'hang', 1, now(), 1
      from generate_series(1, :ledgers) l, generate_series(1, :parts) p;
      insert into rig (id, uuid, ledger_id, code, code_key, name, created_at, revision)
      select :rig + l, gen_random_uuid(), :ledger + l, 'RIG', 'rig', 'The rig', now(), 1
      from generate_series(1, :ledgers) l;
      insert into rig_line (uuid, ledger_id, rig_id, position, part_id, quantity, role)
      select gen_random_uuid(), :ledger + l, :rig + l, p - 1, :part + (l - 1) * :parts + p, 1 + mod(p, 3),
        (array['body', 'suspension', 'spreader bar', 'tarp', 'bug net', 'guy line', 'stake'])[1 + mod(p, 7)]
      from generate_series(1, :ledgers) l, generate_series(1, 40) p;
      """;

  private static final String WEIGHINGS =
      """
      create temporary table turn as
      select :weighing + (w - 1) * :ledgers + l as id, :ledger + l as ledger_id, :scale + l as scale_id,
        :account + l as account_id, :part + (l - 1) * :parts + 1 + mod(w - 1, :parts - :parts / 20) as part_id,
        w, now() - (:weighings - w) * interval '1095 days' / :weighings as moment
      from generate_series(:from, :to) w, generate_series(1, :ledgers) l;
      insert into weighing (id, uuid, ledger_id, scale_id, tare_ng, piece_count, condition, weighed_at,
        entered_at, entered_by)
      select id, gen_random_uuid(), ledger_id, scale_id, 0, 1, 'dry', moment, moment, account_id
      from turn order by id;
      insert into reading (weighing_id, ledger_id, position, reading_ng, typed)
      select id, ledger_id, r, (100 + mod(part_id, 900) + r) * 100000000,
        trim_scale((100 + mod(part_id, 900) + r) / 10.0) || ' g'
      from turn, generate_series(0, case when mod(w, 4) = 0 then 2 else 0 end) r order by id, r;
      insert into weighing_subject (weighing_id, ledger_id, kind, subject_id, quantity, usable, weighed_at)
      select id, ledger_id, 'part', part_id, 1, true, moment from turn order by id;
      insert into weighing_void (weighing_id, ledger_id, reason, voided_at, voided_by)
      select id, ledger_id, 'mistyped', moment, account_id from turn where mod(w, 100) = 0 order by id;
      drop table turn;
      """;

  /** As the bench writes down of a part with its first weighing. */
  private static final String WAITING =
      """
      update part set waits = false where waits and exists (
        select 1 from weighing_subject o
        where o.ledger_id = part.ledger_id and o.kind = 'part' and o.subject_id = part.id and o.usable
          and not exists (select 1 from weighing_void v where v.weighing_id = o.weighing_id))
      """;

  /** The names that the makers sign in with. */
  List<String> makers() {
    return IntStream.rangeClosed(1, ledgers).mapToObj(i -> name + ' ' + i).toList();
  }

  /** Writes them, unless they are there. */
  void fill(Connection database) throws SQLException {
    try (Statement sql = database.createStatement()) {
      if (newest(sql, "account where name like '" + name + " %'") > 0) {
        return;
      }
      // The keys are right by how they are made; to have each looked up would take most of the
      // time.
      sql.execute("set session_replication_role = replica");
      // Of the least cost, for signing in is not what is measured.
      String hash = "{bcrypt}" + new BCryptPasswordEncoder(4).encode(PASSWORD);
      List<String> keyed = List.of("account", "ledger", "scale", "part", "rig", "weighing");
      String[] scripts = {MAKERS, WEIGHINGS};
      for (int i = 0; i < scripts.length; i++) {
        for (String table : keyed) {
          scripts[i] = scripts[i].replaceAll(":" + table + "\\b", newest(sql, table) + "::bigint");
        }
        scripts[i] =
            scripts[i]
                .replace(":name", name)
                .replace(":hash", hash)
                .replace(":ledgers", String.valueOf(ledgers))
                .replace(":parts", String.valueOf(parts))
                .replace(":weighings", String.valueOf(weighings));
      }
      sql.execute(scripts[0]);
      int turns = Math.max(1, ROWS_AT_ONCE / ledgers);
      for (int from = 1; from <= weighings; from += turns) {
        int to = Math.min(weighings, from + turns - 1);
        sql.execute(
            scripts[1].replace(":from", String.valueOf(from)).replace(":to", String.valueOf(to)));
      }
      sql.execute(WAITING);
      for (String table : keyed) {
        sql.execute(
            "select setval(pg_get_serial_sequence('%1$s', 'id'), max(id)) from %1$s"
                .formatted(table));
      }
      sql.execute("vacuum analyze");
    }
  }

  private static long newest(Statement sql, String table) throws SQLException {
    try (ResultSet found = sql.executeQuery("select coalesce(max(id), 0) from " + table)) {
      found.next();
      return found.getLong(1);
    }
  }
}
