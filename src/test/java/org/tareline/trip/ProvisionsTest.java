package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** Fuel, food and pace: at the API with the published figures, and on the page of a trip. */
@FeatureTest
class ProvisionsTest {

  private TestLedger ledger;

  @BeforeEach
  void own(TestLedger ledger) {
    this.ledger = ledger;
  }

  private JsonNode reckoned(String what, String body) {
    JsonNode answer = ledger.api().post("/provisions/" + what, body).expect(200).json();
    assertThat(answer.path("rough").asBoolean(false)).isTrue();
    for (JsonNode each : answer.path("results")) {
      assertThat(each.path("formula").asString("")).isNotEmpty();
      assertThat(each.path("coefficients").size()).isPositive();
      assertThat(each.path("range").asString("")).isNotEmpty();
      assertThat(each.path("source").asString("")).isNotEmpty();
      assertThat(each.path("figures").isEmpty()).isEqualTo(each.has("outside"));
    }
    return answer.path("results");
  }

  private static JsonNode of(JsonNode results, String of) {
    for (JsonNode each : results) {
      if (each.path("of").asString().equals(of)) {
        return each;
      }
    }
    throw new AssertionError("nothing of " + of);
  }

  private static double figure(JsonNode result, String name) {
    for (JsonNode each : result.path("figures")) {
      if (each.path("name").asString().equals(name)) {
        return Double.parseDouble(each.path("figure").path("value").asString());
      }
    }
    throw new AssertionError("no figure " + name + " in " + result);
  }

  /** REFERENCES G: 0.5 kg from 10 to 100 °C at 46 MJ/kg and 50 % takes 8.197826 g. */
  @Test
  void fuel_for_water() {
    JsonNode fuel =
        of(
            reckoned(
                "fuel",
                """
                {"water":"0.25 kg","people":2,"from":"tap","heat":"46 MJ/kg","efficiency":"50 %"}"""),
            "fuel");

    assertThat(figure(fuel, "heat into the water")).isCloseTo(188.55, within(1e-9));
    assertThat(figure(fuel, "fuel")).isCloseTo(8.197826, within(5e-7));
    assertThat(fuel.path("figures").path(1).path("figure").path("unit").asString()).isEqualTo("g");
  }

  /** By hand: 2 L at 20 °C are 1.9964134 kg (Tanaka), 1.9964134 × 4.19 × 76 = 635.738 kJ. */
  @Test
  void a_volume_is_weighed_at_its_temperature_and_boils_lower_up_high() {
    JsonNode fuel =
        of(
            reckoned(
                "fuel",
                """
                {"water":"2 L","temperature":"68 °F","altitude":"1200 m","fuel":"ethanol","efficiency":"40 %"}"""),
            "fuel");

    assertThat(figure(fuel, "heat into the water")).isCloseTo(635.738, within(0.001));
  }

  /** REFERENCES G: 100 g of P 12, F 30, C 50 are 518 kcal, and 2164 kJ on an EU label. */
  @Test
  void energy_of_food_for_each_person_and_day() {
    JsonNode food =
        reckoned(
            "food",
            """
            {"mass":"600 g","people":2,"days":3,"protein":"12","fat":"30 g","carbohydrate":50,"energyPerMass":"125 kcal/oz"}""");

    assertThat(figure(of(food, "atwater"), "a person and day, in kcal"))
        .isCloseTo(518, within(1e-9));
    assertThat(figure(of(food, "eu-label"), "a person and day, in kJ"))
        .isCloseTo(2164, within(1e-9));
    assertThat(figure(of(food, "by-mass"), "a person and day, in kcal"))
        .isCloseTo(440.9245, within(5e-5));
  }

  /** REFERENCES G: 12 km and 900 m up are 3.9 h, 3.961863 h by the rule as first printed. */
  @Test
  void hours_of_a_day_and_what_they_cost() {
    JsonNode pace =
        reckoned(
            "pace",
            """
            {"distance":"12 km","ascent":"900 m","body":"70","load":"20 kg","speed":"1.34 m/s","slope":"0 %"}""");

    assertThat(figure(of(pace, "naismith"), "time on the move")).isCloseTo(3.9, within(1e-12));
    assertThat(figure(of(pace, "naismith-1892"), "time on the move"))
        .isCloseTo(3.961863, within(5e-7));
    assertThat(figure(of(pace, "tobler"), "speed")).isCloseTo(5.036742, within(5e-7));
    // REFERENCES G: Pandolf, 70 kg, 20 kg, 1.34 m/s on the level.
    assertThat(figure(of(pace, "pandolf"), "power of the body"))
        .isCloseTo(362.099878, within(5e-7));
    assertThat(figure(of(pace, "pandolf"), "energy of the way"))
        .isCloseTo(311.558212 * 12 / 1.34 / 3.6, within(1e-5));
    assertThat(figure(of(pace, "lcda"), "power of the body"))
        .isCloseTo(70 * 4.413976, within(5e-5));
  }

  @Test
  void outside_of_what_a_formula_was_made_for_there_is_no_figure_and_it_says_so() {
    JsonNode pace =
        reckoned(
            "pace",
            """
            {"distance":"1 km","ascent":"600 m","body":"70 kg","load":"0 kg","slope":"-60 %"}""");

    for (String of : new String[] {"naismith", "naismith-1892", "tobler", "pandolf", "lcda"}) {
      assertThat(of(pace, of).path("outside").asString())
          .startsWith("Outside what the formula was made for: ");
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "fuel|{}|water fuel efficiency",
        "fuel|{\"water\":\"1 L\",\"fuel\":\"coal\",\"efficiency\":\"50 %\"}|fuel",
        "fuel|{\"water\":\"1 L\",\"fuel\":\"propane\",\"heat\":\"46 MJ/kg\",\"efficiency\":\"50 %\"}|heat",
        "fuel|{\"water\":\"1 L\",\"fuel\":\"propane\",\"efficiency\":\"101 %\"}|efficiency",
        "fuel|{\"water\":\"1 L\",\"fuel\":\"propane\",\"efficiency\":\"0.5\"}|efficiency",
        "fuel|{\"water\":\"0 L\",\"people\":0,\"days\":\"x\",\"fuel\":\"propane\",\"efficiency\":\"5 %\"}|people days water",
        "fuel|{\"water\":\"1 L\",\"from\":\"snow\",\"temperature\":\"3 °C\",\"fuel\":\"propane\",\"efficiency\":\"50 %\"}|temperature",
        "fuel|{\"water\":\"1 L\",\"from\":\"lake\",\"temperature\":\"-3 °C\",\"fuel\":\"propane\",\"efficiency\":\"50 %\"}|temperature",
        "fuel|{\"water\":\"1 L\",\"to\":\"4 °C\",\"fuel\":\"propane\",\"efficiency\":\"50 %\"}|to",
        "food|{}|mass energyPerMass",
        "food|{\"mass\":\"1 kg\",\"energyPerMass\":\"450 kcal\"}|energyPerMass",
        "food|{\"mass\":\"1 kg\",\"fat\":\"-3\",\"fibre\":\"1 mL\"}|fat fibre",
        "pace|{}|distance",
        "pace|{\"distance\":\"12\",\"ascent\":\"-5 m\",\"slope\":\"5\",\"terrain\":\"moon\",\"speed\":\"fast\"}|distance ascent slope terrain speed",
        "pace|{\"distance\":\"12 km\",\"body\":\"70 kg\"}|load",
        "pace|{\"distance\":\"12 km\",\"body\":\"0 kg\",\"load\":\"3 km\"}|body load"
      })
  void a_refusal_names_each_field(String what, String body, String fields) {
    Answer refused = ledger.api().post("/provisions/" + what, body).expect(400);

    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactly(Arrays.stream(fields.split(" ")).map("#/"::concat).toArray(String[]::new));
  }

  private void trip() {
    ledger
        .api()
        .post("/parts", Map.of("code", "PACK", "name", "Pack", "stated", Map.of("mass", "1.2 kg")))
        .expect(201);
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"T","name":"Trip","days":4,"carriers":[{"code":"ANN","bodyMass":"64 kg"},{"code":"BEA"}],
             "lines":[{"part":"PACK"},
              {"item":{"name":"oats","system":"food","mass":"500 g"},"quantity":2,"carry":"consumable"},
              {"item":{"name":"bought","system":"food","taken":{"1":"300 g","3":"700 g"}},"carry":"consumable","carrier":"BEA"},
              {"item":{"name":"spirit","system":"cook","mass":"200 g"},"carry":"consumable"}]}""")
        .expect(201);
  }

  private Answer sent(String... namesAndValues) {
    Pages pages = ledger.pages();
    return pages.submit(pages.get("/trips/T/provisions").expect(200), "main form", namesAndValues);
  }

  private static String typed(Document page, String field) {
    return page.select("[name='" + field + "']").val();
  }

  @Test
  void the_page_knows_what_the_trip_knows() {
    trip();

    Document page = ledger.pages().get("/trips/T/provisions").expect(200).page();

    assertThat(typed(page, "fuel.people")).isEqualTo("2");
    assertThat(typed(page, "food.days")).isEqualTo("4");
    // Oats twice, and all that is bought on the way.
    assertThat(typed(page, "food.mass")).isEqualTo("2000 g");
    assertThat(typed(page, "pace.body")).isEqualTo("64 kg");
    assertThat(typed(page, "pace.load")).isEqualTo("2400 g");
    assertThat(page.text())
        .contains(
            "ANN: 2400 g", "worn and carried on the first morning; body 64 kg.", "BEA: 300 g");
    assertThat(page.select(".reckoning")).isEmpty();
    // What a body weighs is sent, and stands in no address.
    assertThat(page.select("main form").attr("method")).isEqualTo("post");
    assertThat(page.select("main form [name=_csrf]").val()).isNotEmpty();
  }

  @Test
  void the_page_shows_the_sum_step_by_step_and_keeps_what_was_typed() {
    trip();

    Document page =
        sent(
                "work",
                "pace",
                "pace.distance",
                "12 km",
                "pace.ascent",
                "900 m",
                "fuel.water",
                "0.5 kg",
                "fuel.people",
                "1",
                "fuel.days",
                "1",
                "fuel.from",
                "tap",
                "fuel.heat",
                "46 MJ/kg",
                "fuel.efficiency",
                "50 %")
            .expect(200)
            .page();

    Element pace = page.expectFirst("section[aria-labelledby=pace-title]");
    assertThat(pace.text()).contains("about 3 h 55 min", "12 km ÷ 5 km/h", "900 m ÷ 600 m/h");
    Element fuel = page.expectFirst("section[aria-labelledby=fuel-title]");
    assertThat(fuel.text())
        .contains("about 8.2 g", "188.55 kJ ÷ 0.5", "common practice, no source");
    assertThat(page.select("section[aria-labelledby=food-title] .reckoning")).isEmpty();
    assertThat(typed(page, "fuel.heat")).isEqualTo("46 MJ/kg");
    assertThat(typed(page, "pace.ascent")).isEqualTo("900 m");
    assertThat(typed(page, "food.mass")).isEqualTo("2000 g");
  }

  @Test
  void what_stands_in_a_field_is_what_is_reckoned_with() {
    trip();

    Document page = sent("food.energyPerMass", "4 kcal/g").expect(200).page();

    // 2000 g by 4 kcal/g for two people and four days.
    assertThat(page.select(".reckoning__figures").text()).contains("about 1000 kcal");
  }

  @Test
  void the_page_refuses_at_the_field_and_keeps_what_was_typed() {
    trip();

    Document page =
        sent("work", "fuel", "fuel.water", "much", "fuel.efficiency", "45", "pace.distance", "9 km")
            .expect(422)
            .page();

    assertThat(page.select(".errors a").eachAttr("href"))
        .containsExactly("#fuel-water", "#fuel-fuel", "#fuel-efficiency");
    assertThat(typed(page, "fuel.water")).isEqualTo("much");
    assertThat(page.select("#fuel-efficiency").attr("aria-invalid")).isEqualTo("true");
    // What could be read is worked out all the same.
    assertThat(page.select("section[aria-labelledby=pace-title] .reckoning")).isNotEmpty();
  }

  @Test
  void an_address_that_was_made_before_shows_the_page_and_reckons_with_nothing() {
    trip();

    Document page =
        ledger
            .pages()
            .get("/trips/T/provisions?work=pace&pace.distance=9+km&pace.body=80+kg")
            .expect(200)
            .page();

    assertThat(page.select(".reckoning")).isEmpty();
    assertThat(typed(page, "pace.body")).isEqualTo("64 kg");
  }

  @Test
  void what_was_not_sent_from_the_form_is_refused_and_what_sends_nothing_reckons_with_nothing() {
    trip();
    Pages pages = ledger.pages();
    String token = pages.get("/trips/T/provisions").page().select("[name=_csrf]").val();

    pages.forge("/trips/T/provisions", "work", "pace", "pace.distance", "9 km").expect(403);
    Document page =
        pages.forge("/trips/T/provisions", "_csrf", token, "work", "pace").expect(200).page();

    assertThat(page.select(".reckoning")).isEmpty();
  }

  @Test
  void another_ledger_has_no_such_page(TestServer server) {
    trip();

    server.openLedger().pages().get("/trips/T/provisions").expect(404);
  }
}
