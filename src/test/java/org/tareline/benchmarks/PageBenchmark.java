package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.JdbcTemplate;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * How long pages take over much data, as ratios to a page that only prints a constant through the
 * same stack in the same run. Prints its figures and asserts only what is no timing: that the data
 * is there and that statements do not grow.
 */
@Tag("benchmark")
@FeatureTest
class PageBenchmark {

  private static final int ROUNDS = 40;
  private static final int WARM_UP = 30;
  private static final int BATCH = 10_000;

  @Test
  void pages_over_much_data(TestLedger ledger, TestServer server) {
    long member = ledger.member().ledgerId();
    long account = ledger.member().accountId();
    JdbcTemplate database = server.database();
    ledger
        .api()
        .post(
            "/scales",
            Map.of(
                "code",
                "K1",
                "name",
                "Bench",
                "readability",
                "0.1 g",
                "capacity",
                "5 kg",
                "spanTolerance",
                "0.1 %"))
        .expect(201);
    long scale = server.count("select id from scale where ledger_id = ?", member);
    fillParts(database, member, account, scale, 5_000);
    fillTree(ledger.api());
    Pages pages = ledger.pages();

    double floor = median("constant page (/account)", () -> pages.get("/account").expect(200));
    ratio("rig page, 2 000 lines ten levels deep", floor, () -> pages.get("/rigs/L0").expect(200));
    ratio("parts page, 5 000 parts", floor, () -> pages.get("/parts").expect(200));
    ratio("the same, added up", floor, () -> pages.get("/parts?total=on").expect(200));
    ratio("bench", floor, () -> pages.get("/").expect(200));
    print(
        "statements of the rig page",
        server.statements(() -> pages.get("/rigs/L0").expect(200)).size(),
        "");
    print(
        "statements of the parts page",
        server.statements(() -> pages.get("/parts").expect(200)).size(),
        "");
    assertThat(pages.get("/rigs/L0").body()).contains("P01999");
  }

  @Test
  void logging_a_weighing_is_as_quick_with_a_million_as_with_a_thousand(
      TestLedger ledger, TestServer server) {
    long member = ledger.member().ledgerId();
    long account = ledger.member().accountId();
    JdbcTemplate database = server.database();
    Api api = ledger.api();
    api.post(
            "/scales",
            Map.of("code", "K1", "name", "Bench", "readability", "0.1 g", "capacity", "5 kg"))
        .expect(201);
    long scale = server.count("select id from scale where ledger_id = ?", member);
    fillParts(database, member, account, scale, 300);
    api.post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"Rig\",\"lines\":[{\"part\":\"P00000\",\"role\":\"body\"}]}")
        .expect(201);
    String entry = "{\"part\":\"P00000\",\"scale\":\"K1\",\"readings\":[\"118.2\"]}";

    weighAgain(database, member, account, scale, 700);
    double few = median("logging among 1 000", () -> api.post("/weighings", entry).expect(201));
    weighAgain(database, member, account, scale, 999_000);
    double many =
        median("logging among 1 000 000", () -> api.post("/weighings", entry).expect(201));
    print("ratio", many / few, "×");
    assertThat(server.count("select count(*) from weighing where ledger_id = ?", member))
        .isGreaterThan(1_000_000);
  }

  private static void fillParts(
      JdbcTemplate database, long ledger, long account, long scale, int parts) {
    Timestamp now = Timestamp.from(Instant.now());
    List<Object[]> rows = new ArrayList<>();
    for (int i = 0; i < parts; i++) {
      String code = String.format(Locale.ROOT, "P%05d", i);
      rows.add(
          new Object[] {
            UUID.randomUUID(), ledger, code, code.toLowerCase(Locale.ROOT), "Part " + i, now
          });
    }
    database.batchUpdate(
        """
        insert into part (uuid, ledger_id, code, code_key, name, system, owned, created_at, revision)
        values (?, ?, ?, ?, ?, 'hang', 1, ?, 1)
        """,
        rows);
    weighAgain(database, ledger, account, scale, parts);
  }

  /** So many more weighings, spread over the parts of the ledger. */
  private static void weighAgain(
      JdbcTemplate database, long ledger, long account, long scale, int weighings) {
    Timestamp then = Timestamp.from(Instant.parse("2025-01-01T00:00:00Z"));
    for (int from = 0; from < weighings; from += BATCH) {
      List<Object[]> rows = new ArrayList<>();
      for (int i = from; i < Math.min(weighings, from + BATCH); i++) {
        rows.add(new Object[] {UUID.randomUUID(), ledger, scale, then, then, account});
      }
      database.batchUpdate(
          """
          insert into weighing
            (uuid, ledger_id, scale_id, tare_ng, piece_count, condition, weighed_at, entered_at, entered_by)
          values (?, ?, ?, 0, 1, 'dry', ?, ?, ?)
          """,
          rows);
    }
    database.update(
        """
        insert into reading (weighing_id, ledger_id, position, reading_ng, typed)
        select w.id, w.ledger_id, 0, 10000000000 + mod(w.id, 100) * cast(100000000 as bigint), '10 g' from weighing w
        where w.ledger_id = ? and not exists (select 1 from reading r where r.weighing_id = w.id)
        """,
        ledger);
    database.update(
        """
        insert into weighing_subject (weighing_id, ledger_id, kind, subject_id, quantity, usable, weighed_at)
        select w.id, w.ledger_id, 'part',
          (select min(p.id) from part p where p.ledger_id = w.ledger_id)
            + mod(w.id, (select count(*) from part p where p.ledger_id = w.ledger_id)),
          1, true, w.weighed_at
        from weighing w
        where w.ledger_id = ? and not exists (select 1 from weighing_subject s where s.weighing_id = w.id)
        """,
        ledger);
  }

  /** Ten rigs, each holding the next and 200 parts. */
  private static void fillTree(Api api) {
    for (int level = 9; level >= 0; level--) {
      StringBuilder lines = new StringBuilder();
      for (int i = 0; i < 200; i++) {
        lines.append(
            String.format(
                Locale.ROOT,
                "{\"part\":\"P%05d\",\"quantity\":%d,\"role\":\"guy line\"},",
                level * 200 + i,
                1 + i % 3));
      }
      if (level < 9) {
        lines.append("{\"rig\":\"L").append(level + 1).append("\",\"role\":\"suspension\"},");
      }
      lines.setLength(lines.length() - 1);
      api.post(
              "/rigs",
              "{\"code\":\"L"
                  + level
                  + "\",\"name\":\"Level "
                  + level
                  + "\",\"lines\":["
                  + lines
                  + "]}")
          .expect(201);
    }
  }

  private static void ratio(String what, double floor, Runnable doing) {
    print(what + ", to the floor", median(what, doing) / floor, "×");
  }

  private static double median(String what, Runnable doing) {
    for (int i = 0; i < WARM_UP; i++) {
      doing.run();
    }
    long[] nanos = new long[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
      long began = System.nanoTime();
      doing.run();
      nanos[i] = System.nanoTime() - began;
    }
    Arrays.sort(nanos);
    double median = Duration.ofNanos(nanos[ROUNDS / 2]).toNanos() / 1e6;
    print(what, median, " ms");
    return median;
  }

  private static void print(String what, double figure, String unit) {
    System.out.printf(Locale.ROOT, "benchmark: %s: %.3g%s%n", what, figure, unit);
  }
}
