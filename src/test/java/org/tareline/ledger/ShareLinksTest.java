package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class ShareLinksTest {

  private TestLedger ledger;

  @BeforeEach
  void a_rig(TestLedger ledger) {
    this.ledger = ledger;
    ledger
        .api()
        .post(
            "/parts", "{\"code\":\"TP1\",\"name\":\"Tarp cloth\",\"stated\":{\"mass\":\"381 g\"}}")
        .expect(201);
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"Rain roof\",\"lines\":[{\"part\":\"TP1\",\"quantity\":1,\"role\":\"tarp\"}]}")
        .expect(201);
  }

  private Answer make(String page) {
    return ledger.api().post("/share-links", Map.of("page", page));
  }

  private static String path(Answer made) {
    return URI.create(made.expect(201).json().path("link").asString()).getPath();
  }

  @Test
  void a_link_shows_its_page_to_a_stranger_and_no_other(TestServer server) {
    Pages stranger = server.pages();

    Answer shown = stranger.get(path(make("/rigs/R/statement?scope=complete"))).expect(200);

    assertThat(shown.page().select("h1").text()).isEqualTo("Weight statement: Rain roof");
    assertThat(shown.page().select("main").text()).contains("Tarp cloth").contains("381");
    assertThat(shown.page().select("main a, nav a, form")).isEmpty();
    for (String path :
        new String[] {"/rigs/R/statement", "/rigs/R", "/parts/TP1", "/", "/account", "/members"}) {
      assertThat(stranger.get(path).expect(302).header("Location")).as(path).endsWith("/sign-in");
    }
    server.api().get("/rigs/R").expect(401);
  }

  @Test
  void it_is_shown_as_it_was_shared_whatever_is_asked_of_it(TestServer server) {
    String path = path(make("/rigs/R/statement?scope=hammock-only"));
    Pages stranger = server.pages();

    Answer asked = stranger.get(path + "?scope=complete&target=1+kg").expect(303);

    assertThat(asked.header("Location")).endsWith(path);
    assertThat(stranger.follow(asked).expect(200).page().select("main").text())
        .contains("Nothing in it is counted")
        .doesNotContain("Tarp cloth");
  }

  @Test
  void what_it_shows_is_looked_up_once(TestServer server) {
    String path = path(make("/rigs/R/statement"));

    assertThat(
            server.statements(() -> server.pages().get(path).expect(200)).stream()
                .filter(sql -> sql.contains("share_link")))
        .hasSize(1);
  }

  @Test
  void it_goes_on_showing_the_rig_under_another_code_and_what_it_weighs_now(TestServer server) {
    String path = path(make("/rigs/R/statement"));
    ledger
        .api()
        .put(
            "/rigs/R",
            "{\"code\":\"ROOF\",\"name\":\"Roof\",\"lines\":[{\"part\":\"TP1\",\"quantity\":2,\"role\":\"tarp\"}]}")
        .expect(200);

    assertThat(server.pages().get(path).expect(200).page().select("main").text())
        .contains("Roof")
        .contains("762");
  }

  @Test
  void a_link_that_was_taken_back_or_guessed_shows_nothing(TestServer server) {
    Answer made = make("/rigs/R/statement");
    String path = path(made);
    server.pages().get(path).expect(200);

    ledger.api().delete("/share-links/{id}", made.json().path("id").asString()).expect(204);
    server.pages().get(path).expect(404);
    server.pages().get("/shared/" + "a".repeat(43)).expect(404);
    ledger.pages().get(path).expect(404);
  }

  @Test
  void only_the_pages_meant_for_it_can_be_shown(TestLedger other) {
    for (String page :
        new String[] {
          "/account",
          "/rigs/R",
          "/rigs/R/statement/../../../account",
          "/parts/TP1",
          "//elsewhere.example/rigs/R/statement",
          "/rigs/R/edit",
          "",
          "redirect:/rigs/R/statement"
        }) {
      make(page).expect(400);
    }
    make("/rigs/NONE/statement").expect(404);
    other.api().post("/share-links", Map.of("page", "/rigs/R/statement")).expect(404);
    assertThat(ledger.api().get("/share-links").json().path("items")).isEmpty();
  }

  @Test
  void the_statement_has_a_button_that_makes_one(TestServer server) {
    Pages pages = ledger.pages();
    Answer made =
        pages.follow(
            pages
                .submit(
                    pages.get("/rigs/R/statement?scope=hammock-only&target=1+kg"),
                    "form[action=/share-links]")
                .expect(303));

    String link = made.page().select(".secret").text();
    assertThat(server.pages().get(URI.create(link).getPath()).expect(200).page().text())
        .contains("Rain roof")
        .contains("Nothing in it is counted");
    Answer taken =
        pages.follow(pages.submit(made, "form[action$=/revoke]").expect(303)).expect(200);
    assertThat(taken.page().select("main").text()).contains("shows nothing any more");
    server.pages().get(URI.create(link).getPath()).expect(404);
  }

  @Test
  void a_packing_list_is_shown_to_be_looked_at_and_not_checked(TestServer server) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\"T\",\"name\":\"Two nights\",\"lines\":[{\"part\":\"TP1\"},{\"rig\":\"R\"}]}")
        .expect(201);
    Pages pages = ledger.pages();
    Answer made =
        pages.follow(
            pages
                .submit(pages.get("/trips/T/packing-list?by=bag"), "form[action=/share-links]")
                .expect(303));
    String path = URI.create(made.page().select(".secret").text()).getPath();
    Pages stranger = server.pages();

    Answer shown = stranger.get(path).expect(200);

    assertThat(shown.page().select("h1").text()).contains("Two nights");
    assertThat(shown.page().select("main").text()).contains("Tarp cloth");
    assertThat(shown.page().select("main a, nav a, script:not([src=/assets/tables.js])")).isEmpty();
    assertThat(shown.page().select("main button:not([disabled])")).isEmpty();
    stranger.get("/trips/T/packing-list").expect(302);
    stranger.get("/trips/T/packing-list/checks").expect(302);
  }
}
