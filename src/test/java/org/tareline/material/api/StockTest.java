package org.tareline.material.api;

import static org.assertj.core.api.Assertions.assertThat;

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
class StockTest {

  private Api api;

  @BeforeEach
  void aShelf(TestLedger ledger) {
    api = ledger.api();
    material(
        "CLOTH",
        "\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"width\":\"1.5 m\",\"stock\":\"5 m\"");
    material("RING", "\"kind\":\"hardware\",\"nominal\":\"3 g\",\"stock\":\"12\"");
    material("DOWN", "\"kind\":\"insulation\",\"fillPower\":\"800\"");
    material("CORD", "\"kind\":\"cord\",\"nominal\":\"1.4 g/m\"");
  }

  private void material(String code, String rest) {
    api.post("/materials", "{\"code\":\"" + code + "\",\"name\":\"The " + code + "\"," + rest + "}")
        .expect(201);
  }

  private Answer log(String material, String body) {
    return api.post("/materials/" + material + "/stock", body);
  }

  private JsonNode material(String code) {
    return api.get("/materials/" + code).expect(200).json();
  }

  private String stock(String code) {
    JsonNode stock = material(code).path("stock");
    return stock.path("value").asString() + " " + stock.path("unit").asString();
  }

  @Test
  void what_comes_and_goes_is_written_down_and_adds_up_to_what_there_is() {
    assertThat(stock("CLOTH")).isEqualTo("5 m");
    log("CLOTH", "{\"added\":\"2 yd\",\"at\":\"2026-04-01\",\"note\":\"Bought\"}").expect(201);
    JsonNode cut = log("CLOTH", "{\"cut\":\"3.03 m\",\"at\":\"2026-04-02\"}").expect(201).json();

    // 5 m + 2 × 0.9144 m − 3.03 m
    assertThat(cut.at("/stock/value").asString()).isEqualTo("3.7988");
    assertThat(cut.path("notes")).isEmpty();
    assertThat(stock("CLOTH")).isEqualTo("3.7988 m");
    assertThat(material("CLOTH").path("stockRecord"))
        .extracting(line -> line.path("kind").asString() + " " + line.path("typed").asString())
        .containsExactly("cut 3.03 m", "added 2 yd");
    assertThat(api.get("/materials").json().at("/items/0/stock/value").asString())
        .isEqualTo("3.7988");

    log("RING", "{\"cut\":5}").expect(201);
    assertThat(stock("RING")).isEqualTo("7 1");
    log("DOWN", "{\"counted\":\"10 oz\"}").expect(201);
    assertThat(stock("DOWN")).isEqualTo("283.49523125 g");
  }

  @Test
  void a_count_says_what_there_is_whatever_came_before_and_not_what_came_after() {
    log("CLOTH", "{\"cut\":\"1 m\",\"at\":\"2026-04-01\"}").expect(201);
    log("CLOTH", "{\"cut\":\"0.5 m\",\"at\":\"2026-04-03\"}").expect(201);
    assertThat(stock("CLOTH")).isEqualTo("3.5 m");

    log("CLOTH", "{\"counted\":\"3.8 m\",\"at\":\"2026-04-02\"}").expect(201);

    assertThat(stock("CLOTH")).isEqualTo("3.3 m");
  }

  @Test
  void more_than_there_is_can_be_cut_and_is_said() {
    JsonNode cut = log("CLOTH", "{\"cut\":\"5.8 m\"}").expect(201).json();

    assertThat(cut.at("/stock/value").asString()).isEqualTo("-0.8");
    assertThat(cut.path("notes").toString()).contains("More was cut than there was: −0.8");
    assertThat(stock("CLOTH")).isEqualTo("-0.8 m");
    JsonNode cord = log("CORD", "{\"cut\":\"2 m\"}").expect(201).json();
    assertThat(cord.has("stock")).isFalse();
    assertThat(cord.path("notes").toString()).contains("Nobody counted");
  }

  @Test
  void a_line_is_struck_out_once_and_stays() {
    String id = log("CLOTH", "{\"cut\":\"1 m\"}").expect(201).json().path("id").asString();

    JsonNode after =
        api.post("/materials/CLOTH/stock/" + id + "/void", "{\"reason\":\"it was not cut\"}")
            .expect(200)
            .json();

    assertThat(after.at("/stock/value").asString()).isEqualTo("5");
    assertThat(material("CLOTH").at("/stockRecord/0/voidReason").asString())
        .isEqualTo("it was not cut");
    api.post("/materials/CLOTH/stock/" + id + "/void", "{\"reason\":\"again\"}").expect(409);
    api.post("/materials/RING/stock/" + id + "/void", "{\"reason\":\"other\"}").expect(404);
  }

  @Test
  void the_same_key_again_writes_nothing_and_with_another_line_is_refused() {
    String body = "{\"cut\":\"1 m\",\"key\":\"k1\"}";
    Answer first = log("CLOTH", body).expect(201);

    assertThat(log("CLOTH", body).expect(200).json().path("id")).isEqualTo(first.json().path("id"));
    assertThat(log("CLOTH", "{\"cut\":\"2 m\",\"key\":\"k1\"}").expect(409).body())
        .contains("cut 1 m");
    assertThat(stock("CLOTH")).isEqualTo("4 m");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          CLOTH | {"cut":"1 g"}                     | cut     | length
          CLOTH | {"cut":"-1 m"}                    | cut     | zero or more
          CLOTH | {"added":"0 m"}                   | added   | more than nothing
          CLOTH | {"cut":"1 m","part":"NONE"}       | part    | no part NONE
          CLOTH | {"cut":"1 m","at":"yesterday"}    | at      | 2027-04-11
          RING  | {"counted":"2.5"}                 | counted | whole number
          DOWN  | {"added":"1 m"}                   | added   | mass
          CLOTH | {}                                |         | one of counted, added and cut
          CLOTH | {"cut":"1 m","added":"1 m"}       |         | one of counted, added and cut
          """)
  void what_cannot_be_read_is_refused_and_nothing_moves(
      String material, String body, String field, String said) {
    Answer refused = log(material, body).expect(400);

    assertThat(refused.json().at("/errors/0/pointer").asString())
        .isEqualTo(field == null ? "#" : "#/" + field);
    assertThat(refused.json().at("/errors/0/detail").asString()).contains(said);
    assertThat(material(material).has("stockRecord")).isFalse();
  }

  @Test
  void a_material_put_back_as_it_was_says_nothing_of_its_stock_and_another_amount_counts() {
    log("CLOTH", "{\"cut\":\"5.8 m\",\"at\":\"2026-04-01\"}").expect(201);
    Answer before = api.get("/materials/CLOTH").expect(200);

    Answer put = api.put("/materials/CLOTH", before.body()).expect(200);

    assertThat(put.body()).isEqualTo(before.body().replace("\"revision\":1", "\"revision\":2"));
    log("RING", "{\"cut\":\"5\"}").expect(201);
    api.put("/materials/RING", api.get("/materials/RING").body()).expect(200);
    assertThat(material("RING").path("stockRecord")).hasSize(1);

    api.put(
            "/materials/CLOTH",
            "{\"name\":\"C\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"stock\":\"2 m\"}")
        .expect(200);
    assertThat(stock("CLOTH")).isEqualTo("2 m");
    assertThat(material("CLOTH").at("/stockRecord/0/kind").asString()).isEqualTo("counted");
    api.put("/materials/CLOTH", "{\"name\":\"C\",\"kind\":\"hardware\",\"nominal\":\"40 g\"}")
        .expect(409);
  }

  @Test
  void a_part_that_is_cut_takes_what_its_cut_list_needs_off_every_stock() {
    api.post(
            "/parts",
            """
            {"code":"BODY","name":"Body","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"2 m","width":"1 m"},
              {"kind":"length","material":"CORD","length":"1.5 m","quantity":2},
              {"kind":"each","material":"RING","quantity":4},
              {"kind":"fill","material":"DOWN","mass":"30 g"}]}}""")
        .expect(201);
    JsonNode use = material("CLOTH").at("/usedIn/0");
    assertThat(use.path("part").asString()).isEqualTo("BODY");
    assertThat(use.at("/mass/value").asString()).isEqualTo("80");
    assertThat(use.at("/needs/value").asString()).isEqualTo("2");
    assertThat(use.path("covered").asBoolean()).isTrue();
    JsonNode need = api.get("/parts/BODY").json().at("/calculated/materials/0");
    assertThat(need.at("/onHand/value").asString()).isEqualTo("5");
    assertThat(need.path("covered").asBoolean()).isTrue();

    JsonNode cut =
        api.post(
                "/parts/BODY/cuts",
                """
                {"quantity":2,"amounts":[{"material":"CORD","amount":"6.4 m"},{"material":"DOWN","amount":"0 g"}],
                 "note":"On the floor","key":"c1"}""")
            .expect(201)
            .json();

    assertThat(cut.path("taken"))
        .extracting(
            each -> each.path("material").asString() + " " + each.at("/amount/value").asString())
        .containsExactly("CLOTH 4", "CORD 6.4", "RING 8");
    assertThat(stock("CLOTH")).isEqualTo("1 m");
    assertThat(stock("RING")).isEqualTo("4 1");
    assertThat(material("CLOTH").at("/stockRecord/0/part").asString()).isEqualTo("BODY");
    assertThat(material("CLOTH").at("/usedIn/0/covered").asBoolean()).isFalse();
    api.post(
            "/parts/BODY/cuts",
            """
            {"quantity":2,"amounts":[{"material":"CORD","amount":"6.4 m"},{"material":"DOWN","amount":"0 g"}],
             "note":"On the floor","key":"c1"}""")
        .expect(200);
    assertThat(stock("CLOTH")).isEqualTo("1 m");
  }

  @Test
  void a_cut_of_which_one_amount_is_wrong_takes_nothing_off_any_stock() {
    api.post(
            "/parts",
            """
            {"code":"BODY","name":"Body","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"2 m","width":"1 m"},
              {"kind":"each","material":"RING","quantity":4}]}}""")
        .expect(201);
    api.post("/parts", "{\"code\":\"BARE\",\"name\":\"No cut list\"}").expect(201);

    Answer refused =
        api.post(
                "/parts/BODY/cuts",
                "{\"amounts\":[{\"material\":\"RING\",\"amount\":\"four\"},{\"material\":\"NONE\",\"amount\":\"1 m\"}]}")
            .expect(400);

    assertThat(refused.json().path("errors"))
        .extracting(error -> error.path("pointer").asString())
        .containsExactly("#/amounts/1/material", "#/amounts/0/amount");
    assertThat(stock("CLOTH")).isEqualTo("5 m");
    api.post("/parts/BARE/cuts", "{}").expect(409);
  }

  @Test
  void what_others_have_on_the_shelf_is_not_there(TestLedger another) {
    String id = log("CLOTH", "{\"cut\":\"1 m\"}").expect(201).json().path("id").asString();

    another.api().post("/materials/CLOTH/stock", "{\"cut\":\"1 m\"}").expect(404);
    another
        .api()
        .post("/materials/CLOTH/stock/" + id + "/void", "{\"reason\":\"mine\"}")
        .expect(404);
    assertThat(stock("CLOTH")).isEqualTo("4 m");
  }
}
