package org.tareline.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** Rigs whole, several parts at once, things sewn on, and pieces one by one. */
@FeatureTest
class OnThePanTest {

  /** Readability 0.1 g, no span tolerance: u of one reading is √2 × 0.1/√12. */
  private static final double ONE = 0.1 / Math.sqrt(6);

  private Api api;

  @BeforeEach
  void aScaleAndSomeParts(TestLedger ledger) {
    api = ledger.api();
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    for (String code : new String[] {"BODY", "LOOP", "STAKE"}) {
      api.post("/parts", "{\"code\":\"" + code + "\",\"name\":\"The " + code + "\",\"owned\":8}")
          .expect(201);
    }
    api.post(
            "/rigs",
            """
            {"code":"HANG","name":"Hang","lines":[
              {"part":"BODY","quantity":1,"role":"body"},{"part":"LOOP","quantity":2,"role":"continuous loop"}]}""")
        .expect(201);
  }

  @Test
  void a_rig_weighed_whole_is_held_against_its_parts_and_replaces_nothing() {
    log("'part':'BODY','readings':['300.0 g']");
    log("'part':'LOOP','readings':['10.0 g']");

    JsonNode whole = log("'rig':'HANG','scope':'anchor-to-anchor','readings':['320.1 g']");

    assertThat(whole.path("rig").asString()).isEqualTo("HANG");
    assertThat(whole.path("scope").asString()).isEqualTo("anchor-to-anchor");
    assertThat(grams(whole.at("/estimate/mass"))).isEqualTo(320.1);
    assertThat(grams(whole.at("/rolledUp/mass"))).isEqualTo(320);
    assertThat(grams(whole.at("/residual/mass"))).isEqualTo(0.1);
    // The whole once, the body once, the loop twice: variances 1 + 1 + 4 of one reading.
    assertThat(grams(whole.at("/residual/standardUncertainty")))
        .isCloseTo(ONE * Math.sqrt(6), within(1e-9));
    assertThat(whole.path("agrees").asBoolean()).isTrue();
    assertThat(whole.path("counts").asBoolean()).isFalse();
    assertThat(grams(api.get("/rigs/HANG/roll-up").expect(200).json().at("/estimate/mass")))
        .isEqualTo(320);

    JsonNode kept = kept(whole);
    assertThat(kept.path("rig").asString()).isEqualTo("HANG");
    assertThat(kept.path("scope").asString()).isEqualTo("anchor-to-anchor");
    assertThat(kept.path("revision").asInt()).isEqualTo(1);
    assertThat(kept.has("part")).isFalse();
  }

  @Test
  void a_whole_that_is_off_by_more_than_its_uncertainty_does_not_agree() {
    log("'part':'BODY','readings':['300.0 g']");
    log("'part':'LOOP','readings':['10.0 g']");

    assertThat(log("'rig':'HANG','readings':['331.0 g']").path("agrees").asBoolean()).isFalse();
  }

  @Test
  void of_a_rig_with_an_unknown_part_it_is_not_said_whether_it_agrees() {
    log("'part':'BODY','readings':['300.0 g']");

    JsonNode whole = log("'rig':'HANG','readings':['320.0 g']");

    assertThat(whole.has("agrees")).isFalse();
    assertThat(grams(whole.at("/rolledUp/mass"))).isEqualTo(300);
  }

  @Test
  void of_several_on_the_pan_the_unknown_one_has_what_the_others_leave() {
    log("'part':'BODY','readings':['300.0 g']");

    JsonNode together =
        log("'parts':[{'part':'BODY'},{'part':'LOOP','quantity':2}],'readings':['321.0 g']");

    assertThat(grams(together.at("/estimate/mass"))).isEqualTo(321);
    assertThat(together.path("counts").asBoolean()).isTrue();
    assertThat(together.at("/parts/0/counts").asBoolean()).isFalse();
    assertThat(together.at("/parts/1/counts").asBoolean()).isTrue();
    assertThat(grams(together.at("/parts/1/estimate/mass"))).isEqualTo(10.5);
    assertThat(grams(together.at("/parts/1/estimate/standardUncertainty")))
        .isCloseTo(ONE * Math.sqrt(2) / 2, within(1e-9));
    assertThat(together.at("/rigs/0/rig").asString()).isEqualTo("HANG");
    // Body and loops together are what was on the pan: the body's own error weighs itself off.
    JsonNode rig = api.get("/rigs/HANG/roll-up").expect(200).json().path("estimate");
    assertThat(grams(rig.path("mass"))).isEqualTo(321);
    assertThat(grams(rig.path("standardUncertainty"))).isCloseTo(ONE, within(1e-9));
    assertThat(kept(together).path("together").asBoolean()).isTrue();
    assertThat(kept(together).path("parts")).hasSize(2);
  }

  @Test
  void what_the_others_leave_moves_with_them_and_ends_when_it_is_struck_out() {
    log("'part':'BODY','readings':['300.0 g']");
    JsonNode together = log("'parts':[{'part':'BODY'},{'part':'LOOP'}],'readings':['312.0 g']");
    JsonNode again = log("'part':'BODY','readings':['301.0 g']");

    assertThat(grams(part("LOOP").at("/estimate/mass"))).isEqualTo(11);
    // 300 + 2 × 12 before, 301 + 2 × 11 now.
    assertThat(grams(again.at("/rigs/0/before/mass"))).isEqualTo(324);
    assertThat(grams(again.at("/rigs/0/after/mass"))).isEqualTo(323);

    JsonNode struck =
        api.post(
                "/weighings/{id}/void", "{\"reason\":\"mistyped\"}", together.path("id").asString())
            .expect(200)
            .json();
    assertThat(struck.path("parts")).hasSize(2);
    assertThat(part("LOOP").path("estimate").isNull()).isTrue();
    log("'part':'LOOP','readings':['9.9 g']");
    assertThat(grams(part("LOOP").at("/estimate/mass"))).isEqualTo(9.9);
  }

  @Test
  void where_two_are_unknown_the_sum_is_shared_out_to_neither() {
    JsonNode together = log("'parts':[{'part':'BODY'},{'part':'LOOP'}],'readings':['312.0 g']");

    assertThat(together.path("counts").asBoolean()).isFalse();
    assertThat(part("BODY").path("estimate").isNull()).isTrue();
    assertThat(part("LOOP").path("estimate").isNull()).isTrue();
    assertThat(part("LOOP").path("evidence")).hasSize(1);
    log("'part':'BODY','readings':['300.0 g']");
    assertThat(grams(part("LOOP").at("/estimate/mass"))).isEqualTo(12);
  }

  @Test
  void a_thing_sewn_on_weighs_the_difference_and_is_as_unsure_as_both_weighings() {
    JsonNode loops = log("'part':'LOOP','before':['812.3 g'],'readings':['815.1 g'],'count':2");

    assertThat(grams(loops.at("/estimate/mass"))).isEqualTo(1.4);
    assertThat(grams(loops.at("/estimate/standardUncertainty")))
        .isCloseTo(ONE * Math.sqrt(2) / 2, within(1e-9));
    assertThat(kept(loops).at("/before/0").asString()).isEqualTo("812.3 g");
    assertThat(grams(part("LOOP").at("/estimate/mass"))).isEqualTo(1.4);
  }

  @Test
  void the_span_of_the_scale_is_off_on_the_difference_alone() {
    api.post(
            "/scales",
            "{\"code\":\"K2\",\"name\":\"Other\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\",\"spanTolerance\":\"1 %\"}")
        .expect(201);

    JsonNode loops =
        api.post(
                "/weighings",
                "{\"part\":\"LOOP\",\"scale\":\"K2\",\"before\":[\"800 g\"],\"readings\":[\"830 g\"]}")
            .expect(201)
            .json();

    // 1 % of 30 g over √3, and not of 830 g.
    assertThat(grams(loops.at("/estimate/standardUncertainty")))
        .isCloseTo(Math.hypot(0.3 / Math.sqrt(3), ONE * Math.sqrt(2)), within(1e-9));
  }

  @Test
  void pieces_weighed_one_by_one_say_what_the_others_weigh_and_how_unlike_they_are() {
    log("'part':'STAKE','piece':'A','readings':['10.0 g']");
    log("'part':'STAKE','piece':'B','readings':['11.0 g']");
    log("'part':'STAKE','piece':'C','readings':['12.9 g']");
    JsonNode third = log("'part':'STAKE','piece':'C','readings':['12.0 g']");

    assertThat(third.path("piece").asString()).isEqualTo("C");
    JsonNode stake = part("STAKE");
    assertThat(grams(stake.at("/estimate/mass"))).isEqualTo(11);
    assertThat(stake.at("/pieces/weighed").asInt()).isEqualTo(3);
    assertThat(grams(stake.at("/pieces/spread"))).isCloseTo(1, within(1e-9));
    // Three in the rig are the three that were weighed; of eight, five are not.
    assertThat(variance(3)).isCloseTo(3 * ONE * ONE, within(1e-8));
    assertThat(variance(8)).isCloseTo(64 * ONE * ONE / 3 + 8 * 5 / 3.0, within(1e-8));
  }

  @Test
  void a_newer_weighing_of_the_part_as_such_counts_for_all_its_pieces() {
    log("'part':'STAKE','piece':'A','readings':['10.0 g']");
    log("'part':'STAKE','readings':['88.0 g'],'count':8");

    assertThat(grams(part("STAKE").at("/estimate/mass"))).isEqualTo(11);
    assertThat(part("STAKE").has("pieces")).isFalse();
  }

  @Test
  void readings_that_stand_apart_are_flagged_and_count() {
    // REFERENCES C4, worked: G = 2.032932 > 1.8871 (n = 6), M(415.0) = 18.548750 > 3.5.
    JsonNode body =
        log("'part':'BODY','readings':['412.1','412.3','412.2','412.4','412.2','415.0 g']");

    assertThat(body.path("flaggedReadings")).hasSize(1);
    assertThat(body.at("/flaggedReadings/0/index").asInt()).isEqualTo(5);
    assertThat(grams(body.at("/flaggedReadings/0/reading"))).isEqualTo(415);
    assertThat(body.at("/flaggedReadings/0/tests").toString())
        .isEqualTo("[\"grubbs\",\"modified z\"]");
    assertThat(grams(body.at("/estimate/mass"))).isEqualTo(412.7);
    assertThat(body.path("notes").toString()).contains("stands apart");
  }

  private double variance(int quantity) {
    String code = "SET-" + quantity;
    api.post(
            "/rigs",
            "{\"code\":\""
                + code
                + "\",\"name\":\"Set\",\"lines\":[{\"part\":\"STAKE\",\"quantity\":"
                + quantity
                + ",\"role\":\"stake\"}]}")
        .expect(201);
    return Math.pow(
        grams(
            api.get("/rigs/{code}/roll-up", code)
                .expect(200)
                .json()
                .at("/estimate/standardUncertainty")),
        2);
  }

  /** Logs on the scale; single quotes stand for double ones. */
  private JsonNode log(String entry) {
    Answer answer = api.post("/weighings", ("{" + entry + ",'scale':'K1'}").replace('\'', '"'));
    return answer.expect(201).json();
  }

  private JsonNode kept(JsonNode answer) {
    return api.get("/weighings/{id}", answer.path("id").asString()).expect(200).json();
  }

  private JsonNode part(String code) {
    return api.get("/parts/{code}", code).expect(200).json();
  }

  private static double grams(JsonNode quantity) {
    assertThat(quantity.path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(quantity.path("value").asString());
  }
}
