package org.tareline.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class WeighingApiTest {

  private Api api;

  @BeforeEach
  void aScaleAndAPartInARig(TestLedger ledger) {
    api = ledger.api();
    api.post(
            "/scales",
            Map.of(
                "code",
                "K1",
                "name",
                "Bench",
                "readability",
                "1 g",
                "capacity",
                "2 kg",
                "spanTolerance",
                "0.1 %"))
        .expect(201);
    api.post("/parts", Map.of("code", "TP1", "name", "Small tarp", "system", "rain")).expect(201);
    api.post(
            "/rigs",
            """
            {"code":"RAIN","name":"Rain","lines":[{"part":"TP1","quantity":2,"role":"tarp"}]}""")
        .expect(201);
  }

  @Test
  void a_weighing_is_found_where_its_answer_said_it_would_be(TestLedger other) {
    Answer logged =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118 g\",\"118\"],\"tare\":\"12\"}")
            .expect(201);
    String place = String.valueOf(logged.header("Location")).substring("/api/v1".length());

    JsonNode kept = api.get(place).expect(200).json();

    assertThat(kept.path("id")).isEqualTo(logged.json().path("id"));
    assertThat(kept.path("part").asString()).isEqualTo("TP1");
    assertThat(kept.at("/readings/1").asString()).isEqualTo("118");
    assertThat(kept.path("tare").asString()).isEqualTo("12");
    assertThat(kept.path("counts").asBoolean()).isTrue();
    assertThat(kept.path("estimate")).isEqualTo(logged.json().path("estimate"));
    other.api().get(place).expect(404);
    api.get("/weighings/not-an-id").expect(404);
  }

  @Test
  void an_estimate_is_what_the_readings_the_resolution_and_the_span_make_of_it() {
    JsonNode estimate =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118 g\",\"118\",{\"value\":\"119\",\"unit\":\"g\"}]}")
            .expect(201)
            .json()
            .path("estimate");

    // By hand: mean 118.333..., s/√3 = 1/3 g with 2 degrees of freedom, d/√12 twice, 0.1 % of the
    // mean over √3;
    // t(12) = 2.178813 (GUM Table G.2 recomputed).
    assertThat(estimate.at("/mass/value").asString()).isEqualTo("118.333333333");
    assertThat(estimate.at("/mass/unit").asString()).isEqualTo("g");
    assertThat(number(estimate.at("/standardUncertainty/value")))
        .isCloseTo(0.5314558969, within(1e-9));
    assertThat(number(estimate.path("effectiveDegreesOfFreedom")))
        .isCloseTo(12.92361273, within(1e-7));
    assertThat(number(estimate.path("coverageFactor"))).isCloseTo(2.178812830, within(1e-8));
    assertThat(number(estimate.at("/expandedUncertainty/value")))
        .isCloseTo(1.157942927, within(1e-8));
    assertThat(estimate.path("basis").asString()).isEqualTo("weighed");
    assertThat(estimate.path("unweighedLines").asInt()).isZero();
  }

  @Test
  void a_weighing_moves_the_totals_of_the_rigs_that_hold_the_part() {
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"]}").expect(201);
    JsonNode answer =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"121\"]}").expect(201).json();

    assertThat(answer.at("/change/mass/value").asString()).isEqualTo("3");
    assertThat(answer.at("/rigs/0/rig").asString()).isEqualTo("RAIN");
    assertThat(answer.at("/rigs/0/before/mass/value").asString()).isEqualTo("236");
    assertThat(answer.at("/rigs/0/after/mass/value").asString()).isEqualTo("242");
    assertThat(answer.path("notes").toString()).contains("repeatability not known");
  }

  @Test
  void the_same_key_with_the_same_body_gets_the_first_answer_and_writes_nothing() {
    String entry = "{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"],\"key\":\"bench-1\"}";
    Answer first = log(entry).expect(201);
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"121\"]}").expect(201);

    Answer again = log(entry.replace(",", " , ")).expect(200);

    assertThat(again.body()).isEqualTo(first.body());
    assertThat(weighings()).isEqualTo(2);
  }

  @Test
  void the_same_key_with_another_body_is_refused_and_names_the_weighing_it_was_for() {
    String id =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"],\"key\":\"bench-1\"}")
            .expect(201)
            .json()
            .path("id")
            .asString();

    Answer refused =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"119\"],\"key\":\"bench-1\"}")
            .expect(409);

    assertThat(refused.json().path("detail").asString()).contains(id);
    assertThat(weighings()).isEqualTo(1);
  }

  @Test
  void
      the_newest_dry_weighing_by_its_own_time_says_what_a_part_weighs_and_a_damp_one_is_only_kept() {
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"120\"],\"weighedAt\":\"2026-05-02\"}")
        .expect(201);
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"],\"weighedAt\":\"2026-03-01T10:00:00+01:00\"}")
        .expect(201);
    JsonNode damp =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"150\"],\"condition\":\"damp\",\"weighedAt\":\"2026-06-01\"}")
            .expect(201)
            .json();

    assertThat(damp.path("counts").asBoolean()).isFalse();
    assertThat(mass()).isEqualTo("120");
    assertThat(weighings()).isEqualTo(3);
  }

  @Test
  void of_two_weighings_at_one_time_the_one_entered_later_counts() {
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"120\"],\"weighedAt\":\"2026-05-02\"}")
        .expect(201);
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"],\"weighedAt\":\"2026-05-02\"}")
        .expect(201);

    assertThat(mass()).isEqualTo("118");
  }

  @Test
  void a_weighing_that_was_struck_out_is_kept_and_the_one_before_counts_again() {
    log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"]}").expect(201);
    String wrong =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"811\"]}")
            .expect(201)
            .json()
            .path("id")
            .asString();

    Answer struck =
        api.post("/weighings/{id}/void", Map.of("reason", "digits swapped"), wrong).expect(200);

    assertThat(struck.json().at("/partEstimate/mass/value").asString()).isEqualTo("118");
    assertThat(mass()).isEqualTo("118");
    assertThat(weighings()).isEqualTo(2);
    api.post("/weighings/{id}/void", Map.of("reason", "again"), wrong).expect(409);
    api.post("/weighings/{id}/void", Map.of("reason", " "), wrong).expect(400);
  }

  @Test
  void ten_alike_pieces_weighed_together_are_ten_times_surer_than_one_by_itself() {
    double one =
        number(
            log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"12\"]}")
                .expect(201)
                .json()
                .at("/estimate/standardUncertainty/value"));
    JsonNode ten =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"140\"],\"tare\":\"20\",\"count\":10}")
            .expect(201)
            .json()
            .path("estimate");

    assertThat(ten.at("/mass/value").asString()).isEqualTo("12");
    // d/√6 falls by ten; the span, 0.1 % of 12 g over √3, does not.
    double span = 12 * 0.001 / Math.sqrt(3);
    assertThat(Math.sqrt(Math.pow(number(ten.at("/standardUncertainty/value")), 2) - span * span))
        .isCloseTo(Math.sqrt(one * one - span * span) / 10, within(1e-9));
  }

  @ParameterizedTest(name = "{1}: {0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          {"part":"NOPE","scale":"K1","readings":["118"]}                                | #/part       | no part NOPE
          {"part":"TP1","scale":"NOPE","readings":["118"]}                               | #/scale      | no scale NOPE
          {"part":"TP1","readings":["118"]}                                              | #/scale      | tolerance
          {"part":"TP1","scale":"K1","readings":[]}                                      | #/readings   | at least one reading
          {"part":"TP1","scale":"K1"}                                                    | #/readings   | at least one reading
          {"part":"TP1","scale":"K1","readings":["118","heavy"]}                         | #/readings/1 | heavy
          {"part":"TP1","scale":"K1","readings":["118 cm"]}                              | #/readings/0 | mass
          {"part":"TP1","scale":"K1","readings":["-118"]}                                | #/readings/0 | -118
          {"part":"TP1","scale":"K1","readings":["0"]}                                   | #/readings/0 | 0
          {"part":"TP1","scale":"K1","readings":["1,234 g"]}                             | #/readings/0 | thousands
          {"part":"TP1","scale":"K1","readings":["2.1 kg"]}                              | #/readings/0 | ends at 2 kg
          {"part":"TP1","scale":"K1","readings":["118"],"tare":"118"}                    | #/tare       | below the reading
          {"part":"TP1","scale":"K1","readings":["118"],"tare":"130 g"}                  | #/tare       | below the reading
          {"part":"TP1","scale":"K1","readings":["118"],"count":0}                       | #/count      | from 1
          {"part":"TP1","scale":"K1","readings":["118"],"count":1.5}                     | #/count      | 1.5
          {"part":"TP1","scale":"K1","readings":["118"],"condition":"moist"}             | #/condition  | moist
          {"part":"TP1","scale":"K1","readings":["118"],"weighedAt":"last Tuesday"}      | #/weighedAt  | last Tuesday
          {"part":"TP1","scale":"K1","readings":["118"],"tolerance":"2 g"}               | #/tolerance  | scale
          {"rig":"NOPE","scale":"K1","readings":["236"]}                                 | #/rig        | no rig NOPE
          {"part":"TP1","rig":"RAIN","scale":"K1","readings":["236"]}                    | #/rig        | not both
          {"rig":"RAIN","scope":"all-of-it","scale":"K1","readings":["236"]}             | #/scope      | no scope all-of-it
          {"rig":"RAIN","piece":"A","scale":"K1","readings":["236"]}                     | #/piece      | not of a rig
          {"rig":"RAIN","before":["12"],"scale":"K1","readings":["236"]}                 | #/before     | weighed whole
          {"part":"TP1","scope":"complete","scale":"K1","readings":["118"]}              | #/scope      | of a rig
          {"part":"TP1","before":["118"],"scale":"K1","readings":["118"]}                | #/before     | not below
          {"part":"TP1","before":["heavy"],"scale":"K1","readings":["118"]}              | #/before/0   | heavy
          {"part":"TP1","before":["12"],"tare":"3","scale":"K1","readings":["118"]}      | #/tare       | weighs itself off
          {"part":"TP1","before":["12"],"tolerance":"1 g","readings":["118"]}            | #/before     | Name the scale
          {"part":"TP1","piece":"A","count":2,"scale":"K1","readings":["236"]}           | #/count      | by itself
          {"parts":[{"part":"TP1"}],"scale":"K1","readings":["118"]}                     | #/parts      | two parts or more
          {"parts":[],"scale":"K1","readings":["118"]}                                   | #/parts      | two parts or more
          {"parts":[{"part":"TP1"},{"part":"TP1"}],"scale":"K1","readings":["118"]}      | #/parts/1/part     | once
          {"parts":[{"part":"TP1"},{"part":"NOPE"}],"scale":"K1","readings":["118"]}     | #/parts/1/part     | no part NOPE
          {"parts":[{"part":"TP1","quantity":0},{}],"scale":"K1","readings":["118"]}     | #/parts/0/quantity | from 1
          {"part":"TP1","parts":[{"part":"TP1"},{}],"scale":"K1","readings":["118"]}     | #/parts      | one part, one rig
          """)
  void an_entry_that_cannot_be_right_is_refused_at_its_field_and_nothing_is_written(
      String entry, String pointer, String said) {
    Answer refused = log(entry).expect(400);

    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(refused.json().path("errors"))
        .anySatisfy(
            error -> {
              assertThat(error.path("pointer").asString()).isEqualTo(pointer);
              assertThat(error.path("detail").asString()).contains(said);
            });
    assertThat(weighings()).isZero();
  }

  @Test
  void broken_json_is_refused_with_its_place() {
    assertThat(
            log("{\"part\":\"TP1\",\n \"readings\":[}")
                .expect(400)
                .json()
                .path("detail")
                .asString())
        .contains("line 2");
    assertThat(weighings()).isZero();
  }

  @Test
  void an_old_note_without_a_scale_is_as_good_as_its_tolerance() {
    JsonNode estimate =
        log("{\"part\":\"TP1\",\"readings\":[\"4.2 oz\"],\"tolerance\":\"3 g\"}")
            .expect(201)
            .json()
            .path("estimate");

    // 4.2 oz exactly (NIST HB 44, App. C); rectangular, 3/√3.
    assertThat(estimate.at("/mass/value").asString()).isEqualTo("119.067997125");
    assertThat(number(estimate.at("/standardUncertainty/value")))
        .isCloseTo(Math.sqrt(3), within(1e-9));
  }

  @Test
  void another_ledgers_weighing_is_not_there(TestLedger other) {
    String id =
        log("{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"]}")
            .expect(201)
            .json()
            .path("id")
            .asString();

    other.api().post("/weighings/{id}/void", Map.of("reason", "not mine"), id).expect(404);
    other.api().get("/parts/TP1").expect(404);
    assertThat(mass()).isEqualTo("118");
  }

  @Test
  void logging_takes_as_many_statements_however_many_weighings_there_are(TestServer server) {
    String entry = "{\"part\":\"TP1\",\"scale\":\"K1\",\"readings\":[\"118\"]}";
    log(entry).expect(201);
    List<String> few = server.statements(() -> log(entry).expect(201));
    for (int i = 0; i < 20; i++) {
      log(entry).expect(201);
    }

    assertThat(server.statements(() -> log(entry).expect(201))).isEqualTo(few);
  }

  private Answer log(String entry) {
    return api.post("/weighings", entry);
  }

  private String mass() {
    return api.get("/parts/TP1").expect(200).json().at("/estimate/mass/value").asString();
  }

  private int weighings() {
    int weighings = 0;
    for (JsonNode evidence : api.get("/parts/TP1").expect(200).json().path("evidence")) {
      weighings += evidence.has("id") ? 1 : 0;
    }
    return weighings;
  }

  private static double number(JsonNode node) {
    return Double.parseDouble(node.asString());
  }
}
