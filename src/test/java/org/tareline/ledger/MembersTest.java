package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class MembersTest {

  @Autowired private TestClock clock;

  private static final String PART = "{\"code\":\"P\",\"name\":\"Peg\"}";

  private static String invite(TestLedger ledger, String role) {
    return URI.create(
            ledger
                .api()
                .post("/invitations", Map.of("role", role))
                .expect(201)
                .json()
                .path("link")
                .asString())
        .getPath();
  }

  private static Api in(TestLedger whose, TestLedger ledger) {
    return whose.api().with("X-Ledger", ledger.member().ledger().toString());
  }

  private static void join(TestLedger guest, TestLedger ledger, String role) {
    Answer offer = guest.pages().get(invite(ledger, role)).expect(200);
    guest.pages().submit(offer, "main form").expect(303);
  }

  @Test
  void an_invitation_makes_the_first_who_takes_it_up_a_member_and_nobody_else(
      TestLedger ledger, TestLedger first, TestLedger second) {
    String link = invite(ledger, "editor");
    Answer offer = first.pages().get(link).expect(200);
    assertThat(offer.page().select("h1").text()).contains(ledger.member().ledgerName());
    in(first, ledger).get("/parts").expect(404);

    first.pages().submit(offer, "main form").expect(303);

    in(first, ledger).post("/parts", PART).expect(201);
    ledger.api().get("/parts/P").expect(200);
    first.api().get("/parts/P").expect(404);
    second.pages().get(link).expect(404);
    in(second, ledger).get("/parts").expect(404);
    assertThat(ledger.api().get("/members").json().path("items").findValuesAsString("name"))
        .containsExactly(ledger.name(), first.name());
    assertThat(ledger.api().get("/invitations").json().path("items")).isEmpty();
  }

  @Test
  void a_stranger_makes_an_account_by_an_invitation_and_stands_in_that_ledger(
      TestLedger ledger, TestServer server) {
    ledger.api().post("/parts", PART).expect(201);
    Pages stranger = server.pages();
    Answer offer = stranger.get(invite(ledger, "reader")).expect(200);

    Answer refused =
        stranger
            .submit(offer, "main form", "name", "newcomer to " + ledger.name(), "password", "short")
            .expect(422);
    assertThat(refused.page().select("#name").val()).isEqualTo("newcomer to " + ledger.name());
    assertThat(refused.page().select(".errors").text()).contains("12 characters");

    stranger.submit(refused, "main form", "password", "long enough to be safe").expect(303);
    stranger.get("/parts/P").expect(200);
    Api api = server.api("newcomer to " + ledger.name(), "long enough to be safe");
    api.get("/parts/P").expect(200);
    assertThat(api.post("/parts", "{\"code\":\"Q\",\"name\":\"Q\"}").expect(403).body())
        .contains("editor or an owner");
    ledger.api().get("/parts/Q").expect(404);
  }

  @Test
  void an_invitation_ends_by_being_withdrawn_and_by_itself_after_seven_days(
      TestLedger ledger, TestLedger other) {
    String withdrawn = invite(ledger, "editor");
    String id = ledger.api().get("/invitations").json().path("items").get(0).path("id").asString();
    other.api().delete("/invitations/{id}", id).expect(404);
    other.pages().get(withdrawn).expect(200);
    ledger.api().delete("/invitations/{id}", id).expect(204);
    other.pages().get(withdrawn).expect(404);

    String old = invite(ledger, "editor");
    clock.pass(Duration.ofDays(7).minusSeconds(60));
    other.pages().get(old).expect(200);
    clock.pass(Duration.ofSeconds(61));
    other.pages().get(old).expect(404);
  }

  @Test
  void an_owner_changes_roles_and_takes_members_out_but_the_last_owner_stays(
      TestLedger ledger, TestLedger other) {
    join(other, ledger, "reader");
    String own = id(ledger, ledger.name());
    String others = id(ledger, other.name());

    ledger.api().put("/members/{id}", Map.of("role", "editor"), own).expect(409);
    ledger.api().delete("/members/{id}", own).expect(409);
    ledger.api().put("/members/{id}", Map.of("role", "chief"), others).expect(400);
    in(other, ledger).put("/members/{id}", Map.of("role", "owner"), others).expect(403);

    ledger.api().put("/members/{id}", Map.of("role", "owner"), others).expect(204);
    in(other, ledger).put("/members/{id}", Map.of("role", "reader"), own).expect(204);
    ledger.api().post("/parts", PART).expect(403);
    in(other, ledger).delete("/members/{id}", own).expect(204);

    // Out of the only ledger, into an empty one of their own.
    ledger.api().get("/parts").expect(200);
    ledger.api().with("X-Ledger", ledger.member().ledger().toString()).get("/parts").expect(404);
    assertThat(ledger.api().get("/ledgers").json().path("items").size()).isEqualTo(1);
  }

  private static String id(TestLedger ledger, String name) {
    for (var member : ledger.api().get("/members").json().path("items")) {
      if (member.path("name").asString().equals(name)) {
        return member.path("id").asString();
      }
    }
    throw new AssertionError("no member " + name);
  }

  @Test
  void an_invitation_never_takes_a_right_away(TestLedger ledger) {
    Answer offer = ledger.pages().get(invite(ledger, "reader")).expect(200);
    ledger.pages().submit(offer, "main form").expect(303);

    ledger.api().post("/parts", PART).expect(201);
  }

  @Test
  void an_account_opens_another_ledger_and_its_pages_go_from_one_to_the_other(TestLedger ledger) {
    ledger.api().post("/parts", PART).expect(201);
    Pages pages = ledger.pages();
    Answer refused =
        pages
            .submit(pages.get("/account"), "form[action=/account/ledgers]", "ledger", " ")
            .expect(422);
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#ledger");

    pages
        .submit(pages.get("/account"), "form[action=/account/ledgers]", "ledger", "The club")
        .expect(303);
    pages.get("/parts/P").expect(404);
    String club = ledger.api().get("/ledgers").json().path("items").get(1).path("id").asString();
    ledger.api().with("X-Ledger", club).get("/parts/P").expect(404);
    ledger.api().get("/parts/P").expect(200);

    pages.submit(pages.get("/account"), "form[action=/account/ledger]").expect(303);
    pages.get("/parts/P").expect(200);
  }

  @Test
  void a_changed_password_ends_every_other_session_and_leaves_this_one(
      TestLedger ledger, TestServer server) {
    Pages here = ledger.pages();
    Pages elsewhere = ledger.openBrowser();
    elsewhere.get("/parts").expect(200);

    Answer wrong =
        here.submit(
                here.get("/account"),
                "form[action=/account/password]",
                "present",
                "not the one at all",
                "password",
                "a much newer sentence")
            .expect(422);
    assertThat(wrong.page().select(".errors a").attr("href")).isEqualTo("#present");
    elsewhere.get("/parts").expect(200);

    here.submit(
            here.get("/account"),
            "form[action=/account/password]",
            "present",
            ledger.password(),
            "password",
            "a much newer sentence")
        .expect(303);
    here.get("/parts").expect(200);
    assertThat(elsewhere.get("/parts").expect(302).header("Location")).endsWith("/sign-in");
    elsewhere.get("/account").expect(302);
    ledger.api().get("/parts").expect(401);
    server.api(ledger.name(), "a much newer sentence").get("/parts").expect(200);
  }
}
