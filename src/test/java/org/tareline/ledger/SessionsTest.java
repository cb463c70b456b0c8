package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.stream.Collectors;
import org.jsoup.select.Elements;
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

  @Test
  void a_session_ends_thirty_days_after_it_began_however_much_it_is_used(TestLedger ledger) {
    Pages pages = ledger.pages();
    begun(ledger, Duration.ofDays(30).minusMinutes(1));
    pages.get("/parts").expect(200);

    begun(ledger, Duration.ofDays(30).plusMinutes(1));
    assertThat(pages.get("/parts").expect(302).header("Location")).endsWith("/sign-in");
    assertThat(ledger.server().count("select count(*)" + OF, ledger.name())).isZero();
  }

  private static void begun(TestLedger ledger, Duration ago) {
    int changed =
        ledger
            .server()
            .database()
            .update(
                "update session set creation_time = ? where principal_name = ?",
                System.currentTimeMillis() - ago.toMillis(),
                ledger.name());
    assertThat(changed).isEqualTo(1);
  }

  @Test
  void an_id_of_a_session_is_more_than_128_random_bits(TestLedger ledger, TestServer server) {
    ledger.pages();
    ledger.openBrowser();

    List<String> ids =
        server.database().queryForList("select session_id" + OF, String.class, ledger.name());

    assertThat(ids).hasSize(2).doesNotHaveDuplicates();
    // 36 characters of 64 are 216 bits; a UUID is written in hexadecimal, with hyphens at its
    // places.
    assertThat(ids).allMatch(id -> id.matches("[A-Za-z0-9_-]{36}"));
    assertThat(ids).noneMatch(id -> id.matches("[0-9a-f-]{36}"));
  }

  @Test
  void a_stranger_leaves_no_session_behind_and_is_led_to_the_page_asked_for(
      TestLedger ledger, TestServer server) {
    List<String> before = sessions(server);
    Pages stranger = server.pages();
    stranger.get("/parts?text=tarp").expect(302);
    stranger.signIn(ledger.name(), "a wrong password").expect(422);
    stranger.get("/invitation/none").expect(404);
    assertThat(before).containsAll(sessions(server));

    Answer signedIn = stranger.signIn(ledger.name(), ledger.password()).expect(302);

    assertThat(signedIn.header("Location")).endsWith("/parts?text=tarp");
    assertThat(sessions(server)).filteredOn(session -> !before.contains(session)).hasSize(1);
    assertThat(stranger.cookies().keySet()).containsExactly("JSESSIONID");
  }

  /** Those there are; some that are over may be swept out at any time. */
  private static List<String> sessions(TestServer server) {
    return server.database().queryForList("select primary_id from session", String.class);
  }

  @Test
  void no_cookie_leads_anywhere_but_to_a_page_of_our_own() {
    for (String own : List.of("/", "/parts", "/parts?text=a%20b&sort=mass")) {
      assertThat(WantedPage.path(encoded(own))).isEqualTo(own);
    }
    for (String other :
        List.of(
            "",
            "//other.example",
            "/\\other.example",
            "https://other.example/",
            "parts",
            "/a\r\nb: c")) {
      assertThat(WantedPage.path(encoded(other))).as(other).isNull();
    }
    assertThat(WantedPage.path("not base64!")).isNull();
    assertThat(WantedPage.path(null)).isNull();
  }

  private static String encoded(String path) {
    return Base64.getUrlEncoder().encodeToString(path.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void the_account_page_lists_where_one_is_signed_in_and_ends_one_or_all_others(
      TestLedger ledger, TestLedger other, TestServer server) {
    Pages phone = server.pages().with("User-Agent", "Mozilla/5.0 (a system; Mobile) an engine");
    phone.signIn(ledger.name(), ledger.password()).expect(302);
    Pages second = ledger.openBrowser();
    Pages third = ledger.openBrowser();
    Pages here = ledger.pages();

    Answer account = here.get("/account").expect(200);
    Elements rows = account.page().select("[aria-labelledby=sessions-title] li");
    assertThat(rows).hasSize(4);
    assertThat(rows.get(0).text()).contains("a program").contains("here");
    assertThat(rows.select("form")).hasSize(3);
    String ofPhone =
        rows.stream()
            .filter(row -> row.text().startsWith("a phone"))
            .map(row -> row.select("form").attr("action"))
            .findFirst()
            .orElseThrow();

    // What the page says of a session opens nothing, and nobody else ends it by that.
    Answer theirs = other.pages().get("/account");
    String csrf = theirs.page().select("[name=_csrf]").get(0).val();
    other.pages().forge(ofPhone, "_csrf", csrf).expect(404);
    phone.get("/parts").expect(200);

    here.submit(account, "form[action='" + ofPhone + "']").expect(303);
    phone.get("/parts").expect(302);
    second.get("/parts").expect(200);

    here.submit(here.get("/account"), "form[action=/account/sessions/end-others]").expect(303);
    second.get("/parts").expect(302);
    third.get("/parts").expect(302);
    here.get("/parts").expect(200);
    other.pages().get("/parts").expect(200);
  }

  @Test
  void what_is_shown_once_stands_in_no_session(TestLedger ledger, TestServer server) {
    Pages pages = ledger.pages();
    Answer made =
        pages
            .submit(pages.get("/account"), "form[action=/account/tokens]", "token.name", "a script")
            .expect(303);
    String inSession =
        server
            .database()
            .queryForList("select attribute_bytes from session_attributes", byte[].class)
            .stream()
            .map(bytes -> new String(bytes, StandardCharsets.ISO_8859_1))
            .collect(Collectors.joining());
    String token = pages.follow(made).page().select(".secret").text();

    assertThat(token).startsWith("tareline_");
    assertThat(inSession).contains(ledger.name()).doesNotContain(token);
    assertThat(pages.get("/account").page().select(".secret")).isEmpty();
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
