package org.tareline.part.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class WhatIfTest {

  private static final String FLOOR =
      "{\"kind\":\"panel\",\"shape\":\"rectangle\",\"name\":\"floor\",\"material\":\"CLOTH\",\"length\":\"3 m\",\"width\":\"1 m\"}";
  private static final String CORDS =
      "{\"kind\":\"length\",\"material\":\"CORD\",\"quantity\":2,\"length\":\"2 m\",\"allowance\":\"200 mm\"}";

  private TestLedger ledger;
  private Api api;

  @BeforeEach
  void aShelfOfMaterials(TestLedger fresh) {
    ledger = fresh;
    api = fresh.api();
    material(
        "CLOTH",
        "\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"tolerance\":\"5 %\",\"width\":\"1.5 m\",\"price\":\"12.00 EUR/m\",\"strength\":\"500 N\"");
    material(
        "LIGHT",
        "\"kind\":\"fabric\",\"nominal\":\"30 g/m²\",\"tolerance\":\"5 %\",\"width\":\"1.5 m\",\"price\":\"10.00 EUR/m\",\"strength\":\"400 N\"");
    material("CORD", "\"kind\":\"cord\",\"nominal\":\"1.4 g/m\",\"tolerance\":\"10 %\"");
  }

  @Test
  void what_changes_is_told_by_closed_forms_and_what_stays_cancels_error_and_all() {
    part("BODY", FLOOR + "," + CORDS);

    JsonNode whatIf = whatIf("BODY", "\"CLOTH\":\"LIGHT\"");

    // 3 m² at 40 and at 30 g/m²; REFERENCES E: 2.2 m pieces of 1.4 g/m are 3.08 g each.
    assertThat(grams(whatIf.at("/before/mass"))).isCloseTo(120 + 6.16, within(1e-9));
    assertThat(grams(whatIf.at("/after/mass"))).isCloseTo(90 + 6.16, within(1e-9));
    assertThat(grams(whatIf.at("/difference/mass"))).isCloseTo(-30, within(1e-9));
    // Cloths to 5 %, 8 m of edges to 3 mm of the one tolerance for both, rectangular; no cord.
    double u = Math.sqrt((36 + 4.5 * 4.5 + Math.pow(8 * (30 - 40) * 0.003, 2)) / 3);
    assertThat(grams(whatIf.at("/difference/standardUncertainty"))).isCloseTo(u, within(1e-9));
    assertThat(whatIf.path("verdict").asString()).isEqualTo("lighter");
    assertThat(whatIf.at("/before/basis").asString()).isEqualTo("calculated");
    assertThat(whatIf.path("then")).isEqualTo(whatIf.path("after"));
  }

  @Test
  void a_change_of_cord_alone_has_none_of_the_cloths_error() {
    material("THIN", "\"kind\":\"cord\",\"nominal\":\"1.0 g/m\",\"tolerance\":\"10 %\"");
    part("BODY", FLOOR + "," + CORDS);

    JsonNode whatIf = whatIf("BODY", "\"CORD\":\"THIN\"");

    assertThat(grams(whatIf.at("/difference/mass"))).isCloseTo(-4.4 * 0.4, within(1e-9));
    assertThat(grams(whatIf.at("/difference/standardUncertainty")))
        .isCloseTo(4.4 * 0.1 * Math.sqrt((1.96 + 1) / 3), within(1e-9));
    // By itself the part is far less sure than its change.
    assertThat(grams(whatIf.at("/before/standardUncertainty"))).isGreaterThan(3);
  }

  @Test
  void the_uncertainty_of_the_difference_is_that_of_many_parts_cut_twice() {
    part(
        "BODY",
        FLOOR
            + ",{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"CLOTH\",\"length\":\"500 mm\",\"width\":\"400 mm\",\"removed\":true}"
            + ",{\"kind\":\"panel\",\"shape\":\"triangle\",\"material\":\"LIGHT\",\"base\":\"800 mm\",\"height\":\"600 mm\"},"
            + CORDS);
    JsonNode whatIf = whatIf("BODY", "\"CLOTH\":\"LIGHT\"");
    // Draws what each material weighs and how far the edges are off, and weighs both designs; the
    // areas grow by edge × t. Nothing of the algebra under test.
    SplittableRandom random = new SplittableRandom(20270411);
    int draws = 400_000;
    double sum = 0;
    double squares = 0;
    double side = Math.hypot(0.4, 0.6);
    for (int i = 0; i < draws; i++) {
      double cloth = 40 * (1 + 0.05 * random.nextDouble(-1, 1));
      double light = 30 * (1 + 0.05 * random.nextDouble(-1, 1));
      double cord = 1.4 * (1 + 0.1 * random.nextDouble(-1, 1));
      double t = 0.003 * random.nextDouble(-1, 1);
      double floor = 3 + 8 * t - (0.2 + 1.8 * t);
      double wedge = 0.24 + (0.8 + 2 * side) * t;
      double before = floor * cloth + wedge * light + 4.4 * cord;
      double after = floor * light + wedge * light + 4.4 * cord;
      sum += after - before;
      squares += (after - before) * (after - before);
    }
    double mean = sum / draws;
    double deviation = Math.sqrt(squares / draws - mean * mean);

    // The error of a mean of so many draws, and of a standard deviation (u/√2n, times some four).
    assertThat(grams(whatIf.at("/difference/mass")))
        .isCloseTo(mean, within(5 * deviation / Math.sqrt(draws)));
    assertThat(grams(whatIf.at("/difference/standardUncertainty")))
        .isCloseTo(deviation, within(0.005 * deviation));
  }

  @Test
  void thread_is_swapped_by_its_count_and_cloth_by_the_yard() {
    material("T60", "\"kind\":\"thread\",\"nominal\":\"60 tex\",\"tolerance\":\"0 %\"");
    material("D360", "\"kind\":\"thread\",\"nominal\":\"360 den\",\"tolerance\":\"0 %\"");
    material("OSY", "\"kind\":\"fabric\",\"nominal\":\"1.3 oz/yd²\",\"tolerance\":\"0 %\"");
    part(
        "BODY",
        FLOOR
            + ",{\"kind\":\"seam\",\"material\":\"T60\",\"length\":\"12 m\",\"stitch\":\"301\",\"seamThickness\":\"0.3 mm\",\"stitchLength\":\"2.5 mm\"}");

    JsonNode whatIf = whatIf("BODY", "\"T60\":\"D360\",\"CLOTH\":\"OSY\"");

    // REFERENCES E: 12 m of seam take 26.88 m of thread, at 60 tex 1.6128 g; tex = den/9 (ISO
    // 1144). REFERENCES A: 1 oz = 28.349523125 g over 0.83612736 m².
    double osy = 3 * 1.3 * 28.349523125 / 0.83612736;
    assertThat(grams(whatIf.at("/before/mass"))).isCloseTo(120 + 1.6128, within(1e-9));
    assertThat(grams(whatIf.at("/after/mass"))).isCloseTo(osy + 26.88 * 0.040, within(1e-7));
    assertThat(whatIf.path("strength")).hasSize(2);
  }

  @Test
  void two_materials_can_change_places() {
    part(
        "BODY",
        FLOOR
            + ",{\"kind\":\"panel\",\"shape\":\"triangle\",\"material\":\"LIGHT\",\"base\":\"2 m\",\"height\":\"1 m\"}");

    JsonNode whatIf = whatIf("BODY", "\"CLOTH\":\"LIGHT\",\"LIGHT\":\"CLOTH\"");

    assertThat(grams(whatIf.at("/before/mass"))).isCloseTo(3 * 40 + 30, within(1e-9));
    assertThat(grams(whatIf.at("/after/mass"))).isCloseTo(3 * 30 + 40, within(1e-9));
  }

  @Test
  void cost_is_told_where_prices_say_it_and_null_where_they_do_not() {
    part("BODY", FLOOR + "," + CORDS);
    material("DEAR", "\"kind\":\"fabric\",\"nominal\":\"30 g/m²\",\"width\":\"1.5 m\"");
    material(
        "ABROAD",
        "\"kind\":\"fabric\",\"nominal\":\"30 g/m²\",\"width\":\"1.5 m\",\"price\":\"9 USD/m\"");

    // One panel of 1 m across a roll of 1.5 m: 3 m of it; the cord has no price and stays.
    JsonNode known = whatIf("BODY", "\"CLOTH\":\"LIGHT\"").path("cost");
    assertThat(known.at("/before/0/amount").asString()).isEqualTo("36.00");
    assertThat(known.at("/after/0/amount").asString()).isEqualTo("30.00");
    assertThat(known.at("/difference/0/amount").asString()).isEqualTo("-6.00");
    assertThat(known.at("/difference/0/currency").asString()).isEqualTo("EUR");
    assertThat(known.path("unpriced").toString()).isEqualTo("[\"CORD\"]");

    JsonNode unknown = whatIf("BODY", "\"CLOTH\":\"DEAR\"").path("cost");
    assertThat(unknown.path("after").isNull()).isTrue();
    assertThat(unknown.path("difference").isNull()).isTrue();
    assertThat(unknown.path("unpriced").toString()).isEqualTo("[\"CORD\",\"DEAR\"]");

    JsonNode abroad = whatIf("BODY", "\"CLOTH\":\"ABROAD\"").path("cost");
    assertThat(abroad.path("difference").toString())
        .isEqualTo(
            "[{\"amount\":\"-36.00\",\"currency\":\"EUR\"},{\"amount\":\"27.00\",\"currency\":\"USD\"}]");

    JsonNode toBuy = whatIf("BODY", "\"CLOTH\":\"LIGHT\"").path("materials");
    assertThat(toBuy.at("/before/0/material").asString()).isEqualTo("CLOTH");
    assertThat(toBuy.at("/after/0/toBuy/value").asString()).isEqualTo("3");
  }

  @ParameterizedTest(name = "{0} by {1}: {2}")
  @CsvSource(
      delimiter = '|',
      nullValues = "none",
      textBlock =
          """
          "strength":"500 N"                               | "strength":"400 N"                               | weaker         | 0.8
          "strength":"400 N"                               | "strength":"500 N"                               | stronger       | 1.25
          "strength":"100 lbf"                             | "strength":"444.82216152605 N"                   | as-strong      | 1
          "strength":"1 kN","strengthKind":"average-break" | "strength":"2 kN","strengthKind":"average-break" | stronger       | 2
          "strength":"1 kN","strengthKind":"average-break" | "strength":"2 kN"                                | not-comparable | none
          "strength":"1 kN"                                | "strength":"2 kN","strengthKind":"working-load-limit" | not-comparable | none
          "strength":"1 kN"                                | "note":"-"                                       | not-known      | none
          "note":"-"                                       | "strength":"2 kN"                                | not-known      | none
          "note":"-"                                       | "note":"-"                                       | not-known      | none
          """)
  void strength_is_held_against_strength_of_its_kind_and_unknown_never_passes(
      String of, String by, String verdict, String ratio) {
    material("OLD", "\"kind\":\"cord\",\"nominal\":\"2 g/m\"," + of);
    material("NEWER", "\"kind\":\"cord\",\"nominal\":\"1 g/m\"," + by);
    part("LINE", "{\"kind\":\"length\",\"material\":\"OLD\",\"length\":\"10 m\"}");

    JsonNode strength = whatIf("LINE", "\"OLD\":\"NEWER\"").at("/strength/0");

    assertThat(strength.path("verdict").asString()).isEqualTo(verdict);
    assertThat(strength.path("ratio").asString("none")).isEqualTo(ratio == null ? "none" : ratio);
    assertThat(strength.path("replaced").asString()).isEqualTo("OLD");
    assertThat(strength.path("before").isNull()).isEqualTo(of.contains("note"));
    assertThat(strength.path("after").isNull()).isEqualTo(by.contains("note"));
  }

  @Test
  void weaker_is_said_before_grams() {
    part("BODY", FLOOR);

    String answer = ask("BODY", "\"CLOTH\":\"LIGHT\"").expect(200).body();

    assertThat(answer.indexOf("Weaker: LIGHT holds 400 N"))
        .isPositive()
        .isLessThan(answer.indexOf("\"before\":{\"mass\""));
    assertThat(answer).contains("80\u00a0% of the 500");
  }

  @Test
  void a_part_that_was_weighed_keeps_what_its_weighing_has_and_the_list_has_not() {
    part("BODY", FLOOR);
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    api.post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"131 g\"]}")
        .expect(201);

    JsonNode whatIf = whatIf("BODY", "\"CLOTH\":\"LIGHT\"");

    assertThat(grams(whatIf.at("/before/mass"))).isEqualTo(120);
    assertThat(grams(whatIf.at("/now/mass"))).isEqualTo(131);
    assertThat(whatIf.at("/now/basis").asString()).isEqualTo("weighed");
    assertThat(grams(whatIf.at("/then/mass"))).isEqualTo(101);
    assertThat(whatIf.at("/then/basis").asString()).isEqualTo("mixed");
    assertThat(grams(whatIf.at("/then/standardUncertainty")))
        .isCloseTo(
            Math.hypot(
                grams(whatIf.at("/now/standardUncertainty")),
                grams(whatIf.at("/difference/standardUncertainty"))),
            within(1e-9));
    assertThat(whatIf.path("how").asString()).startsWith("Weighed");
  }

  @Test
  void a_part_of_which_one_piece_was_weighed_says_so() {
    part("BODY", FLOOR + "," + CORDS);
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    String cords = api.get("/parts/BODY").json().at("/buildSheet/lines/1/id").asString();
    api.post(
            "/parts/BODY/cut-lines/" + cords + "/weighings",
            "{\"scale\":\"K1\",\"readings\":[\"6.4 g\"]}")
        .expect(201);

    JsonNode whatIf = whatIf("BODY", "\"CLOTH\":\"LIGHT\"");

    assertThat(whatIf.at("/now/basis").asString()).isEqualTo("mixed");
    assertThat(grams(whatIf.at("/now/mass"))).isCloseTo(126.4, within(1e-9));
    assertThat(grams(whatIf.at("/then/mass"))).isCloseTo(96.4, within(1e-9));
    assertThat(whatIf.path("how").asString()).startsWith("Weighed in part");
  }

  @Test
  void a_loft_is_filled_with_less_of_a_better_down_and_it_is_said() {
    material("D800", "\"kind\":\"insulation\",\"fillPower\":\"800\"");
    material("D900", "\"kind\":\"insulation\",\"fillPower\":\"900\"");
    part(
        "QUILT",
        "{\"kind\":\"fill\",\"material\":\"D800\",\"area\":\"2 m²\",\"loft\":\"50 mm\",\"fillPower\":800},"
            + "{\"kind\":\"fill\",\"material\":\"D800\",\"mass\":\"20 g\"}");

    JsonNode whatIf = whatIf("QUILT", "\"D800\":\"D900\"");

    // REFERENCES H, worked: 2 m² × 50 mm at 800 in³/oz: 216.249256 g. A mass that is typed stays.
    assertThat(grams(whatIf.at("/difference/mass")))
        .isCloseTo(216.249256 * (800 / 900.0 - 1), within(5e-7));
    assertThat(whatIf.path("notes").toString()).contains("900").contains("in the place of 800");
  }

  @Test
  void it_writes_nothing() {
    part("BODY", FLOOR);
    String before = api.get("/parts/BODY").body();

    List<String> statements =
        ledger.statements(() -> ask("BODY", "\"CLOTH\":\"LIGHT\"").expect(200));

    assertThat(statements)
        .isNotEmpty()
        .noneMatch(sql -> sql.strip().toLowerCase().matches("(?s)(insert|update|delete|merge).*"));
    assertThat(api.get("/parts/BODY").body()).isEqualTo(before);
  }

  @Test
  void a_reader_may_ask_it_and_may_not_keep_it() {
    part("BODY", FLOOR);
    ledger
        .server()
        .database()
        .update(
            "update member set role = 'READER' where ledger_id = ?", ledger.member().ledgerId());

    ask("BODY", "\"CLOTH\":\"LIGHT\"").expect(200);
    api.post("/parts/BODY/variants", "{\"code\":\"B2\"}").expect(403);
    api.get("/parts/B2").expect(404);
  }

  @ParameterizedTest(name = "{0}: {2}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          {"replace":{"NONE":"LIGHT"}}                  | #/replace/NONE  | no material NONE
          {"replace":{"CLOTH":"NONE"}}                  | #/replace/CLOTH | no material NONE
          {"replace":{"CLOTH":"CORD"}}                  | #/replace/CLOTH | by mass per length
          {"replace":{"CLOTH":"CLOTH"}}                 | #/replace/CLOTH | by itself
          {"replace":{"CLOTH":"cloth"}}                 | #/replace/CLOTH | by itself
          {"replace":{"CLOTH":null}}                    | #/replace/CLOTH | Give the material
          {"replace":{"CLOTH":""}}                      | #/replace/CLOTH | Give the material
          {"replace":{"CLOTH":"BARE"}}                  | #/replace/CLOTH | no mass yet
          {"replace":{"CORD":"LINE.5#"}}                | #/replace/CORD  | no line of CORD
          {"replace":{"LINE.5#":"CORD"}}                | #/replace/LINE%2E5%23 | no line of LINE.5#
          {"replace":{"A/~B":"CORD"}}                   | #/replace/A~1~0B | no material A/~B
          {"replace":{"CLOTH":"LIGHT","cloth":"LIGHT"}} | #/replace/cloth | named twice
          {"replace":{"CLOTH":"LIGHT","CORD":"LIGHT"}}  | #/replace/CORD  | no line of CORD
          {"replace":{}}                                | #/replace       | which material
          {}                                            | #/replace       | which material
          """)
  void what_cannot_be_replaced_is_refused_at_its_entry(String body, String pointer, String said) {
    part("BODY", FLOOR);
    material("LINE.5#", "\"kind\":\"cord\",\"nominal\":\"1.0 g/m\"");
    material("BARE", "\"kind\":\"fabric\"");
    String before = api.get("/parts/BODY").body();

    List<Answer> answers = new ArrayList<>(List.of(api.post("/parts/BODY/what-if", body)));
    if (!pointer.equals("#/replace")) { // a variant need not replace anything
      answers.add(api.post("/parts/BODY/variants", "{\"code\":\"B2\"," + body.substring(1)));
    }
    for (Answer refused : answers) {
      assertThat(refused.expect(400).json().path("errors"))
          .anySatisfy(
              error -> {
                assertThat(error.path("pointer").asString()).isEqualTo(pointer);
                assertThat(error.path("detail").asString()).contains(said);
              });
    }
    api.get("/parts/B2").expect(404);
    assertThat(api.get("/parts/BODY").body()).isEqualTo(before);
  }

  @Test
  void more_cannot_be_cut_away_than_there_would_be() {
    // 3 m² of 40 g/m², and 3.5 m² of 30 g/m² cut out of it: 15 g. Of 30 g/m² it would be less than
    // nothing.
    part(
        "BODY",
        FLOOR
            + ",{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"LIGHT\",\"length\":\"3.5 m\",\"width\":\"1 m\",\"removed\":true}");

    assertThat(ask("BODY", "\"CLOTH\":\"LIGHT\"").expect(400).body()).contains("More is cut away");
    ledger.pages().get("/parts/BODY/what-if").expect(200);
  }

  @Test
  void a_part_without_a_cut_list_has_nothing_to_replace(TestLedger other) {
    api.post("/parts", "{\"code\":\"BAR\",\"name\":\"Bar\"}").expect(201);

    assertThat(ask("BAR", "\"CLOTH\":\"LIGHT\"").expect(400).body())
        .contains("BAR has no cut list");
    ask("NONE", "\"CLOTH\":\"LIGHT\"").expect(404);
    other.api().post("/parts/BAR/what-if", "{\"replace\":{\"CLOTH\":\"LIGHT\"}}").expect(404);
    api.post("/parts/BAR/what-if", "{\"replaced\":{\"CLOTH\":\"LIGHT\"}}").expect(400);
  }

  private void material(String code, String rest) {
    api.post("/materials", "{\"code\":\"" + code + "\",\"name\":\"The " + code + "\"," + rest + "}")
        .expect(201);
  }

  private void part(String code, String lines) {
    api.post(
            "/parts",
            "{\"code\":\""
                + code
                + "\",\"name\":\"Of cloth\",\"buildSheet\":{\"lines\":["
                + lines
                + "]}}")
        .expect(201);
  }

  private Answer ask(String part, String replace) {
    return api.post("/parts/{code}/what-if", "{\"replace\":{" + replace + "}}", part);
  }

  private JsonNode whatIf(String part, String replace) {
    return ask(part, replace).expect(200).json();
  }

  private static double grams(JsonNode quantity) {
    assertThat(quantity.path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(quantity.path("value").asString());
  }
}
