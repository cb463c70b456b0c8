package org.tareline.part;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class LifeEventsTest {

  @Autowired private LifeEvents events;
  @Autowired private Parts parts;

  @Test
  void what_happened_is_kept_with_its_date_and_note_newest_first(TestLedger ledger) {
    part(ledger, "TQ", 1);

    JsonNode washed =
        log(ledger, "TQ", "'kind':'washed','date':'2027-04-11','note':'by hand, 30 °C'");
    log(ledger, "TQ", "'kind':'Repaired','date':'2027-03-02T10:15:00+02:00'");

    assertThat(washed.path("kind").asString()).isEqualTo("washed");
    assertThat(washed.has("count")).isFalse();
    JsonNode all = ledger.api().get("/parts/TQ/events").expect(200).json();
    assertThat(all.path("items").valueStream().map(event -> event.path("kind").asString()))
        .containsExactly("washed", "repaired");
    assertThat(all.path("items").path(0).path("note").asString()).isEqualTo("by hand, 30 °C");
    assertThat(all.path("items").path(1).path("date").asString()).isEqualTo("2027-03-02T08:15:00Z");
    assertThat(all.path("owned").asInt()).isEqualTo(1);
    assertThat(revision(ledger, "TQ")).as("nothing about the part was changed").isEqualTo(1);
  }

  @Test
  void what_is_made_is_added_to_what_is_owned_and_what_is_retired_taken_off(TestLedger ledger) {
    part(ledger, "LOOP", 2);

    JsonNode made = log(ledger, "LOOP", "'kind':'made','count':3");
    assertThat(made.path("owned").asInt()).isEqualTo(5);
    assertThat(made.path("revision").asInt()).isEqualTo(2);
    assertThat(made.path("count").asInt()).isEqualTo(3);
    JsonNode retired = log(ledger, "LOOP", "'kind':'retired'");
    assertThat(retired.path("owned").asInt()).isEqualTo(4);

    assertThat(owned(ledger, "LOOP")).isEqualTo(4);
    assertThat(revision(ledger, "LOOP")).isEqualTo(3);
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from revision where ledger_id = ? and kind = 'part'",
                    ledger.member().ledgerId()))
        .as("every state is kept")
        .isEqualTo(3);
  }

  @Test
  void the_first_made_without_a_count_is_of_those_that_are_owned_already(TestLedger ledger) {
    part(ledger, "BODY", 1);
    part(ledger, "PLAN", 0);

    assertThat(log(ledger, "BODY", "'kind':'made','date':'2026-02-01'").path("owned").asInt())
        .isEqualTo(1);
    assertThat(log(ledger, "BODY", "'kind':'made'").path("owned").asInt()).isEqualTo(2);
    assertThat(log(ledger, "PLAN", "'kind':'made'").path("owned").asInt()).isEqualTo(1);
  }

  @Test
  void what_is_lent_stays_owned_and_is_not_at_hand_until_it_is_returned(TestLedger ledger) {
    part(ledger, "STRAP", 3);

    JsonNode lent = log(ledger, "STRAP", "'kind':'lent','count':2,'note':'to the neighbour'");

    assertThat(lent.path("owned").asInt()).isEqualTo(3);
    assertThat(lent.path("lent").asInt()).isEqualTo(2);
    assertThat(lent.path("atHand").asInt()).isEqualTo(1);
    assertThat(ledger.api().get("/parts/STRAP").json().path("lent").asInt()).isEqualTo(2);
    ledger.api().put("/parts/STRAP", ledger.api().get("/parts/STRAP").body()).expect(200);
    assertThat(ledger.pages().get("/parts/STRAP").page().text())
        .contains("3 owned, 1 of 3 at hand");

    assertThat(log(ledger, "STRAP", "'kind':'returned'").path("atHand").asInt()).isEqualTo(2);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "'kind':'lent','count':3",
        "'kind':'returned','count':2",
        "'kind':'retired','count':3",
        "'kind':'made','count':1000000"
      })
  void more_than_there_are_is_refused_and_nothing_moves(String event, TestLedger ledger) {
    part(ledger, "STRAP", 3);
    log(ledger, "STRAP", "'kind':'lent'");

    Answer refused = post(ledger, "STRAP", event).expect(409);

    assertThat(refused.json().path("errors").path(0).path("pointer").asString())
        .isEqualTo("#/count");
    assertThat(refused.json().path("detail").asString())
        .contains("Now 3 are owned, 1 of them lent");
    assertThat(standing(ledger)).isEqualTo(1);
    assertThat(owned(ledger, "STRAP")).isEqualTo(3);
  }

  @Test
  void of_several_who_lend_the_last_one_at_once_one_does_and_the_others_are_told(TestLedger ledger)
      throws Exception {
    part(ledger, "STRAP", 1);
    int racers = 4;
    CyclicBarrier start = new CyclicBarrier(racers);
    ExecutorService threads = Executors.newFixedThreadPool(racers);
    List<Future<Integer>> answers = new ArrayList<>();
    for (int i = 0; i < racers; i++) {
      answers.add(
          threads.submit(
              () -> {
                start.await();
                return post(ledger, "STRAP", "'kind':'lent'").status();
              }));
    }
    List<Integer> statuses = new ArrayList<>();
    for (Future<Integer> answer : answers) {
      statuses.add(answer.get());
    }
    threads.shutdown();

    assertThat(statuses).containsExactlyInAnyOrder(201, 409, 409, 409);
    assertThat(standing(ledger)).isEqualTo(1);
  }

  @Test
  void a_part_is_not_edited_down_below_what_is_lent(TestLedger ledger) {
    part(ledger, "STRAP", 3);
    log(ledger, "STRAP", "'kind':'lent','count':2");

    Answer refused =
        ledger.api().put("/parts/STRAP", "{\"name\":\"Strap\",\"owned\":1}").expect(409);

    assertThat(refused.json().path("errors").path(0).path("pointer").asString())
        .isEqualTo("#/owned");
    assertThat(owned(ledger, "STRAP")).isEqualTo(3);
    ledger.api().put("/parts/STRAP", "{\"name\":\"Strap\",\"owned\":2}").expect(200);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      value = {
        "|#/kind",
        "'kind':'burnt'|#/kind",
        "'kind':'made','count':'-1'|#/count",
        "'kind':'made','count':'1.5'|#/count",
        "'kind':'lent','count':0|#/count",
        "'kind':'washed','count':2|#/count",
        "'kind':'washed','date':'yesterday'|#/date",
        "'kind':'washed','date':'2027-02-30'|#/date"
      })
  void what_is_wrong_is_said_at_its_field_and_nothing_is_kept(
      @Nullable String event, String pointer, TestLedger ledger) {
    part(ledger, "TQ", 1);

    JsonNode errors =
        post(ledger, "TQ", event == null ? "" : event).expect(400).json().path("errors");

    assertThat(errors.valueStream().map(error -> error.path("pointer").asString()))
        .containsExactly(pointer);
    assertThat(standing(ledger)).isZero();
    assertThat(revision(ledger, "TQ")).isEqualTo(1);
  }

  @Test
  void all_that_is_wrong_is_said_at_once(TestLedger ledger) {
    part(ledger, "TQ", 1);

    JsonNode errors =
        post(
                ledger,
                "TQ",
                "'kind':'lent','count':'x','date':'soon','note':'" + "y".repeat(2001) + "'")
            .expect(400)
            .json()
            .path("errors");

    assertThat(errors.valueStream().map(error -> error.path("pointer").asString()))
        .containsExactly("#/date", "#/count", "#/note");
  }

  @Test
  void striking_out_undoes_what_it_did_and_keeps_it_with_the_reason(TestLedger ledger) {
    part(ledger, "LOOP", 2);
    String made = log(ledger, "LOOP", "'kind':'made','count':3").path("id").asString();
    String lent = log(ledger, "LOOP", "'kind':'lent','count':4").path("id").asString();

    Answer tooSoon = strikeOut(ledger, "LOOP", made, "mistyped").expect(409);
    assertThat(tooSoon.json().path("detail").asString()).contains("rests on this");
    assertThat(owned(ledger, "LOOP")).isEqualTo(5);

    assertThat(
            strikeOut(ledger, "LOOP", lent, "it did not happen")
                .expect(200)
                .json()
                .path("lent")
                .asInt())
        .isZero();
    JsonNode struckOut = strikeOut(ledger, "LOOP", made, "mistyped").expect(200).json();
    assertThat(struckOut.path("owned").asInt()).isEqualTo(2);
    assertThat(struckOut.path("voided").asBoolean()).isTrue();
    assertThat(owned(ledger, "LOOP")).isEqualTo(2);

    JsonNode all = ledger.api().get("/parts/LOOP/events").json().path("items");
    assertThat(all.valueStream().map(event -> event.path("voidReason").asString()))
        .containsExactly("it did not happen", "mistyped");
    strikeOut(ledger, "LOOP", made, "again").expect(409);
    assertThat(owned(ledger, "LOOP")).isEqualTo(2);
  }

  @Test
  void a_retirement_struck_out_gives_the_pieces_back(TestLedger ledger) {
    part(ledger, "PEG", 8);
    String retired = log(ledger, "PEG", "'kind':'retired','count':8").path("id").asString();
    assertThat(owned(ledger, "PEG")).isZero();

    strikeOut(ledger, "PEG", retired, "found them").expect(200);

    assertThat(owned(ledger, "PEG")).isEqualTo(8);
  }

  @Test
  void striking_out_wants_a_reason_and_an_event_of_this_part(TestLedger ledger, TestLedger other) {
    part(ledger, "TQ", 1);
    part(ledger, "UQ", 1);
    part(other, "TQ", 1);
    String washed = log(ledger, "TQ", "'kind':'washed'").path("id").asString();

    strikeOut(ledger, "TQ", washed, " ").expect(400);
    strikeOut(ledger, "UQ", washed, "mistyped").expect(404);
    strikeOut(other, "TQ", washed, "mistyped").expect(404);
    strikeOut(ledger, "TQ", "not-an-id", "mistyped").expect(404);
    post(ledger, "NONE", "'kind':'washed'").expect(404);

    assertThat(standing(ledger)).isEqualTo(1);
  }

  @Test
  void what_may_have_changed_each_part_is_found_in_one_statement(TestLedger ledger) {
    List<Long> ids = new ArrayList<>();
    for (String code : List.of("A", "B", "C", "D")) {
      part(ledger, code, 1);
      ids.add(parts.get(ledger.member(), code).id());
    }
    log(ledger, "A", "'kind':'repaired','date':'2027-01-01'");
    log(ledger, "A", "'kind':'damaged','date':'2026-12-01'");
    log(ledger, "A", "'kind':'washed','date':'2027-02-01'");
    log(ledger, "B", "'kind':'modified','date':'2027-01-05','note':'hem taken off'");
    String wrong = log(ledger, "B", "'kind':'repaired','date':'2027-01-06'").path("id").asString();
    strikeOut(ledger, "B", wrong, "wrong part").expect(200);
    log(ledger, "C", "'kind':'washed'");

    Map<Long, List<LifeEvent>> changes = events.changes(ledger.member(), ids);

    assertThat(changes).containsOnlyKeys(ids.get(0), ids.get(1));
    assertThat(changes.get(ids.get(0)))
        .extracting(LifeEvent::kind)
        .containsExactly(LifeEvent.Kind.DAMAGED, LifeEvent.Kind.REPAIRED);
    assertThat(changes.get(ids.get(1)))
        .extracting(event -> event.note().orElse(""))
        .containsExactly("hem taken off");
    assertThat(ledger.statements(() -> events.changes(ledger.member(), ids))).hasSize(1);
  }

  @Test
  void another_ledger_sees_nothing_of_it(TestLedger ledger, TestLedger other) {
    part(ledger, "TQ", 1);
    log(ledger, "TQ", "'kind':'damaged'");
    long id = parts.get(ledger.member(), "TQ").id();

    other.api().get("/parts/TQ/events").expect(404);
    assertThat(events.changes(other.member(), List.of(id))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"life_event", "life_event_void"})
  void a_row_is_neither_changed_nor_deleted(String table, TestLedger ledger) {
    part(ledger, "TQ", 1);
    String washed = log(ledger, "TQ", "'kind':'washed'").path("id").asString();
    strikeOut(ledger, "TQ", washed, "mistyped").expect(200);

    for (String statement :
        List.of("update " + table + " set ledger_id = ledger_id", "delete from " + table)) {
      assertThatThrownBy(
              () ->
                  ledger
                      .server()
                      .database()
                      .update(statement + " where ledger_id = ?", ledger.member().ledgerId()))
          .isInstanceOf(DataAccessException.class)
          .rootCause()
          .hasMessageContaining("append-only");
    }
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from " + table + " where ledger_id = ?",
                    ledger.member().ledgerId()))
        .isEqualTo(1);
  }

  private static void part(TestLedger ledger, String code, int owned) {
    ledger
        .api()
        .post("/parts", Map.of("code", code, "name", "the " + code, "owned", owned))
        .expect(201);
  }

  private static Answer post(TestLedger ledger, String code, String event) {
    return ledger.api().post("/parts/{code}/events", "{" + event.replace('\'', '"') + "}", code);
  }

  private static JsonNode log(TestLedger ledger, String code, String event) {
    return post(ledger, code, event).expect(201).json();
  }

  private static Answer strikeOut(TestLedger ledger, String code, String id, String reason) {
    return ledger.api().post("/parts/{code}/events/{id}/void", Map.of("reason", reason), code, id);
  }

  private static int owned(TestLedger ledger, String code) {
    return ledger.api().get("/parts/{code}", code).json().path("owned").asInt();
  }

  private static int revision(TestLedger ledger, String code) {
    return ledger.api().get("/parts/{code}", code).json().path("revision").asInt();
  }

  private static long standing(TestLedger ledger) {
    return ledger
        .server()
        .count("select count(*) from life_event where ledger_id = ?", ledger.member().ledgerId());
  }
}
