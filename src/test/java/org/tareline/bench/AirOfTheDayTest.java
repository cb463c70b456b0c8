package org.tareline.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** Cloth takes up water: what that does to a weighing, to a change and to a total. */
@FeatureTest
class AirOfTheDayTest {

  /** Readability 0.1 g, one reading: √2 × 0.1/√12. */
  private static final double READ = 0.1 / Math.sqrt(6);

  /**
   * Half of the 4.5 % of nylon (ASTM D1909, commercial regain) of 200 g as limits, so over √3 (JCGM
   * 100:2008, 4.3.7).
   */
  private static final double AIR = 200 * 0.0225 / Math.sqrt(3);

  private Api api;

  @BeforeEach
  void twoQuiltsOfNylonAndAPan(TestLedger ledger) {
    api = ledger.api();
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    for (String code : new String[] {"TOP", "UNDER"}) {
      api.post("/parts", "{\"code\":\"" + code + "\",\"name\":\"A quilt\",\"fibre\":\"nylon\"}")
          .expect(201);
    }
    api.post(
            "/rigs",
            """
            {"code":"WARM","name":"Warm","lines":[
              {"part":"TOP","quantity":1,"role":"top quilt"},{"part":"UNDER","quantity":1,"role":"underquilt"}]}""")
        .expect(201);
  }

  @Test
  void a_weighing_of_a_named_fibre_is_as_unsure_as_the_air_of_its_day() {
    JsonNode top = log("TOP", "200.0 g", "2027-04-11", "dry");

    assertThat(u(top.path("estimate"))).isCloseTo(Math.hypot(READ, AIR), within(1e-8));
    JsonNode kept = api.get("/parts/TOP").expect(200).json();
    assertThat(u(kept.path("estimate"))).isCloseTo(Math.hypot(READ, AIR), within(1e-8));
    assertThat(kept.at("/evidence/0/terms").toString()).contains("air of 2027-04-11 on nylon");
  }

  @Test
  void one_that_was_aired_is_not() {
    assertThat(u(log("TOP", "200.0 g", "2027-04-11", "aired").path("estimate")))
        .isCloseTo(READ, within(1e-9));
  }

  @Test
  void water_taken_up_from_one_day_to_another_is_not_a_change() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    JsonNode damper = log("TOP", "204.0 g", "2027-04-20", "dry");

    double moved = Double.parseDouble(damper.at("/change/mass/value").asString());
    double sure = Double.parseDouble(damper.at("/change/expandedUncertainty/value").asString());
    assertThat(moved).isEqualTo(4);
    assertThat(sure).isGreaterThan(4);
  }

  @Test
  void what_was_weighed_in_the_same_air_shares_it() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    log("UNDER", "200.0 g", "2027-04-11", "dry");

    // Both took up water together: their errors add up straight, and in the difference they cancel.
    assertThat(total()).isCloseTo(Math.hypot(READ * Math.sqrt(2), 2 * AIR), within(1e-8));
    JsonNode again = log("TOP", "200.4 g", "2027-04-11", "dry");
    assertThat(u(again.path("change")))
        .isCloseTo(Math.hypot(READ * Math.sqrt(2), AIR * 0.4 / 200), within(1e-8));
  }

  @Test
  void in_unlike_air_each_is_off_by_itself() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    log("UNDER", "200.0 g", "2027-04-12", "dry");

    assertThat(total()).isCloseTo(Math.hypot(READ, AIR) * Math.sqrt(2), within(1e-8));
  }

  @Test
  void the_ledger_says_how_much_the_air_does() {
    api.put("/settings", "{\"air\":{\"nylon\":\"0 %\"}}").expect(200);

    assertThat(u(log("TOP", "200.0 g", "2027-04-11", "dry").path("estimate")))
        .isCloseTo(READ, within(1e-9));
  }

  @Test
  void what_others_leave_of_a_sum_is_surer_where_they_were_weighed_in_the_same_air() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    api.post(
            "/weighings",
            """
            {"parts":[{"part":"TOP"},{"part":"UNDER"}],"scale":"K1","readings":["400.0 g"],"weighedAt":"2027-04-11"}""")
        .expect(201);

    JsonNode under = api.get("/parts/UNDER").expect(200).json();
    assertThat(u(under.path("estimate")))
        .isCloseTo(Math.hypot(READ * Math.sqrt(2), AIR), within(1e-8));
  }

  @Test
  void a_rig_weighed_whole_in_the_air_of_its_parts_is_held_against_them_as_if_there_were_none() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    log("UNDER", "200.0 g", "2027-04-11", "dry");

    // The whole, and each part, was read once; what the air did is in both sides alike.
    assertThat(u(whole("400.1 g", "2027-04-11").path("residual")))
        .isCloseTo(READ * Math.sqrt(3), within(1e-8));
    JsonNode held = api.get("/rigs/WARM/reconciliation?scope=complete").expect(200).json();
    assertThat(u(held.path("residual"))).isCloseTo(READ * Math.sqrt(3), within(1e-8));
    assertThat(held.path("agrees").asBoolean()).isTrue();
  }

  @Test
  void weighed_whole_in_damper_air_a_rig_is_not_said_to_disagree() {
    log("TOP", "200.0 g", "2027-04-11", "dry");
    log("UNDER", "200.0 g", "2027-04-11", "dry");

    JsonNode whole = whole("408.0 g", "2027-05-02");

    assertThat(u(whole.path("residual")))
        .isCloseTo(Math.hypot(READ * Math.sqrt(3), 2 * AIR * Math.sqrt(2)), within(1e-8));
    assertThat(whole.path("agrees").asBoolean()).isTrue();
  }

  private JsonNode whole(String reading, String day) {
    return api.post(
            "/weighings",
            "{\"rig\":\"WARM\",\"scale\":\"K1\",\"readings\":[\"%s\"],\"weighedAt\":\"%s\"}"
                .formatted(reading, day))
        .expect(201)
        .json();
  }

  private double total() {
    return u(api.get("/rigs/WARM/roll-up").expect(200).json().path("estimate"));
  }

  private JsonNode log(String part, String reading, String day, String condition) {
    return api.post(
            "/weighings",
            "{\"part\":\"%s\",\"scale\":\"K1\",\"readings\":[\"%s\"],\"weighedAt\":\"%s\",\"condition\":\"%s\"}"
                .formatted(part, reading, day, condition))
        .expect(201)
        .json();
  }

  private static double u(JsonNode estimate) {
    return Double.parseDouble(estimate.at("/standardUncertainty/value").asString());
  }
}
