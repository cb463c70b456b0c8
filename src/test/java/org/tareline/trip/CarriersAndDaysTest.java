package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** Who carries what, what of a rig stays behind, and the pack from day to day. */
@FeatureTest
class CarriersAndDaysTest {

  private TestLedger ledger;

  @BeforeEach
  void stock(TestLedger fresh) {
    ledger = fresh;
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BODY", "body", "hang", 1, "300 g");
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("TIP", "tip", "hang", 4, "5 g");
    workshop.weighed("POLE", "pole", "other", 2, "250 g");
    workshop.weighed("TARP", "tarp", "rain", 1, "400 g");
    workshop.weighed("CAN", "fuel can", "cook", 1, "350 g");
    workshop.part("POT", "pot", "cook", 1, null);
    workshop.rig("BARS", "bars with tips", 2, "BAR", 4, "TIP");
    workshop.rig("HANG", "hang system", 1, "BODY", 1, ">BARS");
    workshop.rig("RAIN", "rain set", 1, "TARP");
  }

  private JsonNode weights(String lines) {
    return weights(lines, "\"days\":4");
  }

  private JsonNode weights(String lines, String head) {
    ledger
        .api()
        .post("/trips", "{\"code\":\"T\",\"name\":\"t\"," + head + ",\"lines\":[" + lines + "]}")
        .expect(201);
    return ledger.api().get("/trips/T/weights").expect(200).json();
  }

  private static double grams(JsonNode estimate) {
    assertThat(estimate.path("mass").path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(estimate.path("mass").path("value").asString());
  }

  private static double uncertainty(JsonNode estimate) {
    return Double.parseDouble(estimate.path("standardUncertainty").path("value").asString());
  }

  private static List<Double> grams(JsonNode days, String figure) {
    return days.valueStream().map(day -> grams(day.path(figure))).toList();
  }

  private static final String TWO =
      """
      "days":5,"carriers":[{"code":"ANN","name":"Ann","bodyMass":"64 kg"},{"code":"BO"}]
      """;

  private static final String SHARED =
      """
      {"rig":"HANG"},
      {"rig":"RAIN","carrier":"bo"},
      {"part":"POLE","quantity":2,"carry":"worn","standsInFor":[{"rig":"HANG","part":"BAR"}]},
      {"item":{"name":"water","system":"water"},"carrier":"ANN","taken":{"1":"2 L","3":"1 L"},
       "used":{"1":"1 L","2":"1 L","3":"0.5 L"}},
      {"item":{"name":"food","system":"food","mass":"600 g"},"quantity":5,"carry":"consumable","carrier":"BO"}
      """;

  /**
   * By hand: base 300 + 4 × 5 (the poles serve for both bars) with Ann and 400 with Bo; worn 2 ×
   * 250; water 2000 1000 1000 500 500 in the mornings, food 3000 less 600 a day.
   */
  @Test
  void a_trip_of_two_is_what_each_of_them_carries_on_each_day() {
    JsonNode weights = weights(SHARED, TWO);

    assertThat(grams(weights.path("base"))).isEqualTo(720);
    assertThat(grams(weights.path("worn"))).isEqualTo(500);
    assertThat(grams(weights.path("consumables"))).isEqualTo(5000);
    assertThat(grams(weights.path("totalPack"))).isEqualTo(5720);
    assertThat(grams(weights.path("skinOut"))).isEqualTo(6220);
    JsonNode days = weights.path("byDay");
    assertThat(days.valueStream().map(day -> day.path("day").asInt()))
        .containsExactly(1, 2, 3, 4, 5);
    assertThat(grams(days, "start")).containsExactly(5720.0, 4120.0, 3520.0, 2420.0, 1820.0);
    assertThat(grams(days, "end")).containsExactly(4120.0, 2520.0, 2420.0, 1820.0, 1220.0);
    assertThat(grams(days, "mean")).containsExactly(4920.0, 3320.0, 2970.0, 2120.0, 1520.0);
    assertThat(grams(days, "startSkinOut")).containsExactly(6220.0, 4620.0, 4020.0, 2920.0, 2320.0);
    assertThat(weights.path("heaviest").path("day").asInt()).isEqualTo(1);
    assertThat(grams(weights.path("heaviest"))).isEqualTo(5720);
    assertThat(weights.path("lightest").path("day").asInt()).isEqualTo(5);
    assertThat(grams(weights.path("lightest"))).isEqualTo(1220);
    assertThat(grams(weights.path("mean"))).isEqualTo(2970);

    JsonNode ann = weights.path("byCarrier").get(0);
    JsonNode bo = weights.path("byCarrier").get(1);
    assertThat(ann.path("carrier").asString()).isEqualTo("ANN");
    assertThat(ann.path("bodyMass").path("value").asString()).isEqualTo("64");
    assertThat(bo.path("carrier").asString()).isEqualTo("BO");
    assertThat(bo.has("bodyMass")).isFalse();
    assertThat(grams(ann.path("base"))).isEqualTo(320);
    assertThat(grams(ann.path("worn"))).isEqualTo(500);
    assertThat(grams(ann.path("byDay"), "start"))
        .containsExactly(2320.0, 1320.0, 1320.0, 820.0, 820.0);
    assertThat(grams(bo.path("byDay"), "end"))
        .containsExactly(2800.0, 2200.0, 1600.0, 1000.0, 400.0);
    for (String figure : List.of("base", "worn", "consumables", "totalPack", "skinOut")) {
      assertThat(grams(ann.path(figure)) + grams(bo.path(figure)))
          .as(figure)
          .isEqualTo(grams(weights.path(figure)));
    }
  }

  @Test
  void the_error_of_a_day_is_that_of_what_stays_and_of_what_is_left() {
    JsonNode weights = weights(SHARED, TWO);

    // A ledger takes a stated mass to be within 5 %, rectangular; what is left of it as well.
    double base = uncertainty(weights.path("base"));
    double each = 0.05 / Math.sqrt(3);
    JsonNode third = weights.path("byDay").get(2);
    assertThat(uncertainty(third.path("start")))
        .isCloseTo(
            Math.sqrt(base * base + Math.pow(1000 * each, 2) + Math.pow(1800 * each, 2)),
            within(1e-6));
    // Halfway between 1000 and 500 of water, and 1800 and 1200 of food.
    assertThat(uncertainty(third.path("mean")))
        .isCloseTo(
            Math.sqrt(base * base + Math.pow(750 * each, 2) + Math.pow(1500 * each, 2)),
            within(1e-6));
    assertThat(uncertainty(weights.path("byDay").get(4).path("end")))
        .isCloseTo(Math.sqrt(base * base + Math.pow(500 * each, 2)), within(1e-6));
    assertThat(uncertainty(weights.path("byDay").get(0).path("start")))
        .isCloseTo(uncertainty(weights.path("totalPack")), within(1e-9));
  }

  @Test
  void a_part_left_at_home_is_not_counted_and_the_rig_elsewhere_is_whole() {
    JsonNode weights =
        weights(
            """
            {"rig":"HANG","leftAtHome":["BAR","TIP"]},{"rig":"HANG","carry":"worn"}
            """);

    assertThat(grams(weights.path("base"))).isEqualTo(300);
    assertThat(grams(weights.path("worn"))).isEqualTo(520);
  }

  @Test
  void two_of_a_rig_with_one_bar_stood_in_for_have_three_bars() {
    JsonNode weights =
        weights(
            """
            {"rig":"BARS","quantity":2},
            {"part":"POLE","carry":"worn","standsInFor":[{"rig":"BARS","part":"BAR"}]}
            """);

    assertThat(grams(weights.path("base"))).isEqualTo(3 * 100 + 8 * 5);
  }

  @Test
  void a_system_of_a_line_stands_in_for_those_of_its_parts() {
    JsonNode weights =
        weights(
            """
            {"rig":"HANG","system":"sleep"},{"rig":"HANG"},{"part":"POLE","system":"rain"}
            """);

    assertThat(weights.path("bySystem").findValuesAsString("system"))
        .containsExactly("hang", "sleep", "rain");
    assertThat(grams(weights.path("bySystem").get(1).path("total"))).isEqualTo(520);
    assertThat(grams(weights.path("bySystem").get(0).path("total"))).isEqualTo(520);
    assertThat(grams(weights.path("bySystem").get(2).path("total"))).isEqualTo(250);
  }

  @Test
  void fuel_by_volume_weighs_by_its_density_and_a_can_is_used_from() {
    JsonNode weights =
        weights(
            """
            {"item":{"name":"spirit","mass":"300 mL"},"density":"0.79 g/mL","perDay":"50 mL"},
            {"part":"CAN","carry":"consumable","perDay":"40 g"}
            """);

    assertThat(grams(weights.path("consumables"))).isEqualTo(237 + 350);
    // 50 mL of 0.79 g/mL are 39.5 g.
    assertThat(grams(weights.path("byDay"), "end")).containsExactly(507.5, 428.0, 348.5, 269.0);
  }

  @Test
  void without_days_there_is_no_day_by_day() {
    JsonNode weights = weights("{\"part\":\"TARP\"}", "\"note\":\"n\"");

    assertThat(weights.path("byDay")).isEmpty();
    assertThat(weights.path("byCarrier")).isEmpty();
    assertThat(weights.has("heaviest")).isFalse();
    assertThat(weights.has("mean")).isFalse();
  }

  @Test
  void what_a_get_answers_can_be_put_back_as_it_is() {
    weights(
        SHARED
            + """
            ,{"rig":"BARS","leftAtHome":["TIP"],"system":"rain","place":"bag"},
            {"item":{"name":"spirit","mass":"300 mL"},"density":"0.79","perDay":"2 fl oz"}
            """,
        TWO);
    Answer first = ledger.api().get("/trips/T").expect(200);

    Answer put = ledger.api().put("/trips/T", first.body()).expect(200);

    assertThat(put.body().replace("\"revision\":2", "\"revision\":1")).isEqualTo(first.body());
    assertThat(ledger.api().get("/trips/T").expect(200).body()).isEqualTo(put.body());
    JsonNode water = first.json().path("lines").get(3);
    assertThat(water.path("carry").asString()).isEqualTo("consumable");
    assertThat(water.path("taken").path("1").path("value").asString()).isEqualTo("2000");
    assertThat(water.path("taken").path("1").path("unit").asString()).isEqualTo("mL");
    assertThat(water.path("taken").path("1").path("typed").asString()).isEqualTo("2 L");
    assertThat(first.json().path("lines").get(2).path("standsInFor").get(0).path("part").asString())
        .isEqualTo("BAR");
  }

  @Test
  void what_is_used_up_may_be_said_of_the_item() {
    JsonNode weights =
        weights(
            """
            {"item":{"name":"water","taken":{"2":"1 kg"},"used":{"2":"250 g"}},"carry":"consumable"}
            """);

    assertThat(grams(weights.path("consumables"))).isZero();
    assertThat(grams(weights.path("byDay"), "end")).containsExactly(0.0, 750.0, 750.0, 750.0);
  }

  @Test
  void a_change_of_the_amounts_leaves_the_line_the_same() {
    weights(SHARED, TWO);
    String before = ledger.api().get("/trips/T").json().path("lines").get(3).path("id").asString();

    JsonNode after =
        ledger
            .api()
            .put(
                "/trips/T",
                """
                {"code":"T","name":"t","days":2,"lines":[
                  {"item":{"name":"water"},"taken":{"1":"3 L"}}]}
                """)
            .expect(200)
            .json();

    assertThat(after.has("carriers")).isFalse();
    assertThat(after.path("lines").get(0).path("id").asString()).isEqualTo(before);
    assertThat(after.path("lines").get(0).has("used")).isFalse();
    assertThat(grams(ledger.api().get("/trips/T/weights").json().path("consumables")))
        .isEqualTo(3000);
  }

  @Test
  void a_part_that_left_its_rig_may_stay_at_home() {
    weights("{\"rig\":\"HANG\",\"leftAtHome\":[\"BODY\"]}");
    ledger
        .api()
        .put(
            "/rigs/HANG",
            """
            {"code":"HANG","name":"h","lines":[{"rig":"BARS","quantity":1,"role":"spreader bar"}]}
            """)
        .expect(200);

    String trip = ledger.api().get("/trips/T").expect(200).body();
    ledger.api().put("/trips/T", trip).expect(200);

    assertThat(grams(ledger.api().get("/trips/T/weights").json().path("base"))).isEqualTo(220);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"carriers\":[{\"code\":\"A\"},{\"code\":\"a\"}] | | #/carriers/1/code",
        "\"carriers\":[{\"name\":\"A\"}] | | #/carriers/0/code",
        "\"carriers\":[null] | | #/carriers/0/code",
        "\"carriers\":[{\"code\":\"A\",\"bodyMass\":\"-60 kg\"}] | | #/carriers/0/bodyMass",
        "\"days\":3 | {\"part\":\"POT\",\"carrier\":\"A\"} | #/lines/0/carrier",
        "\"days\":3,\"carriers\":[{\"code\":\"A\"}] | {\"part\":\"POT\",\"carrier\":\"B\"} | #/lines/0/carrier",
        "\"days\":3 | {\"part\":\"POT\",\"system\":\"toys\"} | #/lines/0/system",
        "\"days\":3 | {\"part\":\"POT\",\"leftAtHome\":[\"POT\"]} | #/lines/0/leftAtHome/0",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"leftAtHome\":[\"POT\"]} | #/lines/0/leftAtHome/0",
        "\"days\":3 | {\"rig\":\"HANG\",\"leftAtHome\":[\"POT\"]} | #/lines/0/leftAtHome/0",
        "\"days\":3 | {\"rig\":\"HANG\",\"leftAtHome\":[\"NONE\"]} | #/lines/0/leftAtHome/0",
        "\"days\":3 | {\"rig\":\"HANG\",\"leftAtHome\":[\"BAR\",\"bar\"]} | #/lines/0/leftAtHome/1",
        "\"days\":3 | {\"rig\":\"HANG\",\"leftAtHome\":[null]} | #/lines/0/leftAtHome/0",
        "\"days\":3 | {\"part\":\"POLE\",\"standsInFor\":[{\"rig\":\"NONE\",\"part\":\"BAR\"}]} | #/lines/0/standsInFor/0/rig",
        "\"days\":3 | {\"part\":\"POLE\",\"standsInFor\":[{\"rig\":\"HANG\",\"part\":\"NONE\"}]} | #/lines/0/standsInFor/0/part",
        "\"days\":3 | {\"part\":\"POLE\",\"standsInFor\":[{\"rig\":\"HANG\"}]} | #/lines/0/standsInFor/0/part",
        "\"days\":3 | {\"part\":\"POLE\",\"standsInFor\":[{\"part\":\"BAR\"}]} | #/lines/0/standsInFor/0/rig",
        "\"days\":3 | {\"rig\":\"HANG\"},{\"part\":\"POLE\",\"quantity\":2,\"standsInFor\":[{\"rig\":\"HANG\",\"part\":\"BAR\"}]},{\"part\":\"CAN\",\"standsInFor\":[{\"rig\":\"BARS\",\"part\":\"BAR\"}]} | #/lines/2/standsInFor/0",
        "\"days\":3 | {\"rig\":\"HANG\"},{\"part\":\"POLE\",\"standsInFor\":[{\"rig\":\"HANG\",\"part\":\"BAR\"},{\"rig\":\"HANG\",\"part\":\"TIP\"}]} | #/lines/1/standsInFor/1",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"4\":\"1 kg\"}} | #/lines/0/taken/4",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"1\":\"1 kg\"},\"used\":{\"0\":\"1 kg\"}} | #/lines/0/used/0",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"one\":\"1 kg\"}} | #/lines/0/taken",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"1\":\"-1 kg\"}} | #/lines/0/taken/1",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"1\":\"1 kg\",\"01\":\"1 kg\"}} | #/lines/0/taken",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"taken\":{\"1\":null}} | #/lines/0/taken/1",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"used\":{\"2\":\"-5 g\"}} | #/lines/0/used/2",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"perDay\":\"0 g\"} | #/lines/0/perDay",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"perDay\":\"5 m\"} | #/lines/0/perDay",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"perDay\":\"5 g\",\"used\":{\"1\":\"5 g\"}} | #/lines/0/perDay",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"taken\":{\"1\":\"5 g\"}} | #/lines/0/item/mass",
        "\"days\":3 | {\"item\":{\"name\":\"x\"},\"quantity\":2,\"taken\":{\"1\":\"5 g\"}} | #/lines/0/quantity",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"taken\":{\"1\":\"5 g\"}},\"taken\":{\"1\":\"5 g\"}} | #/lines/0/item",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"taken\":{\"9\":\"5 g\"}}} | #/lines/0/item/taken/9",
        "\"days\":3 | {\"part\":\"POT\",\"taken\":{\"1\":\"5 g\"}} | #/lines/0/taken",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"carry\":\"worn\",\"perDay\":\"5 g\"} | #/lines/0/carry",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 L\"},\"density\":\"0\"} | #/lines/0/density",
        "\"days\":3 | {\"item\":{\"name\":\"x\",\"mass\":\"1 L\"},\"density\":\"2 g\"} | #/lines/0/density",
        "\"note\":\"n\" | {\"item\":{\"name\":\"x\"},\"taken\":{\"1\":\"5 g\"}} | #/days",
        "\"note\":\"n\" | {\"item\":{\"name\":\"x\",\"mass\":\"1 kg\"},\"perDay\":\"5 g\"} | #/days"
      })
  void bad_input_is_pointed_to_and_writes_nothing(
      String head, String lines, String pointer, TestServer server) {
    JsonNode problem =
        ledger
            .api()
            .post(
                "/trips",
                "{\"code\":\"T\",\"name\":\"t\","
                    + head
                    + ",\"lines\":["
                    + (lines == null ? "" : lines)
                    + "]}")
            .expect(400)
            .json();

    assertThat(problem.path("errors").findValuesAsString("pointer")).containsExactly(pointer);
    for (String table : List.of("trip", "trip_line", "trip_carrier", "trip_line_amount")) {
      assertThat(
              server.count(
                  "select count(*) from " + table + " where ledger_id = ?",
                  ledger.member().ledgerId()))
          .as(table)
          .isZero();
    }
  }

  @Test
  void a_refused_change_leaves_carriers_and_amounts_as_they_were() {
    weights(SHARED, TWO);
    String before = ledger.api().get("/trips/T").body();

    ledger
        .api()
        .put(
            "/trips/T",
            """
            {"code":"T","name":"t","days":2,"carriers":[{"code":"CY"}],"lines":[
              {"item":{"name":"water"},"taken":{"1":"3 L","3":"1 L"}}]}
            """)
        .expect(400);

    assertThat(ledger.api().get("/trips/T").body()).isEqualTo(before);
  }

  @Test
  void another_ledgers_rig_is_not_there_to_be_served_for(TestServer server) {
    TestLedger other = server.openLedger();
    other.api().post("/rigs", "{\"code\":\"THEIRS\",\"name\":\"n\",\"lines\":[]}").expect(201);

    JsonNode problem =
        ledger
            .api()
            .post(
                "/trips",
                """
                {"code":"T","name":"t","lines":[
                  {"part":"POLE","standsInFor":[{"rig":"THEIRS","part":"BAR"}]}]}
                """)
            .expect(400)
            .json();

    assertThat(problem.path("errors").findValuesAsString("pointer"))
        .containsExactly("#/lines/0/standsInFor/0/rig");
  }

  /** Within the nanogram of the halving. */
  @Test
  void odd_nanograms_are_halved_to_even() {
    JsonNode weights =
        weights(
            "{\"item\":{\"name\":\"x\",\"mass\":\"0.000000003 g\"},\"carry\":\"consumable\"}",
            "\"days\":1");

    assertThat(new BigDecimal(weights.path("mean").path("mass").path("value").asString()))
        .isEqualByComparingTo("0.000000002");
  }
}
