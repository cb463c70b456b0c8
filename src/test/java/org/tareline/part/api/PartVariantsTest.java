package org.tareline.part.api;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class PartVariantsTest {

  private TestLedger ledger;
  private Api api;

  @BeforeEach
  void aBodyOfTwoMaterials(TestLedger fresh) {
    ledger = fresh;
    api = fresh.api();
    for (String material :
        new String[] {
          "'code':'CLOTH','name':'Cloth','kind':'fabric','nominal':'40 g/m²','fibre':'nylon'",
          "'code':'LIGHT','name':'Light','kind':'fabric','nominal':'30 g/m²','fibre':'polyester'",
          "'code':'CORD','name':'Cord','kind':'cord','nominal':'1.4 g/m'"
        }) {
      api.post("/materials", "{" + material.replace('\'', '"') + "}").expect(201);
    }
    api.post(
            "/parts",
            """
            {"code":"BODY","name":"Body","system":"hang","owned":3,"fibre":"nylon","note":"Of the first roll",
             "stated":{"mass":"130 g","tolerance":"5 g"},
             "buildSheet":{"cuttingTolerance":"5 mm","lines":[
               {"kind":"panel","shape":"rectangle","name":"floor","material":"CLOTH","length":"9' 10\\"","width":"1.4 m","lengthAllowance":"30"},
               {"kind":"panel","shape":"triangle","material":"CLOTH","base":"300 mm","height":"200 mm","removed":true},
               {"kind":"length","material":"CORD","quantity":2,"length":"2 m"}]}}
            """)
        .expect(201);
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    api.post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"171 g\"]}")
        .expect(201);
    api.post("/parts/BODY/events", "{\"kind\":\"washed\"}").expect(201);
  }

  @Test
  void a_variant_is_a_copy_without_the_history_and_both_know_it() {
    Answer made = api.post("/parts/BODY/variants", "{\"code\":\"BODY 2\"}").expect(201);

    assertThat(made.header("Location")).isEqualTo("/api/v1/parts/BODY%202");
    JsonNode variant = api.get("/parts/BODY 2").expect(200).json();
    assertThat(made.json()).isEqualTo(variant);
    assertThat(variant.path("variantOf").asString()).isEqualTo("BODY");
    assertThat(variant.path("name").asString()).isEqualTo("Body (variant)");
    assertThat(variant.path("owned").asInt()).isZero();
    assertThat(variant.path("fibre").asString()).isEqualTo("nylon");
    assertThat(variant.path("note").asString()).isEqualTo("Of the first roll");
    assertThat(variant.at("/stated/mass/typed").asString()).isEqualTo("130 g");
    assertThat(variant.at("/estimate/basis").asString()).isEqualTo("calculated");
    assertThat(variant.path("evidence")).hasSize(1);
    JsonNode body = part("BODY");
    assertThat(withoutIds(variant.path("buildSheet")))
        .isEqualTo(withoutIds(body.path("buildSheet")));
    assertThat(body.path("variants").toString()).isEqualTo("[\"BODY 2\"]");
    assertThat(body.has("variantOf")).isFalse();
    assertThat(body.path("owned").asInt()).isEqualTo(3);
    assertThat(body.at("/estimate/basis").asString()).isEqualTo("weighed");
  }

  @Test
  void a_what_if_that_is_kept_has_the_other_material_in_its_lines() {
    JsonNode whatIf =
        api.post("/parts/BODY/what-if", "{\"replace\":{\"CLOTH\":\"LIGHT\"}}").expect(200).json();

    JsonNode variant =
        api.post(
                "/parts/BODY/variants",
                "{\"code\":\"B2\",\"name\":\"Light body\",\"owned\":1,\"replace\":{\"CLOTH\":\"LIGHT\"}}")
            .expect(201)
            .json();

    assertThat(variant.path("estimate").path("mass")).isEqualTo(whatIf.at("/after/mass"));
    assertThat(variant.path("estimate").path("standardUncertainty"))
        .isEqualTo(whatIf.at("/after/standardUncertainty"));
    assertThat(variant.at("/buildSheet/lines/0/material").asString()).isEqualTo("LIGHT");
    assertThat(variant.at("/buildSheet/lines/0/length").asString()).isEqualTo("9' 10\"");
    assertThat(variant.at("/buildSheet/lines/1/removed").asBoolean()).isTrue();
    assertThat(variant.at("/buildSheet/lines/2/material").asString()).isEqualTo("CORD");
    assertThat(variant.at("/buildSheet/cuttingTolerance").asString()).isEqualTo("5 mm");
    assertThat(variant.path("name").asString()).isEqualTo("Light body");
    assertThat(variant.path("owned").asInt()).isEqualTo(1);
    // What was stated of the one cloth says nothing of the other.
    assertThat(variant.has("stated")).isFalse();
    assertThat(variant.path("fibre").asString()).isEqualTo("polyester");
    assertThat(part("BODY").at("/buildSheet/lines/0/material").asString()).isEqualTo("CLOTH");
  }

  @Test
  void the_link_outlives_changes_of_code_and_what_is_read_can_be_put_back() {
    api.post("/parts/BODY/variants", "{\"code\":\"B2\"}").expect(201);
    api.post("/parts/B2/variants", "{\"code\":\"B3\"}").expect(201);

    JsonNode second = part("B2");
    assertThat(second.path("variants").toString()).isEqualTo("[\"B3\"]");
    api.put("/parts/B2", second.toString().replace("\"code\":\"B2\"", "\"code\":\"BODY-LIGHT\""))
        .expect(200);
    api.put(
            "/parts/BODY",
            part("BODY").toString().replace("\"code\":\"BODY\"", "\"code\":\"HULL\""))
        .expect(200);

    assertThat(part("B2").path("variantOf").asString()).isEqualTo("HULL");
    assertThat(part("B2").path("code").asString()).isEqualTo("BODY-LIGHT");
    assertThat(part("HULL").path("variants").toString()).isEqualTo("[\"BODY-LIGHT\"]");
    assertThat(part("B3").path("variantOf").asString()).isEqualTo("BODY-LIGHT");
  }

  @Test
  void no_save_can_turn_the_link_around() {
    api.post("/parts/BODY/variants", "{\"code\":\"B2\"}").expect(201);

    api.put(
            "/parts/BODY",
            part("BODY").toString().replace("\"revision\"", "\"variantOf\":\"B2\",\"revision\""))
        .expect(200);

    assertThat(part("BODY").has("variantOf")).isFalse();
    assertThat(part("B2").path("variantOf").asString()).isEqualTo("BODY");
  }

  @Test
  void a_code_that_is_taken_or_was_is_a_conflict_and_nothing_is_made() {
    api.post("/parts", "{\"code\":\"TARP\",\"name\":\"Tarp\"}").expect(201);
    api.put("/parts/TARP", "{\"code\":\"ROOF\",\"name\":\"Roof\"}").expect(200);
    long before = count();

    for (String code : new String[] {"BODY", "ROOF", "TARP"}) {
      Answer refused = api.post("/parts/BODY/variants", "{\"code\":\"" + code + "\"}").expect(409);
      assertThat(refused.json().at("/errors/0/pointer").asString()).isEqualTo("#/code");
    }
    assertThat(api.post("/parts/BODY/variants", "{}").expect(400).body()).contains("#/code");
    api.post("/parts/BODY/variants", "{\"code\":\"B2\",\"owned\":-1}").expect(400);

    assertThat(count()).isEqualTo(before);
    assertThat(part("BODY").has("variants")).isFalse();
  }

  @Test
  void a_part_without_a_cut_list_has_variants_too_and_another_ledgers_has_none(TestLedger other) {
    api.post("/parts", "{\"code\":\"BAR\",\"name\":\"Bar\",\"stated\":{\"mass\":\"90 g\"}}")
        .expect(201);

    JsonNode variant = api.post("/parts/BAR/variants", "{\"code\":\"BAR-V2\"}").expect(201).json();

    assertThat(variant.has("buildSheet")).isFalse();
    assertThat(variant.at("/estimate/basis").asString()).isEqualTo("estimated");
    other.api().post("/parts/BAR/variants", "{\"code\":\"BAR-V2\"}").expect(404);
  }

  private long count() {
    return ledger
        .server()
        .count("select count(*) from part where ledger_id = ?", ledger.member().ledgerId());
  }

  private JsonNode part(String code) {
    return api.get("/parts/{code}", code).expect(200).json();
  }

  /** A copied line is another line. */
  private static String withoutIds(JsonNode buildSheet) {
    return buildSheet.toString().replaceAll("\"id\":\"[^\"]*\",", "");
  }
}
