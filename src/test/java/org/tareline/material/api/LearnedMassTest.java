package org.tareline.material.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.material.api.MaterialsTest.number;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class LearnedMassTest {

  private TestLedger ledger;
  private Api api;

  @BeforeEach
  void aClothACordAndAScale(TestLedger ledger) {
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
            "{\"code\":\"CORD\",\"name\":\"Cord\",\"kind\":\"cord\",\"nominal\":\"2 g/m\",\"tolerance\":\"1 %\"}")
        .expect(201);
  }

  /** So many square metres of cloth at 40 g/m², and metres of cord at 2 g/m, cut without error. */
  private void part(String code, int squareMetres, int metresOfCord, String weighed) {
    api.post(
            "/parts",
            """
            {"code":"%s","name":"%s","buildSheet":{"cuttingTolerance":"0 mm","lines":[
              {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"%s m","width":"1 m"},
              {"kind":"length","material":"CORD","length":"%s m"}]}}"""
                .formatted(code, code, squareMetres, metresOfCord))
        .expect(201);
    api.post(
            "/weighings",
            "{\"part\":\"%s\",\"scale\":\"K1\",\"readings\":[\"%s\"]}".formatted(code, weighed))
        .expect(201);
  }

  private JsonNode cloth() {
    return api.get("/materials/CLOTH").expect(200).json();
  }

  @Test
  void parts_that_are_mostly_of_a_material_say_how_far_it_is_off() {
    part("A", 3, 1, "128.1 g"); // 120 g of cloth and 2 g of cord
    part("B", 2, 60, "205 g"); // 80 g of cloth and 120 g of cord: the cord's, not the cloth's
    part("C", 5, 1, "212.1 g");
    api.post("/parts", "{\"code\":\"D\",\"name\":\"Not weighed\"}").expect(201);

    JsonNode learned = cloth().path("learned");

    assertThat(learned.path("parts"))
        .extracting(part -> part.path("code").asString())
        .containsExactly("A", "C");
    JsonNode a = learned.at("/parts/0");
    assertThat(a.at("/calculated/value").asString()).isEqualTo("122");
    assertThat(a.at("/weighed/value").asString()).isEqualTo("128.1");
    assertThat(number(a, "ratio")).isCloseTo(1.05, within(1e-12));
    assertThat(number(a, "share")).isCloseTo(120 / 122.0, within(1e-12));
    // Resolution d²/6 and 0.1 g of repeatability of the weighing, 1 %/√3 of 2 g of cord, and of the
    // cloth's own 5 %/√3 the share that is not cloth (JCGM 100:2008, 5.1.6).
    double weighed = Math.sqrt(0.01 / 6 + 0.01) / 128.1;
    double cord = 2 / 122.0 * 0.01 / Math.sqrt(3);
    double own = 2 / 122.0 * 0.05 / Math.sqrt(3);
    assertThat(number(a, "standardUncertainty"))
        .isCloseTo(1.05 * Math.sqrt(weighed * weighed + cord * cord + own * own), within(1e-9));
    assertThat(learned.path("against").asString()).isEqualTo("nominal");
    assertThat(learned.path("agree").asBoolean()).isTrue();
    assertThat(number(learned, "value")).isCloseTo(1.05, within(1e-9));
    assertThat(learned.at("/mass/unit").asString()).isEqualTo("g/m2");
    assertThat(number(learned.path("mass"), "value")).isCloseTo(42, within(1e-7));
    assertThat(api.get("/materials/CORD").json().at("/learned/parts/0/code").asString())
        .isEqualTo("B");
  }

  @Test
  void what_is_learned_is_used_only_once_it_is_taken_and_does_not_learn_from_itself() {
    part("A", 3, 1, "128.1 g");
    part("C", 5, 1, "212.1 g");
    api.post(
            "/parts",
            """
            {"code":"NEXT","name":"Next","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"2 m","width":"1 m"}]}}""")
        .expect(201);
    JsonNode before = cloth();
    assertThat(before.at("/used/from").asString()).isEqualTo("nominal");
    assertThat(mass("NEXT")).isEqualTo(80);

    JsonNode taken = api.post("/materials/CLOTH/take-learned", "{}").expect(200).json();

    assertThat(taken.at("/used/from").asString()).isEqualTo("learned");
    assertThat(number(taken.path("used"), "value")).isCloseTo(42, within(1e-7));
    assertThat(number(taken.path("used"), "standardUncertainty"))
        .isEqualTo(number(before.at("/learned/mass"), "standardUncertainty"), within(1e-9));
    assertThat(taken.path("use").asString()).isEqualTo("learned");
    assertThat(taken.path("revision").asInt()).isEqualTo(2);
    assertThat(taken.at("/learned/taken/parts").asInt()).isEqualTo(2);
    assertThat(mass("NEXT")).isCloseTo(84, within(1e-6));
    assertThat(
            ledger
                .server()
                .database()
                .queryForObject(
                    "select count(*) from revision where ledger_id = ? and content like '%\"learned\":{\"grams\":%'",
                    Integer.class, ledger.member().ledgerId()))
        .isEqualTo(1);
    // Still 1.05 of what is printed, and not 1.00 of what was learned.
    assertThat(taken.at("/learned/value")).isEqualTo(before.at("/learned/value"));
    assertThat(taken.at("/learned/parts")).isEqualTo(before.at("/learned/parts"));
    assertThat(taken.at("/learned/mass")).isEqualTo(before.at("/learned/mass"));

    JsonNode back = api.post("/materials/CLOTH/take-back-learned", "{}").expect(200).json();

    assertThat(back.at("/used/from").asString()).isEqualTo("nominal");
    assertThat(back.at("/learned")).isEqualTo(before.at("/learned"));
    assertThat(mass("NEXT")).isEqualTo(80);
    api.post("/materials/CLOTH/take-back-learned", "{}").expect(409);
  }

  @Test
  void what_was_taken_stays_as_it_was_through_saves_until_another_mass_is_chosen() {
    part("A", 3, 1, "128.1 g");
    Answer taken = api.post("/materials/CLOTH/take-learned", "{}").expect(200);

    Answer again = api.put("/materials/CLOTH", taken.body()).expect(200);

    assertThat(again.body()).isEqualTo(taken.body().replace("\"revision\":2", "\"revision\":3"));
    api.post("/weighings", "{\"part\":\"A\",\"scale\":\"K1\",\"readings\":[\"134.2 g\"]}")
        .expect(201);
    assertThat(number(cloth().path("learned"), "value")).isCloseTo(1.1, within(1e-9));
    assertThat(number(cloth().path("used"), "value")).isCloseTo(42, within(1e-7));

    api.put("/materials/CLOTH", "{\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\"}")
        .expect(200);
    assertThat(cloth().at("/used/from").asString()).isEqualTo("nominal");
    assertThat(cloth().at("/learned").has("taken")).isFalse();
  }

  @Test
  void it_is_refused_where_nothing_was_learned_or_somebody_saved_since() {
    api.post("/materials/CLOTH/take-learned", "{}").expect(409);
    api.put(
            "/materials/CLOTH",
            "{\"name\":\"C\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"use\":\"learned\"}")
        .expect(400);
    part("A", 3, 1, "128.1 g");
    api.with("If-Match", "\"7\"").post("/materials/CLOTH/take-learned", "{}").expect(412);

    assertThat(cloth().path("revision").asInt()).isEqualTo(1);
    assertThat(cloth().at("/used/from").asString()).isEqualTo("nominal");
    assertThat(cloth().has("use")).isFalse();
  }

  @Test
  void however_many_parts_there_are_it_takes_as_many_queries() {
    TestServer server = ledger.server();
    part("A", 3, 1, "128.1 g");
    int one = server.statements(() -> api.get("/materials/CLOTH").expect(200)).size();
    for (int i = 0; i < 5; i++) {
      part("M" + i, 3, 1, "128.1 g");
    }

    assertThat(server.statements(() -> api.get("/materials/CLOTH").expect(200))).hasSize(one);
    assertThat(cloth().at("/learned/parts")).hasSize(6);
  }

  private double mass(String part) {
    return Double.parseDouble(
        api.get("/parts/" + part).expect(200).json().at("/estimate/mass/value").asString());
  }
}
