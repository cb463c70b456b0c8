package org.tareline.part.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.web.util.UriUtils;
import org.tareline.part.ManyParts;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class PartsTest {

  private static final String TARP =
      """
      {"code":"TP-1","name":"Tarp","system":"rain","owned":2,
       "stated":{"mass":"12 oz","tolerance":"5 %"},"note":"grey"}
      """;

  @Test
  void a_part_is_made_and_found_with_what_it_weighs(TestLedger ledger) {
    Answer made = ledger.api().post("/parts", TARP).expect(201);
    assertThat(made.header("Location")).isEqualTo("/api/v1/parts/TP-1");
    assertThat(made.header("ETag")).isEqualTo("\"1\"");

    Answer found = ledger.api().get("/parts/tp-1").expect(200);

    JsonNode part = found.json();
    assertThat(part).isEqualTo(made.json());
    assertThat(found.header("ETag")).isEqualTo("\"1\"");
    assertThat(part.path("system").asString()).isEqualTo("rain");
    assertThat(part.path("owned").asInt()).isEqualTo(2);
    assertThat(part.path("revision").asInt()).isEqualTo(1);
    // 12 oz at 28.349 523 125 g (NIST HB 44, App. C); U = 1.959964 × 5 % of it / √3
    assertThat(part.path("stated").path("mass").path("value").asString()).isEqualTo("340.1942775");
    assertThat(part.path("stated").path("mass").path("typed").asString()).isEqualTo("12 oz");
    assertThat(part.path("stated").path("tolerance").asString()).isEqualTo("5 %");
    JsonNode estimate = part.path("estimate");
    assertThat(estimate.path("mass").path("value").asString()).isEqualTo("340.1942775");
    assertThat(estimate.path("expandedUncertainty").path("value").asString())
        .startsWith("19.24794");
    assertThat(estimate.path("basis").asString()).isEqualTo("estimated");
    assertThat(estimate.path("unweighedLines").asInt()).isEqualTo(1);
    assertThat(part.path("evidence").size()).isEqualTo(1);
    assertThat(part.path("evidence").path(0).path("counts").asBoolean()).isTrue();
  }

  @Test
  void a_part_may_name_its_fibre_and_keeps_it_until_it_is_left_out(TestLedger ledger) {
    Answer made =
        ledger
            .api()
            .post("/parts", "{\"code\":\"TQ\",\"name\":\"Quilt\",\"fibre\":\"Down\"}")
            .expect(201);
    assertThat(made.json().path("fibre").asString()).isEqualTo("down");

    Answer again = ledger.api().put("/parts/TQ", made.body()).expect(200);
    assertThat(again.json().path("fibre").asString()).isEqualTo("down");
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from revision where ledger_id = ? and content like '%\"fibre\":\"DOWN\"%'",
                    ledger.member().ledgerId()))
        .isEqualTo(2);

    assertThat(
            ledger.api().put("/parts/TQ", "{\"name\":\"Quilt\"}").expect(200).json().has("fibre"))
        .isFalse();
  }

  @Test
  void a_part_of_which_nothing_is_known_weighs_null_and_not_nothing(TestLedger ledger) {
    JsonNode part =
        ledger.api().post("/parts", "{\"code\":\"X\",\"name\":\"X\"}").expect(201).json();

    assertThat(part.has("estimate")).isTrue();
    assertThat(part.path("estimate").isNull()).isTrue();
    assertThat(part.path("system").asString()).isEqualTo("other");
    assertThat(part.path("owned").asInt()).isEqualTo(1);
    assertThat(part.path("evidence").size()).isZero();
  }

  @Test
  void the_evidence_is_every_weighing_newest_first_and_then_what_is_stated(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    scale(ledger);
    String first =
        weighing(ledger, "'readings':['350.2','350.3 g'],'tare':'12.1','weighedAt':'2026-04-11'");
    String wrong = weighing(ledger, "'readings':['3500'],'weighedAt':'2026-04-12'");
    String damp =
        weighing(ledger, "'readings':['371'],'condition':'damp','weighedAt':'2026-04-13'");
    ledger.api().post("/weighings/{id}/void", "{\"reason\":\"mistyped\"}", wrong).expect(200);

    JsonNode part = ledger.api().get("/parts/TP-1").expect(200).json();

    JsonNode evidence = part.path("evidence");
    assertThat(evidence.size()).isEqualTo(4);
    assertThat(evidence.path(0).path("id").asString()).isEqualTo(damp);
    assertThat(evidence.path(1).path("id").asString()).isEqualTo(wrong);
    assertThat(evidence.path(2).path("id").asString()).isEqualTo(first);
    assertThat(evidence.path(3).path("stated").path("mass").path("typed").asString())
        .isEqualTo("12 oz");
    List<Boolean> counting = new ArrayList<>();
    evidence.forEach(one -> counting.add(one.path("counts").asBoolean()));
    assertThat(counting).containsExactly(false, false, true, false);
    assertThat(evidence.path(0).path("condition").asString()).isEqualTo("damp");
    assertThat(evidence.path(1).path("voided").asBoolean()).isTrue();
    assertThat(evidence.path(1).path("voidReason").asString()).isEqualTo("mistyped");

    JsonNode counts = evidence.path(2);
    assertThat(counts.path("scale").asString()).isEqualTo("K1");
    assertThat(counts.path("readings").path(0).asString()).isEqualTo("350.2");
    assertThat(counts.path("readings").path(1).asString()).isEqualTo("350.3 g");
    assertThat(counts.path("tare").asString()).isEqualTo("12.1");
    assertThat(counts.path("estimate").path("mass").path("value").asString()).isEqualTo("338.15");
    assertThat(part.path("estimate").path("mass")).isEqualTo(counts.path("estimate").path("mass"));
    assertThat(part.path("estimate").path("basis").asString()).isEqualTo("weighed");
    assertThat(part.path("estimate").path("unweighedLines").asInt()).isZero();
  }

  @Test
  void the_terms_of_a_weighing_make_up_its_whole_variance(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    scale(ledger);
    weighing(ledger, "'readings':['350.2','350.3','350.2']");

    JsonNode weighing = ledger.api().get("/parts/TP-1").json().path("evidence").path(0);

    double shares = 0;
    double variance = 0;
    for (JsonNode term : weighing.path("terms")) {
      shares += Double.parseDouble(term.path("shareOfVariance").asString());
      double u = Double.parseDouble(term.path("standardUncertainty").path("value").asString());
      variance += u * u;
    }
    double u =
        Double.parseDouble(
            weighing.path("estimate").path("standardUncertainty").path("value").asString());
    assertThat(weighing.path("terms").size()).isEqualTo(4);
    assertThat(shares).isCloseTo(1, org.assertj.core.api.Assertions.within(1e-9));
    assertThat(Math.sqrt(variance)).isCloseTo(u, org.assertj.core.api.Assertions.within(1e-9));
  }

  @Test
  void a_single_reading_on_a_scale_of_unknown_repeatability_says_so(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"B\",\"readability\":\"1\",\"capacity\":\"5 kg\"}")
        .expect(201);
    weighing(ledger, "'readings':['340']");
    assertThat(newest(ledger).path("repeatabilityKnown").asBoolean()).isFalse();

    weighing(ledger, "'readings':['340','341']");
    assertThat(newest(ledger).path("repeatabilityKnown").asBoolean()).isTrue();
  }

  @Test
  void a_part_can_be_asked_for_in_another_unit_of_mass(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);

    JsonNode part = ledger.api().get("/parts/TP-1?unit=oz").expect(200).json();

    assertThat(part.path("estimate").path("mass").path("value").asString()).isEqualTo("12");
    assertThat(part.path("estimate").path("mass").path("unit").asString()).isEqualTo("[oz_av]");
    JsonNode refused = ledger.api().get("/parts/TP-1?unit=mm").expect(400).json();
    assertThat(refused.path("errors").path(0).path("pointer").asString()).isEqualTo("#/unit");
  }

  @Test
  void what_is_wrong_with_a_part_is_said_at_its_field_and_nothing_is_kept(TestLedger ledger) {
    refused(ledger, "code", "", "Give a code");
    refused(ledger, "code", "/x", "letters");
    refused(ledger, "code", "suggestions", "address of a page");
    refused(ledger, "name", "", "Give a name");
    refused(ledger, "system", "kitchenry", "hygiene");
    refused(ledger, "owned", "-1", "whole number from 0");
    refused(ledger, "owned", "2.5", "whole number");
    refused(ledger, "stated/mass", "12 m", "a mass is wanted");
    refused(ledger, "stated/mass", "-12 g", "more than zero");
    refused(ledger, "stated/mass", "0 g", "more than zero");
    refused(ledger, "stated/mass", "1,234 g", "write 1234");
    refused(ledger, "stated/tolerance", "-5 %", "0 %");
    refused(ledger, "stated/tolerance", "2 m", "mass");
    assertThat(kept(ledger)).isZero();
  }

  private static void refused(TestLedger ledger, String field, String typed, String said) {
    Map<String, String> stated = new HashMap<>(Map.of("mass", "340 g", "tolerance", "5 %"));
    Map<String, Object> part =
        new HashMap<>(Map.of("code", "TP-1", "name", "Tarp", "system", "rain", "stated", stated));
    if (field.startsWith("stated/")) {
      stated.put(field.substring("stated/".length()), typed);
    } else {
      part.put(field, typed);
    }

    Answer refused = ledger.api().post("/parts", part).expect(400);

    JsonNode errors = refused.json().path("errors");
    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(errors.size()).as(field + " " + typed).isEqualTo(1);
    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/" + field);
    assertThat(errors.path(0).path("detail").asString()).contains(said);
  }

  @Test
  void a_tolerance_without_a_mass_is_refused(TestLedger ledger) {
    JsonNode errors =
        ledger
            .api()
            .post("/parts", "{\"code\":\"X\",\"name\":\"X\",\"stated\":{\"tolerance\":\"5 %\"}}")
            .expect(400)
            .json()
            .path("errors");

    assertThat(errors.path(0).path("pointer").asString()).isEqualTo("#/stated/mass");
    assertThat(kept(ledger)).isZero();
  }

  @Test
  void a_name_of_100_kilobytes_is_refused_without_being_read_back(TestLedger ledger) {
    Answer refused =
        ledger.api().post("/parts", Map.of("code", "X", "name", "n".repeat(102_400))).expect(400);

    assertThat(refused.json().path("errors").path(0).path("detail").asString())
        .isEqualTo("Shorten a name: it has 102400 characters, and 200 fit.");
    assertThat(refused.body().length()).isLessThan(1_000);
    assertThat(kept(ledger)).isZero();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"{\"code\":", "[]", "''", "{\"code\":\"X\",\"name\":\"X\",\"stated\":\"340 g\"}"})
  void json_that_is_broken_or_of_another_shape_is_refused(String body, TestLedger ledger) {
    Answer refused = ledger.api().post("/parts", body).expect(400);

    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(refused.json().path("detail").asString()).startsWith("The body is");
    assertThat(kept(ledger)).isZero();
  }

  @Test
  void a_code_that_is_taken_is_a_conflict_and_the_part_that_has_it_stays(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);

    JsonNode refused =
        ledger.api().post("/parts", "{\"code\":\"tp-1\",\"name\":\"Another\"}").expect(409).json();

    assertThat(refused.path("errors").path(0).path("pointer").asString()).isEqualTo("#/code");
    assertThat(refused.path("errors").path(0).path("detail").asString()).contains("Tarp already");
    assertThat(kept(ledger)).isEqualTo(1);
    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString()).isEqualTo("Tarp");
  }

  @Test
  void of_two_who_take_one_code_at_one_moment_one_is_refused(TestLedger ledger) throws Exception {
    int racers = 4;
    CyclicBarrier start = new CyclicBarrier(racers);
    ExecutorService threads = Executors.newFixedThreadPool(racers);
    List<Future<Integer>> answers = new ArrayList<>();
    for (int i = 0; i < racers; i++) {
      answers.add(
          threads.submit(
              () -> {
                start.await();
                return ledger.api().post("/parts", TARP).status();
              }));
    }
    List<Integer> statuses = new ArrayList<>();
    for (Future<Integer> answer : answers) {
      statuses.add(answer.get());
    }
    threads.shutdown();

    assertThat(statuses).containsExactlyInAnyOrder(201, 409, 409, 409);
    assertThat(kept(ledger)).isEqualTo(1);
  }

  @Test
  void a_change_makes_a_revision_and_keeps_the_one_before(TestLedger ledger, TestServer server) {
    ledger.api().post("/parts", TARP).expect(201);

    Answer changed =
        ledger
            .api()
            .with("If-Match", "\"1\"")
            .put("/parts/TP-1", "{\"code\":\"TP-1\",\"name\":\"Winter tarp\",\"system\":\"rain\"}")
            .expect(200);

    assertThat(changed.header("ETag")).isEqualTo("\"2\"");
    assertThat(changed.json().path("name").asString()).isEqualTo("Winter tarp");
    assertThat(changed.json().path("owned").asInt()).isEqualTo(1);
    assertThat(changed.json().has("stated")).isFalse();
    assertThat(
            server.count(
                "select count(*) from revision where ledger_id = ? and kind = 'part'",
                ledger.member().ledgerId()))
        .isEqualTo(2);
  }

  @Test
  void a_change_that_started_from_an_older_revision_overwrites_nothing(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    ledger.api().put("/parts/TP-1", "{\"name\":\"Hers\"}").expect(200);

    Answer refused =
        ledger.api().with("If-Match", "\"1\"").put("/parts/TP-1", "{\"name\":\"His\"}").expect(412);

    assertThat(refused.json().path("detail").asString()).contains("Nothing was overwritten");
    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString()).isEqualTo("Hers");
    ledger.api().with("If-Match", "W/\"2\"").put("/parts/TP-1", "{\"name\":\"His\"}").expect(412);
    ledger.api().with("If-Match", "*").put("/parts/TP-1", "{\"name\":\"His\"}").expect(200);
  }

  @Test
  void a_new_weighing_is_told_even_to_who_knows_the_revision(TestLedger ledger) {
    Answer made = ledger.api().post("/parts", TARP).expect(201);
    scale(ledger);
    weighing(ledger, "'readings':['340']");

    Answer again =
        ledger
            .api()
            .with("If-None-Match", String.valueOf(made.header("ETag")))
            .get("/parts/TP-1")
            .expect(200);

    assertThat(again.json().path("estimate").path("basis").asString()).isEqualTo("weighed");
  }

  @Test
  void a_change_that_is_refused_changes_nothing(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    ledger.api().post("/parts", "{\"code\":\"X\",\"name\":\"X\"}").expect(201);
    JsonNode before = ledger.api().get("/parts/TP-1").json();

    ledger.api().put("/parts/TP-1", "{\"code\":\"x\",\"name\":\"Tarp\"}").expect(409);
    ledger.api().put("/parts/TP-1", "{\"name\":\"\",\"owned\":\"many\"}").expect(400);

    assertThat(ledger.api().get("/parts/TP-1").json()).isEqualTo(before);
  }

  @Test
  void a_code_that_was_changed_still_finds_the_part(TestLedger ledger) {
    ledger.api().post("/parts", TARP).expect(201);
    ledger.api().put("/parts/TP-1", "{\"code\":\"TP-9\",\"name\":\"Tarp\"}").expect(200);

    assertThat(ledger.api().get("/parts/tp-1").expect(200).json().path("code").asString())
        .isEqualTo("TP-9");
    ledger.api().put("/parts/TP-1", "{\"name\":\"Tarp, by its old label\"}").expect(200);
    assertThat(ledger.api().get("/parts/TP-9").json().path("name").asString())
        .isEqualTo("Tarp, by its old label");
    assertThat(
            ledger
                .api()
                .post("/parts", "{\"code\":\"TP-1\",\"name\":\"Another\"}")
                .expect(409)
                .body())
        .contains("once the code of another part");
    ledger.api().put("/parts/TP-9", "{\"code\":\"TP-1\",\"name\":\"Tarp\"}").expect(200);
  }

  @Test
  void another_ledgers_part_is_neither_seen_nor_changed(TestLedger ledger, TestLedger other) {
    ledger.api().post("/parts", TARP).expect(201);

    other.api().get("/parts/TP-1").expect(404);
    other.api().put("/parts/TP-1", "{\"name\":\"Mine now\"}").expect(404);
    assertThat(kept(other)).isZero();
    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString()).isEqualTo("Tarp");
  }

  @Test
  void a_long_list_comes_in_pages_that_name_the_next(TestLedger ledger, TestServer server) {
    ManyParts.into(ledger, server, 501);

    JsonNode first = ledger.api().get("/parts").expect(200).json();
    assertThat(first.path("items").size()).isEqualTo(500);
    String next = UriUtils.decode(first.path("next").asString(), StandardCharsets.UTF_8);
    JsonNode second = ledger.api().get(next.substring("/api/v1".length())).expect(200).json();

    assertThat(second.path("items").size()).isEqualTo(1);
    assertThat(second.has("next")).isFalse();
    assertThat(second.path("items").path(0).path("code").asString()).isEqualTo("P 00501");
    assertThat(first.path("items").path(0).has("evidence")).isFalse();
    assertThat(first.path("items").path(0).path("estimate").path("basis").asString())
        .isEqualTo("weighed");
  }

  private static long kept(TestLedger ledger) {
    return ledger.api().get("/parts").expect(200).json().path("items").size();
  }

  private static JsonNode newest(TestLedger ledger) {
    return ledger.api().get("/parts/TP-1").expect(200).json().path("evidence").path(0);
  }

  private static void scale(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"B\",\"readability\":\"0.1\",\"capacity\":\"5 kg\",\"spanTolerance\":\"0.1 %\"}")
        .expect(201);
  }

  private static String weighing(TestLedger ledger, String rest) {
    return ledger
        .api()
        .post("/weighings", ("{'part':'TP-1','scale':'K1'," + rest + "}").replace('\'', '"'))
        .expect(201)
        .json()
        .path("id")
        .asString();
  }
}
