package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** A trip that aims at a base weight, and what to look at first. */
@FeatureTest
class BaseTargetTest {

  private TestLedger ledger;
  private Workshop workshop;

  @BeforeEach
  void own(TestLedger fresh) {
    ledger = fresh;
    workshop = new Workshop(ledger);
    workshop.weighed("TARP", "tarp", "rain", 1, "400 g");
    workshop.weighed("STRAP", "strap", "hang", 2, "120 g");
    workshop.weighed("BOOTS", "boots", "clothing", 1, "900 g");
    workshop.weighed("TROWEL", "trowel", "hygiene", 1, "20 g");
    rig("HANG", "{\"part\":\"STRAP\",\"quantity\":2,\"role\":\"tree strap\"}");
    rig("ROOF", "{\"part\":\"TARP\",\"role\":\"tarp\"}");
  }

  private void rig(String code, String lines) {
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"%s\",\"name\":\"the %s\",\"lines\":[%s]}"
                .formatted(code, code.toLowerCase(), lines))
        .expect(201);
  }

  private void trip(String code, String target, String more) {
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"%s","name":"trip %s","targetBase":"%s","lines":[{"rig":"HANG"},{"part":"TARP"},
             {"part":"BOOTS","carry":"worn"},{"part":"TROWEL"}%s]}
            """
                .formatted(code, code, target, more))
        .expect(201);
  }

  private JsonNode weights() {
    return ledger.api().get("/trips/T/weights").expect(200).json();
  }

  private JsonNode look(String part) {
    return weights()
        .path("lookAtFirst")
        .valueStream()
        .filter(thing -> thing.path("part").asString().equals(part))
        .findFirst()
        .orElseThrow();
  }

  private static double grams(JsonNode of) {
    return Double.parseDouble(of.path("value").asString());
  }

  @Test
  void the_margin_is_target_minus_base_with_the_uncertainty_of_the_base() {
    trip("T", "700 g", "");

    JsonNode weights = weights();
    JsonNode target = weights.path("target");
    // 700 − (2 × 120 + 400 + 20)
    assertThat(grams(target.path("margin").path("mass"))).isEqualTo(40);
    assertThat(grams(target.path("margin").path("expandedUncertainty")))
        .isCloseTo(grams(weights.path("base").path("expandedUncertainty")), within(1e-6));
    assertThat(target.path("mass").path("typed").asString()).isEqualTo("700 g");
    assertThat(target.path("verdict").asString()).isEqualTo("within");
    assertThat(target.path("words").asString()).startsWith("Within the target, with 40");
  }

  @Test
  void over_is_over_and_too_near_is_not_told() {
    trip("T", "0.6 kg", "");
    assertThat(weights().path("target").path("verdict").asString()).isEqualTo("over");
    assertThat(weights().path("target").path("words").asString())
        .startsWith("Over the target by 60");

    JsonNode trip = ledger.api().get("/trips/T").json();
    ledger
        .api()
        .put("/trips/T", trip.toString().replace("0.6 kg", "661 g").replace("\"600\"", "\"661\""))
        .expect(200);
    assertThat(weights().path("target").path("verdict").asString()).isEqualTo("undecided");
  }

  @Test
  void what_has_no_mass_is_never_within() {
    workshop.part("POT", "pot", "cook", 1, null);
    trip("T", "2 kg", ",{\"part\":\"POT\"}");

    JsonNode target = weights().path("target");
    assertThat(target.path("verdict").asString()).isEqualTo("undecided");
    assertThat(target.path("words").asString())
        .startsWith("Not to be told yet: what is known leaves");
  }

  @Test
  void without_a_target_there_is_neither() {
    trip("T", "", "");

    assertThat(weights().has("target")).isFalse();
    assertThat(weights().has("lookAtFirst")).isFalse();
    assertThat(ledger.pages().get("/trips/T").page().select("[id=target-title]")).isEmpty();
  }

  @Test
  void a_target_that_is_no_mass_is_refused_at_its_field() {
    JsonNode problem =
        ledger
            .api()
            .post("/trips", Map.of("code", "X", "name", "x", "targetBase", "light"))
            .expect(400)
            .json();

    assertThat(problem.path("errors").findValuesAsString("pointer"))
        .containsExactly("#/targetBase");
    ledger.api().get("/trips/X").expect(404);
  }

  @Test
  void the_largest_stand_first_with_their_share_of_base() {
    trip("T", "600 g", "");

    JsonNode first = weights().path("lookAtFirst");
    assertThat(first.findValuesAsString("part")).containsExactly("TARP", "STRAP", "TROWEL");
    assertThat(Double.parseDouble(first.get(0).path("largest").path("shareOfBase").asString()))
        .isCloseTo(400.0 / 660, within(1e-9));
    assertThat(first.get(1).path("rig").asString()).isEqualTo("HANG");
    assertThat(first.get(1).path("quantity").asInt()).isEqualTo(2);
    assertThat(grams(first.get(1).path("mass").path("mass"))).isEqualTo(240);
  }

  @Test
  void what_was_not_used_on_its_trips_is_counted() {
    trip("T", "600 g", "");
    trip("U", "", "");
    for (String code : List.of("T", "U")) {
      JsonNode lines = ledger.api().get("/trips/" + code).json().path("lines");
      ledger
          .api()
          .put(
              "/trips/" + code + "/afterwards",
              Map.of(
                  "things",
                  List.of(
                      Map.of("line", lines.get(3).path("id").asString(), "outcome", "not used"),
                      Map.of("line", lines.get(1).path("id").asString(), "outcome", "used"))))
          .expect(200);
    }

    assertThat(look("TROWEL").path("leastUsed").toString()).isEqualTo("{\"trips\":2,\"unused\":2}");
    assertThat(look("TARP").has("leastUsed")).isFalse();
  }

  @Test
  void a_lighter_part_of_the_same_role_is_named_only_if_it_is_proven_owned_and_at_hand() {
    workshop.weighed("SHEET", "light tarp", "rain", 1, "300 g");
    workshop.weighed("NEAR", "tarp of a gram less", "rain", 1, "399 g");
    workshop.weighed("PLAN", "tarp on paper", "rain", 0, "100 g");
    workshop.weighed("LENT", "lent tarp", "rain", 1, "150 g");
    workshop.weighed("PEG", "peg", "rain", 4, "8 g");
    for (String part : List.of("NEAR", "PLAN", "LENT", "SHEET")) {
      rig("R-" + part, "{\"part\":\"" + part + "\",\"role\":\"tarp\"}");
    }
    rig("R-PEG", "{\"part\":\"PEG\",\"role\":\"stake\"}");
    ledger
        .api()
        .post("/parts/LENT/events", Map.of("kind", "lent", "date", "2027-01-05", "count", 1))
        .expect(201);
    trip("T", "600 g", "");

    JsonNode lighter = look("TARP").path("lighterOwned");
    assertThat(lighter.path("part").asString()).isEqualTo("SHEET");
    assertThat(lighter.path("sameRole").asBoolean()).isTrue();
    assertThat(grams(lighter.path("saves").path("mass"))).isEqualTo(100);
    // By hand, as for two tarps on one scale: u² = 2 (0.5² + 2/12) + (100 × 1 %/√3)².
    assertThat(grams(lighter.path("saves").path("standardUncertainty")))
        .isCloseTo(Math.sqrt(2 * (0.25 + 2.0 / 12) + 1.0 / 3), within(1e-6));
    assertThat(lighter.has("strength")).isFalse();

    ledger
        .api()
        .post("/parts/SHEET/events", Map.of("kind", "retired", "date", "2027-01-05", "count", 1))
        .expect(201);
    assertThat(look("TARP").has("lighterOwned")).isFalse();
  }

  @Test
  void what_is_in_no_rig_is_found_by_its_system_and_what_goes_along_already_is_not() {
    workshop.weighed("TABLE", "tarp from the table", "rain", 1, "250 g");
    workshop.weighed("SPADE", "spade", "hygiene", 1, "8 g");
    workshop.weighed("HOOK", "hook for guy lines", "rain", 1, "15 g");
    trip("T", "600 g", ",{\"part\":\"SPADE\"}");

    JsonNode lighter = look("TARP").path("lighterOwned");
    assertThat(lighter.path("part").asString()).isEqualTo("TABLE");
    assertThat(lighter.path("sameRole").asBoolean(true)).isFalse();
    assertThat(look("TROWEL").has("lighterOwned")).isFalse();
  }

  @Test
  void of_what_carries_load_strength_comes_first() {
    workshop.weighed("THIN", "thin strap", "hang", 2, "60 g");
    rig("R-THIN", "{\"part\":\"THIN\",\"role\":\"tree strap\"}");
    trip("T", "600 g", "");

    assertThat(look("STRAP").path("lighterOwned").path("strength").asString())
        .isEqualTo("not known");
    strength("STRAP", "7 kN", "minimum-breaking");
    assertThat(look("STRAP").path("lighterOwned").path("strength").asString())
        .isEqualTo("not known");
    strength("THIN", "5 kN", "minimum-breaking");
    assertThat(look("STRAP").path("lighterOwned").path("strength").asString()).isEqualTo("weaker");
    strength("THIN", "9 kN", "average-break");
    assertThat(look("STRAP").path("lighterOwned").path("strength").asString())
        .as("of another kind")
        .isEqualTo("not known");

    Element row =
        ledger.pages().get("/trips/T").page().select("[aria-labelledby=target-title] li").get(1);
    assertThat(row.text())
        .startsWith("2 × strap in the hang 240")
        .contains("Whether it is as strong is not known: thin strap is owned and lighter by 120");
    assertThat(row.select("a").eachAttr("href")).containsExactly("/parts/STRAP", "/parts/THIN");

    strength("THIN", "9 kN", "minimum-breaking");
    assertThat(look("STRAP").path("lighterOwned").path("strength").asString())
        .isEqualTo("not weaker");

    // Strength before grams: what holds comes before what is lighter still.
    strength("THIN", "5 kN", "minimum-breaking");
    workshop.weighed("FIRM", "firm strap", "hang", 2, "100 g");
    rig("R-FIRM", "{\"part\":\"FIRM\",\"role\":\"tree strap\"}");
    strength("FIRM", "8 kN", "minimum-breaking");
    assertThat(look("STRAP").path("lighterOwned").path("part").asString()).isEqualTo("FIRM");
  }

  private void strength(String part, String strength, String kind) {
    ledger
        .api()
        .put(
            "/parts/" + part,
            Map.of(
                "name",
                part.equals("THIN") ? "thin strap" : "strap",
                "system",
                "hang",
                "owned",
                "2",
                "strength",
                strength,
                "strengthKind",
                kind))
        .expect(200);
  }

  @Test
  void the_form_keeps_it_and_the_page_holds_the_trip_against_it() {
    trip("T", "", "");
    Pages pages = ledger.pages();
    Answer refused =
        pages.submit(pages.get("/trips/T/edit"), "main form", "targetBase", "light").expect(422);
    assertThat(refused.page().select("[name=targetBase]").val()).isEqualTo("light");
    Document page =
        pages.follow(pages.submit(refused, "main form", "targetBase", "1 lb 4 oz")).page();

    assertThat(page.select("[id=target-title]").text()).isEqualTo("Base weight, at most 1 lb 4 oz");
    // 1 lb 4 oz = 566.99… g; 660 g is 93 g more.
    assertThat(page.select("[id=target-title] + p").text()).startsWith("Over the target by 93");
    assertThat(page.select("[name=target]").val()).isEqualTo("1 lb 4 oz");
    assertThat(ledger.api().get("/trips/T").json().path("targetBase").path("typed").asString())
        .isEqualTo("1 lb 4 oz");
  }
}
