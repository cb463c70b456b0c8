package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** Figures are of REFERENCES F and J2, by the rows named. */
@FeatureTest
class LoadsResourceTest {

  /** Half a step of the last digit that those tables print. */
  private static final double PRINTED = 5.01e-4;

  private static double number(JsonNode json, String pointer) {
    return Double.parseDouble(json.at(pointer).asString());
  }

  private static JsonNode hang(TestLedger ledger, String body) {
    return ledger.api().post("/loads/hang", body).expect(200).json();
  }

  @Test
  void a_level_hang_with_its_elements(TestLedger ledger) {
    JsonNode json =
        hang(
            ledger,
            """
            {"load":"100 kg","designFactor":"5","ends":[{"angle":"30 deg"},{"angle":"30 deg"}],
             "elements":[{"name":"knotted","strength":"7.0 kN","termination":"0.5"},
                         {"name":"spliced","strength":"7.0 kN","strengthKind":"minimum-breaking","termination":"0.9"}]}""");

    // J2.20, F25 and F26.
    assertThat(number(json, "/load/value")).isCloseTo(980.665, within(1e-9));
    assertThat(number(json, "/ends/0/tension/value")).isCloseTo(980.665, within(1e-9));
    assertThat(number(json, "/ends/1/horizontal/value")).isCloseTo(849.281, within(PRINTED));
    assertThat(number(json, "/ends/1/vertical/value")).isCloseTo(490.3325, within(1e-9));
    assertThat(json.at("/ends/0/angle/value").asString()).isEqualTo("30");
    assertThat(json.at("/ends/0/angle/unit").asString()).isEqualTo("deg");
    assertThat(number(json, "/elements/0/factor")).isCloseTo(3.56901, within(5e-6));
    assertThat(json.at("/elements/0/verdict").asString()).isEqualTo("below");
    assertThat(number(json, "/elements/1/factor")).isCloseTo(6.42421, within(5e-6));
    assertThat(json.at("/elements/1/verdict").asString()).isEqualTo("meets");
    assertThat(json.at("/least/name").asString()).isEqualTo("knotted");
    assertThat(json.at("/least/factor").asString())
        .isEqualTo(json.at("/elements/0/factor").asString())
        .hasSizeGreaterThanOrEqualTo(10); // nine significant digits
    assertThat(json.path("verdict").asString()).isEqualTo("below");
    assertThat(json.path("cautions").size()).isGreaterThanOrEqualTo(8);
    assertThat(json.has("ridgeLine")).isFalse();
    assertThat(json.at("/ends/0/tension").has("low")).isFalse();
    assertThat(json.at("/ends/0").has("bar")).isFalse();
  }

  @Test
  void unequal_supports_by_angle_and_by_run_and_rise(TestLedger ledger) {
    JsonNode json =
        hang(
            ledger,
            "{\"load\":\"85 kg\",\"ends\":[{\"angle\":\"35 deg\"},{\"angle\":\"25 deg\"}]}");

    // F10.
    assertThat(number(json, "/ends/0/tension/value")).isCloseTo(872.338, within(PRINTED));
    assertThat(number(json, "/ends/1/tension/value")).isCloseTo(788.449, within(PRINTED));
    assertThat(number(json, "/ends/0/horizontal/value")).isCloseTo(714.577, within(PRINTED));
    assertThat(json.path("verdict").asString()).isEqualTo("not known");
    assertThat(json.path("least").isNull()).isTrue();

    json =
        hang(
            ledger,
            """
            {"load":{"value":"1000","unit":"N"},
             "ends":[{"run":"1.20 m","rise":"0.75 m"},{"run":"1.20 m","rise":{"value":"75","unit":"cm"}}]}""");
    // F11.
    assertThat(number(json, "/ends/0/angle/value")).isCloseTo(32.005383, within(5e-7));
    assertThat(number(json, "/load/value")).isEqualTo(1000);
  }

  @Test
  void a_taut_ridge_line_takes_its_part_and_legs_and_bar_see_the_body(TestLedger ledger) {
    String end =
        """
        {"angle":"20 deg","bodyAngle":"35 deg","bar":{"length":"0.9 m","apexDistance":"0.6 m","edgeAngle":"6 deg"}}""";
    JsonNode json =
        hang(
            ledger,
            "{\"load\":\"1000 N\",\"ends\":["
                + end
                + ","
                + end
                + "],\"elements\":["
                + "{\"name\":\"legs\",\"strength\":\"5 kN\",\"where\":\"leg\"},"
                + "{\"name\":\"bar\",\"where\":\"bar\"},"
                + "{\"name\":\"rl\",\"strength\":\"1 kN\",\"where\":\"ridge line\"}]}");

    // J2.31; legs and bar by its 871.723 N: 1/(2 cos φ) = 0.625, (tan φ + tan 6°)/2 with tan φ =
    // 0.75.
    assertThat(number(json, "/ends/0/tension/value")).isCloseTo(1461.9, within(0.05));
    assertThat(number(json, "/ridgeLine/tension/value")).isCloseTo(659.665, within(PRINTED));
    assertThat(json.at("/ridgeLine/slack").asBoolean()).isFalse();
    assertThat(number(json, "/ends/0/bodyPull/value")).isCloseTo(871.723, within(PRINTED));
    assertThat(number(json, "/ends/0/bar/legTension/value"))
        .isCloseTo(871.723 * 0.625, within(PRINTED));
    assertThat(number(json, "/ends/1/bar/compression/value"))
        .isCloseTo(871.723 / 2 * (0.75 + Math.tan(Math.toRadians(6))), within(PRINTED));
    assertThat(json.at("/ends/0/bar/bucklingLoad").isNull()).isTrue();
    assertThat(json.at("/ends/0/bar/factor").isNull()).isTrue();
    assertThat(number(json, "/elements/0/load/value")).isCloseTo(871.723 * 0.625, within(PRINTED));
    assertThat(json.at("/elements/1/verdict").asString()).isEqualTo("not known");
    assertThat(number(json, "/elements/2/factor")).isCloseTo(1000 / 659.665, within(1e-5));
    assertThat(json.path("verdict").asString()).isEqualTo("not known");

    json =
        hang(
            ledger,
            """
            {"load":"1000 N","ends":[{"angle":"40 deg","bodyAngle":"35 deg"},{"angle":"40 deg","bodyAngle":"35 deg"}]}""");
    assertThat(json.at("/ridgeLine/slack").asBoolean()).isTrue();
    assertThat(json.at("/ridgeLine/tension/value").asString()).isEqualTo("0");
    assertThat(json.at("/ends/0/bodyPull/value").asString())
        .isEqualTo(json.at("/ends/0/tension/value").asString());
  }

  @Test
  void one_body_angle_says_the_other_and_two_have_to_agree(TestLedger ledger) {
    // By the balance of each joint: R = V₁ (cot 20° − cot 35°), and the second body takes what is
    // left.
    JsonNode json =
        hang(
            ledger,
            """
            {"load":"1000 N","ends":[{"angle":"20 deg","bodyAngle":"35 deg"},{"angle":"25 deg"}]}""");
    double ridge = number(json, "/ridgeLine/tension/value");
    double left = number(json, "/ends/1/horizontal/value") - ridge;
    assertThat(Math.pow(number(json, "/ends/1/bodyPull/value"), 2))
        .isCloseTo(left * left + Math.pow(number(json, "/ends/1/vertical/value"), 2), within(1e-6));
    assertThat(number(json, "/ends/0/bodyPull/value") * Math.cos(Math.toRadians(35)))
        .isCloseTo(left, within(1e-9));

    JsonNode refused =
        ledger
            .api()
            .post(
                "/loads/hang",
                """
                {"load":"1000 N","ends":[{"angle":"20 deg","bodyAngle":"35 deg"},{"angle":"20 deg","bodyAngle":"45 deg"}]}""")
            .expect(400)
            .json();
    assertThat(refused.at("/errors/0/pointer").asString()).isEqualTo("#/ends/1/bodyAngle");
    // J2.31's 659.665; and 500 (cot 20° − 1) = 873.739.
    assertThat(refused.at("/errors/0/detail").asString()).contains("659.7 N", "873.7 N");
  }

  @Test
  void a_bar_is_held_against_eulers_load(TestLedger ledger) {
    JsonNode json =
        hang(
            ledger,
            """
            {"load":"90 kg","ends":[
              {"angle":"30 deg","bar":{"length":"0.9 m","leg":"0.7 m","outerDiameter":"12.7 mm","wall":"0.9 mm","modulus":"68.9 GPa"}},
              {"angle":"30 deg"}],
             "elements":[{"name":"bar","where":"bar"}]}""");

    // F12, F15 and F18.
    assertThat(number(json, "/ends/0/bar/legTension/value")).isCloseTo(576.119, within(PRINTED));
    assertThat(number(json, "/ends/0/bar/bucklingLoad/value")).isCloseTo(490.345, within(PRINTED));
    assertThat(number(json, "/ends/0/bar/factor")).isCloseTo(1.32396, within(5e-6));
    assertThat(number(json, "/ends/0/bar/slenderness")).isCloseTo(215.103, within(PRINTED));
    assertThat(json.at("/least/name").asString()).isEqualTo("bar");
    assertThat(json.path("verdict").asString()).isEqualTo("below");
    assertThat(json.path("notes").toString()).contains("against bowing out");
  }

  @Test
  void a_stocky_bar_is_said_to_be(TestLedger ledger) {
    String bar =
        """
        {"load":"90 kg","ends":[{"angle":"30 deg"},{"angle":"30 deg","bar":{"length":"0.3 m","leg":"0.7 m",
          "outerDiameter":"25 mm","modulus":"70 GPa"%s}}]}""";
    // A rod of 25 mm: r = D/4, L/r = 48; transition of 70 GPa at 276 MPa: 70.8; at 900 MPa: 39.
    JsonNode json = hang(ledger, bar.formatted(",\"yield\":\"276 MPa\""));
    assertThat(number(json, "/ends/1/bar/slenderness")).isCloseTo(48, within(1e-9));
    assertThat(json.at("/ends/1/bar/tooStocky").asBoolean()).isTrue();
    assertThat(json.path("notes").toString()).contains("too stocky");
    assertThat(
            hang(ledger, bar.formatted(",\"yield\":\"900 MPa\""))
                .at("/ends/1/bar")
                .has("tooStocky"))
        .isFalse();
    assertThat(hang(ledger, bar.formatted("")).at("/ends/1/bar/tooStocky").asBoolean()).isTrue();
  }

  @Test
  void a_plus_minus_makes_ranges_and_meets_needs_the_low_end(TestLedger ledger) {
    String body =
        """
        {"load":"100 kg ± 5 kg","dynamicAllowance":"1.2","ends":[{"angle":%1$s},{"angle":%1$s}],
         "elements":[{"name":"s","strength":"7.5 kN","termination":"0.9 ± 0.05"}]}""";
    JsonNode json = hang(ledger, body.formatted("\"30 deg ± 2 deg\""));

    // T = W cos b / sin (a + b), worst at 28° both; 1.2 × 105 kg.
    double worst = 1.2 * 105 * 9.80665 / (2 * Math.sin(Math.toRadians(28)));
    double best = 1.2 * 95 * 9.80665 / (2 * Math.sin(Math.toRadians(32)));
    assertThat(number(json, "/ends/0/angle/low")).isEqualTo(28);
    assertThat(number(json, "/ends/0/tension/high")).isCloseTo(worst, within(1e-9));
    assertThat(number(json, "/ends/0/tension/low")).isCloseTo(best, within(1e-9));
    assertThat(number(json, "/ends/0/tension/value")).isCloseTo(1.2 * 980.665, within(1e-9));
    assertThat(number(json, "/elements/0/factor")).isCloseTo(6750 / (1.2 * 980.665), within(1e-9));
    assertThat(number(json, "/elements/0/factorLow")).isLessThan(5);
    assertThat(json.at("/elements/0/verdict").asString()).isEqualTo("below");
    assertThat(
            hang(ledger, body.formatted("{\"value\":\"30\",\"unit\":\"deg\",\"plusMinus\":\"2\"}")))
        .isEqualTo(json);
  }

  @Test
  void an_unknown_strength_is_not_known_and_so_is_the_whole(TestLedger ledger) {
    JsonNode json =
        hang(
            ledger,
            """
            {"load":"100 kg","ends":[{"angle":"30 deg"},{"angle":"30 deg"}],
             "elements":[{"name":"strap"},{"name":"limit","strength":"1 kN","strengthKind":"working-load-limit"}]}""");

    assertThat(json.at("/elements/0/verdict").asString()).isEqualTo("not known");
    assertThat(json.at("/elements/0/factor").isNull()).isTrue();
    assertThat(json.at("/elements/1/verdict").asString()).isEqualTo("meets");
    assertThat(json.at("/elements/1/against").asString()).isEqualTo("1");
    assertThat(json.at("/least/name").asString()).isEqualTo("limit");
    assertThat(json.path("verdict").asString()).isEqualTo("not known");
  }

  @Test
  void the_edges_of_a_body_share_the_load(TestLedger ledger) {
    JsonNode json =
        hang(
            ledger,
            """
            {"load":"1000 N","ends":[{"angle":"30 deg"},{"angle":"30 deg"}],"bodyEdge":{"span":"2 m","sag":"0.4 m"},
             "elements":[{"name":"hem","strength":"2 kN","where":"body edge"}]}""");

    // DESIGN 7: H = W L/(16 s), T = H √(1 + 16 (s/L)²).
    assertThat(number(json, "/bodyEdge/horizontal/value")).isCloseTo(312.5, within(1e-9));
    assertThat(number(json, "/bodyEdge/greatest/value"))
        .isCloseTo(312.5 * Math.sqrt(1 + 16 * 0.04), within(1e-9));
    assertThat(number(json, "/elements/0/factor"))
        .isCloseTo(2000 / (312.5 * Math.sqrt(1.64)), within(1e-9));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "{\"load\":\"0 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]} | #/load",
        "{\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]} | #/load",
        "{\"load\":\"3 m\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]} | #/load",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"0 deg\"},{\"angle\":\"30 deg\"}]} | #/ends/0/angle",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"90 deg\"}]} | #/ends/1/angle",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"2 deg ± 2 deg\"}]} | #/ends/1/angle",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"-5 deg\"}]} | #/ends/1/angle",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"}]} | #/ends",
        "{\"load\":\"90 kg\"} | #/ends",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{}]} | #/ends/1/angle",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"run\":\"1 m\"}]} | #/ends/1/rise",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\",\"bar\":{\"length\":\"1 m\",\"leg\":\"50 cm\"}}]} | #/ends/1/bar/leg",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\",\"bar\":{\"length\":\"1 m\",\"leg\":\"52 cm ± 2 cm\"}}]} | #/ends/1/bar/leg",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\",\"bar\":{\"length\":\"1 m\"}}]} | #/ends/1/bar/leg",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\",\"bar\":{\"length\":\"1 m\",\"leg\":\"1 m\",\"outerDiameter\":\"1 cm\",\"wall\":\"6 mm\",\"modulus\":\"70 GPa\"}}]} | #/ends/1/bar/wall",
        "{\"load\":\"90 kg\",\"dynamicAllowance\":\"0.9\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]} | #/dynamicAllowance",
        "{\"load\":\"90 kg\",\"designFactor\":\"0\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}]} | #/designFactor",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"name\":\"s\",\"strength\":\"0 N\"}]} | #/elements/0/strength",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"strength\":\"5 kN\"}]} | #/elements/0/name",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"name\":\"s\",\"termination\":\"1.2\"}]} | #/elements/0/termination",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"name\":\"s\",\"termination\":\"0\"}]} | #/elements/0/termination",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"name\":\"s\",\"where\":\"leg\"}]} | #/elements/0/where",
        "{\"load\":\"90 kg\",\"ends\":[{\"angle\":\"30 deg\"},{\"angle\":\"30 deg\"}],\"elements\":[{\"name\":\"s\",\"strength\":\"1 kN\",\"strengthKind\":\"typical\"}]} | #/elements/0/strengthKind",
      })
  void what_cannot_hang_is_refused_at_its_field(String body, String pointer, TestLedger ledger) {
    JsonNode refused = ledger.api().post("/loads/hang", body).expect(400).json();

    assertThat(refused.path("errors").valueStream().map(one -> one.path("pointer").asString()))
        .contains(pointer);
  }

  @Test
  void a_field_that_nobody_reads_is_refused(TestLedger ledger) {
    Api api = ledger.api();
    String body = "{\"load\":\"90 kg\",\"ends\":[{\"angel\":\"30 deg\"},{\"angle\":\"30 deg\"}]}";

    assertThat(api.post("/loads/hang", body).expect(400).json().path("detail").asString())
        .contains("angel");
    api.post("/loads/shallow-line", "{\"span\":\"4 m\",\"load\":\"1 N/m\",\"sag\":\"1 m\"}")
        .expect(400);
  }

  @Test
  void a_shallow_line_by_its_sag_or_its_pull(TestLedger ledger) {
    JsonNode json =
        ledger
            .api()
            .post(
                "/loads/shallow-line",
                "{\"span\":\"4 m\",\"perLength\":\"10 N/m\",\"sag\":\"0.2 m\"}")
            .expect(200)
            .json();

    // F19, exact parabola.
    assertThat(number(json, "/horizontal/value")).isCloseTo(100, within(1e-9));
    assertThat(number(json, "/greatest/value")).isCloseTo(101.98, within(5e-3));
    assertThat(number(json, "/length/value")).isCloseTo(4.0265089, within(5e-8));
    assertThat(json.at("/length/value").asString()).hasSizeGreaterThanOrEqualTo(10);
    assertThat(json.path("cautions").isEmpty()).isFalse();

    json =
        ledger
            .api()
            .post(
                "/loads/shallow-line",
                "{\"span\":\"4 m ± 1 cm\",\"perLength\":\"10 N/m\",\"horizontal\":\"100 N\"}")
            .expect(200)
            .json();
    assertThat(number(json, "/sag/value")).isCloseTo(0.2, within(1e-12));
    assertThat(number(json, "/sag/high")).isCloseTo(10 * 4.01 * 4.01 / 800, within(1e-12));
    ledger
        .api()
        .post("/loads/shallow-line", "{\"span\":\"4 m\",\"perLength\":\"10 N/m\"}")
        .expect(400);
    ledger
        .api()
        .post("/loads/shallow-line", "{\"span\":\"4 m\",\"perLength\":\"10 N/m\",\"sag\":\"0 m\"}")
        .expect(400);
  }
}
