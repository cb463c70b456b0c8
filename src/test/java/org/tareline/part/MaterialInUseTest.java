package org.tareline.part;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** A material is changed while cut lists use it. */
@FeatureTest
class MaterialInUseTest {

  private TestLedger ledger;

  @BeforeEach
  void a_part_of_the_material(TestLedger ledger) {
    this.ledger = ledger;
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"40 g/m2\",\"width\":\"1.5 m\"}")
        .expect(201);
    ledger
        .api()
        .post(
            "/parts",
            """
            {"code":"P","name":"Panel","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"M","length":"2 m","width":"1 m"}]}}
            """)
        .expect(201);
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"P\",\"role\":\"body\"}]}")
        .expect(201);
  }

  @Test
  void another_printed_mass_moves_the_part() {
    ledger
        .api()
        .put(
            "/materials/M",
            "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"50 g/m2\"}")
        .expect(200);

    assertThat(
            ledger.api().get("/parts/P").expect(200).json().at("/estimate/mass/value").asString())
        .isEqualTo("100");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"cord\",\"nominal\":\"3 g/m\"}",
        "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"hardware\",\"nominal\":\"3 g\"}",
        "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"other\",\"nominal\":\"3 g\"}",
        "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"insulation\",\"fillPower\":\"800\"}",
        "{\"code\":\"M\",\"name\":\"Cloth\",\"kind\":\"fabric\"}"
      })
  void what_a_cut_list_could_not_be_cut_from_is_refused_or_said_and_breaks_nothing(String body) {
    Answer answer = ledger.api().put("/materials/M", body);

    assertThat(answer.status()).as(answer.body()).isIn(400, 409);
    for (String path : new String[] {"/parts/P", "/rigs/R/roll-up", "/materials/M", "/parts"}) {
      ledger.api().get(path).expect(200);
    }
    for (String path :
        new String[] {
          "/parts/P",
          "/parts/P/cut-list",
          "/parts/P/cut-list/edit",
          "/rigs/R",
          "/parts",
          "/materials/M"
        }) {
      ledger.pages().get(path).expect(200);
    }
  }

  @Test
  void a_material_that_loses_its_only_swatch_leaves_its_parts_without_a_mass_and_breaks_nothing() {
    ledger
        .api()
        .post("/materials", "{\"code\":\"S\",\"name\":\"Scrap\",\"kind\":\"fabric\"}")
        .expect(201);
    String weighing =
        ledger
            .api()
            .post(
                "/materials/S/swatches",
                "{\"length\":\"1 m\",\"width\":\"1 m\",\"tolerance\":\"1 g\",\"readings\":[\"40 g\"]}")
            .expect(201)
            .json()
            .at("/weighing/id")
            .asString();
    ledger
        .api()
        .post(
            "/parts",
            """
            {"code":"Q","name":"Panel","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"S","length":"2 m","width":"1 m"}]}}
            """)
        .expect(201);
    ledger.api().post("/weighings/{id}/void", "{\"reason\":\"wrong\"}", weighing).expect(200);

    assertThat(ledger.api().get("/parts/Q").expect(200).json().path("estimate").isNull()).isTrue();
    for (String path :
        new String[] {"/parts/Q", "/parts/Q/cut-list/edit", "/parts", "/materials/S"}) {
      ledger.pages().get(path).expect(200);
    }
  }
}
