package org.tareline.material.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class MaterialsTest {

  private static final String CLOTH =
      """
      {"code":"F-40","name":"Ripstop, 40 denier","kind":"fabric","nominal":"1.3 oz/yd²","tolerance":"4 %",
       "width":"58 in","fibre":"nylon","price":"12.50 EUR/m","colour":"moss","note":"from the roll end",
       "stock":"12.5 m"}
      """;

  @Test
  void a_material_is_kept_exactly_and_as_typed(TestLedger ledger) {
    Answer made = ledger.api().post("/materials", CLOTH).expect(201);
    assertThat(made.header("Location")).isEqualTo("/api/v1/materials/F-40");
    assertThat(made.header("ETag")).isEqualTo("\"1\"");

    JsonNode cloth = ledger.api().get("/materials/f-40").expect(200).json();

    assertThat(cloth).isEqualTo(made.json());
    // 1 oz/yd² is 0.0339057474749 kg/m² (NIST SP 811, B.8, from the exact definitions)
    assertThat(number(cloth.path("nominal"), "value")).isCloseTo(1.3 * 33.9057474749, within(1e-9));
    assertThat(cloth.path("nominal").path("unit").asString()).isEqualTo("g/m2");
    assertThat(cloth.path("nominal").path("typed").asString()).isEqualTo("1.3 oz/yd²");
    assertThat(cloth.path("width").path("value").asString()).isEqualTo("1.4732");
    assertThat(cloth.path("price").asString()).isEqualTo("12.50 EUR/m");
    assertThat(cloth.at("/stock/typed").asString()).isEqualTo("12.5 m");
    assertThat(cloth.has("weighed")).isFalse();
    JsonNode used = cloth.path("used");
    assertThat(used.path("from").asString()).isEqualTo("nominal");
    // rectangular (JCGM 100:2008, 4.3.7): 4 % of it over √3
    assertThat(number(used, "standardUncertainty"))
        .isCloseTo(1.3 * 33.9057474749 * 0.04 / Math.sqrt(3), within(1e-8));
    assertThat(used.path("degreesOfFreedom").asString()).isEqualTo("infinite");
  }

  /** REFERENCES by kind: ISO 1144 (tex, denier), NIST SP 811 (ounce, yard). */
  @ParameterizedTest
  @CsvSource({
    "netting, 17 g/m², g/m2, 17",
    "cord, 3.1 g/m, g/m, 3.1",
    "thread, 40 den, g/m, 0.0044444444444444444",
    "thread, 60 tex, g/m, 0.06",
    "webbing, 0.5 oz/yd, g/m, 15.5017077455161855",
    "hardware, 4.2 g, g, 4.2",
    "insulation, 60 gsm, g/m2, 60",
    "other, 4.2 g, g, 4.2",
    "other, 3.1 g/m, g/m, 3.1",
    "other, 54 g/m2, g/m2, 54"
  })
  void each_kind_goes_by_area_by_length_or_by_the_piece(
      String kind, String nominal, String unit, double value, TestLedger ledger) {
    JsonNode made =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"M","name":"M","kind":"%s","nominal":"%s"}"""
                    .formatted(kind, nominal))
            .expect(201)
            .json();

    assertThat(made.path("nominal").path("unit").asString()).isEqualTo(unit);
    assertThat(number(made.path("nominal"), "value")).isCloseTo(value, within(1e-12 * value));
    assertThat(number(made.path("used"), "value")).isCloseTo(value, within(1e-8 * value));
    // what a ledger gives a stated mass without a tolerance: 5 %
    assertThat(number(made.path("used"), "standardUncertainty"))
        .isCloseTo(value * 0.05 / Math.sqrt(3), within(1e-8 * value));
  }

  @ParameterizedTest
  @CsvSource({
    "fabric, 4.2 g, nominal, mass per area of fabric",
    "fabric, 3.1 g/m, nominalWidth, Give the width",
    "cord, 54 g/m², nominal, mass per length of cord",
    "hardware, 3.1 g/m, nominal, goes by the piece",
    "insulation, 3 m, nominal, mass per area",
    "thread, 0 den, nominal, more than zero",
    "fabric, 54, nominal, unit",
    "fabric, -3 g/m², nominal, more than zero",
    "hardware, 4000 kg, nominal, at most 1000 kg",
  })
  void a_nominal_mass_of_the_wrong_kind_is_refused_with_what_was_read(
      String kind, String nominal, String field, String said, TestLedger ledger) {
    Answer refused =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"M","name":"M","kind":"%s","nominal":"%s"}"""
                    .formatted(kind, nominal))
            .expect(400);

    JsonNode fault = refused.json().path("errors").path(0);
    assertThat(fault.path("pointer").asString()).isEqualTo("#/" + field);
    assertThat(fault.toString()).contains(said);
    ledger.api().get("/materials/M").expect(404);
  }

  /** 2.1 oz over 36 in × 58 in is 2.1 × 36/58 oz/yd²; ounce and yard by NIST HB 44, App. C. */
  @ParameterizedTest
  @CsvSource({
    "2.1 oz per running yard at 58 in wide,",
    "2.1 oz/yd at 58 in,",
    "2.1 oz/yd,58 in",
    "2.1 oz per linear yard,4 ft 10 in"
  })
  void a_mass_per_running_yard_at_a_width_is_a_mass_per_area(
      String nominal, String width, TestLedger ledger) {
    String apart = width == null ? "" : ",\"nominalWidth\":\"" + width + "\"";
    Answer made =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"M","name":"M","kind":"fabric","nominal":"%s","tolerance":"0.1 oz/yd"%s}"""
                    .formatted(nominal, apart))
            .expect(201);

    JsonNode cloth = made.json();
    double expected = 2.1 * 36 / 58 * 33.9057474749;
    assertThat(number(cloth.path("nominal"), "value")).isCloseTo(expected, within(1e-9));
    assertThat(number(cloth.path("nominalWidth"), "value")).isEqualTo(1.4732);
    // the tolerance is a twenty-first of it, printed in the same unit
    assertThat(number(cloth.path("used"), "standardUncertainty"))
        .isCloseTo(expected / 21 / Math.sqrt(3), within(1e-8));
    Answer again = ledger.api().put("/materials/M", made.body()).expect(200);
    assertThat(again.json().path("nominal")).isEqualTo(cloth.path("nominal"));
  }

  @Test
  void faults_are_said_at_once_and_nothing_is_kept(TestLedger ledger) {
    Answer refused =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"/","name":"","kind":"silk","nominal":"","tolerance":"5 %","width":"0 in","strength":"9 kg",
                 "strengthKind":"guess","fibre":"hemp","price":"twelve","use":"both","fillPower":"soft"}""")
            .expect(400);

    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactlyInAnyOrder(
            "#/code",
            "#/name",
            "#/kind",
            "#/nominal",
            "#/width",
            "#/strength",
            "#/strengthKind",
            "#/fibre",
            "#/price",
            "#/use",
            "#/fillPower");
    assertThat(ledger.api().get("/materials").expect(200).json().path("items")).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "5 %, true",
    "2 g/m², true",
    "± 2 g/m2, true",
    "2, true",
    "2 g, false",
    "120 %, false",
    "-1 %, false"
  })
  void a_tolerance_is_a_share_or_in_the_same_unit(
      String tolerance, boolean reads, TestLedger ledger) {
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"M","name":"M","kind":"fabric","nominal":"40 g/m²","tolerance":"%s"}"""
                .formatted(tolerance))
        .expect(reads ? 201 : 400);
  }

  @ParameterizedTest
  @CsvSource({
    "12.50 EUR/m, true",
    "4 usd per 100 yd, true",
    "0.35 GBP each, true",
    "0.35 GBP/each, true",
    "1 EUR/m², true",
    "90 EUR/kg, true",
    "12.50 EUR, false",
    "12 EURO/m, false",
    "EUR/m, false",
    "-3 EUR/m, false",
    "3 EUR/0 m, false",
    "3 EUR/furlong, false",
    "1.1234567 EUR/m, false"
  })
  void a_price_says_how_much_in_what_for_what(String price, boolean reads, TestLedger ledger) {
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"M","name":"M","kind":"fabric","price":"%s"}"""
                .formatted(price))
        .expect(reads ? 201 : 400);
  }

  @Test
  void strength_is_minimum_breaking_unless_it_is_said_to_be_something_else(TestLedger ledger) {
    JsonNode cord =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"C","name":"Cord","kind":"cord","nominal":"3.1 g/m","strength":"1500 lbf"}""")
            .expect(201)
            .json();
    JsonNode strap =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"W","name":"Strap","kind":"webbing","nominal":"11 g/m","strength":"3 kN",
                 "strengthKind":"working-load-limit"}""")
            .expect(201)
            .json();

    // 1 lbf is 4.448 221 615 260 5 N (NIST SP 811, B.8)
    assertThat(cord.path("strength").path("value").asString()).isEqualTo("6672.33242289075");
    assertThat(cord.path("strengthKind").asString()).isEqualTo("minimum-breaking");
    assertThat(strap.path("strengthKind").asString()).isEqualTo("working-load-limit");
  }

  @Test
  void down_goes_by_its_fill_power_and_not_by_area(TestLedger ledger) {
    JsonNode down =
        ledger
            .api()
            .post(
                "/materials",
                """
                {"code":"D","name":"Down","kind":"insulation","fillPower":850,"fibre":"down","stock":"300 g"}""")
            .expect(201)
            .json();
    assertThat(down.path("fillPower").asString()).isEqualTo("850");
    assertThat(down.has("used")).isFalse();

    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"E","name":"Both","kind":"insulation","fillPower":"850","nominal":"60 g/m²"}""")
        .expect(400);
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"E","name":"Cord","kind":"cord","fillPower":"850"}""")
        .expect(400);
    Answer refused =
        ledger
            .api()
            .post(
                "/materials/D/swatches",
                """
                {"length":"1 m","tolerance":"1 g","readings":["9 g"]}""")
            .expect(400);
    assertThat(refused.body()).contains("goes by its fill power");
  }

  @Test
  void a_change_starts_from_the_newest_and_the_old_code_still_finds_it(TestLedger ledger) {
    ledger.api().post("/materials", CLOTH).expect(201);
    String renamed = CLOTH.replace("F-40", "F-40A");

    ledger.api().with("If-Match", "\"1\"").put("/materials/F-40", renamed).expect(200);
    ledger.api().with("If-Match", "\"1\"").put("/materials/F-40", renamed).expect(412);

    assertThat(ledger.api().get("/materials/F-40").expect(200).json().path("code").asString())
        .isEqualTo("F-40A");
    ledger.api().post("/materials", CLOTH).expect(409);
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from revision where ledger_id = ? and kind = 'material'",
                    ledger.member().ledgerId()))
        .isEqualTo(2);
  }

  @Test
  void another_ledgers_material_is_not_there(TestLedger ledger, TestLedger other) {
    ledger.api().post("/materials", CLOTH).expect(201);

    other.api().get("/materials/F-40").expect(404);
    other.api().put("/materials/F-40", CLOTH).expect(404);
    other
        .api()
        .post(
            "/materials/F-40/swatches",
            """
            {"length":"1 m","width":"1 m","tolerance":"1 g","readings":["48 g"]}""")
        .expect(404);
    assertThat(other.api().get("/materials").expect(200).json().path("items")).isEmpty();
  }

  static double number(JsonNode node, String field) {
    return Double.parseDouble(node.path(field).asString());
  }
}
