package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class TokensTest {

  @Autowired private TestClock clock;

  private static final String PART = "{\"code\":\"P\",\"name\":\"Peg\"}";

  private static Api bearing(TestServer server, Answer made) {
    return server.api().with("Authorization", "Bearer " + made.json().path("token").asString());
  }

  @Test
  void a_token_signs_in_until_it_is_taken_back(TestLedger ledger, TestServer server) {
    Answer made = ledger.api().post("/tokens", Map.of("name", "bench script")).expect(201);
    Api script = bearing(server, made);

    Answer written = script.post("/parts", PART).expect(201);
    assertThat(written.headers("Set-Cookie")).isEmpty();
    ledger.api().get("/parts/P").expect(200);

    String id = made.json().path("id").asString();
    ledger.api().delete("/tokens/{id}", id).expect(204);
    Answer refused = script.get("/parts/P").expect(401);
    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(refused.headers("WWW-Authenticate")).anyMatch(way -> way.startsWith("Bearer"));
  }

  @Test
  void its_text_is_shown_once_and_only_a_digest_is_kept(TestLedger ledger, TestServer server) {
    Answer made = ledger.api().post("/tokens", Map.of("name", "once")).expect(201);
    String text = made.json().path("token").asString();

    Answer listed = ledger.api().get("/tokens").expect(200);
    assertThat(listed.json().path("items").get(0).path("name").asString()).isEqualTo("once");
    assertThat(listed.json().path("items").get(0).has("token")).isFalse();
    assertThat(
            server.count(
                "select count(*) from token where secret_hash = ?",
                Secret.hash(text.substring("tareline_".length()))))
        .isEqualTo(1);
    assertThat(
            server.count("select count(*) from token where secret_hash like ?", "%" + text + "%"))
        .isZero();
  }

  @Test
  void it_ends_at_its_time(TestLedger ledger, TestServer server) {
    ledger.api().post("/tokens", Map.of("name", "n", "expires", "2001-01-01")).expect(400);
    Answer made =
        ledger
            .api()
            .post(
                "/tokens",
                Map.of(
                    "name", "n", "expires", clock.instant().plus(Duration.ofHours(2)).toString()))
            .expect(201);
    Api script = bearing(server, made);
    script.get("/parts").expect(200);

    clock.pass(Duration.ofHours(3));
    script.get("/parts").expect(401);
  }

  @Test
  void one_that_may_only_look_changes_nothing_and_none_makes_more_of_itself(
      TestLedger ledger, TestServer server) {
    Answer made =
        ledger.api().post("/tokens", Map.of("name", "eyes", "readOnly", true)).expect(201);
    Api eyes = bearing(server, made);
    eyes.get("/parts").expect(200);
    eyes.post("/parts", PART).expect(403);
    eyes.post("/invitations", Map.of("role", "owner")).expect(403);
    assertThat(eyes.post("/tokens", Map.of("name", "more")).expect(403).body())
        .contains("name and password");

    Api hands = bearing(server, ledger.api().post("/tokens", Map.of("name", "hands")).expect(201));
    hands.post("/tokens", Map.of("name", "more")).expect(403);
    hands.post("/ledgers", Map.of("name", "more")).expect(403);
    assertThat(ledger.api().get("/tokens").json().path("items").size()).isEqualTo(2);
  }

  @Test
  void it_opens_its_own_ledger_and_no_other_of_the_account(TestLedger ledger, TestServer server) {
    String club =
        ledger
            .api()
            .post("/ledgers", Map.of("name", "Club"))
            .expect(201)
            .json()
            .path("id")
            .asString();
    Answer made =
        ledger.api().with("X-Ledger", club).post("/tokens", Map.of("name", "c")).expect(201);
    Api script = bearing(server, made);

    script.post("/parts", PART).expect(201);
    ledger.api().get("/parts/P").expect(404);
    ledger.api().with("X-Ledger", club).get("/parts/P").expect(200);
    script.with("X-Ledger", club).get("/parts/P").expect(200);
    script.with("X-Ledger", ledger.member().ledger().toString()).get("/parts").expect(404);
  }

  @Test
  void whoever_is_taken_out_of_a_ledger_loses_the_tokens_for_it(
      TestLedger ledger, TestLedger other, TestServer server) {
    Answer offer =
        other
            .pages()
            .get(
                java.net
                    .URI
                    .create(
                        ledger
                            .api()
                            .post("/invitations", Map.of("role", "editor"))
                            .json()
                            .path("link")
                            .asString())
                    .getPath())
            .expect(200);
    other.pages().submit(offer, "main form").expect(303);
    Answer made =
        other
            .api()
            .with("X-Ledger", ledger.member().ledger().toString())
            .post("/tokens", Map.of("name", "t"))
            .expect(201);
    Api script = bearing(server, made);
    script.get("/parts").expect(200);

    String id = ledger.api().get("/members").json().path("items").get(1).path("id").asString();
    ledger.api().delete("/members/{id}", id).expect(204);
    script.get("/parts").expect(401);
  }

  @Test
  void nonsense_is_no_token(TestServer server) {
    for (String text : new String[] {"", "tareline_", "tareline_x", "\u00e9", "a".repeat(5000)}) {
      server.api().with("Authorization", "Bearer " + text).get("/parts").expect(401);
    }
  }

  @Test
  void the_account_page_makes_one_and_takes_it_back(TestLedger ledger) {
    var pages = ledger.pages();
    Answer refused =
        pages
            .submit(
                pages.get("/account"),
                "form[action=/account/tokens]",
                "token.name",
                "phone",
                "token.expires",
                "some day")
            .expect(422);
    assertThat(refused.page().select("#token-name").val()).isEqualTo("phone");
    assertThat(refused.page().select("#token-expires").val()).isEqualTo("some day");

    Answer made =
        pages.follow(
            pages.submit(refused, "form[action=/account/tokens]", "token.expires", "2199-01-01"));
    assertThat(made.page().select(".secret").text()).startsWith("tareline_");
    assertThat(pages.get("/account").page().select(".secret")).isEmpty();

    Answer gone =
        pages.follow(pages.submit(pages.get("/account"), "form[action$=/revoke]").expect(303));
    assertThat(gone.page().select("main").text()).contains("taken back on");
  }
}
