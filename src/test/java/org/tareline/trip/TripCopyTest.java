package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** A trip made after an earlier one. */
@FeatureTest
class TripCopyTest {

  private TestLedger ledger;

  @BeforeEach
  void pack(TestLedger fresh) {
    ledger = fresh;
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("POLE", "pole", "other", 2, "250 g");
    workshop.rig("BARS", "bars", 2, "BAR");
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"OLD","name":"Old","starts":"2027-05-08","days":4,"note":"Windy.",
             "carriers":[{"code":"ANN","bodyMass":"64 kg"},{"code":"BO"}],
             "lines":[{"rig":"BARS","leftAtHome":["BAR"],"place":"bag"},{"rig":"BARS","system":"rain"},
              {"part":"POLE","carry":"worn","carrier":"BO","standsInFor":[{"rig":"BARS","part":"BAR"}]},
              {"item":{"name":"water"},"taken":{"1":"2 L"},"used":{"2":"1 L"}},
              {"item":{"name":"spirit","mass":"300 mL"},"density":"0.79","perDay":"50 mL"}]}
            """)
        .expect(201);
  }

  @Test
  void a_copy_takes_along_all_of_it_in_lines_of_its_own() {
    JsonNode old = ledger.api().get("/trips/OLD").json();

    Answer added =
        ledger
            .api()
            .post("/trips/OLD/copies", Map.of("code", "NXT", "starts", "2027-07-01"))
            .expect(201);

    assertThat(added.header("Location")).isEqualTo("/api/v1/trips/NXT");
    JsonNode copy = added.json();
    assertThat(copy.path("name").asString()).isEqualTo("Old");
    assertThat(copy.path("starts").asString()).isEqualTo("2027-07-01");
    assertThat(copy.path("days").asInt()).isEqualTo(4);
    assertThat(copy.path("carriers")).isEqualTo(old.path("carriers"));
    assertThat(copy.path("lines").findValuesAsString("id"))
        .doesNotContainAnyElementsOf(old.path("lines").findValuesAsString("id"));
    assertThat(copy.path("lines").toString().replaceAll("\"id\":\"[^\"]*\"", ""))
        .isEqualTo(old.path("lines").toString().replaceAll("\"id\":\"[^\"]*\"", ""));
    assertThat(ledger.api().get("/trips/OLD").json()).isEqualTo(old);
  }

  @Test
  void a_code_that_is_taken_or_a_day_that_is_none_is_refused_and_nothing_is_added() {
    ledger.api().post("/trips/OLD/copies", Map.of("code", "old")).expect(409);
    JsonNode problem =
        ledger
            .api()
            .post("/trips/OLD/copies", Map.of("code", "NXT", "starts", "soon"))
            .expect(400)
            .json();

    assertThat(problem.path("errors").findValuesAsString("pointer")).containsExactly("#/starts");
    ledger.api().post("/trips/NONE/copies", Map.of("code", "NXT")).expect(404);
    assertThat(ledger.api().get("/trips").json().path("items")).hasSize(1);
  }

  @Test
  void the_page_copies_and_keeps_what_was_typed() {
    Answer form = ledger.pages().get("/trips/OLD/copy").expect(200);

    Document refused =
        ledger.pages().submit(form, "main form", "code", "", "name", "Mine").expect(422).page();
    assertThat(refused.select(".errors a").eachAttr("href")).containsExactly("#code");
    assertThat(refused.expectFirst("#name").val()).isEqualTo("Mine");

    ledger.pages().submit(form, "main form", "code", "NXT", "name", "Mine").expect(303);
    assertThat(ledger.api().get("/trips/NXT").json().path("name").asString()).isEqualTo("Mine");
  }
}
