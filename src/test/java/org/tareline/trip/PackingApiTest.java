package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** Checking off what is packed, through the API. */
@FeatureTest
class PackingApiTest {

  private static final String CHECKS = "/trips/FELL/packing";

  @Autowired private TestClock clock;

  private TestLedger ledger;
  private String hang;
  private String boots;
  private String oats;

  @BeforeEach
  void pack(TestLedger ledger) {
    this.ledger = ledger;
    clock.stopAt(Instant.parse("2027-05-07T18:00:00Z"));
    Workshop workshop = new Workshop(ledger);
    workshop.part("BODY", "Hang body", "hang", 1, null);
    workshop.part("BAR", "Head bar", "hang", 2, null);
    workshop.part("BOOTS", "Boots", "clothing", 1, null);
    workshop.rig("HANG", "Hang system", 1, "BODY", 1, "BAR", 1, "BAR");
    JsonNode lines =
        ledger
            .api()
            .post(
                "/trips",
                """
                {"code":"FELL","name":"Four nights","lines":[{"rig":"HANG","quantity":2,"place":"Hang bag"},
                  {"part":"BOOTS","carry":"worn"},{"item":{"name":"oats","system":"food"},"carry":"consumable"}]}
                """)
            .expect(201)
            .json()
            .path("lines");
    hang = lines.path(0).path("id").asString();
    boots = lines.path(1).path("id").asString();
    oats = lines.path(2).path("id").asString();
  }

  private static Map<String, String> check(String line, String state, String at, String key) {
    return Map.of("line", line, "state", state, "at", at, "key", key);
  }

  private Answer send(Object... checks) {
    return ledger.api().post(CHECKS, Map.of("checks", List.of(checks)));
  }

  private List<String> states() {
    return ledger.api().get(CHECKS).expect(200).json().path("things").findValuesAsString("state");
  }

  private long written() {
    return ledger
        .server()
        .count(
            "select count(*) from packing_check where ledger_id = ?", ledger.member().ledgerId());
  }

  @Test
  void a_rig_unfolds_into_its_parts_each_once_with_how_many_there_are() {
    JsonNode list = ledger.api().get(CHECKS).expect(200).json();

    assertThat(list.path("things").findValuesAsString("name"))
        .containsExactly("Hang body", "Head bar", "Boots", "oats");
    assertThat(list.path("things").path(1).path("quantity").asInt()).isEqualTo(4);
    assertThat(list.path("things").path(1).path("rig").asString()).isEqualTo("HANG");
    assertThat(list.path("things").path(1).path("place").asString()).isEqualTo("Hang bag");
    assertThat(list.path("things").path(2).path("system").asString()).isEqualTo("clothing");
    assertThat(list.path("things").path(3).has("part")).isFalse();
    assertThat(list.path("open").asInt()).isEqualTo(4);
    assertThat(states()).containsOnly("open");
  }

  @Test
  void a_check_of_one_part_is_of_that_part_and_one_of_a_line_is_of_all_that_it_carries() {
    JsonNode bar = send(Map.of("line", hang, "part", "bar", "state", "packed")).expect(200).json();
    assertThat(bar.path("outcomes").path(0).path("outcome").asString()).isEqualTo("counts");
    assertThat(states()).containsExactly("open", "packed", "open", "open");
    assertThat(bar.path("things").path(1).path("checkedBy").asString()).isEqualTo(ledger.name());

    clock.pass(java.time.Duration.ofSeconds(1));
    send(Map.of("line", hang, "state", "to fetch")).expect(200);
    assertThat(states()).containsExactly("to fetch", "to fetch", "open", "open");

    clock.pass(java.time.Duration.ofSeconds(1));
    send(
            Map.of("line", hang, "part", "BODY", "state", "packed"),
            Map.of("line", boots, "part", "BOOTS", "state", "packed"))
        .expect(200);
    assertThat(states()).containsExactly("packed", "to fetch", "packed", "open");
    JsonNode list = ledger.api().get(CHECKS).json();
    assertThat(list.path("open").asInt()).isEqualTo(1);
    assertThat(list.path("toFetch").asInt()).isEqualTo(1);
    assertThat(list.path("packed").asInt()).isEqualTo(2);
  }

  @Test
  void the_newest_check_counts_whenever_it_arrives() {
    send(check(boots, "packed", "2027-05-07T17:30:00Z", "b")).expect(200);

    JsonNode late = send(check(boots, "to fetch", "2027-05-07T17:00:00Z", "a")).expect(200).json();

    assertThat(states()).contains("packed").doesNotContain("to fetch");
    assertThat(late.path("outcomes").path(0).path("outcome").asString()).isEqualTo("overtaken");
    assertThat(late.path("outcomes").path(0).path("words").asString())
        .isEqualTo(ledger.name() + " checked it later, and that counts: packed.");
    assertThat(written()).as("kept all the same").isEqualTo(2);
  }

  @Test
  void of_checks_made_at_one_moment_the_last_one_sent_counts() {
    String at = "2027-05-07T17:00:00Z";
    send(
            check(boots, "packed", at, "1"),
            check(boots, "open", at, "2"),
            check(boots, "to fetch", at, "3"))
        .expect(200);

    assertThat(states()).containsExactly("open", "open", "to fetch", "open");
  }

  @Test
  void a_clock_that_is_ahead_does_not_win_and_one_that_is_behind_does_not_lose() {
    // Ahead by a day, and it does not say so: its check counts from its arrival, at 18:00.
    send(check(boots, "to fetch", "2027-05-08T18:00:00Z", "ahead")).expect(200);
    clock.stopAt(Instant.parse("2027-05-07T18:05:00Z"));
    send(check(boots, "packed", "2027-05-07T18:04:00Z", "right")).expect(200);
    assertThat(states().get(2)).isEqualTo("packed");

    // Behind by two hours: what it says was checked a minute before the sending was, by the server,
    // at 18:06.
    clock.stopAt(Instant.parse("2027-05-07T18:07:00Z"));
    ledger
        .api()
        .post(
            CHECKS,
            Map.of(
                "sentAt",
                "2027-05-07T16:07:00Z",
                "checks",
                List.of(check(boots, "open", "2027-05-07T16:06:00Z", "behind"))))
        .expect(200);
    assertThat(states().get(2)).isEqualTo("open");
    assertThat(ledger.api().get(CHECKS).json().path("things").path(2).path("checkedAt").asString())
        .isEqualTo("2027-05-07T18:06:00Z");
  }

  @Test
  void the_same_check_again_writes_nothing_and_is_answered_alike() {
    Map<String, String> check = check(boots, "packed", "2027-05-07T17:00:00Z", "k");
    JsonNode first = send(check).expect(200).json();

    JsonNode again = send(check, check).expect(200).json();

    assertThat(written()).isEqualTo(1);
    assertThat(again.path("outcomes").path(0)).isEqualTo(first.path("outcomes").path(0));
    assertThat(again.path("things")).isEqualTo(first.path("things"));
  }

  @Test
  void a_key_that_came_with_another_check_is_refused_and_nothing_moves() {
    send(check(boots, "packed", "2027-05-07T17:00:00Z", "k")).expect(200);

    Answer refused =
        send(
                check(oats, "packed", "2027-05-07T17:00:00Z", "new"),
                check(boots, "open", "2027-05-07T17:30:00Z", "k"))
            .expect(409);

    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactly("#/checks/1/key");
    assertThat(states()).containsExactly("open", "open", "packed", "open");
    assertThat(written()).isEqualTo(1);
  }

  @Test
  void every_fault_is_told_at_its_place_and_nothing_moves() {
    Answer refused =
        ledger
            .api()
            .post(
                CHECKS,
                """
                {"checks":[
                  {"line":"%s","state":"packed"},
                  {"line":"no id","state":"packed"},
                  {"line":"%s","state":"gone"},
                  {"line":"%s","part":"NOPE","state":"packed"},
                  {"line":"%s","state":"packed","at":"yesterday"},
                  {"line":"%s","state":"packed","key":"%s"},
                  null]}
                """
                    .formatted(boots, UUID.randomUUID(), hang, boots, boots, "k".repeat(101)))
            .expect(400);

    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactly(
            "#/checks/1/line",
            "#/checks/2/line",
            "#/checks/2/state",
            "#/checks/3/part",
            "#/checks/4/at",
            "#/checks/5/key",
            "#/checks/6/line",
            "#/checks/6/state");
    ledger.api().post(CHECKS, "{}").expect(400);
    ledger.api().post(CHECKS, "{\"checks\":[],\"sentAt\":\"soon\"}").expect(400);
    assertThat(states()).containsOnly("open");
    assertThat(written()).isZero();
  }

  @Test
  void a_check_of_a_line_that_was_dropped_meanwhile_is_kept_and_told_in_words() {
    JsonNode trip = ledger.api().get("/trips/FELL").json();
    ledger
        .api()
        .put(
            "/trips/FELL",
            Map.of(
                "code",
                "FELL",
                "name",
                "Four nights",
                "lines",
                List.of(trip.path("lines").path(0))))
        .expect(200);

    JsonNode answer = send(check(boots, "packed", "2027-05-07T17:00:00Z", "k")).expect(200).json();

    assertThat(answer.path("outcomes").path(0).path("outcome").asString())
        .isEqualTo("off the trip");
    assertThat(answer.path("outcomes").path(0).path("words").asString())
        .contains("not on the trip now");
    assertThat(answer.path("things").findValuesAsString("name"))
        .containsExactly("Hang body", "Head bar");
    assertThat(written()).isEqualTo(1);
  }

  @Test
  void a_check_stays_with_its_line_when_the_trip_is_edited() {
    send(check(oats, "packed", "2027-05-07T17:00:00Z", "k")).expect(200);
    JsonNode trip = ledger.api().get("/trips/FELL").json();
    ledger
        .api()
        .put(
            "/trips/FELL",
            """
            {"code":"FELL-2","name":"Five nights","lines":[{"item":{"name":"tea","system":"food"}},%s]}
            """
                .formatted(trip.path("lines").path(2)))
        .expect(200);

    JsonNode list = ledger.api().get("/trips/FELL/packing").expect(200).json();
    assertThat(list.path("things").findValuesAsString("name")).containsExactly("tea", "oats");
    assertThat(list.path("things").findValuesAsString("state")).containsExactly("open", "packed");
  }

  @Test
  void another_ledger_neither_sees_nor_checks(TestServer server) {
    send(check(boots, "packed", "2027-05-07T17:00:00Z", "k")).expect(200);
    TestLedger other = server.openLedger();

    other.api().get(CHECKS).expect(404);
    other
        .api()
        .post(CHECKS, Map.of("checks", List.of(Map.of("line", boots, "state", "open"))))
        .expect(404);
    other.api().post("/trips", "{\"code\":\"FELL\",\"name\":\"Another\"}").expect(201);
    other
        .api()
        .post(CHECKS, Map.of("checks", List.of(Map.of("line", boots, "state", "open"))))
        .expect(400);

    assertThat(states().get(2)).isEqualTo("packed");
    assertThat(written()).isEqualTo(1);
  }

  @Test
  void many_who_send_the_same_checks_at_one_moment_write_each_once() throws Exception {
    List<Map<String, String>> checks = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      checks.add(check(boots, i % 2 == 0 ? "open" : "packed", "2027-05-07T17:00:00Z", "k" + i));
    }
    ExecutorService pool = Executors.newFixedThreadPool(6);
    try {
      List<Callable<Answer>> sending = new ArrayList<>();
      for (int i = 0; i < 6; i++) {
        sending.add(() -> ledger.api().post(CHECKS, Map.of("checks", checks)));
      }
      for (Future<Answer> answer : pool.invokeAll(sending)) {
        answer.get().expect(200);
      }
    } finally {
      pool.shutdown();
    }

    assertThat(written()).isEqualTo(20);
    assertThat(states().get(2)).isEqualTo("packed");
  }

  @Test
  void a_check_is_neither_changed_nor_deleted_whoever_asks() {
    send(check(boots, "packed", "2027-05-07T17:00:00Z", "k")).expect(200);

    for (String statement :
        List.of(
            "update packing_check set state = 'open' where ledger_id = ?",
            "delete from packing_check where ledger_id = ?")) {
      assertThatThrownBy(
              () -> ledger.server().database().update(statement, ledger.member().ledgerId()))
          .isInstanceOf(DataAccessException.class)
          .rootCause()
          .hasMessageContaining("append-only");
    }
    assertThat(states().get(2)).isEqualTo("packed");
  }

  @Test
  void the_statements_do_not_grow_with_the_checks_and_things() {
    Map<String, String> one = check(boots, "packed", "2027-05-07T17:00:00Z", "k");
    int few = ledger.statements(() -> send(one).expect(200)).size();
    int again = ledger.statements(() -> send(one).expect(200)).size();
    for (int i = 0; i < 40; i++) {
      send(check(oats, i % 2 == 0 ? "packed" : "open", "2027-05-07T17:00:00Z", "m" + i));
    }
    assertThat(ledger.statements(() -> send(one).expect(200)).size()).isEqualTo(again);
    assertThat(few - again).as("the writing of one check").isEqualTo(1);
  }
}
