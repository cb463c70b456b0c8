package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** What is taken against the cold, held against the coldest night expected. */
@FeatureTest
class NightsTest {

  private TestLedger ledger;

  @BeforeEach
  void own(TestLedger ledger) {
    this.ledger = ledger;
  }

  private void part(String code, String comfort) {
    ledger
        .api()
        .post(
            "/parts",
            "{\"code\":\"%s\",\"name\":\"The %s\",\"comfortTemperature\":%s}"
                .formatted(code, code.toLowerCase(Locale.ROOT), comfort))
        .expect(201);
  }

  /** The usual things: above by its own word, below by what it does in its rig. */
  private void quilts(String above, String below) {
    part("TOP", above);
    part("UNDER", below);
    ledger
        .api()
        .post(
            "/rigs",
            """
            {"code":"HANG","name":"Hang","lines":[{"part":"TOP","role":"top quilt","quantity":1},
             {"part":"UNDER","role":"underquilt","quantity":1}]}""")
        .expect(201);
  }

  private void trip(String coldest, String lines) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\"T\",\"name\":\"Trip\",\"coldestNight\":%s,%s}".formatted(coldest, lines))
        .expect(201);
  }

  private JsonNode nights() {
    return ledger.api().get("/trips/T/nights").expect(200).json();
  }

  private JsonNode side(int carrier, String insulates) {
    for (JsonNode side : nights().path("carriers").path(carrier).path("sides")) {
      if (insulates.equals(side.path("insulates").asString(""))) {
        return side;
      }
    }
    throw new AssertionError("no side " + insulates);
  }

  private List<String> warnings() {
    List<String> messages = new ArrayList<>();
    for (JsonNode warning :
        ledger.api().get("/trips/T/weights").expect(200).json().path("warnings")) {
      if (warning.path("kind").asString().equals("cold-night")) {
        messages.add(warning.path("message").asString());
      }
    }
    return messages;
  }

  @Test
  void above_and_below_are_held_against_the_night_each_by_itself() {
    quilts(
        "{\"temperature\":\"-5 °C\",\"kind\":\"limit\"}",
        "{\"temperature\":\"41 °F\",\"insulates\":\"below\"}");
    trip("\"2 °C\"", "\"lines\":[{\"rig\":\"HANG\"}]");

    JsonNode above = side(0, "above");
    assertThat(above.path("verdict").asString()).isEqualTo("stated-for-it");
    assertThat(above.path("things").path(0).path("margin").toString())
        .isEqualTo("{\"value\":\"7\",\"unit\":\"K\"}");
    assertThat(above.path("words").asString())
        .isEqualTo(
            "The top is stated for nights down to -5 °C (limit: a standard man, curled up), 7 K"
                + " below the coldest night expected.");
    JsonNode below = side(0, "below");
    assertThat(below.path("verdict").asString()).isEqualTo("too-little");
    // 41 °F is 5 °C exactly, which is 3 K milder than 2 °C.
    assertThat(below.path("things").path(0).path("margin").path("value").asString())
        .isEqualTo("-3");
    assertThat(below.path("things").path(0).path("temperature").path("typed").asString())
        .isEqualTo("41 °F");
    assertThat(below.path("things").path(0).path("kind").asString()).isEqualTo("maker's own");
    assertThat(warnings())
        .containsExactly(
            "Nights, below: The under is stated for nights down to 41 °F (the maker's own figure),"
                + " and a night of 2 °C is expected: 3 K too little.");
    assertThat(nights().path("notes").toString())
        .contains("people differ", "are not added", "does not cover quilts and hammocks");
  }

  /** ISO 23537-1:2016, the range to the extreme temperature is one of risk (REFERENCES H). */
  @Test
  void an_extreme_temperature_is_never_something_to_sleep_by() {
    quilts(
        "{\"temperature\":\"-30 °C\",\"kind\":\"extreme\"}",
        "{\"temperature\":\"-1 °C\",\"kind\":\"comfort\"}");
    trip("\"2 °C\"", "\"lines\":[{\"rig\":\"HANG\"}]");

    assertThat(side(0, "above").path("verdict").asString()).isEqualTo("not-known");
    assertThat(side(0, "below").path("verdict").asString()).isEqualTo("stated-for-it");
    assertThat(warnings()).singleElement().asString().contains("only the extreme temperature");
  }

  @Test
  void what_is_not_known_is_not_known_and_never_a_pass() {
    ledger.api().post("/parts", Map.of("code", "PAD", "name", "Pad")).expect(201);
    ledger
        .api()
        .post(
            "/rigs",
            """
            {"code":"HANG","name":"Hang","lines":[{"part":"PAD","role":"pad","quantity":1}]}""")
        .expect(201);
    trip("\"2 °C\"", "\"lines\":[{\"rig\":\"HANG\"}]");

    assertThat(side(0, "above").path("verdict").asString()).isEqualTo("not-known");
    JsonNode below = side(0, "below");
    assertThat(below.path("verdict").asString()).isEqualTo("not-known");
    assertThat(below.path("things").path(0).path("temperature").isNull()).isTrue();
    assertThat(below.path("words").asString())
        .isEqualTo("How cold a night Pad is for is not stated.");
    assertThat(warnings()).isEmpty();
  }

  @Test
  void without_a_coldest_night_nothing_is_said_to_be_enough() {
    quilts("{\"temperature\":\"-5 °C\"}", "{\"temperature\":\"5 °C\"}");
    trip("null", "\"lines\":[{\"rig\":\"HANG\"}]");

    assertThat(nights().path("coldestNight").isNull()).isTrue();
    for (String side : List.of("above", "below")) {
      assertThat(side(0, side).path("verdict").asString()).isEqualTo("not-known");
      assertThat(side(0, side).path("things").path(0).path("margin").isNull()).isTrue();
    }
    assertThat(warnings()).isEmpty();
  }

  @Test
  void the_best_of_several_counts_for_each_carrier_alone() {
    part("SUMMER", "{\"temperature\":\"12 °C\",\"insulates\":\"above\"}");
    part("WINTER", "{\"temperature\":\"-8 °C\",\"insulates\":\"above\"}");
    trip(
        "\"2 °C\"",
        """
        "carriers":[{"code":"ANN"},{"code":"BEA"}],"lines":[{"part":"SUMMER","carrier":"ANN"},
         {"part":"WINTER","carrier":"ANN"},{"part":"SUMMER","carrier":"BEA"}]""");

    assertThat(side(0, "above").path("verdict").asString()).isEqualTo("stated-for-it");
    assertThat(side(0, "above").path("things").findValuesAsString("part"))
        .containsExactly("WINTER", "SUMMER");
    assertThat(side(1, "above").path("verdict").asString()).isEqualTo("too-little");
    assertThat(warnings()).singleElement().asString().startsWith("Nights, BEA, above: The summer");
  }

  @Test
  void a_part_left_at_home_keeps_nobody_warm() {
    quilts("{\"temperature\":\"-5 °C\"}", "{\"temperature\":\"-5 °C\"}");
    trip("\"2 °C\"", "\"lines\":[{\"rig\":\"HANG\",\"leftAtHome\":[\"TOP\"]}]");

    assertThat(side(0, "above").path("things").isEmpty()).isTrue();
    assertThat(side(0, "above").path("verdict").asString()).isEqualTo("not-known");
    assertThat(side(0, "below").path("verdict").asString()).isEqualTo("stated-for-it");
  }

  @Test
  void a_temperature_wants_its_unit_and_each_fault_is_told_at_its_field() {
    Answer part =
        ledger
            .api()
            .post(
                "/parts",
                """
                {"code":"Q","name":"Quilt","comfortTemperature":{"temperature":"5","kind":"cosy","insulates":"beside"}}""")
            .expect(400);
    assertThat(part.json().path("errors").findValuesAsString("pointer"))
        .containsExactly(
            "#/comfortTemperature/temperature",
            "#/comfortTemperature/kind",
            "#/comfortTemperature/insulates");
    Answer kindAlone =
        ledger
            .api()
            .post(
                "/parts",
                "{\"code\":\"Q\",\"name\":\"Quilt\",\"comfortTemperature\":{\"kind\":\"limit\"}}")
            .expect(400);
    assertThat(kindAlone.json().path("errors").path(0).path("pointer").asString())
        .isEqualTo("#/comfortTemperature/temperature");
    Answer trip =
        ledger
            .api()
            .post(
                "/trips",
                Map.of("code", "T", "name", "Trip", "coldestNight", "5", "lines", List.of()))
            .expect(400);
    assertThat(trip.json().path("errors").path(0).path("pointer").asString())
        .isEqualTo("#/coldestNight");
    ledger.api().get("/parts/Q").expect(404);
    ledger.api().get("/trips/T").expect(404);
  }

  @Test
  void what_a_get_answers_can_be_put_back_as_it_is() {
    part("Q", "{\"temperature\":\"28.5 °F\",\"kind\":\"comfort\",\"insulates\":\"above\"}");
    part("U", "{\"insulates\":\"below\"}");
    trip("\"35 °F\"", "\"lines\":[{\"part\":\"Q\"}]");

    for (String path : List.of("/parts/Q", "/parts/U", "/trips/T")) {
      String before = ledger.api().get(path).expect(200).body();
      assertThat(before).doesNotContain("\"revision\":2");
      ledger.api().put(path, before).expect(200);
      assertThat(ledger.api().get(path).body().replace("\"revision\":2", "\"revision\":1"))
          .isEqualTo(before);
    }
  }

  @Test
  void the_pages_ask_for_it_keep_what_was_typed_and_show_it() {
    quilts("{\"temperature\":\"-5 °C\"}", "{\"temperature\":\"5 °C\"}");
    trip("null", "\"lines\":[{\"rig\":\"HANG\"}]");
    Pages pages = ledger.pages();

    Answer form = pages.get("/parts/TOP/edit").expect(200);
    Document refused =
        pages
            .submit(form, "main form", "comfortTemperature.temperature", "rather cold")
            .expect(422)
            .page();
    assertThat(refused.select("[name='comfortTemperature.temperature']").val())
        .isEqualTo("rather cold");
    assertThat(refused.select("details[open] [aria-invalid]")).hasSize(1);
    pages
        .submit(
            form,
            "main form",
            "comfortTemperature.temperature",
            "20 °F",
            "comfortTemperature.kind",
            "comfort",
            "comfortTemperature.insulates",
            "above")
        .expect(303);
    assertThat(pages.get("/parts/TOP").page().text())
        .contains(
            "Stated for nights down to 20 °F (comfort: a standard woman, lying relaxed); above the"
                + " sleeper.");

    Answer tripForm = pages.get("/trips/T/edit").expect(200);
    assertThat(
            pages
                .submit(tripForm, "main form", "coldestNight", "cold")
                .expect(422)
                .page()
                .select("[name=coldestNight]")
                .val())
        .isEqualTo("cold");
    pages.submit(tripForm, "main form", "coldestNight", "1 °C").expect(303);
    Document trip = pages.get("/trips/T").expect(200).page();
    assertThat(trip.select(".caution").text())
        .contains("Nights, below: The under is stated for nights down to 5 °C", "4 K too little");
    assertThat(trip.select(".nights dt").eachText()).containsExactly("above", "below");
    assertThat(trip.select(".nights dd").eachText().get(0)).contains("20 °F", "7.7 K below");
  }

  @Test
  void a_trip_with_nothing_said_of_nights_shows_nothing_of_them() {
    ledger.api().post("/parts", Map.of("code", "POT", "name", "Pot")).expect(201);
    trip("null", "\"lines\":[{\"part\":\"POT\"}]");

    assertThat(ledger.pages().get("/trips/T").expect(200).page().select("#nights-title")).isEmpty();
  }

  @Test
  void another_ledger_has_none_of_it(TestServer server) {
    trip("\"2 °C\"", "\"lines\":[]");
    assertThat(nights().path("trip").asString()).isEqualTo("T");

    server.openLedger().api().get("/trips/T/nights").expect(404);
  }
}
