package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.part.Part;
import org.tareline.part.WhereUsed;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class TripApiTest {

  private static final String FOUR_LINES =
      """
      {"code":"FELL","name":"Four nights on the fell","starts":"2027-05-08","days":5,
       "note":"Wind from the west.",
       "lines":[
         {"rig":"HANG","place":"hang bag"},
         {"part":"BOOTS","carry":"worn"},
         {"part":"STAKE","quantity":6,"carry":"base","place":"side pocket"},
         {"item":{"name":"oats","system":"food","mass":"250 g"},"quantity":"4","carry":"consumable"}]}
      """;

  @Autowired private List<WhereUsed> whereUsed;

  private static void stock(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BODY", "body", "hang", 1, "300 g");
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("BOOTS", "boots", "clothing", 1, "900 g");
    workshop.part("STAKE", "stake", "rain", 8, "10 g");
    workshop.part("POT", "pot", "cook", 1, null);
    workshop.rig("HANG", "hang system", 1, "BODY", 2, "BAR");
  }

  private static Answer addFourLines(TestLedger ledger) {
    stock(ledger);
    return ledger.api().post("/trips", FOUR_LINES).expect(201);
  }

  private static double grams(JsonNode estimate) {
    assertThat(estimate.path("mass").path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(estimate.path("mass").path("value").asString());
  }

  private static double uncertainty(JsonNode estimate) {
    return Double.parseDouble(estimate.path("standardUncertainty").path("value").asString());
  }

  private static long revisions(TestServer server, TestLedger ledger) {
    return server.count(
        "select count(*) from revision where ledger_id = ? and kind = 'trip'",
        ledger.member().ledgerId());
  }

  @Test
  void a_trip_comes_back_as_it_was_sent_with_what_was_left_out_filled_in(TestLedger ledger) {
    Answer added = addFourLines(ledger);

    assertThat(added.header("Location")).isEqualTo("/api/v1/trips/FELL");
    assertThat(added.header("ETag")).isEqualTo("\"1\"");
    JsonNode trip = ledger.api().get("/trips/fell").expect(200).json();
    assertThat(trip).isEqualTo(added.json());
    assertThat(trip.path("starts").asString()).isEqualTo("2027-05-08");
    assertThat(trip.path("days").asInt()).isEqualTo(5);
    assertThat(trip.path("lines")).hasSize(4);
    JsonNode rig = trip.path("lines").get(0);
    assertThat(rig.path("rig").asString()).isEqualTo("HANG");
    assertThat(rig.path("quantity").asInt()).isEqualTo(1);
    assertThat(rig.path("carry").asString()).isEqualTo("base");
    assertThat(rig.path("place").asString()).isEqualTo("hang bag");
    assertThat(rig.has("part")).isFalse();
    JsonNode item = trip.path("lines").get(3).path("item");
    assertThat(item.path("system").asString()).isEqualTo("food");
    assertThat(item.path("mass").path("typed").asString()).isEqualTo("250 g");
    assertThat(ledger.api().get("/trips").expect(200).json().path("items")).containsExactly(trip);
  }

  @Test
  void weights_part_the_trip_by_how_things_travel_and_by_system(TestLedger ledger) {
    addFourLines(ledger);

    JsonNode weights = ledger.api().get("/trips/FELL/weights").expect(200).json();

    assertThat(weights.path("trip").asString()).isEqualTo("FELL");
    assertThat(grams(weights.path("base"))).isEqualTo(560);
    assertThat(grams(weights.path("worn"))).isEqualTo(900);
    assertThat(grams(weights.path("consumables"))).isEqualTo(1000);
    assertThat(grams(weights.path("totalPack"))).isEqualTo(1560);
    assertThat(grams(weights.path("skinOut"))).isEqualTo(2460);
    assertThat(weights.path("base").path("basis").asString()).isEqualTo("mixed");
    assertThat(weights.path("base").path("unweighedLines").asInt()).isEqualTo(1);
    assertThat(weights.path("base").has("atLeast")).isFalse();
    assertThat(weights.path("warnings").findValuesAsString("message"))
        .containsExactly("Not weighed yet, and counted as stated or calculated: STAKE, stake.");
    assertThat(weights.path("bySystem").findValuesAsString("system"))
        .containsExactly("hang", "rain", "clothing", "food");
    JsonNode food = weights.path("bySystem").get(3);
    assertThat(grams(food.path("base"))).isZero();
    assertThat(grams(food.path("consumables"))).isEqualTo(1000);
    assertThat(grams(food.path("total"))).isEqualTo(1000);
    // The ledger takes a stated mass to be within 5 %, rectangular, and four of one are as wrong as
    // one is, four times.
    assertThat(uncertainty(food.path("total")))
        .isCloseTo(4 * 250 * 0.05 / Math.sqrt(3), within(1e-6));
  }

  @Test
  void the_span_of_the_scale_is_one_error_in_what_is_packed_and_worn(TestLedger ledger) {
    stock(ledger);
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"T","name":"t","lines":[{"part":"BODY"},{"part":"BOOTS","carry":"worn"}]}
            """)
        .expect(201);

    JsonNode weights = ledger.api().get("/trips/T/weights").expect(200).json();

    double base = uncertainty(weights.path("base"));
    double worn = uncertainty(weights.path("worn"));
    double shared = 2 * (300 * 0.01 / Math.sqrt(3)) * (900 * 0.01 / Math.sqrt(3));
    assertThat(uncertainty(weights.path("skinOut")))
        .isCloseTo(Math.sqrt(base * base + worn * worn + shared), within(1e-6));
  }

  @Test
  void weights_come_in_the_unit_asked_for(TestLedger ledger) {
    addFourLines(ledger);

    JsonNode worn = ledger.api().get("/trips/FELL/weights?unit=kg").expect(200).json().path("worn");

    assertThat(worn.path("mass").path("value").asString()).isEqualTo("0.9");
    assertThat(worn.path("mass").path("unit").asString()).isEqualTo("kg");
    ledger.api().get("/trips/FELL/weights?unit=m").expect(400);
  }

  @Test
  void what_has_no_mass_makes_a_total_a_least_one_and_is_named(TestLedger ledger) {
    stock(ledger);
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"T","name":"t","lines":[
              {"part":"POT"},{"part":"BODY"},{"item":{"name":"soap"},"carry":"consumable"}]}
            """)
        .expect(201);

    JsonNode weights = ledger.api().get("/trips/T/weights").expect(200).json();

    assertThat(grams(weights.path("base"))).isEqualTo(300);
    assertThat(weights.path("base").path("atLeast").asBoolean()).isTrue();
    assertThat(weights.path("skinOut").path("missing").valueStream().map(JsonNode::asString))
        .containsExactly("POT", "soap");
    assertThat(weights.path("consumables").has("basis")).isFalse();
    assertThat(weights.path("bySystem").findValuesAsString("system"))
        .containsExactly("hang", "cook", "other");
  }

  @Test
  void a_line_keeps_its_id_through_every_edit(TestLedger ledger) {
    JsonNode before = addFourLines(ledger).json().path("lines");
    String oats = before.get(3).path("id").asString();

    JsonNode after =
        ledger
            .api()
            .put(
                "/trips/FELL",
                Map.of(
                    "code",
                    "FELL",
                    "name",
                    "Four nights",
                    "lines",
                    List.of(
                        Map.of("part", "POT"),
                        Map.of("id", oats, "item", Map.of("name", "oats and raisins")),
                        Map.of("part", "BOOTS", "carry", "worn"),
                        Map.of("rig", "HANG"))))
            .expect(200)
            .json();

    assertThat(after.path("revision").asInt()).isEqualTo(2);
    assertThat(after.has("starts")).isFalse();
    JsonNode lines = after.path("lines");
    assertThat(lines).hasSize(4);
    assertThat(before.findValuesAsString("id")).doesNotContain(lines.get(0).path("id").asString());
    assertThat(lines.get(1).path("id").asString()).isEqualTo(oats);
    assertThat(lines.get(1).path("item").path("name").asString()).isEqualTo("oats and raisins");
    assertThat(lines.get(2).path("id")).isEqualTo(before.get(1).path("id"));
    assertThat(lines.get(3).path("id")).isEqualTo(before.get(0).path("id"));
  }

  @Test
  void an_old_code_still_finds_the_trip(TestLedger ledger) {
    addFourLines(ledger);
    ledger.api().put("/trips/FELL", "{\"code\":\"MOOR\",\"name\":\"m\",\"lines\":[]}").expect(200);

    assertThat(ledger.api().get("/trips/FELL").expect(200).json().path("code").asString())
        .isEqualTo("MOOR");
    ledger.api().post("/trips", "{\"code\":\"fell\",\"name\":\"another\"}").expect(409);
  }

  @Test
  void a_save_that_started_from_an_older_revision_is_refused_and_overwrites_nothing(
      TestLedger ledger, TestServer server) {
    Answer added = addFourLines(ledger);
    String change = "{\"code\":\"FELL\",\"name\":\"theirs\",\"lines\":[]}";
    ledger
        .api()
        .with("If-Match", String.valueOf(added.header("ETag")))
        .put("/trips/FELL", change)
        .expect(200);

    Answer refused =
        ledger
            .api()
            .with("If-Match", String.valueOf(added.header("ETag")))
            .put("/trips/FELL", change.replace("theirs", "mine"))
            .expect(412);

    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(ledger.api().get("/trips/FELL").json().path("name").asString()).isEqualTo("theirs");
    assertThat(revisions(server, ledger)).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "{\"name\":\"n\"} | #/code",
        "{\"code\":\"A/B\",\"name\":\"n\"} | #/code",
        "{\"code\":\"C\"} | #/name",
        "{\"code\":\"C\",\"name\":\"n\",\"starts\":\"8 May 2027\"} | #/starts",
        "{\"code\":\"C\",\"name\":\"n\",\"starts\":\"2027-02-30\"} | #/starts",
        "{\"code\":\"C\",\"name\":\"n\",\"days\":0} | #/days",
        "{\"code\":\"C\",\"name\":\"n\",\"days\":367} | #/days",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{}]} | #/lines/0",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[null]} | #/lines/0",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"rig\":\"HANG\"}]} | #/lines/0",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"item\":{\"name\":\"x\"}}]} | #/lines/0",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\"},{\"part\":\"NONE\"}]} | #/lines/1/part",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"rig\":\"BODY\"}]} | #/lines/0/rig",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"a\\u0000b\"}]} | #/lines/0/part",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"quantity\":0}]} | #/lines/0/quantity",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"quantity\":1.5}]} | #/lines/0/quantity",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"carry\":\"pocket\"}]} | #/lines/0/carry",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"part\":\"BODY\",\"id\":\"7\"}]} | #/lines/0/id",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"item\":{}}]} | #/lines/0/item/name",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"item\":{\"name\":\"x\",\"system\":\"toys\"}}]} | #/lines/0/item/system",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"item\":{\"name\":\"x\",\"mass\":\"0 g\"}}]} | #/lines/0/item/mass",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"item\":{\"name\":\"x\",\"mass\":\"-3 g\"}}]} | #/lines/0/item/mass",
        "{\"code\":\"C\",\"name\":\"n\",\"lines\":[{\"item\":{\"name\":\"x\",\"mass\":\"3 m\"}}]} | #/lines/0/item/mass"
      })
  void bad_input_is_pointed_to_and_writes_nothing(
      String body, String pointer, TestLedger ledger, TestServer server) {
    addFourLines(ledger);

    JsonNode problem = ledger.api().post("/trips", body).expect(400).json();

    assertThat(problem.path("errors").findValuesAsString("pointer")).containsExactly(pointer);
    assertThat(ledger.api().get("/trips").json().path("items")).hasSize(1);
    assertThat(revisions(server, ledger)).isEqualTo(1);
  }

  @Test
  void every_fault_is_told_at_once(TestLedger ledger) {
    stock(ledger);

    JsonNode problem =
        ledger
            .api()
            .post(
                "/trips",
                """
                {"code":"","name":"","days":"many","lines":[{"part":"NONE","quantity":-1}]}
                """)
            .expect(400)
            .json();

    assertThat(problem.path("errors").findValuesAsString("pointer"))
        .containsExactly("#/code", "#/name", "#/days", "#/lines/0/part", "#/lines/0/quantity");
  }

  @Test
  void a_refused_change_leaves_every_line_as_it_was(TestLedger ledger, TestServer server) {
    JsonNode before = addFourLines(ledger).json();

    ledger
        .api()
        .put(
            "/trips/FELL",
            "{\"code\":\"FELL\",\"name\":\"n\",\"lines\":[{\"part\":\"POT\"},{\"part\":\"NONE\"}]}")
        .expect(400);
    ledger.api().put("/trips/FELL", "{\"code\":\"FELL\",\"name\":\"n\"}").expect(400);
    ledger.api().put("/trips/FELL", "{\"code\":\"FELL\",").expect(400);
    ledger.api().put("/trips/FELL", "{\"code\":\"FELL\",\"lines\":\"all\"}").expect(400);

    assertThat(ledger.api().get("/trips/FELL").json()).isEqualTo(before);
    assertThat(revisions(server, ledger)).isEqualTo(1);
  }

  @Test
  void a_huge_name_is_refused_in_few_words(TestLedger ledger) {
    String body =
        ledger
            .api()
            .post(
                "/trips",
                Map.of(
                    "code",
                    "C",
                    "name",
                    "n".repeat(100_000),
                    "lines",
                    List.of(Map.of("part", "p".repeat(100_000)))))
            .expect(400)
            .body();

    assertThat(body).hasSizeLessThan(2_000).contains("#/name").contains("#/lines/0/part");
  }

  @Test
  void a_code_that_is_taken_is_a_conflict(TestLedger ledger) {
    addFourLines(ledger);

    Answer refused = ledger.api().post("/trips", "{\"code\":\"fell\",\"name\":\"n\"}").expect(409);

    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactly("#/code");
  }

  @Test
  void of_two_who_take_one_code_at_the_same_moment_one_is_told(
      TestLedger ledger, TestServer server) {
    for (String code : List.of("A", "B", "C", "D")) {
      ledger.api().post("/trips", Map.of("code", code, "name", "n")).expect(201);
    }

    List<Integer> statuses =
        List.of("A", "B", "C", "D").parallelStream()
            .map(
                code ->
                    ledger
                        .api()
                        .put(
                            "/trips/" + code,
                            Map.of("code", "SAME", "name", code, "lines", List.of()))
                        .status())
            .toList();

    assertThat(statuses).containsOnlyOnce(200);
    assertThat(statuses.stream().filter(status -> status != 200)).containsOnly(409);
    assertThat(
            server.count(
                "select count(*) from trip where ledger_id = ? and code_key = 'same'",
                ledger.member().ledgerId()))
        .isEqualTo(1);
  }

  @Test
  void another_ledgers_trip_is_not_there(TestLedger ledger, TestServer server) {
    addFourLines(ledger);
    TestLedger other = server.openLedger();
    assertThat(ledger.api().get("/trips/FELL").status()).isEqualTo(200);

    other.api().get("/trips/FELL").expect(404);
    other.api().get("/trips/FELL/weights").expect(404);
    other.api().put("/trips/FELL", "{\"code\":\"X\",\"name\":\"x\",\"lines\":[]}").expect(404);
    assertThat(other.api().get("/trips").expect(200).json().path("items")).isEmpty();
    assertThat(
            other
                .api()
                .post("/trips", "{\"code\":\"T\",\"name\":\"t\",\"lines\":[{\"part\":\"BODY\"}]}")
                .expect(400)
                .json()
                .path("errors")
                .findValuesAsString("pointer"))
        .containsExactly("#/lines/0/part");
    assertThat(ledger.api().get("/trips/FELL").json().path("revision").asInt()).isEqualTo(1);
  }

  @Test
  void a_part_knows_on_which_trips_it_stands(TestLedger ledger, TestServer server) {
    addFourLines(ledger);
    Part stake = server.bean(org.tareline.part.Parts.class).get(ledger.member(), "STAKE");

    List<WhereUsed.Use> uses =
        whereUsed.stream()
            .flatMap(teller -> teller.usesOf(ledger.member(), stake.id()).stream())
            .toList();

    assertThat(uses)
        .containsExactly(new WhereUsed.Use("trip", "FELL", "Four nights on the fell", 6));
  }

  @Test
  void the_statements_of_an_answer_do_not_grow_with_the_trip(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    Map<Integer, Integer> counts = new HashMap<>();
    StringBuilder lines = new StringBuilder();
    for (int i = 0; i < 40; i++) {
      workshop.weighed("P" + i, "part " + i, "hang", 1, (100 + i) + " g");
      workshop.rig("R" + i, "rig " + i, 1, "P" + i, 1, i == 0 ? "P0" : ">R" + (i - 1));
      lines
          .append(i == 0 ? "" : ",")
          .append("{\"part\":\"P" + i + "\"},{\"rig\":\"R" + i + "\"},{\"item\":{\"name\":\"x\"}}");
      if (i == 2 || i == 39) {
        String code = "T" + i;
        ledger
            .api()
            .post("/trips", "{\"code\":\"" + code + "\",\"name\":\"t\",\"lines\":[" + lines + "]}")
            .expect(201);
        counts.put(
            i,
            ledger
                .statements(
                    () -> {
                      ledger.api().get("/trips/" + code).expect(200);
                      ledger.api().get("/trips/" + code + "/weights").expect(200);
                    })
                .size());
      }
    }

    assertThat(counts.get(39)).isEqualTo(counts.get(2)).isLessThan(35);
  }

  @Test
  void more_trips_than_one_answer_holds_are_answered_in_turn(TestLedger ledger) {
    for (int i = 0; i <= 100; i++) {
      ledger
          .api()
          .post("/trips", Map.of("code", "T" + (1000 + i), "name", "trip " + i))
          .expect(201);
    }

    JsonNode first = ledger.api().get("/trips").expect(200).json();
    assertThat(first.path("items")).hasSize(100);
    assertThat(first.path("items").get(0).path("code").asString()).isEqualTo("T1000");
    assertThat(first.path("next").asString()).startsWith("/api/v1/trips?after=");

    JsonNode last =
        ledger
            .api()
            .get(first.path("next").asString().substring("/api/v1".length()))
            .expect(200)
            .json();
    assertThat(last.path("items").findValuesAsString("code")).containsExactly("T1100");
    assertThat(last.has("next")).isFalse();
  }
}
