package org.tareline.part.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

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
class BuildSheetTest {

  private Api api;

  @BeforeEach
  void aShelfOfMaterials(TestLedger ledger) {
    api = ledger.api();
    material(
        "CLOTH",
        "\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"tolerance\":\"5 %\",\"width\":\"1.5 m\",\"price\":\"12.00 EUR/m\"");
    material(
        "CORD",
        "\"kind\":\"cord\",\"nominal\":\"1.4 g/m\",\"tolerance\":\"0 %\",\"price\":\"0.50 EUR/m\"");
    material("THREAD", "\"kind\":\"thread\",\"nominal\":\"60 tex\",\"tolerance\":\"0 %\"");
    material(
        "RING",
        "\"kind\":\"hardware\",\"nominal\":\"3.2 g\",\"tolerance\":\"0 %\",\"price\":\"1.10 EUR each\"");
    material("DOWN", "\"kind\":\"insulation\",\"fillPower\":\"800\"");
  }

  @Test
  void a_part_is_calculated_from_what_is_cut_for_it() {
    // REFERENCES E, worked: cut 3.030 × 1.440 m at 40 g/m²: 174.528 g, less 12 g of a curved edge.
    JsonNode part =
        part(
            """
            {"kind":"panel","shape":"rectangle","name":"body","material":"CLOTH","length":"3 m","width":"1400 mm",
             "lengthAllowance":"30","widthAllowance":"40 mm"},
            {"kind":"panel","shape":"parabolic-segment","material":"CLOTH","chord":"3 m","depth":"0.15 m","removed":true},
            {"kind":"length","material":"CORD","quantity":2,"length":"2 m","allowance":"200 mm"},
            {"kind":"each","material":"RING","quantity":2}""");

    assertThat(grams(part.at("/estimate/mass"))).isCloseTo(174.528 - 12 + 6.16 + 6.4, within(1e-9));
    assertThat(part.at("/estimate/basis").asString()).isEqualTo("calculated");
    // Cloth to 5 % (rectangular), and every edge of 8.94 m and −(3 m + the curve) to 3 mm.
    double curve = 3.0 / 2 * (Math.sqrt(1 + 0.04) + Math.log(0.2 + Math.sqrt(1.04)) / 0.2);
    double cloth = 162.528 * 0.05 / Math.sqrt(3);
    double cutting = 40 * (2 * (3.03 + 1.44) - 3 - curve) * 0.003 / Math.sqrt(3);
    assertThat(grams(part.at("/estimate/standardUncertainty")))
        .isCloseTo(Math.hypot(cloth, cutting), within(1e-8));
    assertThat(grams(part.at("/buildSheet/lines/1/calculated/mass"))).isCloseTo(-12, within(1e-9));
    assertThat(part.at("/buildSheet/lines/0/lengthAllowance").asString()).isEqualTo("30");
    // On a roll 1.5 m wide one panel of 1.44 m lies across: 3.03 m at 12 EUR; 4.4 m at 0.50; two
    // rings.
    JsonNode need = part.at("/calculated/materials/0");
    assertThat(need.at("/toBuy/value").asString()).isEqualTo("3.03");
    assertThat(Double.parseDouble(need.at("/offcut/value").asString()))
        .isCloseTo(3.03 * 1.5 - 4.3632 + 0.3, within(1e-9));
    assertThat(need.at("/cost/amount").asString()).isEqualTo("36.36");
    assertThat(part.at("/calculated/cost/0/amount").asString()).isEqualTo("40.76");
    assertThat(part.at("/calculated/notes").toString()).contains("upper bound");
  }

  @Test
  void seams_and_fillings_weigh_by_their_formulas() {
    // REFERENCES E and H, worked: 12 m of seam, 60 tex, 0.3 mm and 2.5 mm: 1.6128 g; by 2.5: 1.8 g;
    // 2 m² × 50 mm at 800 in³/oz: 216.249256 g.
    JsonNode part =
        part(
            """
            {"kind":"seam","material":"THREAD","length":"12 m","stitch":"301","seamThickness":"0.3 mm","stitchLength":"2.5 mm"},
            {"kind":"seam","material":"THREAD","length":"12 m"},
            {"kind":"fill","material":"DOWN","area":"2 m²","loft":"50 mm","fillPower":800},
            {"kind":"fill","material":"DOWN","mass":"20 g"}""");

    assertThat(line(part, 0)).isCloseTo(1.6128, within(1e-9));
    assertThat(line(part, 1)).isCloseTo(1.8, within(1e-9));
    assertThat(line(part, 2)).isCloseTo(216.249256, within(5e-7));
    assertThat(line(part, 3)).isEqualTo(20);
  }

  @Test
  void every_shape_has_its_area() {
    JsonNode part =
        part(
            """
            {"kind":"panel","shape":"trapezoid","material":"CLOTH","base":"3 m","top":"2 m","height":"1 m"},
            {"kind":"panel","shape":"triangle","material":"CLOTH","base":"2 m","height":"1 m"},
            {"kind":"panel","shape":"ellipse","material":"CLOTH","length":"1 m","width":"1 m"},
            {"kind":"panel","shape":"parabolic-edges","material":"CLOTH","length":"3 m","width":"1.4 m","depth":"150 mm"}""");

    assertThat(line(part, 0)).isCloseTo(100, within(1e-9));
    assertThat(line(part, 1)).isCloseTo(40, within(1e-9));
    assertThat(line(part, 2)).isCloseTo(10 * Math.PI, within(1e-8));
    // DESIGN 5: length × width − 2 × ⅔ × length × depth.
    assertThat(line(part, 3)).isCloseTo(40 * (3 * 1.4 - 4 / 3.0 * 3 * 0.15), within(1e-9));
  }

  @Test
  void weighed_beats_calculated_beats_stated_and_the_two_are_held_against_each_other() {
    part(
        "{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"CLOTH\",\"length\":\"3 m\",\"width\":\"1 m\"}");
    assertThat(part().at("/estimate/basis").asString()).isEqualTo("calculated");
    api.post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"BODY\",\"quantity\":1,\"role\":\"body\"}]}")
        .expect(201);
    assertThat(api.get("/rigs/R/roll-up").json().at("/estimate/basis").asString())
        .isEqualTo("calculated");
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    api.post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"130 g\"]}")
        .expect(201);

    JsonNode part = part();

    assertThat(part.at("/estimate/basis").asString()).isEqualTo("weighed");
    JsonNode against = part.path("calculatedAgainstWeighed");
    assertThat(grams(against.at("/calculated/mass"))).isEqualTo(120);
    assertThat(grams(against.at("/weighed/mass"))).isEqualTo(130);
    assertThat(grams(against.at("/difference/mass"))).isEqualTo(10);
    double u =
        Math.sqrt(
            Math.pow(6 / Math.sqrt(3), 2) + Math.pow(40 * 8 * 0.003 / Math.sqrt(3), 2) + 0.01 / 6);
    assertThat(Double.parseDouble(against.path("zeta").asString())).isCloseTo(10 / u, within(1e-8));
    assertThat(against.path("agrees").asBoolean()).isFalse();
  }

  @Test
  void what_a_get_answers_can_be_put_back_and_a_put_without_it_takes_the_list_away() {
    JsonNode part =
        part(
            """
            {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"9' 10\\"","width":"1.4 m"},
            {"kind":"seam","material":"THREAD","length":"12 m","stitch":"301","seamThickness":"0.3 mm","stitchLength":"2.5 mm"}""");

    Answer again = api.put("/parts/BODY", part.toString()).expect(200);

    assertThat(again.json().path("buildSheet")).isEqualTo(part.path("buildSheet"));
    assertThat(again.json().path("estimate")).isEqualTo(part.path("estimate"));
    api.put("/parts/BODY", "{\"name\":\"Body\"}").expect(200);
    assertThat(part().has("buildSheet")).isFalse();
    assertThat(part().path("estimate").isNull()).isTrue();
  }

  @ParameterizedTest(name = "{1}: {0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          {"kind":"panel","shape":"parabolic-edges","material":"CLOTH","length":"3 m","width":"1 m","depth":"0.5 m"} | depth | cross
          {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"3 m"}                    | width    | Give the width
          {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"0","width":"1 m"}        | length   | more than zero
          {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"-3 m","width":"1 m"}     | length   | more than zero
          {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"3 g","width":"1 m"}      | length   | length
          {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"3 m","width":"1 m","depth":"1 m"} | depth | has no depth
          {"kind":"panel","shape":"star","material":"CLOTH"}                                        | shape    | trapezoid
          {"kind":"panel","material":"CLOTH","length":"3 m","width":"1 m"}                          | shape    | which shape
          {"kind":"sheet","material":"CLOTH"}                                                       | kind     | Say panel
          {"kind":"length","shape":"rectangle","material":"CORD","length":"3 m"}                    | shape    | Only a panel
          {"kind":"length","material":"CLOTH","length":"3 m"}                                       | material | by mass per area
          {"kind":"panel","shape":"rectangle","material":"CORD","length":"3 m","width":"1 m"}       | material | by mass per length
          {"kind":"panel","shape":"rectangle","material":"DOWN","length":"3 m","width":"1 m"}       | material | fill power
          {"kind":"each","material":"NONE"}                                                         | material | no material NONE
          {"kind":"each"}                                                                           | material | Give the material
          {"kind":"each","material":"RING","quantity":0}                                            | quantity | from 1
          {"kind":"each","material":"RING","removed":true}                                          | removed  | Only a panel
          {"kind":"seam","material":"THREAD","length":"1 m","ratio":"2.5","stitch":"301"}           | ratio    | not both
          {"kind":"seam","material":"THREAD","length":"1 m","stitch":"301"}                         | seamThickness | seam thickness
          {"kind":"seam","material":"THREAD","length":"1 m","stitch":"504"}                         | stitch   | ratio
          {"kind":"seam","material":"THREAD","length":"1 m","ratio":"lots"}                         | ratio    | lots
          {"kind":"fill","material":"DOWN"}                                                         | mass     | Give the mass
          {"kind":"fill","material":"DOWN","mass":"10 g","area":"1 m²"}                             | mass     | not both
          {"kind":"fill","material":"DOWN","area":"1 m²"}                                           | loft     | Give the loft
          """)
  void what_cannot_be_cut_is_refused_at_its_line_and_field(String line, String field, String said) {
    Answer refused =
        api.post(
                "/parts",
                "{\"code\":\"BODY\",\"name\":\"Body\",\"buildSheet\":{\"lines\":[{\"kind\":\"each\",\"material\":\"RING\"},"
                    + line
                    + "]}}")
            .expect(400);

    assertThat(refused.json().path("errors"))
        .anySatisfy(
            error -> {
              assertThat(error.path("pointer").asString())
                  .isEqualTo("#/buildSheet/lines/1/" + field);
              assertThat(error.path("detail").asString()).contains(said);
            });
    api.get("/parts/BODY").expect(404);
  }

  @Test
  void more_cannot_be_cut_away_than_there_is() {
    Answer refused =
        api.post(
                "/parts",
                "{\"code\":\"BODY\",\"name\":\"Body\",\"buildSheet\":{\"cuttingTolerance\":\"5 mm\",\"lines\":["
                    + "{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"CLOTH\",\"length\":\"3 m\",\"width\":\"1 m\",\"removed\":true}]}}")
            .expect(400);

    assertThat(refused.json().at("/errors/0/detail").asString()).contains("cut away");
  }

  private void material(String code, String rest) {
    api.post("/materials", "{\"code\":\"" + code + "\",\"name\":\"The " + code + "\"," + rest + "}")
        .expect(201);
  }

  private JsonNode part(String lines) {
    return api.post(
            "/parts",
            "{\"code\":\"BODY\",\"name\":\"Body\",\"buildSheet\":{\"lines\":[" + lines + "]}}")
        .expect(201)
        .json();
  }

  private JsonNode part() {
    return api.get("/parts/BODY").expect(200).json();
  }

  private static double line(JsonNode part, int line) {
    return grams(part.at("/buildSheet/lines/" + line + "/calculated/mass"));
  }

  private static double grams(JsonNode quantity) {
    assertThat(quantity.path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(quantity.path("value").asString());
  }
}
