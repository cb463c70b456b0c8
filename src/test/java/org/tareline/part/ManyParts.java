package org.tareline.part;

import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** Fills a ledger with parts that were each weighed once, past the API because they are many. */
public final class ManyParts {

  private ManyParts() {}

  /** Parts {@code P 00001} and on, of 100 g each, weighed on scale {@code MANY}. */
  public static void into(TestLedger ledger, TestServer server, int howMany) {
    long ledgerId = ledger.member().ledgerId();
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"MANY\",\"name\":\"Scale\",\"readability\":\"0.1\",\"capacity\":\"5 kg\"}")
        .expect(201);
    Timestamp now = Timestamp.from(Instant.parse("2026-04-11T10:00:00Z"));
    List<Object[]> parts = new ArrayList<>();
    for (int i = 1; i <= howMany; i++) {
      String code = String.format(Locale.ROOT, "P %05d", i);
      parts.add(
          new Object[] {
            UUID.randomUUID(), ledgerId, code, code.toLowerCase(Locale.ROOT), "Part " + i, now
          });
    }
    server
        .database()
        .batchUpdate(
            """
            insert into part (uuid, ledger_id, code, code_key, name, system, owned, created_at, revision)
            values (?, ?, ?, ?, ?, 'hang', 1, ?, 1)
            """,
            parts);
    // A weighing takes its part's UUID, by which its readings and its subject find it below.
    server
        .database()
        .update(
            """
            insert into weighing (uuid, ledger_id, scale_id, tare_ng, piece_count, condition,
              weighed_at, entered_at, entered_by)
            select p.uuid, p.ledger_id, s.id, 0, 1, 'dry', p.created_at, p.created_at, ?
            from part p join scale s on s.ledger_id = p.ledger_id and s.code_key = 'many'
            where p.ledger_id = ?
            """,
            ledger.member().accountId(),
            ledgerId);
    server
        .database()
        .update(
            """
            insert into reading (weighing_id, ledger_id, position, reading_ng, typed)
            select id, ledger_id, 0, 100000000000, '100' from weighing where ledger_id = ?
            """,
            ledgerId);
    server
        .database()
        .update(
            """
            insert into weighing_subject (weighing_id, ledger_id, kind, subject_id, quantity, usable, weighed_at)
            select w.id, w.ledger_id, 'part', p.id, 1, true, w.weighed_at
            from weighing w join part p on p.ledger_id = w.ledger_id and p.uuid = w.uuid
            where w.ledger_id = ?
            """,
            ledgerId);
  }
}
