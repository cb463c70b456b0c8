package org.tareline.weighing.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class ScaleChecksTest {

  private static final String CHECK =
      json("{'weights':[{'nominal':'500 g','class':'M1','indication':'500.2'}],'checkedAt':'DAY'}");

  private static String json(String singleQuoted) {
    return singleQuoted.replace('\'', '"');
  }

  private static void scale(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            json(
                "{'code':'K1','name':'Bench','readability':'0.1 g','capacity':'5 kg','spanTolerance':'0.1 %'}"))
        .expect(201);
    ledger.api().post("/parts", json("{'code':'TP','name':'Tarp'}")).expect(201);
  }

  private static JsonNode check(TestLedger ledger, String day) {
    return ledger.api().post("/scales/K1/checks", CHECK.replace("DAY", day)).expect(201).json();
  }

  private static JsonNode weigh(TestLedger ledger, String grams, String day) {
    JsonNode logged =
        ledger
            .api()
            .post(
                "/weighings",
                json(
                    "{'part':'TP','scale':'K1','readings':['"
                        + grams
                        + "'],'weighedAt':'"
                        + day
                        + "'}"))
            .expect(201)
            .json();
    return weighing(ledger, logged.path("id").asString());
  }

  private static JsonNode weighing(TestLedger ledger, String id) {
    return ledger.api().get("/weighings/{id}", id).expect(200).json();
  }

  private static BigDecimal mass(TestLedger ledger, String id) {
    return new BigDecimal(
        weighing(ledger, id).path("estimate").path("mass").path("value").asString());
  }

  @Test
  void check_weights_give_a_slope_with_its_uncertainty(TestLedger ledger) {
    scale(ledger);
    Answer made =
        ledger
            .api()
            .post(
                "/scales/k1/checks",
                json(
                    """
                    {'weights':[
                      {'nominal':'500 g','class':'m1','indication':'500.2 g'},
                      {'nominal':{'value':'1','unit':'kg'},'tolerance':'± 0.05 g','indication':1000.4}],
                     'checkedAt':'2026-03-01','note':'after the move'}
                    """))
            .expect(201);
    JsonNode check = made.json();

    // Both show 1.0004 of what they are, so that is the slope whatever the weights.
    assertThat(number(check, "slope")).isCloseTo(1.0004, within(1e-12));
    // By hand, u² of a point is a²/3 + d²/6: a = 0.025 g (OIML R 111-1, table 1) and 0.05 g, d =
    // 0.1 g.
    double first = 0.025 * 0.025 / 3 + 0.01 / 6;
    double second = 0.05 * 0.05 / 3 + 0.01 / 6;
    double byHand = 1 / Math.sqrt(500 * 500 / first + 1000 * 1000 / second);
    assertThat(number(check, "standardUncertainty")).isCloseTo(byHand, within(byHand * 5e-4));
    assertThat(number(check, "expandedUncertainty"))
        .isCloseTo(1.959964 * number(check, "standardUncertainty"), within(1e-12));
    assertThat(check.path("degreesOfFreedom").asString()).isEqualTo("infinite");
    assertThat(check.path("fromScatter").asBoolean()).isFalse();
    assertThat(check.path("voided").asBoolean()).isFalse();
    assertThat(check.path("inForceSince").asString()).startsWith("2026-0");
    assertThat(check.has("inForceUntil")).isFalse();
    assertThat(check.path("note").asString()).isEqualTo("after the move");

    JsonNode point = check.path("points").path(0);
    assertThat(point.path("nominal").path("typed").asString()).isEqualTo("500 g");
    assertThat(point.path("class").asString()).isEqualTo("m1");
    assertThat(point.path("tolerance").path("value").asString()).isEqualTo("0.025");
    assertThat(point.has("toleranceTyped")).isFalse();
    assertThat(point.path("deviation").path("value").asString()).isEqualTo("0.2");
    assertThat(number(point.path("residual"), "value")).isCloseTo(0, within(1e-8));
    assertThat(number(point.path("standardUncertainty"), "value"))
        .isCloseTo(Math.sqrt(first), within(1e-9));
    JsonNode heavier = check.path("points").path(1);
    assertThat(heavier.path("toleranceTyped").asString()).isEqualTo("± 0.05 g");
    assertThat(heavier.path("indication").path("typed").asString()).isEqualTo("1000.4");

    String location = String.valueOf(made.header("Location"));
    assertThat(location).isEqualTo("/api/v1/scales/K1/checks/" + check.path("id").asString());
    assertThat(ledger.api().get(location.substring("/api/v1".length())).expect(200).json())
        .isEqualTo(check);
    assertThat(ledger.api().get("/scales/K1/checks").expect(200).json().path("items").path(0))
        .isEqualTo(check);
    JsonNode inForce = ledger.api().get("/scales/K1").json().path("inForce");
    assertThat(inForce.path("check")).isEqualTo(check.path("id"));
    assertThat(inForce.path("slope")).isEqualTo(check.path("slope"));
  }

  private static double number(JsonNode node, String field) {
    return Double.parseDouble(node.path(field).asString());
  }

  @Test
  void a_slope_corrects_what_is_weighed_from_then_on_and_nothing_before(TestLedger ledger) {
    scale(ledger);
    JsonNode before = weigh(ledger, "250.1", "2026-02-28");
    JsonNode check = check(ledger, "2026-03-01");
    JsonNode after = weigh(ledger, "250.1", "2026-03-02");

    assertThat(mass(ledger, before.path("id").asString())).isEqualByComparingTo("250.1");
    // 250.1 / 1.0004 = 250; GUM 3.2.4.
    assertThat(mass(ledger, after.path("id").asString())).isEqualByComparingTo("250");
    assertThat(after.path("correction").path("slope").asString()).isEqualTo("1.0004");
    assertThat(after.path("correction").path("uncorrected").path("value").asString())
        .isEqualTo("250.1");
    assertThat(after.path("correction").path("check")).isEqualTo(check.path("id"));
    assertThat(before.has("correction")).isFalse();
    // The slope's own uncertainty counts instead of the stated ±0.1 %.
    JsonNode terms = after.path("terms");
    JsonNode span = terms.path(terms.size() - 1);
    assertThat(span.path("source").asString()).isEqualTo("span of Bench by its check");
    assertThat(number(span.path("standardUncertainty"), "value"))
        .isCloseTo(250 * number(check, "standardUncertainty") / 1.0004, within(1e-9));
  }

  @Test
  void a_later_check_changes_nothing_of_what_was_weighed_under_the_one_before(TestLedger ledger) {
    scale(ledger);
    JsonNode first = check(ledger, "2026-03-01");
    String weighing = weigh(ledger, "250.1", "2026-03-02").path("id").asString();
    ledger
        .api()
        .post(
            "/scales/K1/checks",
            json(
                "{'weights':[{'nominal':'500','tolerance':'0.01','indication':'499.5'}],'checkedAt':'2026-03-03'}"))
        .expect(201);

    assertThat(mass(ledger, weighing)).isEqualByComparingTo("250");
    JsonNode kept = ledger.api().get("/scales/K1/checks/{id}", first.path("id").asString()).json();
    assertThat(kept.path("inForceUntil").asString()).startsWith("2026-03-0");
    assertThat(kept.path("weighings").asInt()).isEqualTo(1);
    assertThat(ledger.api().get("/scales/K1/checks").json().path("items").path(0).path("weighings"))
        .hasToString("0");
  }

  @Test
  void striking_a_check_out_gives_what_was_weighed_under_it_to_the_one_before(TestLedger ledger) {
    scale(ledger);
    String id = check(ledger, "2026-03-01").path("id").asString();
    String weighing = weigh(ledger, "250.1", "2026-03-02").path("id").asString();

    ledger.api().post("/scales/K1/checks/" + id + "/void", "{}").expect(400);
    assertThat(mass(ledger, weighing)).isEqualByComparingTo("250");

    JsonNode struck =
        ledger
            .api()
            .post("/scales/K1/checks/" + id + "/void", json("{'reason':'wrong weight'}"))
            .expect(200)
            .json();
    assertThat(struck.path("voided").asBoolean()).isTrue();
    assertThat(struck.path("voidReason").asString()).isEqualTo("wrong weight");
    assertThat(struck.has("inForceSince")).isFalse();
    assertThat(struck.path("weighings").asInt()).isZero();
    assertThat(struck.path("slope").asString()).isEqualTo("1.0004");
    assertThat(mass(ledger, weighing)).isEqualByComparingTo("250.1");
    assertThat(ledger.api().get("/scales/K1").json().path("inForce").has("check")).isFalse();
    assertThat(ledger.api().get("/scales/K1/checks/" + id).json()).isEqualTo(struck);

    ledger.api().post("/scales/K1/checks/" + id + "/void", json("{'reason':'again'}")).expect(409);
  }

  @Test
  void of_two_checks_at_one_time_the_one_entered_last_counts(TestLedger ledger) {
    scale(ledger);
    check(ledger, "2026-03-01");
    ledger
        .api()
        .post(
            "/scales/K1/checks",
            json(
                "{'weights':[{'nominal':'500','tolerance':'0','indication':'500'}],'checkedAt':'2026-03-01'}"))
        .expect(201);

    String weighing = weigh(ledger, "250.1", "2026-03-01").path("id").asString();

    assertThat(mass(ledger, weighing)).isEqualByComparingTo("250.1");
  }

  @Test
  void repeatability_is_found_from_readings_of_one_load(TestLedger ledger) {
    scale(ledger);
    assertThat(weigh(ledger, "250", "2026-02-28").path("repeatabilityKnown").asBoolean()).isFalse();
    JsonNode test =
        ledger
            .api()
            .post(
                "/scales/K1/repeatability",
                json(
                    """
                    {'readings':['200.0','200.1','200.0','200.1','200.0','200.1','200.0','200.1','200.2','199.9 g'],
                     'testedAt':'2026-03-01'}
                    """))
            .expect(201)
            .json();

    // By hand: Σ(x − 200.05)² = 0.065 g², s = √(0.065/9) = 0.0849837 g (JCGM 100:2008, 4.2.2).
    assertThat(number(test.path("repeatability"), "value")).isCloseTo(0.0849837, within(5e-8));
    assertThat(test.path("degreesOfFreedom").asString()).isEqualTo("9");
    assertThat(test.path("readings").path(9).asString()).isEqualTo("199.9 g");
    JsonNode inForce = ledger.api().get("/scales/K1").json().path("inForce");
    assertThat(inForce.path("repeatability")).isEqualTo(test.path("repeatability"));
    assertThat(inForce.path("repeatabilityDegreesOfFreedom").asString()).isEqualTo("9");

    JsonNode weighing = weigh(ledger, "250", "2026-03-02");
    assertThat(weighing.path("repeatabilityKnown").asBoolean()).isTrue();
    assertThat(weighing.path("terms").path(0).path("source").asString())
        .isEqualTo("repeatability of Bench");

    String id = test.path("id").asString();
    ledger
        .api()
        .post("/scales/K1/repeatability/" + id + "/void", json("{'reason':'mistyped'}"))
        .expect(200);
    ledger.api().get("/scales/K1/checks/" + id).expect(404);
    assertThat(
            weighing(ledger, weighing.path("id").asString()).path("repeatabilityKnown").asBoolean())
        .isFalse();
  }

  @Test
  void readings_all_alike_say_that_the_steps_hide_the_scatter(TestLedger ledger) {
    scale(ledger);
    JsonNode test =
        ledger
            .api()
            .post("/scales/K1/repeatability", json("{'readings':[200,200,200]}"))
            .expect(201)
            .json();
    assertThat(test.path("repeatability").path("value").asString()).isEqualTo("0");
    assertThat(test.path("degreesOfFreedom").asString()).isEqualTo("2");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{'weights':[]} | weights | at least one check weight",
        "{} | weights | at least one check weight",
        "{'weights':[null]} | weights/0/nominal | marked with",
        "{'weights':[{'tolerance':'0.1','indication':'500'}]} | weights/0/nominal | Give what the weight",
        "{'weights':[{'nominal':'500','tolerance':'0.1'}]} | weights/0/indication | what the scale showed",
        "{'weights':[{'nominal':'500','indication':'500'}]} | weights/0/tolerance | how far off",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'1','class':'M1'}]} | weights/0/tolerance | not both",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'-1'}]} | weights/0/tolerance | zero or more",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'51'}]} | weights/0/tolerance | better weight",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'1 m'}]} | weights/0/tolerance | mass",
        "{'weights':[{'nominal':'500','indication':'500','class':'M9'}]} | weights/0/class | E1, E2",
        "{'weights':[{'nominal':'300','indication':'300','class':'M1'}]} | weights/0/class | no weight of class M1 of 300",
        "{'weights':[{'nominal':'1 lb','indication':'453.6','class':'M1'}]} | weights/0/class | tolerance instead",
        "{'weights':[{'nominal':'0','indication':'500','tolerance':'1'}]} | weights/0/nominal | more than zero",
        "{'weights':[{'nominal':'6 kg','indication':'5 kg','tolerance':'1'}]} | weights/0/nominal | ends at 5 kg",
        "{'weights':[{'nominal':'500','indication':'17.6','tolerance':'1'}]} | weights/0/indication | unit",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'1'}],'checkedAt':'soon'} | checkedAt | 2027-04-11",
        "{'weights':[{'nominal':'500','indication':'500','tolerance':'1'}],'checkedAt':'2199-01-01'} | checkedAt | has come"
      })
  void what_is_wrong_with_a_check_is_said_at_its_field_and_nothing_is_kept(
      String body, String pointer, String said, TestLedger ledger) {
    scale(ledger);
    JsonNode errors =
        ledger.api().post("/scales/K1/checks", json(body)).expect(400).json().path("errors");

    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/" + pointer);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
    assertThat(ledger.api().get("/scales/K1/checks").json().path("items").size()).isZero();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{} | readings | from 2 to 100",
        "{'readings':['200']} | readings | there is 1",
        "{'readings':['200','two']} | readings/1 | number",
        "{'readings':['200','6 kg']} | readings/1 | ends at",
        "{'readings':['200',null]} | readings/1 | Give a reading"
      })
  void what_is_wrong_with_a_check_of_repeatability_is_said_too(
      String body, String pointer, String said, TestLedger ledger) {
    scale(ledger);
    JsonNode errors =
        ledger.api().post("/scales/K1/repeatability", json(body)).expect(400).json().path("errors");

    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/" + pointer);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
    assertThat(ledger.api().get("/scales/K1/repeatability").json().path("items").size()).isZero();
  }

  @Test
  void a_weight_as_heavy_as_the_scale_bears_may_show_a_little_more(TestLedger ledger) {
    scale(ledger);
    ledger
        .api()
        .post(
            "/scales/K1/checks",
            json("{'weights':[{'nominal':'5 kg','indication':'5000.3','class':'M1'}]}"))
        .expect(201);
  }

  @Test
  void every_fault_is_said_at_once_and_a_field_that_nobody_reads_is_refused(TestLedger ledger) {
    scale(ledger);
    JsonNode errors =
        ledger
            .api()
            .post(
                "/scales/K1/checks",
                json("{'weights':[{'nominal':'x','indication':'y'},{}],'checkedAt':'soon'}"))
            .expect(400)
            .json()
            .path("errors");
    List<String> pointers = new ArrayList<>();
    errors.forEach(error -> pointers.add(error.path("pointer").asString()));
    assertThat(pointers)
        .contains(
            "#/weights/0/nominal", "#/weights/0/indication", "#/weights/1/nominal", "#/checkedAt");

    ledger.api().post("/scales/K1/checks", json("{'weight':[]}")).expect(400);
  }

  @Test
  void another_ledgers_checks_are_not_there(TestLedger ledger, TestLedger other) {
    scale(ledger);
    String id = check(ledger, "2026-03-01").path("id").asString();

    other.api().get("/scales/K1/checks").expect(404);
    other.api().get("/scales/K1/checks/" + id).expect(404);
    other.api().post("/scales/K1/checks", CHECK.replace("DAY", "2026-03-01")).expect(404);
    other.api().post("/scales/K1/repeatability", json("{'readings':[1,2]}")).expect(404);
    scale(other);
    other.api().get("/scales/K1/checks/" + id).expect(404);
    other
        .api()
        .post("/scales/K1/checks/" + id + "/void", json("{'reason':'mistyped'}"))
        .expect(404);
    ledger.api().get("/scales/K1/checks/nonsense").expect(404);
    assertThat(ledger.api().get("/scales/K1/checks/" + id).json().path("voided").asBoolean())
        .isFalse();
  }

  @Test
  void many_checks_and_weighings_take_no_more_statements_than_few(TestLedger few, TestLedger many) {
    for (TestLedger ledger : List.of(few, many)) {
      scale(ledger);
      ledger
          .api()
          .post(
              "/scales", json("{'code':'K2','name':'Other','readability':'1 g','capacity':'5 kg'}"))
          .expect(201);
      check(ledger, "2026-03-01");
      weigh(ledger, "250.1", "2026-03-02");
      ledger
          .api()
          .post("/weighings", json("{'part':'TP','scale':'K2','readings':['250']}"))
          .expect(201);
    }
    for (int i = 1; i <= 12; i++) {
      check(many, "2026-03-" + (10 + i));
      many.api().post("/parts", json("{'code':'P" + i + "','name':'Part'}")).expect(201);
      for (String scale : List.of("K1", "K2")) {
        many.api()
            .post(
                "/weighings",
                json("{'part':'P" + i + "','scale':'" + scale + "','readings':['250.1']}"))
            .expect(201);
      }
    }
    for (String path : List.of("/parts", "/scales/K1", "/scales", "/")) {
      assertThat(statements(many, path)).as(path).isEqualTo(statements(few, path));
    }
  }

  /** How many, once whoever asks has asked before. */
  private static int statements(TestLedger ledger, String path) {
    ledger.pages().get(path).expect(200);
    return ledger.statements(() -> ledger.pages().get(path).expect(200)).size();
  }
}
