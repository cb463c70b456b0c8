package org.tareline.part.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class PartlyWeighedTest {

  private TestLedger ledger;
  private Api api;

  @BeforeEach
  void aPartUnderConstruction(TestLedger ledger) {
    this.ledger = ledger;
    api = ledger.api();
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\",\"repeatability\":\"0.1 g\"}")
        .expect(201);
    api.post(
            "/materials",
            "{\"code\":\"CLOTH\",\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"tolerance\":\"5 %\"}")
        .expect(201);
    api.post(
            "/materials",
            "{\"code\":\"RING\",\"name\":\"Ring\",\"kind\":\"hardware\",\"nominal\":\"5 g\",\"tolerance\":\"2 %\"}")
        .expect(201);
    part("BODY");
    api.post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"BODY\",\"quantity\":1,\"role\":\"body\"}]}")
        .expect(201);
  }

  private void part(String code) {
    api.post(
            "/parts",
            """
            {"code":"%s","name":"Body","buildSheet":{"cuttingTolerance":"0 mm","lines":[
              {"kind":"panel","shape":"rectangle","name":"sides","material":"CLOTH","quantity":2,"length":"2 m","width":"1 m"},
              {"kind":"each","name":"rings","material":"RING","quantity":4}]}}"""
                .formatted(code))
        .expect(201);
  }

  private JsonNode body() {
    return api.get("/parts/BODY").expect(200).json();
  }

  private String line(int line) {
    return body().at("/buildSheet/lines/" + line + "/id").asString();
  }

  private Answer weigh(String line, String body) {
    return api.post("/parts/BODY/cut-lines/" + line + "/weighings", body);
  }

  private static double grams(JsonNode estimate, String what) {
    return Double.parseDouble(estimate.path(what).path("value").asString());
  }

  @Test
  void a_line_that_was_weighed_counts_as_weighed_and_the_rest_as_calculated() {
    assertThat(body().at("/estimate/basis").asString()).isEqualTo("calculated");

    JsonNode answer =
        weigh(line(0), "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}").expect(201).json();

    // Both sides on the pan, 170 g; four rings of 5 g.
    JsonNode estimate = body().path("estimate");
    assertThat(grams(estimate, "mass")).isEqualTo(190);
    assertThat(estimate.path("basis").asString()).isEqualTo("mixed");
    // d²/6 and s² of the reading, and 2 %/√3 of the rings; of the cloth's 5 % nothing is left
    // (JCGM 100:2008, 5.1.2 and 4.3.7).
    double rings = 20 * 0.02 / Math.sqrt(3);
    assertThat(grams(estimate, "standardUncertainty"))
        .isCloseTo(Math.sqrt(0.01 / 6 + 0.01 + rings * rings), within(1e-8));
    JsonNode weighed = answer.at("/buildSheet/lines/0/weighed");
    assertThat(grams(weighed.path("estimate"), "mass")).isEqualTo(170);
    assertThat(weighed.has("changed")).isFalse();
    assertThat(grams(answer.at("/buildSheet/lines/0/calculated"), "mass")).isEqualTo(160);
    assertThat(answer.at("/buildSheet/lines/1").has("weighed")).isFalse();
    JsonNode calculated = body().path("calculated");
    assertThat(grams(calculated.path("estimate"), "mass")).isEqualTo(190);
    assertThat(grams(calculated.at("/materials/0/estimate"), "mass")).isEqualTo(170);
    assertThat(grams(calculated.at("/materials/1/estimate"), "mass")).isEqualTo(20);
    JsonNode rig = api.get("/rigs/R/roll-up").json().path("estimate");
    assertThat(grams(rig, "mass")).isEqualTo(190);
    assertThat(rig.path("basis").asString()).isEqualTo("mixed");
    assertThat(rig.path("unweighedLines").asInt()).isEqualTo(1);
  }

  @Test
  void one_of_several_alike_speaks_for_all_of_them() {
    weigh(line(1), "{\"scale\":\"K1\",\"readings\":[\"5.4 g\"],\"count\":1}").expect(201);

    assertThat(grams(body().path("estimate"), "mass")).isEqualTo(160 + 21.6, within(1e-9));
  }

  @Test
  void the_part_itself_on_the_scale_beats_its_lines_and_is_held_against_the_list_alone() {
    weigh(line(0), "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}").expect(201);
    api.post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"195 g\"]}")
        .expect(201);

    assertThat(grams(body().path("estimate"), "mass")).isEqualTo(195);
    assertThat(body().at("/estimate/basis").asString()).isEqualTo("weighed");
    assertThat(grams(body().at("/calculatedAgainstWeighed/calculated"), "mass")).isEqualTo(180);
  }

  @Test
  void an_edit_keeps_the_weighing_with_its_line_and_says_when_something_else_is_cut() {
    String id = line(0);
    weigh(id, "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}").expect(201);

    Answer same = api.put("/parts/BODY", body().toString()).expect(200);
    assertThat(same.json().path("buildSheet")).isEqualTo(body().path("buildSheet"));
    assertThat(line(0)).isEqualTo(id);

    api.put("/parts/BODY", body().toString().replace("\"2 m\"", "\"2.1 m\"")).expect(200);
    assertThat(line(0)).isEqualTo(id);
    assertThat(body().at("/buildSheet/lines/0/weighed/changed").asBoolean()).isTrue();
    assertThat(grams(body().path("estimate"), "mass")).isEqualTo(190);

    // Without its id, and in another place, a line that says the same is the same.
    api.put(
            "/parts/BODY",
            """
            {"name":"Body","buildSheet":{"lines":[{"kind":"each","material":"RING"},
              {"kind":"panel","shape":"rectangle","material":"CLOTH","quantity":2,"length":"2.1 m","width":"1 m"}]}}""")
        .expect(200);
    assertThat(line(1)).isEqualTo(id);
    assertThat(grams(body().path("estimate"), "mass")).isEqualTo(175);
  }

  @Test
  void an_edit_that_would_lose_a_weighing_is_refused_until_it_is_struck_out() {
    String weighing =
        weigh(line(0), "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}")
            .expect(201)
            .json()
            .at("/buildSheet/lines/0/weighed/id")
            .asString();
    JsonNode before = body();

    Answer refused = api.put("/parts/BODY", "{\"name\":\"Body\"}").expect(409);

    assertThat(refused.json().at("/errors/0/detail").asString()).contains("sides was weighed");
    assertThat(body()).isEqualTo(before);
    JsonNode struck =
        api.post("/weighings/" + weighing + "/void", "{\"reason\":\"mistyped\"}")
            .expect(200)
            .json();
    assertThat(struck.path("part").asString()).isEqualTo("BODY");
    assertThat(struck.at("/rigs/0/rig").asString()).isEqualTo("R");
    assertThat(grams(body().path("estimate"), "mass")).isEqualTo(180);
    assertThat(body().at("/estimate/basis").asString()).isEqualTo("calculated");
    api.put("/parts/BODY", "{\"name\":\"Body\"}").expect(200);
    assertThat(body().has("buildSheet")).isFalse();
    api.get("/weighings/" + weighing).expect(404);
  }

  @Test
  void what_cannot_be_weighed_is_refused() {
    weigh(line(0), "{\"scale\":\"NONE\",\"readings\":[\"170 g\"]}").expect(400);
    weigh("00000000-0000-0000-0000-000000000000", "{\"scale\":\"K1\",\"readings\":[\"1 g\"]}")
        .expect(404);
    part("OTHER");
    api.post(
            "/parts/OTHER/cut-lines/" + line(0) + "/weighings",
            "{\"scale\":\"K1\",\"readings\":[\"1 g\"]}")
        .expect(404);

    assertThat(body().at("/estimate/basis").asString()).isEqualTo("calculated");
  }

  @Test
  void what_others_cut_is_not_there(TestLedger another) {
    another
        .api()
        .post(
            "/parts/BODY/cut-lines/" + line(0) + "/weighings",
            "{\"tolerance\":\"1 g\",\"readings\":[\"1 g\"]}")
        .expect(404);
  }

  @Test
  void however_many_parts_are_partly_weighed_a_total_takes_as_many_queries() {
    TestServer server = ledger.server();
    weigh(line(0), "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}").expect(201);
    int one = server.statements(() -> api.get("/rigs/R/roll-up").expect(200)).size();
    StringBuilder lines = new StringBuilder("{\"part\":\"BODY\",\"quantity\":1,\"role\":\"body\"}");
    for (int i = 0; i < 5; i++) {
      part("P" + i);
      String id = api.get("/parts/P" + i).json().at("/buildSheet/lines/0/id").asString();
      api.post(
              "/parts/P" + i + "/cut-lines/" + id + "/weighings",
              "{\"scale\":\"K1\",\"readings\":[\"170 g\"]}")
          .expect(201);
      lines.append(",{\"part\":\"P").append(i).append("\",\"quantity\":1,\"role\":\"tarp\"}");
    }
    api.put("/rigs/R", "{\"name\":\"R\",\"lines\":[" + lines + "]}").expect(200);

    assertThat(server.statements(() -> api.get("/rigs/R/roll-up").expect(200))).hasSize(one);
  }

  @Test
  void the_same_key_sent_again_is_answered_as_before_and_kept_once_and_is_of_that_line_alone() {
    String entry = "{\"scale\":\"K1\",\"readings\":[\"158\"],\"key\":\"sides\"}";
    Answer first = weigh(line(0), entry).expect(201);

    assertThat(weigh(line(0), entry).expect(200).body()).isEqualTo(first.body());

    assertThat(weigh(line(1), entry).expect(409).json().path("detail").asString())
        .contains("sides came before with another entry");
    assertThat(
            ledger
                .server()
                .database()
                .queryForObject(
                    "select count(*) from weighing where ledger_id = ?",
                    Integer.class,
                    ledger.member().ledgerId()))
        .isEqualTo(1);
  }
}
