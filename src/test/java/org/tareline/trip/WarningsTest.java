package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** What somebody should look at before leaving. */
@FeatureTest
class WarningsTest {

  private TestLedger ledger;
  private Workshop workshop;

  @BeforeEach
  void stock(TestLedger fresh) {
    ledger = fresh;
    workshop = new Workshop(ledger);
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("TARP", "tarp", "rain", 1, "400 g");
    workshop.weighed("STAKE", "stake", "rain", 8, "10 g");
    workshop.rig("BARS", "bars", 2, "BAR");
  }

  private void trip(String code, String head, String lines) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\""
                + code
                + "\",\"name\":\"trip "
                + code
                + "\","
                + head
                + ",\"lines\":["
                + lines
                + "]}")
        .expect(201);
  }

  private List<JsonNode> warnings(String code) {
    return ledger
        .api()
        .get("/trips/" + code + "/weights")
        .expect(200)
        .json()
        .path("warnings")
        .valueStream()
        .toList();
  }

  private List<JsonNode> warnings(String head, String lines) {
    trip("T", head, lines);
    return warnings("T");
  }

  private static List<String> said(List<JsonNode> warnings) {
    return warnings.stream()
        .map(warning -> warning.path("kind").asString() + ": " + warning.path("message").asString())
        .toList();
  }

  private void happened(String part, String kind, int count) {
    ledger
        .api()
        .post(
            "/parts/" + part + "/events",
            Map.of("kind", kind, "date", "2027-01-05", "count", count))
        .expect(201);
  }

  @Test
  void nothing_is_amiss_with_what_is_owned_weighed_and_enough() {
    assertThat(
            warnings(
                "\"days\":3",
                """
                {"rig":"BARS"},{"part":"STAKE","quantity":8},
                {"item":{"name":"oats","mass":"300 g"},"perDay":"100 g"}
                """))
        .isEmpty();
  }

  @Test
  void more_than_are_owned() {
    List<JsonNode> warnings = warnings("\"days\":3", "{\"rig\":\"BARS\"},{\"part\":\"BAR\"}");

    assertThat(said(warnings))
        .containsExactly("more-than-owned: BAR, bar, is packed 3 times, and 2 are owned.");
    assertThat(warnings.get(0).path("parts").get(0).asString()).isEqualTo("BAR");
  }

  @Test
  void what_is_lent_is_not_at_hand_and_what_is_retired_is_gone() {
    happened("BAR", "lent", 1);
    happened("TARP", "retired", 1);
    happened("STAKE", "lent", 2);

    assertThat(
            said(
                warnings(
                    "\"days\":3",
                    "{\"rig\":\"BARS\"},{\"part\":\"TARP\"},{\"part\":\"STAKE\",\"quantity\":6}")))
        .containsExactly(
            "lent: BAR, bar, is packed twice, and 2 are owned, 1 of them lent.",
            "retired: TARP, tarp, is packed, and has been retired.");

    happened("BAR", "returned", 1);
    assertThat(said(warnings("T")))
        .containsExactly("retired: TARP, tarp, is packed, and has been retired.");
  }

  @Test
  void what_another_trip_wants_on_the_same_days_unless_there_is_enough_for_both() {
    trip(
        "LATER",
        "\"starts\":\"2027-05-10\",\"days\":2",
        "{\"part\":\"TARP\"},{\"part\":\"STAKE\",\"quantity\":2}");
    trip("NEXT", "\"starts\":\"2027-05-11\",\"days\":2", "{\"rig\":\"BARS\"}");
    trip("UNDATED", "\"days\":9", "{\"rig\":\"BARS\"}");

    List<JsonNode> warnings =
        warnings(
            "\"starts\":\"2027-05-08\",\"days\":3",
            "{\"part\":\"TARP\"},{\"part\":\"STAKE\",\"quantity\":6},{\"rig\":\"BARS\"}");

    assertThat(said(warnings))
        .containsExactly(
            "wanted-elsewhere: TARP, tarp, is wanted on the same days by trip LATER (LATER): 2 in all, and one is at hand.");
    assertThat(warnings.get(0).path("trips").get(0).asString()).isEqualTo("LATER");
    assertThat(said(warnings("LATER")))
        .containsExactly(
            "wanted-elsewhere: TARP, tarp, is wanted on the same days by trip T (T): 2 in all, and one is at hand.");
  }

  @Test
  void a_consumable_that_runs_out_names_the_day() {
    List<JsonNode> warnings =
        warnings(
            "\"days\":5",
            """
            {"item":{"name":"oats","mass":"500 g"},"perDay":"200 g"},
            {"item":{"name":"tea","mass":"60 g"},"perDay":"20 g"},
            {"item":{"name":"water"},"taken":{"2":"2 L"},"used":{"1":"1 L"}},
            {"item":{"name":"fuel"},"taken":{"1":"90 g"},"used":{"1":"50 g","4":"70 g"}}
            """);

    assertThat(said(warnings))
        .containsExactly(
            "runs-out: oats runs out on day 3: that morning there is 100\u00a0g, and the day uses 200\u00a0g.",
            "runs-out: tea runs out on day 3: by the evening it is gone, and day 4 uses 20\u00a0g.",
            "runs-out: water is not there yet on day 1, and the day uses 1000\u00a0g.",
            "runs-out: fuel runs out on day 4: that morning there is 40\u00a0g, and the day uses 70\u00a0g.",
            "more-used-than-taken: More of fuel is used than taken: 120\u00a0g of 90\u00a0g.");
    assertThat(warnings.get(0).path("day").asInt()).isEqualTo(3);
    assertThat(warnings.get(0).path("items").get(0).asString()).isEqualTo("oats");
  }

  @Test
  void a_stand_in_for_what_is_not_on_the_trip() {
    assertThat(
            said(
                warnings(
                    "\"days\":3",
                    """
                    {"part":"TARP","standsInFor":[{"rig":"BARS","part":"BAR"}]}
                    """)))
        .containsExactly(
            "stands-in-for-nothing: TARP, tarp, is to serve for BAR of BARS, which is not on the trip.");
  }

  @Test
  void what_is_not_weighed_yet_is_named_and_free_items_are_not_asked_of() {
    workshop.part("POT", "pot", "cook", 1, null);
    workshop.part("LID", "lid", "cook", 2, "30 g");

    List<JsonNode> warnings =
        warnings(
            "\"days\":3",
            """
            {"part":"POT"},{"part":"LID"},{"part":"LID"},{"item":{"name":"soap"}},
            {"item":{"name":"oats","mass":"300 g"}}
            """);

    assertThat(said(warnings))
        .containsExactly(
            "not-weighed: Not weighed yet, and so in no figure: POT, pot; soap.",
            "not-weighed: Not weighed yet, and counted as stated or calculated: LID, lid.");
    assertThat(warnings.get(1).path("parts")).hasSize(1);
  }

  @Test
  void a_rig_that_is_not_the_sum_of_its_parts_wherever_it_stands() {
    workshop.rig("HANG", "hang system", 1, ">BARS");
    ledger
        .api()
        .post("/weighings", Map.of("rig", "BARS", "scale", "BENCH", "readings", List.of("300 g")))
        .expect(201);

    List<JsonNode> warnings = warnings("\"days\":3", "{\"rig\":\"HANG\"}");

    assertThat(warnings).hasSize(1);
    assertThat(warnings.get(0).path("kind").asString()).isEqualTo("does-not-agree");
    assertThat(warnings.get(0).path("rigs").get(0).asString()).isEqualTo("BARS");
    assertThat(warnings.get(0).path("message").asString())
        .startsWith("BARS, bars, was weighed whole (Complete) and is 100")
        .endsWith("more than its parts together.");
  }

  @Test
  void the_newest_weighing_whole_that_agrees_is_nothing_to_warn_of() {
    for (String reading : List.of("300 g", "200 g")) {
      ledger
          .api()
          .post("/weighings", Map.of("rig", "BARS", "scale", "BENCH", "readings", List.of(reading)))
          .expect(201);
    }

    assertThat(warnings("\"days\":3", "{\"rig\":\"BARS\"}")).isEmpty();
  }
}
