package org.tareline.weighing.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class ScalesTest {

  private static final String BENCH_SCALE =
      """
      {"code":"K 1","name":"Bench scale","readability":"0.1 g","capacity":"5 kg",
       "repeatability":{"value":"0.1","unit":"g"},"spanTolerance":"0.1 %"}
      """;

  @Test
  void a_scale_is_kept_exactly_and_as_typed(TestLedger ledger) {
    Answer made = ledger.api().post("/scales", BENCH_SCALE).expect(201);
    assertThat(made.header("Location")).isEqualTo("/api/v1/scales/K%201");

    JsonNode scale = ledger.api().get("/scales/{code}", "k 1").expect(200).json();

    assertThat(scale).isEqualTo(made.json());
    assertThat(scale.path("code").asString()).isEqualTo("K 1");
    assertThat(scale.path("unit").asString()).isEqualTo("g");
    assertThat(scale.path("readability").path("value").asString()).isEqualTo("0.1");
    assertThat(scale.path("capacity").path("value").asString()).isEqualTo("5000");
    assertThat(scale.path("capacity").path("typed").asString()).isEqualTo("5 kg");
    assertThat(scale.path("repeatability").path("value").asString()).isEqualTo("0.1");
    assertThat(scale.path("spanTolerance").asString()).isEqualTo("0.1 %");
    assertThat(scale.path("spanFraction").asString()).isEqualTo("0.001");
    assertThat(ledger.api().get("/scales").expect(200).json().path("items").path(0))
        .isEqualTo(scale);
  }

  @Test
  void a_scale_reads_in_the_unit_of_its_smallest_step(TestLedger ledger) {
    JsonNode scale =
        ledger
            .api()
            .post(
                "/scales",
                Map.of(
                    "code", "K3", "name", "Luggage", "readability", "1/8 oz", "capacity", "50 lb"))
            .expect(201)
            .json();

    assertThat(scale.path("unit").asString()).isEqualTo("[oz_av]");
    assertThat(scale.has("repeatability")).isFalse();
    assertThat(scale.has("spanTolerance")).isFalse();
  }

  @Test
  void what_is_wrong_with_a_scale_is_said_at_its_field_and_nothing_is_kept(TestLedger ledger) {
    refused(ledger, "code", "", "Give a code");
    refused(ledger, "code", "a/b", "letters");
    refused(ledger, "code", "new", "address of a page");
    refused(ledger, "name", "  ", "Give a name");
    refused(ledger, "readability", "", "Give the readability");
    refused(ledger, "readability", "0.1 mm", "a mass is wanted");
    refused(ledger, "readability", "0 g", "more than zero");
    refused(ledger, "capacity", "-5 kg", "more than zero");
    refused(ledger, "capacity", "0.05 g", "above the readability");
    refused(ledger, "repeatability", "lots", "a number is expected");
    refused(ledger, "spanTolerance", "0.1", "per cent");
    refused(ledger, "spanTolerance", "-1 %", "0 %");
    assertThat(ledger.api().get("/scales").json().path("items").size()).isZero();
  }

  private static void refused(
      TestLedger ledger, String field, String typed, String said, String... more) {
    Map<String, String> scale =
        new HashMap<>(
            Map.of("code", "K1", "name", "Bench", "readability", "0.1 g", "capacity", "5 kg"));
    scale.put(field, typed);
    for (int i = 0; i < more.length; i += 2) {
      scale.put(more[i], more[i + 1]);
    }

    JsonNode errors = ledger.api().post("/scales", scale).expect(400).json().path("errors");

    assertThat(errors.size()).as(field + " " + typed).isEqualTo(1);
    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/" + field);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
  }

  @Test
  void a_scale_may_state_its_accuracy_class_instead(TestLedger ledger) {
    JsonNode scale =
        ledger
            .api()
            .post(
                "/scales",
                """
                {"code":"K4","name":"Shop scale","readability":"1 g","capacity":"10 kg","class":"iii",
                 "verificationInterval":"1","repeatability":"0.3 g","repeatabilityDegreesOfFreedom":9,
                 "checkEvery":"90"}
                """)
            .expect(201)
            .json();

    assertThat(scale.path("class").asString()).isEqualTo("III");
    assertThat(scale.path("verificationInterval").path("value").asString()).isEqualTo("1");
    assertThat(scale.path("repeatabilityDegreesOfFreedom").asString()).isEqualTo("9");
    assertThat(scale.path("checkEvery").asInt()).isEqualTo(90);
    // OIML R 76-1:2006, table 3: Min of class III is 20 e.
    assertThat(scale.path("minimumLoad").path("value").asString()).isEqualTo("20");
    assertThat(scale.path("inForce").path("overdue").asBoolean()).isTrue();
    assertThat(scale.path("inForce").has("slope")).isFalse();
    assertThat(ledger.api().get("/scales/K4").json()).isEqualTo(scale);

    // ±2 g at 1500 g in service (table 6, and 3.5.2: twice), as limits 2/√3 = 1.154701 g.
    ledger.api().post("/parts", "{\"code\":\"P\",\"name\":\"Pack\"}").expect(201);
    String id =
        ledger
            .api()
            .post("/weighings", "{\"part\":\"P\",\"scale\":\"K4\",\"readings\":[\"1500\"]}")
            .expect(201)
            .json()
            .path("id")
            .asString();
    JsonNode terms = ledger.api().get("/weighings/{id}", id).json().path("terms");
    JsonNode permitted = terms.path(terms.size() - 1);
    assertThat(permitted.path("source").asString())
        .isEqualTo("error that class III permits Shop scale");
    assertThat(permitted.path("standardUncertainty").path("value").asString())
        .startsWith("1.15470"); // six places are given
  }

  @Test
  void what_is_wrong_with_an_accuracy_class_is_said_at_its_field(TestLedger ledger) {
    refused(ledger, "class", "V", "I, II, III or IIII", "verificationInterval", "0.1");
    refused(
        ledger, "class", "III", "not both", "verificationInterval", "1 g", "spanTolerance", "1 %");
    refused(ledger, "verificationInterval", "0.05", "one to ten of the steps", "class", "III");
    refused(ledger, "verificationInterval", "1.1", "one to ten of the steps", "class", "III");
    // 5 kg is 50 000 e of 0.1 g: more than the 10 000 of class III.
    refused(ledger, "verificationInterval", "0.1", "does not reach up to 5 kg", "class", "III");
    refused(ledger, "verificationInterval", "", "the e on the plate", "class", "II");
    refused(ledger, "repeatabilityDegreesOfFreedom", "9", "Give the repeatability");
    refused(
        ledger, "repeatabilityDegreesOfFreedom", "nine", "whole number", "repeatability", "0.1");
    refused(ledger, "checkEvery", "0", "from 1 to 3650");
    refused(ledger, "checkEvery", "a year", "from 1 to 3650");
    assertThat(ledger.api().get("/scales").json().path("items").size()).isZero();
    // The class is asked for where the interval stands alone.
    JsonNode errors =
        ledger
            .api()
            .post(
                "/scales",
                """
                {"code":"K1","name":"B","readability":"1 g","capacity":"5 kg","verificationInterval":"1 g"}
                """)
            .expect(400)
            .json()
            .path("errors");
    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/class");
  }

  @Test
  void every_fault_of_a_scale_is_said_at_once(TestLedger ledger) {
    JsonNode errors = ledger.api().post("/scales", "{}").expect(400).json().path("errors");

    List<String> pointers = new ArrayList<>();
    errors.forEach(error -> pointers.add(error.path("pointer").asString()));
    assertThat(pointers).containsExactly("#/code", "#/name", "#/readability", "#/capacity");
  }

  @Test
  void a_code_that_is_taken_is_a_conflict_in_whatever_case(TestLedger ledger) {
    ledger.api().post("/scales", BENCH_SCALE).expect(201);

    JsonNode refused =
        ledger.api().post("/scales", BENCH_SCALE.replace("K 1", "k 1")).expect(409).json();

    assertThat(refused.path("errors").path(0).path("pointer").asString()).isEqualTo("#/code");
    assertThat(ledger.api().get("/scales").json().path("items").size()).isEqualTo(1);
  }

  @Test
  void another_ledgers_scale_is_not_there(TestLedger ledger, TestLedger other) {
    ledger.api().post("/scales", BENCH_SCALE).expect(201);

    other.api().get("/scales/{code}", "K 1").expect(404);
    assertThat(other.api().get("/scales").json().path("items").size()).isZero();
    other.api().post("/scales", BENCH_SCALE).expect(201);
  }
}
