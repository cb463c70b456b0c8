package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** Sessions are in the database; what signing in and out does is in {@link SignInTest}. */
@FeatureTest
class SessionsTest {

  private static final String OF =
      " from session where principal_name = ? and expiry_time > last_access_time";

  @Test
  void a_page_that_is_looked_at_reads_its_session_once_and_writes_nothing(TestLedger ledger) {
    Pages pages = ledger.pages();
    pages.get("/parts").expect(200);

    List<String> statements = ledger.statements(() -> pages.get("/parts").expect(200));

    assertThat(statements).filteredOn(SessionsTest::isOfSessions).hasSize(1);
    assertThat(statements).allMatch(sql -> sql.stripLeading().toLowerCase().startsWith("select"));
    // Whether there is something to be said on the next page is asked for each address.
    assertThat(ledger.statements(() -> pages.get("/assets/tareline.css").expect(200))).hasSize(1);
    assertThat(ledger.statements(() -> ledger.api().get("/parts").expect(200)))
        .noneMatch(SessionsTest::isOfSessions);
  }

  private static boolean isOfSessions(String sql) {
    return sql.toLowerCase().replaceAll("\\s+", " ").matches(".*\\b(from|into|update) session.*");
  }

  @Test
  void the_last_use_is_noted_when_the_note_is_ten_minutes_old(
      TestLedger ledger, TestServer server) {
    Pages pages = ledger.pages();
    age(ledger, SeldomTouched.NOTED_EVERY.minusMinutes(1).toMillis());
    assertThat(ledger.statements(() -> pages.get("/parts").expect(200)))
        .noneMatch(sql -> sql.toLowerCase().startsWith("update"));

    age(ledger, SeldomTouched.NOTED_EVERY.plusMinutes(1).toMillis());
    long before = server.count("select last_access_time" + OF, ledger.name());
    pages.get("/parts").expect(200);
    assertThat(server.count("select last_access_time" + OF, ledger.name())).isGreaterThan(before);
  }

  @Test
  void a_session_ends_twelve_hours_after_its_last_use(TestLedger ledger) {
    Pages pages = ledger.pages();
    age(ledger, 1000L * 60 * (12 * 60 - 1));
    pages.get("/parts").expect(200);

    age(ledger, 1000L * 60 * (12 * 60 + 1));
    assertThat(pages.get("/parts").expect(302).header("Location")).endsWith("/sign-in");
  }

  /** Makes it that its session was last used so long ago. */
  private static void age(TestLedger ledger, long milliseconds) {
    long now = System.currentTimeMillis();
    int changed =
        ledger
            .server()
            .database()
            .update(
                "update session set last_access_time = ?, expiry_time = ? + 1000 * cast(max_inactive_interval as bigint)"
                    + " where principal_name = ?",
                now - milliseconds,
                now - milliseconds,
                ledger.name());
    assertThat(changed).isEqualTo(1);
  }

  @Test
  void signing_out_leaves_nothing_of_the_session(TestLedger ledger, TestServer server) {
    Pages pages = ledger.pages();
    assertThat(server.count("select count(*)" + OF, ledger.name())).isEqualTo(1);

    pages.submit(pages.get("/account"), "form[action=/sign-out]").expect(302);

    assertThat(server.count("select count(*)" + OF, ledger.name())).isZero();
  }

  @Test
  void what_another_version_wrote_into_a_session_asks_for_signing_in_again_and_breaks_nothing(
      TestLedger ledger, TestServer server) {
    Pages pages = ledger.pages();
    Answer before = pages.get("/parts").expect(200);
    assertThat(before.page().select("h1").text()).isEqualTo("Parts");
    int changed =
        server
            .database()
            .update(
                "update session_attributes set attribute_bytes = ? where session_primary_id in"
                    + " (select primary_id from session where principal_name = ?)",
                new byte[] {1, 2, 3},
                ledger.name());
    assertThat(changed).isPositive();

    assertThat(pages.get("/parts").expect(302).header("Location")).endsWith("/sign-in");
    pages.signIn(ledger.name(), ledger.password()).expect(302);
    pages.get("/parts").expect(200);
  }
}
