package org.tareline.material.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.material.api.MaterialsTest.number;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.cutting.Stock;
import org.tareline.material.Material;
import org.tareline.material.Materials;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class SwatchesTest {

  private TestLedger ledger;

  @BeforeEach
  void aScaleAndSomeMaterials(TestLedger ledger) {
    this.ledger = ledger;
    ledger
        .api()
        .post(
            "/scales",
            """
            {"code":"S","name":"Small scale","readability":"0.01 g","capacity":"500 g"}""")
        .expect(201);
    material("F", "fabric", "50 g/m²");
    material("C", "cord", "1.5 g/m");
    material("H", "hardware", "4 g");
  }

  private void material(String code, String kind, String nominal) {
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"%s","name":"%s","kind":"%s","nominal":"%s"}"""
                .formatted(code, code, kind, nominal))
        .expect(201);
  }

  private Answer swatch(String material, String body) {
    return ledger.api().post("/materials/" + material + "/swatches", body);
  }

  private JsonNode material(String code) {
    return ledger.api().get("/materials/" + code).expect(200).json();
  }

  private void threeAt(String first, String second, String third) {
    for (String reading : new String[] {first, second, third}) {
      swatch(
              "F",
              """
              {"length":"1 m","width":"1 m","scale":"S","readings":["%s","%s"]}"""
                  .formatted(reading, reading))
          .expect(201);
    }
  }

  /** 0.48 g on 100 cm² is 48 g/m², M = m/(L W) (ISO 3801:1977, method 5). */
  @Test
  void a_small_swatch_is_weighed_and_said_to_decide_two_digits() {
    JsonNode logged =
        swatch(
                "F",
                """
                {"length":"100 mm","width":"100 mm","scale":"S","readings":["0.48"],"place":"left edge",
                 "sizeError":"0 mm"}""")
            .expect(201)
            .json();

    assertThat(logged.path("value").asString()).isEqualTo("48");
    assertThat(logged.path("unit").asString()).isEqualTo("g/m2");
    // d/√12 over 0.01 m² is 0.288675 g/m²; once at the load and once at the zero (GUM F.2.2.1)
    assertThat(number(logged, "standardUncertainty"))
        .isCloseTo(0.288675 * Math.sqrt(2), within(1e-6));
    assertThat(logged.path("notes").toString()).contains("two digits").contains("100 cm²");
    assertThat(logged.path("weighed").path("swatches").asInt()).isEqualTo(1);
    assertThat(logged.path("place").asString()).isEqualTo("left edge");
  }

  /** u² of the sides: 2 (1 mm/√3/100 mm)² (JCGM 100:2008, 4.3.7 and 5.1.6). */
  @Test
  void the_cut_is_taken_to_be_off_by_a_millimetre_where_nothing_is_said() {
    JsonNode logged =
        swatch(
                "F",
                """
                {"length":"10 cm","width":"100 mm","scale":"S","readings":["0.48 g"]}""")
            .expect(201)
            .json();

    double resolution = 0.288675 * Math.sqrt(2);
    double cut = 48 * Math.sqrt(2) * 0.001 / Math.sqrt(3) / 0.1;
    assertThat(number(logged, "standardUncertainty"))
        .isCloseTo(Math.hypot(resolution, cut), within(1e-6));
    assertThat(logged.path("sizeError").asString()).isEqualTo("1 mm");
  }

  @Test
  void a_hank_and_a_handful_of_hooks_are_shared_out() {
    JsonNode hank =
        swatch("C", "{\"length\":\"30 m\",\"scale\":\"S\",\"readings\":[\"42.0\"]}")
            .expect(201)
            .json();
    JsonNode hooks =
        swatch("H", "{\"scale\":\"S\",\"readings\":[\"42.0\"],\"count\":10}").expect(201).json();

    assertThat(hank.path("value").asString()).isEqualTo("1.4");
    assertThat(hank.path("unit").asString()).isEqualTo("g/m");
    assertThat(hank.path("notes").toString()).doesNotContain("two digits");
    assertThat(hooks.path("value").asString()).isEqualTo("4.2");
    assertThat(hooks.path("unit").asString()).isEqualTo("g");
    assertThat(hooks.path("weighing").path("count").asInt()).isEqualTo(10);
  }

  @Test
  void ten_on_the_pan_make_the_weight_surer_and_not_the_size() {
    JsonNode ten =
        swatch(
                "F",
                """
                {"length":"100 mm","width":"100 mm","scale":"S","readings":["4.80"],"count":10}""")
            .expect(201)
            .json();

    double resolution = 0.288675 * Math.sqrt(2) / 10;
    double cut = 48 * Math.sqrt(2) * 0.001 / Math.sqrt(3) / 0.1;
    assertThat(ten.path("value").asString()).isEqualTo("48");
    assertThat(number(ten, "standardUncertainty"))
        .isCloseTo(Math.hypot(resolution, cut), within(1e-6));
  }

  @Test
  void three_swatches_that_agree_are_used_until_one_is_struck_out() {
    threeAt("48.00", "48.05", "47.95");

    JsonNode cloth = material("F");
    assertThat(cloth.path("weighed").path("swatches").asInt()).isEqualTo(3);
    assertThat(cloth.path("weighed").path("agree").asBoolean()).isTrue();
    assertThat(number(cloth.path("weighed"), "value")).isCloseTo(48, within(1e-4));
    assertThat(cloth.path("used").path("from").asString()).isEqualTo("weighed");
    assertThat(cloth.path("used").path("why").asString()).isEqualTo("three swatches or more agree");

    String weighing = cloth.path("swatches").path(0).path("weighing").path("id").asString();
    JsonNode voided =
        ledger
            .api()
            .post("/weighings/" + weighing + "/void", "{\"reason\":\"mistyped\"}")
            .expect(200)
            .json();
    assertThat(voided.path("material").asString()).isEqualTo("F");

    JsonNode after = material("F");
    assertThat(after.path("used").path("from").asString()).isEqualTo("nominal");
    assertThat(after.path("used").path("why").asString()).contains("fewer than three");
    assertThat(after.path("weighed").path("swatches").asInt()).isEqualTo(2);
    assertThat(after.path("swatches").size()).isEqualTo(3);
    assertThat(after.path("swatches").path(0).path("counts").asBoolean()).isFalse();
    assertThat(after.path("swatches").path(0).path("weighing").path("voidReason").asString())
        .isEqualTo("mistyped");
    ledger.api().post("/weighings/" + weighing + "/void", "{\"reason\":\"mistyped\"}").expect(409);
    JsonNode kept = ledger.api().get("/weighings/" + weighing).expect(200).json();
    assertThat(kept.path("material").asString()).isEqualTo("F");
    assertThat(kept.path("counts").asBoolean()).isFalse();
  }

  @Test
  void swatches_that_do_not_agree_are_as_unsure_as_they_are_scattered_and_not_used_unasked() {
    threeAt("46.00", "48.00", "50.00");

    JsonNode cloth = material("F");

    assertThat(cloth.path("weighed").path("agree").asBoolean()).isFalse();
    // s/√3 with s = 2 g/m² (JCGM 100:2008, 4.2.3), the weights being nearly alike
    assertThat(number(cloth.path("weighed"), "standardUncertainty"))
        .isCloseTo(2 / Math.sqrt(3), within(0.01));
    assertThat(cloth.path("used").path("from").asString()).isEqualTo("nominal");
    assertThat(cloth.path("used").path("why").asString()).contains("do not agree");

    String chosen =
        "{\"code\":\"F\",\"name\":\"F\",\"kind\":\"fabric\",\"nominal\":\"50 g/m²\",\"use\":\"weighed\"}";
    JsonNode after = ledger.api().put("/materials/F", chosen).expect(200).json();
    assertThat(after.path("used").path("from").asString()).isEqualTo("weighed");
    assertThat(after.path("used").path("why").asString()).isEqualTo("so it was chosen");
  }

  /** One scale weighs all three: its span goes through the mean whole (JCGM 100:2008, 5.2.2). */
  @Test
  void the_span_of_the_one_scale_is_not_averaged_away() {
    ledger
        .api()
        .post(
            "/scales",
            """
            {"code":"K","name":"Kitchen","readability":"0.01 g","capacity":"500 g","spanTolerance":"2 %"}""")
        .expect(201);
    for (int i = 0; i < 3; i++) {
      swatch(
              "F",
              """
              {"length":"2 m","width":"1 m","scale":"K","readings":["96.00"],"sizeError":"0 mm"}""")
          .expect(201);
    }

    double span = 48 * 0.02 / Math.sqrt(3);
    double resolution = 0.01 * Math.sqrt(2.0 / 12) / 2 / Math.sqrt(3);
    assertThat(number(material("F").path("weighed"), "standardUncertainty"))
        .isCloseTo(Math.hypot(span, resolution), within(1e-9));
  }

  @Test
  void a_damp_swatch_is_kept_and_does_not_count() {
    JsonNode damp =
        swatch(
                "F",
                """
                {"length":"1 m","width":"1 m","scale":"S","readings":["49"],"condition":"damp"}""")
            .expect(201)
            .json();

    assertThat(damp.path("counts").asBoolean()).isFalse();
    assertThat(damp.path("notes").toString()).contains("dry or aired");
    assertThat(damp.has("weighed")).isFalse();
    assertThat(material("F").path("swatches").size()).isEqualTo(1);
  }

  @Test
  void swatches_of_a_fibre_share_the_air_of_their_day() {
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"N","name":"Nylon","kind":"fabric","nominal":"50 g/m²","fibre":"nylon"}""")
        .expect(201);
    for (int i = 0; i < 3; i++) {
      swatch(
              "N",
              """
              {"length":"2 m","width":"1 m","scale":"S","readings":["96.00"],"sizeError":"0 mm"}""")
          .expect(201);
    }

    // half of the regain of nylon, 4.5 % (ASTM D1909), taken as rectangular
    assertThat(number(material("N").path("weighed"), "standardUncertainty"))
        .isCloseTo(48 * 0.0225 / Math.sqrt(3), within(1e-4));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "F | {\"length\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/width",
        "F | {\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/length",
        "F | {\"length\":\"0 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/length",
        "F | {\"length\":\"100\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/length",
        "F | {\"length\":\"1 mm\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/length",
        "F | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"],\"sizeError\":\"-1 mm\"} | #/sizeError",
        "F | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[]} | #/readings",
        "F | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"X\",\"readings\":[\"48\"]} | #/scale",
        "F | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"501\"]} | #/readings/0",
        "F | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"],\"count\":0} | #/count",
        "F | {\"length\":\"10 µm\",\"width\":\"10 µm\",\"sizeError\":\"0 m\",\"scale\":\"S\",\"readings\":[\"480\"]} | #/length",
        "C | {\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/width",
        "H | {\"length\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]} | #/length"
      })
  void what_does_not_fit_the_material_is_refused_and_nothing_is_kept(
      String material, String body, String pointer) {
    Answer refused = swatch(material, body).expect(400);

    assertThat(refused.json().path("errors").findValuesAsString("pointer")).contains(pointer);
    assertThat(
            ledger
                .server()
                .count(
                    "select (select count(*) from swatch where ledger_id = ?)"
                        + " + (select count(*) from weighing where ledger_id = ?)",
                    ledger.member().ledgerId(),
                    ledger.member().ledgerId()))
        .isZero();
  }

  @Test
  void a_material_with_swatches_keeps_what_its_mass_is_for() {
    threeAt("48", "48", "48");

    Answer refused =
        ledger
            .api()
            .put(
                "/materials/F",
                "{\"code\":\"F\",\"name\":\"F\",\"kind\":\"cord\",\"nominal\":\"3 g/m\"}")
            .expect(409);

    assertThat(refused.body()).contains("its swatches were cut for that");
    assertThat(material("F").path("kind").asString()).isEqualTo("fabric");
  }

  @Test
  void a_material_of_which_nothing_is_printed_is_used_by_its_first_swatch() {
    ledger
        .api()
        .post("/materials", "{\"code\":\"U\",\"name\":\"Unmarked\",\"kind\":\"fabric\"}")
        .expect(201);
    assertThat(material("U").has("used")).isFalse();

    swatch("U", "{\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]}")
        .expect(201);

    assertThat(material("U").path("used").path("from").asString()).isEqualTo("weighed");
    assertThat(material("U").path("used").path("why").asString()).isEqualTo("nothing is printed");
  }

  @Test
  void the_bench_shows_and_strikes_out_what_was_weighed_of_a_material(TestServer server) {
    swatch("F", "{\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]}")
        .expect(201);

    var bench = ledger.pages().get("/").expect(200);

    assertThat(bench.page().text()).contains("swatch").contains("48");
    assertThat(bench.page().select("a[href=/materials/F]")).isNotEmpty();
  }

  @Test
  void cut_lists_take_the_mass_that_is_used_and_nothing_of_what_has_none(TestServer server) {
    threeAt("48.00", "48.05", "47.95");
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"D\",\"name\":\"Down\",\"kind\":\"insulation\",\"fillPower\":850}")
        .expect(201);
    Materials materials = server.bean(Materials.class);
    Map<String, Material> byCode =
        materials.byCodes(ledger.member(), List.of("F", "c", "H", "D", "nothing"));

    Map<Long, Stock> stocks = materials.stocks(ledger.member(), byCode.values());

    assertThat(byCode).containsOnlyKeys("f", "c", "h", "d");
    assertThat(stocks).hasSize(3);
    Stock cloth = stocks.get(byCode.get("f").id());
    assertThat(cloth.per()).isEqualTo(Stock.Per.SQUARE_METRE);
    assertThat(cloth.grams()).isCloseTo(48, within(1e-4));
    assertThat(cloth.id()).isEqualTo(byCode.get("f").uuid().toString());
    // the ledger takes what nobody gave a tolerance for as good to 5 %
    Stock cord = stocks.get(byCode.get("c").id());
    assertThat(cord.per()).isEqualTo(Stock.Per.METRE);
    assertThat(cord.grams()).isEqualTo(1.5);
    assertThat(cord.standardUncertainty()).isCloseTo(1.5 * 0.05 / Math.sqrt(3), within(1e-9));
    assertThat(stocks.get(byCode.get("h").id()).per()).isEqualTo(Stock.Per.PIECE);
  }

  @Test
  void the_size_of_a_swatch_is_neither_changed_nor_deleted(TestServer server) {
    swatch("F", "{\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]}")
        .expect(201);

    for (String statement :
        List.of(
            "update swatch set length_nm = 1 where ledger_id = ?",
            "delete from swatch where ledger_id = ?")) {
      assertThatThrownBy(() -> server.database().update(statement, ledger.member().ledgerId()))
          .rootCause()
          .hasMessageContaining("append-only");
    }
    assertThat(material("F").path("weighed").path("value").asString()).isEqualTo("48");
  }

  /** Reading a list takes as many statements for forty materials as for four. */
  @Test
  void a_list_is_read_in_a_fixed_number_of_statements(TestServer server) {
    threeAt("48", "48", "48");
    int few = server.statements(() -> ledger.api().get("/materials").expect(200)).size();
    for (int i = 0; i < 10; i++) {
      material("F" + i, "fabric", "50 g/m²");
      swatch(
              "F" + i,
              "{\"length\":\"1 m\",\"width\":\"1 m\",\"scale\":\"S\",\"readings\":[\"48\"]}")
          .expect(201);
    }

    int many = server.statements(() -> ledger.api().get("/materials").expect(200)).size();

    assertThat(many).isEqualTo(few);
  }

  @Test
  void a_swatch_that_is_struck_out_names_the_rigs_whose_totals_moved() {
    threeAt("52.0 g", "52.0 g", "52.0 g");
    ledger
        .api()
        .post(
            "/parts",
            """
            {"code":"P","name":"P","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"F","length":"2 m","width":"1 m"}]}}""")
        .expect(201);
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"P\",\"quantity\":1,\"role\":\"body\"}]}")
        .expect(201);
    String swatch = material("F").at("/swatches/0/weighing/id").asString();

    JsonNode struck =
        ledger
            .api()
            .post("/weighings/" + swatch + "/void", "{\"reason\":\"mistyped\"}")
            .expect(200)
            .json();

    // Two are left, so that what is printed counts again: 50 g/m² and not 52.
    assertThat(struck.at("/rigs/0/rig").asString()).isEqualTo("R");
    assertThat(struck.at("/rigs/0/change/mass/value").asString()).isEqualTo("-4");
  }

  @Test
  void the_same_key_sent_again_is_answered_as_before_and_kept_once_and_is_of_that_material_alone() {
    String entry =
        """
        {"length":"1 m","width":"1 m","scale":"S","readings":["48.31"],"key":"first square"}""";
    Answer first = swatch("F", entry).expect(201);

    assertThat(swatch("F", entry).expect(200).body()).isEqualTo(first.body());

    material("G", "fabric", "60 g/m²");
    assertThat(swatch("G", entry).expect(409).json().path("detail").asString())
        .contains("first square came before with another entry");
    assertThat(material("F").path("swatches")).hasSize(1);
    assertThat(material("G").path("swatches")).isEmpty();
  }
}
