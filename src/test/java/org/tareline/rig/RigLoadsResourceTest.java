package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class RigLoadsResourceTest {

  private static final String ENDS = "\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]";

  private TestLedger ledger;
  private Api api;

  @BeforeEach
  void aRigOfThreeParts(TestLedger fresh) {
    ledger = fresh;
    api = fresh.api();
    api.post(
            "/materials",
            """
            {"code":"WEB","name":"Webbing","kind":"webbing","nominal":"15 g/m","strength":"1500 lbf"}""")
        .expect(201);
    api.post(
            "/parts",
            """
            {"code":"STRAP","name":"Strap","system":"hang","owned":"2",
             "buildSheet":{"lines":[{"kind":"length","material":"WEB","length":"3 m"}]}}""")
        .expect(201);
    api.post(
            "/parts",
            """
            {"code":"LINE","name":"Line","system":"hang","owned":"2","strength":"7 kN","strengthKind":"average-break"}""")
        .expect(201);
    api.post("/parts", "{\"code\":\"BODY\",\"name\":\"Body\",\"system\":\"hang\"}").expect(201);
    api.post(
            "/rigs",
            """
            {"code":"R","name":"Rig","lines":[{"part":"STRAP","quantity":2,"role":"tree strap"},
             {"part":"LINE","quantity":2,"role":"suspension"},{"part":"BODY","role":"body"}]}""")
        .expect(201);
  }

  private JsonNode loads() {
    return api.get("/rigs/R/loads").expect(200).json();
  }

  private static double number(JsonNode json, String pointer) {
    return Double.parseDouble(json.at(pointer).asString());
  }

  @Test
  void without_a_set_up_nothing_is_known_and_the_cautions_are_said() {
    JsonNode json = loads();

    assertThat(json.path("hung").isNull()).isTrue();
    assertThat(json.path("verdict").asString()).isEqualTo("not known");
    assertThat(json.path("cautions").isEmpty()).isFalse();
    assertThat(json.path("nothingSaidOf").valueStream().map(JsonNode::asString))
        .containsExactly("STRAP", "LINE", "BODY");
    api.get("/rigs/R/loads/set-up").expect(404);
  }

  @Test
  void strengths_come_from_the_part_or_its_webbing_and_terminations_have_a_source() {
    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"80 kg","hangs":"5 kg",%s,"elements":[
              {"part":"STRAP","where":"tree strap","termination":"sewn","terminationFactor":"0.8","terminationSource":"pulled three"},
              {"part":"LINE","where":"suspension","termination":"knotted"}]}"""
                .formatted(ENDS))
        .expect(200);
    JsonNode json = loads();

    // J2.47: 1500 lbf, 0.8, 85 kg at 30°: factor 6.40366.
    assertThat(number(json, "/elements/0/factor")).isCloseTo(6.40366, within(5e-6));
    assertThat(json.at("/elements/0/verdict").asString()).isEqualTo("meets");
    assertThat(json.at("/parts/0/material").asString()).isEqualTo("WEB");
    assertThat(json.at("/parts/0/terminationSource").asString()).isEqualTo("pulled three");
    assertThat(json.at("/parts/1/terminationSource").asString()).contains("CI 1401");
    assertThat(json.at("/parts/1/strengthKind").asString()).isEqualTo("average-break");
    // 7 kN × (0.65 ± 0.15) over 833.565 N.
    assertThat(number(json, "/elements/1/factorLow")).isCloseTo(3500 / 833.56525, within(1e-6));
    assertThat(json.at("/elements/1/verdict").asString()).isEqualTo("below");
    assertThat(json.path("verdict").asString()).isEqualTo("below");
    assertThat(json.at("/least/name").asString()).isEqualTo("LINE");
    assertThat(json.path("nothingSaidOf").valueStream().map(JsonNode::asString))
        .containsExactly("BODY");
  }

  @Test
  void the_ends_come_in_by_body_lines_trees_and_knots_and_what_is_not_said_is_not_nothing() {
    String hung =
        """
        {"lies":"85 kg",%s,%s"elements":[
          {"part":"LINE","where":"suspension","termination":"as rated","length":"2 m","breakingStretch":"3.5 %%"}%s]}""";
    api.put(
            "/rigs/R/loads/set-up",
            hung.formatted(
                ENDS,
                "\"bodyEdge\":{\"span\":\"2.1 m\",\"sag\":\"35 cm\"},\"gives\":{\"tree\":\"1 cm ± 0.5 cm\",\"settling\":\"8 mm\"},",
                ""))
        .expect(200);
    JsonNode all = loads().path("comesIn");

    // By hand: 2 m × 3.5 % × 833.56525 N / 7 kN at each end, times cos 30°.
    assertThat(number(all, "/lines/value")).isCloseTo(0.014437773, within(1e-9));
    // 8 mm at each end, times cos 30°.
    assertThat(number(all, "/settling/value")).isCloseTo(0.0138564065, within(1e-10));
    assertThat(number(all, "/trees/value")).isCloseTo(0.02, within(1e-12));
    assertThat(number(all, "/trees/low")).isCloseTo(0.01, within(1e-12));
    // Hicks, Civil Engineering Formulas, eq. 10.59: 8/3 n² − 32/5 n⁴ + 256/7 n⁶ of the span, n =
    // 1/6; the first term left out is 0.00017 of it.
    assertThat(number(all, "/body/value"))
        .isCloseTo(2.1 * (0.0740741 - 0.0049383 + 0.0007838), within(2.1 * 0.00018));
    assertThat(number(all, "/total/value"))
        .isCloseTo(number(all, "/body/value") + 0.014437773 + 0.0138564065 + 0.02, within(1e-9));
    assertThat(all.path("atLeast").asBoolean()).isFalse();
    assertThat(all.path("ridgeLineLonger").isNull()).isTrue();

    api.put(
            "/rigs/R/loads/set-up",
            hung.formatted(ENDS, "", ",{\"part\":\"STRAP\",\"where\":\"tree strap\"}"))
        .expect(200);
    JsonNode some = loads().path("comesIn");
    assertThat(some.path("trees").isNull()).isTrue();
    assertThat(some.path("body").isNull()).isTrue();
    assertThat(some.path("atLeast").asBoolean()).isTrue();
    assertThat(some.at("/total/value")).isEqualTo(some.at("/lines/value"));

    api.put(
            "/rigs/R/loads/set-up",
            hung.formatted(ENDS, "\"gives\":{\"tree\":\"-1 cm\",\"settling\":\"3 m\"},", ""))
        .expect(400);
    api.put("/rigs/R/loads/set-up", hung.formatted(ENDS, "\"gives\":{\"tree\":\"0 cm\"},", ""))
        .expect(200);
    assertThat(loads().at("/comesIn/trees/value").asString()).isEqualTo("0");
  }

  @Test
  void a_body_without_bars_comes_in_by_between_a_chain_and_a_load_in_its_middle() {
    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"1000 N","ridgeLine":{"length":"2.49 m","flatLength":"3 m"},
             "ends":[{"angle":"25 deg"},{"angle":"25 deg"}]}""")
        .expect(200);
    JsonNode body = loads().at("/comesIn/body");

    // The body hangs at acos 0.83, with the ridge line taut: between 3 m − 2.49 m, its triangle,
    // and 3 m (1 − asinh(tan) / tan) by hand.
    assertThat(number(body, "/high")).isCloseTo(0.51, within(1e-9));
    double tangent = Math.sqrt(1 / (0.83 * 0.83) - 1);
    double asinh = Math.log(tangent + 1 / 0.83);
    assertThat(number(body, "/low")).isCloseTo(3 * (1 - asinh / tangent), within(1e-9));
  }

  @Test
  void what_is_sewn_or_not_said_or_no_longer_there_is_not_known() {
    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"80 kg",%s,"elements":[{"part":"STRAP","where":"tree strap","termination":"sewn"},
              {"part":"LINE","where":"suspension"}]}"""
                .formatted(ENDS))
        .expect(200);
    assertThat(loads().path("elements").valueStream().map(one -> one.path("verdict").asString()))
        .containsExactly("not known", "not known");

    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"80 kg",%s,"elements":[{"part":"LINE","where":"suspension","termination":"as rated"}]}"""
                .formatted(ENDS))
        .expect(200);
    assertThat(loads().path("verdict").asString()).isEqualTo("meets");
    api.put("/rigs/R", "{\"name\":\"Rig\",\"lines\":[{\"part\":\"BODY\",\"role\":\"body\"}]}")
        .expect(200);
    assertThat(loads().at("/parts/0/gone").asBoolean()).isTrue();
    assertThat(loads().path("verdict").asString()).isEqualTo("not known");
  }

  @Test
  void a_ridge_line_by_its_length_sets_the_angle_of_the_body() {
    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"1000 N","ridgeLine":{"length":"2.49 m","flatLength":"3 m"},"ends":[{},{}]}""")
        .expect(200);
    JsonNode json = loads();
    // F27: acos 0.83 = 33.901262°, the ridge line just taut.
    assertThat(number(json, "/ends/0/angle/value")).isCloseTo(33.901262, within(5e-7));
    assertThat(json.at("/ridgeLine/tension/value").asString()).isEqualTo("0");

    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"1000 N","ridgeLine":{"length":"2.49 m","flatLength":"3 m"},"ends":[{"angle":"25 deg"},{"angle":"25 deg"}]}""")
        .expect(200);
    json = loads();
    double taut = 500 * (1 / Math.tan(Math.toRadians(25)) - 1 / Math.tan(Math.acos(0.83)));
    assertThat(number(json, "/ridgeLine/tension/value")).isCloseTo(taut, within(1e-9));
    assertThat(number(json, "/ends/1/bodyPull/value"))
        .isCloseTo(500 / Math.sin(Math.acos(0.83)), within(1e-9));
  }

  @Test
  void the_ledgers_design_factor_holds_where_the_set_up_says_none() {
    String hung =
        """
        {"lies":"80 kg",%s%s,"elements":[{"part":"LINE","where":"suspension","termination":"as rated"}]}""";
    api.put("/rigs/R/loads/set-up", hung.formatted(ENDS, "")).expect(200);
    assertThat(loads().path("designFactor").asString()).isEqualTo("5");
    api.put("/settings", "{\"designFactor\":\"10\"}").expect(200);
    assertThat(loads().path("designFactor").asString()).isEqualTo("10");
    assertThat(loads().path("verdict").asString()).isEqualTo("below");
    api.put("/rigs/R/loads/set-up", hung.formatted(ENDS, ",\"designFactor\":\"6\"")).expect(200);
    assertThat(loads().path("designFactor").asString()).isEqualTo("6");
    api.put("/settings", "{\"designFactor\":\"0.5\"}").expect(400);
  }

  @Test
  void what_was_said_can_be_put_back_and_is_guarded() {
    api.put(
            "/rigs/R/loads/set-up",
            """
            {"lies":"80 kg ± 2 kg","hangs":"5 kg","dynamicAllowance":"1.5","ridgeLine":{"length":"2.5 m","flatLength":"3 m"},
             "bodyEdge":{"span":"2 m","sag":"0.4 m"},
             "ends":[{"angle":"28 deg ± 2 deg","bar":{"length":"0.9 m","leg":"0.7 m","outerDiameter":"14 mm","wall":"1 mm","modulus":"110 GPa"}},
                     {"run":"2 m","rise":"1.1 m"}],
             "elements":[{"part":"LINE","where":"leg","termination":"spliced","length":"0.7 m","breakingStretch":"4 %"}]}""")
        .expect(200);
    Answer first = api.get("/rigs/R/loads/set-up").expect(200);
    assertThat(first.header("ETag")).isEqualTo("\"1\"");
    api.with("If-Match", "\"1\"").put("/rigs/R/loads/set-up", first.body()).expect(200);
    assertThat(api.get("/rigs/R/loads/set-up").expect(200).body()).isEqualTo(first.body());
    api.with("If-Match", "\"1\"").put("/rigs/R/loads/set-up", first.body()).expect(412);
    assertThat(number(loads(), "/load/value")).isCloseTo(85 * 1.5 * 9.80665, within(1e-9));

    Answer part = api.get("/parts/LINE").expect(200);
    assertThat(part.json().at("/strength/typed").asString()).isEqualTo("7 kN");
    api.put("/parts/LINE", part.body()).expect(200);
    assertThat(api.get("/parts/LINE").json().path("strengthKind").asString())
        .isEqualTo("average-break");
  }

  @Test
  void a_refusal_names_its_field_and_changes_nothing() {
    String good = "{\"lies\":\"80 kg\"," + ENDS + "}";
    api.put("/rigs/R/loads/set-up", good).expect(200);
    String before = api.get("/rigs/R/loads/set-up").body();
    JsonNode refused =
        api.put(
                "/rigs/R/loads/set-up",
                """
                {"lies":"0 kg","ends":[{"angle":"95 deg"},{"angle":"30 deg"}],"elements":[{"part":"NONE","where":"roof"},
                 {"part":"LINE","termination":"glued","terminationFactor":"0.5"}]}""")
            .expect(400)
            .json();

    assertThat(refused.path("errors").valueStream().map(one -> one.path("pointer").asString()))
        .contains(
            "#/lies",
            "#/ends/0/angle",
            "#/elements/0/part",
            "#/elements/0/where",
            "#/elements/1/termination",
            "#/elements/1/terminationSource");
    assertThat(api.get("/rigs/R/loads/set-up").body()).isEqualTo(before);
  }

  @Test
  void records_of_how_it_was_hung_have_one_favourite() {
    String first =
        api.post(
                "/rigs/R/set-ups",
                """
                {"hungOn":"2027-04-11","ridgeLength":"2.49 m","ridgeMark":"5 cm","headAngle":"30 deg ± 2 deg","footRun":"2 m","footRise":"1 m",
                 "sag":"45 cm","anchorDistance":"4.6 m","words":"flat and calm","favourite":true}""")
            .expect(201)
            .json()
            .path("id")
            .asString();
    api.post("/rigs/R/set-ups", "{\"hungOn\":\"2027-05-01\",\"favourite\":true}").expect(201);

    JsonNode all = api.get("/rigs/R/set-ups").expect(200).json().path("items");
    assertThat(all.valueStream().map(one -> one.path("hungOn").asString()))
        .containsExactly("2027-05-01", "2027-04-11");
    assertThat(all.valueStream().map(one -> one.path("favourite").asBoolean()))
        .containsExactly(true, false);

    Answer one = api.get("/rigs/R/set-ups/{id}", first).expect(200);
    api.with("If-Match", String.valueOf(one.header("ETag")))
        .put("/rigs/R/set-ups/{id}", one.body(), first)
        .expect(200);
    api.with("If-Match", String.valueOf(one.header("ETag")))
        .put("/rigs/R/set-ups/{id}", one.body(), first)
        .expect(412);
    JsonNode refused =
        api.post(
                "/rigs/R/set-ups",
                "{\"hungOn\":\"yesterday\",\"headAngle\":\"0 deg\",\"sag\":\"5 kg\",\"footRun\":\"1 m\"}")
            .expect(400)
            .json();
    assertThat(refused.path("errors").valueStream().map(it -> it.path("pointer").asString()))
        .containsExactlyInAnyOrder("#/hungOn", "#/headAngle", "#/sag", "#/footRise");
    assertThat(api.get("/rigs/R/set-ups").json().path("items")).hasSize(2);
  }

  @Test
  void another_ledgers_rig_is_not_there(TestLedger other) {
    other.api().get("/rigs/R/loads").expect(404);
    other.api().put("/rigs/R/loads/set-up", "{\"lies\":\"80 kg\"," + ENDS + "}").expect(404);
    other.api().get("/rigs/R/set-ups").expect(404);
    other.api().post("/rigs/R/set-ups", "{\"hungOn\":\"2027-05-01\"}").expect(404);
    assertThat(ledger.api().get("/rigs/R/set-ups").json().path("items")).isEmpty();
  }
}
