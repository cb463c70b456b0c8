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

  private static void refused(TestLedger ledger, String field, String typed, String said) {
    Map<String, String> scale =
        new HashMap<>(
            Map.of("code", "K1", "name", "Bench", "readability", "0.1 g", "capacity", "5 kg"));
    scale.put(field, typed);

    JsonNode errors = ledger.api().post("/scales", scale).expect(400).json().path("errors");

    assertThat(errors.size()).as(field + " " + typed).isEqualTo(1);
    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/" + field);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
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
