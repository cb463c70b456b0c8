package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class ForgottenPasswordTest {

  private static final String ANOTHER = "a sentence not forgotten";

  @Autowired private TestClock clock;

  private static String link(TestLedger ledger) {
    return ledger.server().bean(PasswordLinks.class).make(ledger.name().toUpperCase());
  }

  @Test
  void a_link_sets_another_password_once_and_ends_all_sessions(
      TestLedger ledger, TestServer server) {
    Pages signedIn = ledger.pages();
    String link = link(ledger);
    Pages stranger = server.pages();
    Answer offer = stranger.get(link).expect(200);
    assertThat(offer.page().select("h1").text()).contains(ledger.name());

    Answer refused = stranger.submit(offer, "main form", "password", "password1234").expect(422);
    assertThat(refused.page().select(".errors").text()).contains("harder to guess");
    signedIn.get("/parts").expect(200);
    stranger.submit(refused, "main form", "password", ANOTHER).expect(303);

    signedIn.get("/parts").expect(302);
    ledger.api().get("/parts").expect(401);
    server.api(ledger.name(), ANOTHER).get("/parts").expect(200);
    stranger.get(link).expect(404);
    String secret = link.substring("/new-password/".length());
    assertThat(
            server.count(
                "select count(*) from password_link where secret_hash = ?", Secret.hash(secret)))
        .isEqualTo(1);
  }

  @Test
  void it_is_good_for_a_day(TestLedger ledger, TestServer server) {
    String link = link(ledger);
    clock.pass(Duration.ofDays(1).minusMinutes(1));
    Answer offer = server.pages().get(link).expect(200);
    assertThat(offer.page().select("#lost")).isEmpty();

    clock.pass(Duration.ofMinutes(2));
    server.pages().get(link).expect(404);
    ledger.api().get("/parts").expect(200);
  }

  @Test
  void spent_links_go_when_the_next_one_is_made(TestLedger ledger, TestServer server) {
    Pages stranger = server.pages();
    String used = link(ledger);
    stranger.submit(stranger.get(used), "main form", "password", ANOTHER).expect(303);
    String old = link(ledger);
    clock.pass(Duration.ofHours(13));
    String open = link(ledger);
    clock.pass(Duration.ofHours(12));

    String newest = link(ledger);

    assertThat(
            server.count(
                "select count(*) from password_link where account_id = ?",
                ledger.member().accountId()))
        .isEqualTo(2);
    for (String gone : List.of(used, old)) {
      stranger.get(gone).expect(404);
    }
    stranger.get(open).expect(200);
    stranger.get(newest).expect(200);
  }

  @Test
  void whoever_lost_the_device_as_well_is_asked_for_no_code_any_more(
      TestLedger ledger, TestServer server) {
    server
        .database()
        .update(
            "update account set second_factor_secret = '00', second_factor_since = created_at where id = ?",
            ledger.member().accountId());
    Pages stranger = server.pages();
    String link = link(ledger);
    stranger
        .submit(stranger.get(link), "main form", "password", ANOTHER, "lost", "true")
        .expect(303);

    server.api(ledger.name(), ANOTHER).get("/parts").expect(200);
  }

  @Test
  void a_server_started_for_it_prints_the_link() {
    PrintStream before = System.out;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    try (TestServer server =
        TestServer.startEmpty(
            "tareline.first-owner.name=ada",
            "tareline.first-owner.password=twelve letters",
            "new-password-for=ada")) {
      String said = printed.toString(StandardCharsets.UTF_8);
      assertThat(said).contains("sets a new password for ada");
      String link = said.replaceAll("(?s).*(/new-password/[A-Za-z0-9_-]+) .*", "$1");
      Pages stranger = server.pages();
      stranger.submit(stranger.get(link).expect(200), "main form", "password", ANOTHER).expect(303);
      server.api("ada", ANOTHER).get("/parts").expect(200);
    } finally {
      System.setOut(before);
    }
  }
}
