package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Fibre;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class SettingsTest {

  @Autowired private TestClock clock;

  @Test
  void a_new_ledger_takes_for_granted_what_is_common_practice(TestLedger ledger) {
    Answer answer = ledger.api().get("/settings").expect(200);

    assertThat(answer.header("ETag")).isEqualTo("\"1\"");
    // Allowances, tolerance and interval: common practice, no source. The air: half of the
    // commercial regains of ASTM D1909, which are 4.5, 0.4, 0, 7.0 and 13.6 %; down from memory.
    assertThat(answer.body())
        .isEqualTo(
            "{\"growthAllowance\":{\"estimated\":\"20 %\",\"calculated\":\"5 %\",\"weighed\":\"0 %\"},"
                + "\"statedTolerance\":\"5 %\",\"checkEvery\":365,\"designFactor\":\"5\","
                + "\"air\":{\"nylon\":\"2.25 %\",\"polyester\":\"0.2 %\",\"hmpe\":\"0 %\","
                + "\"cotton\":\"3.5 %\",\"wool\":\"6.8 %\",\"down\":\"5.75 %\"}}");
  }

  @Test
  void a_ledger_that_was_there_before_has_the_same_as_a_new_one(TestLedger ledger) {
    Settings there =
        ledger
            .server()
            .bean(LedgerRepository.class)
            .one(ledger.member().ledgerId())
            .orElseThrow()
            .settings();
    ledger
        .server()
        .database()
        .update(
            "insert into ledger (uuid, name, created_at) select ?, 'old', created_at from ledger where id = ?",
            java.util.UUID.randomUUID(),
            ledger.member().ledgerId());
    long old = ledger.server().count("select max(id) from ledger");

    assertThat(ledger.server().bean(LedgerRepository.class).one(old).orElseThrow().settings())
        .isEqualTo(there);
  }

  @Test
  void what_is_left_out_stays_and_what_is_typed_is_kept_as_typed(TestLedger ledger) {
    JsonNode changed =
        ledger
            .api()
            .put(
                "/settings",
                "{\"growthAllowance\":{\"estimated\":\"25%\"},\"air\":{\"Down\":\"6 1/2 %\"},\"checkEvery\":180}")
            .expect(200)
            .json();

    assertThat(changed.path("growthAllowance").path("estimated").asString()).isEqualTo("25%");
    assertThat(changed.path("growthAllowance").path("calculated").asString()).isEqualTo("5 %");
    assertThat(changed.path("air").path("down").asString()).isEqualTo("6 1/2 %");
    assertThat(changed.path("air").path("nylon").asString()).isEqualTo("2.25 %");
    assertThat(changed.path("checkEvery").asInt()).isEqualTo(180);
    assertThat(ledger.api().get("/settings").json()).isEqualTo(changed);

    Settings now = ledger.server().bean(Ledgers.class).settings(ledger.member()).settings();
    assertThat(now.growthAllowance(Basis.ESTIMATED)).isEqualByComparingTo("0.25");
    assertThat(now.growthAllowance(Basis.CALCULATED)).isEqualByComparingTo("0.05");
    assertThat(now.growthAllowance(Basis.WEIGHED)).isEqualByComparingTo("0");
    assertThat(now.air(Fibre.DOWN)).isEqualByComparingTo("0.065");
    assertThat(now.air(Fibre.HMPE)).isEqualByComparingTo("0");
    assertThat(now.checkEveryDays()).isEqualTo(180);
  }

  @Test
  void what_was_read_can_be_sent_back_and_changes_nothing(TestLedger ledger) {
    Answer read = ledger.api().get("/settings");

    Answer written = ledger.api().put("/settings", read.body()).expect(200);

    assertThat(written.body()).isEqualTo(read.body());
  }

  @Test
  void every_state_that_was_saved_is_kept(TestLedger ledger) {
    ledger.api().put("/settings", "{\"statedTolerance\":\"7 %\"}").expect(200);
    ledger.api().put("/settings", "{\"statedTolerance\":\"8 %\"}").expect(200);

    List<String> kept =
        ledger
            .server()
            .database()
            .queryForList(
                "select content from revision where ledger_id = ? and kind = 'settings' order by number",
                String.class,
                ledger.member().ledgerId());
    assertThat(kept).hasSize(2);
    assertThat(kept.get(0)).contains("\"7 %\"");
    assertThat(kept.get(1)).contains("\"8 %\"");
  }

  @Test
  void a_change_moves_every_stated_mass_without_a_tolerance_at_once(TestLedger ledger) {
    ledger
        .api()
        .post("/parts", "{\"code\":\"TP\",\"name\":\"Tarp\",\"stated\":{\"mass\":\"300 g\"}}")
        .expect(201);

    ledger.api().put("/settings", "{\"statedTolerance\":\"10 %\"}").expect(200);

    // rectangular, ±30 g: 30/√3 (JCGM 100:2008, 4.3.7)
    assertThat(
            ledger
                .api()
                .get("/parts/TP")
                .json()
                .path("estimate")
                .path("standardUncertainty")
                .path("value")
                .asString())
        .startsWith("17.32050");
  }

  @Test
  void a_scale_without_an_interval_of_its_own_is_due_when_the_ledger_says(TestLedger ledger) {
    clock.stopAt(Instant.parse("2027-05-01T10:00:00Z"));
    String scale = "\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"";
    ledger.api().post("/scales", "{\"code\":\"K1\"," + scale + "}").expect(201);
    ledger.api().post("/scales", "{\"code\":\"K2\"," + scale + ",\"checkEvery\":300}").expect(201);
    for (String code : List.of("K1", "K2")) {
      ledger
          .api()
          .post(
              "/scales/{code}/checks",
              "{\"weights\":[{\"nominal\":\"500 g\",\"class\":\"M1\",\"indication\":\"500.2\"}],"
                  + "\"checkedAt\":\"2026-10-13\"}",
              code)
          .expect(201);
    }
    // 200 days before: within 365 and within 300
    assertThat(overdue(ledger, "K1")).isFalse();

    ledger.api().put("/settings", "{\"checkEvery\":199}").expect(200);

    assertThat(overdue(ledger, "K1")).isTrue();
    assertThat(overdue(ledger, "K2")).isFalse();
    assertThat(ledger.pages().get("/scales/K1").page().text()).contains("every 199 days");
  }

  private static boolean overdue(TestLedger ledger, String scale) {
    return ledger
        .api()
        .get("/scales/{code}", scale)
        .expect(200)
        .json()
        .path("inForce")
        .path("overdue")
        .asBoolean();
  }

  @Test
  void all_that_is_wrong_is_said_at_once_and_nothing_is_changed(TestLedger ledger) {
    String before = ledger.api().get("/settings").body();

    JsonNode errors =
        ledger
            .api()
            .put(
                "/settings",
                "{\"growthAllowance\":{\"estimated\":\"much\",\"weighed\":\"-1 %\"},\"statedTolerance\":\"101 %\","
                    + "\"checkEvery\":\"0\",\"air\":{\"silk\":\"5 %\",\"wool\":\"\",\"nylon\":\"3 %\"}}")
            .expect(400)
            .json()
            .path("errors");

    assertThat(errors.valueStream().map(error -> error.path("pointer").asString()))
        .containsExactly(
            "#/air/silk",
            "#/growthAllowance/estimated",
            "#/growthAllowance/weighed",
            "#/statedTolerance",
            "#/checkEvery",
            "#/air/wool");
    assertThat(ledger.api().get("/settings").body()).isEqualTo(before);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{'statedTolerence':'5 %'}|statedTolerence",
        "{'growthAllowance':{'guessed':'5 %'}}|guessed",
        "{'growthAllowance':'5 %'}|growthAllowance",
        "[]|JSON"
      })
  void a_body_of_another_shape_is_refused(String body, String said, TestLedger ledger) {
    assertThat(ledger.api().put("/settings", body.replace('\'', '"')).expect(400).body())
        .contains(said);
  }

  @Test
  void a_save_that_starts_from_an_old_state_is_refused(TestLedger ledger) {
    ledger.api().put("/settings", "{\"statedTolerance\":\"7 %\"}").expect(200);

    ledger
        .api()
        .with("If-Match", "\"1\"")
        .put("/settings", "{\"statedTolerance\":\"9 %\"}")
        .expect(412);

    assertThat(ledger.api().get("/settings").json().path("statedTolerance").asString())
        .isEqualTo("7 %");
  }

  @Test
  void the_page_keeps_what_was_typed_and_says_what_is_wrong(TestLedger ledger) {
    Pages pages = ledger.pages();
    Answer page = pages.get("/settings").expect(200);

    Answer refused =
        pages
            .submit(
                page,
                "main form",
                "growthAllowance.estimated",
                "30",
                "air.nylon",
                "",
                "checkEvery",
                "90")
            .expect(422);

    assertThat(refused.page().select(".errors a").eachAttr("href"))
        .containsExactly("#growthAllowance-estimated", "#air-nylon");
    assertThat(refused.page().select("#growthAllowance-estimated").attr("value")).isEqualTo("30");
    assertThat(refused.page().select("#checkEvery").attr("value")).isEqualTo("90");

    pages
        .submit(refused, "main form", "growthAllowance.estimated", "30 %", "air.nylon", "2.25 %")
        .expect(303);
    JsonNode saved = ledger.api().get("/settings").json();
    assertThat(saved.path("growthAllowance").path("estimated").asString()).isEqualTo("30 %");
    assertThat(saved.path("checkEvery").asInt()).isEqualTo(90);
  }

  @Test
  void of_two_pages_opened_at_once_the_second_shows_what_the_first_saved(TestLedger ledger) {
    Pages pages = ledger.pages();
    Answer first = pages.get("/settings");
    Answer second = pages.get("/settings");
    pages.submit(first, "main form", "air.wool", "7 %").expect(303);

    Answer refused = pages.submit(second, "main form", "air.down", "6 %").expect(422);

    assertThat(refused.page().select("#air-wool-hint").text()).isEqualTo("Saved meanwhile: 7 %");
    assertThat(refused.page().select("#air-down").attr("value")).isEqualTo("6 %");
    assertThat(ledger.api().get("/settings").json().path("air").path("down").asString())
        .isEqualTo("5.75 %");
  }

  @Test
  void each_ledger_has_its_own(TestLedger ledger, TestLedger another) {
    ledger.api().put("/settings", "{\"statedTolerance\":\"7 %\"}").expect(200);

    assertThat(another.api().get("/settings").json().path("statedTolerance").asString())
        .isEqualTo("5 %");
  }

  @Test
  void they_come_with_the_member_and_ask_for_no_statement_of_their_own(TestLedger ledger) {
    ledger.api().get("/scales").expect(200);

    List<String> statements = ledger.statements(() -> ledger.api().get("/scales").expect(200));

    assertThat(statements).filteredOn(sql -> sql.contains("growth_estimated")).hasSize(1);
    assertThat(statements).filteredOn(sql -> sql.matches(".*\\bledger \\w+.*")).hasSize(1);
  }
}
