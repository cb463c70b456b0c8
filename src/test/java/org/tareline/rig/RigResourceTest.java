package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.rig.Workshop.Line;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class RigResourceTest {

  @Test
  void a_rig_is_made_found_and_listed(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("BODY", "200 g", "6 g");
    workshop.rig("KIT");

    Answer made = workshop.post("HANG 1", part("body", 1, "Body"), rig("KIT", 2, "ridge  LINE"));

    made.expect(201);
    assertThat(made.header("Location")).isEqualTo("/api/v1/rigs/HANG%201");
    assertThat(made.header("ETag")).isEqualTo("\"1\"");
    Answer found = ledger.api().get("/rigs/{code}", "hang 1").expect(200);
    assertThat(found.json()).isEqualTo(made.json());
    assertThat(found.header("ETag")).isEqualTo("\"1\"");
    JsonNode lines = found.json().path("lines");
    assertThat(lines).hasSize(2);
    assertThat(lines.path(0).path("part").asString()).isEqualTo("BODY");
    assertThat(lines.path(0).path("name").asString()).isEqualTo("the body");
    assertThat(lines.path(0).has("rig")).isFalse();
    assertThat(lines.path(1).path("rig").asString()).isEqualTo("KIT");
    assertThat(lines.path(1).path("quantity").asInt()).isEqualTo(2);
    assertThat(lines.path(1).path("role").asString()).isEqualTo("structural ridge line");
    JsonNode items = ledger.api().get("/rigs").expect(200).json().path("items");
    assertThat(items).hasSize(2);
    assertThat(items.path(0)).isEqualTo(found.json());
  }

  @Test
  void a_quantity_left_out_is_one_and_a_role_may_be_a_new_word(TestLedger ledger) {
    new Workshop(ledger).unknown("PEAK");

    Answer made =
        ledger
            .api()
            .post(
                "/rigs",
                """
                {"code":"TENT","name":"tent","lines":[{"part":"PEAK","role":"Peak Pole"}]}""")
            .expect(201);

    JsonNode line = made.json().path("lines").path(0);
    assertThat(line.path("quantity").asInt()).isEqualTo(1);
    assertThat(line.path("role").asString()).isEqualTo("peak pole");
  }

  @Test
  void lines_keep_their_ids_when_they_are_sent_without(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("STRAP");
    workshop.unknown("LOOP");
    workshop.rig(
        "HANG",
        part("STRAP", 2, "tree strap"),
        part("LOOP", 1, "hardware"),
        part("LOOP", 4, "continuous loop"));
    List<String> before = ids(ledger.api().get("/rigs/HANG").json());

    Answer after =
        workshop.put(
            "HANG",
            part("LOOP", 6, "continuous loop"),
            part("STRAP", 2, "suspension"),
            part("STRAP", 1, "other"));

    List<String> ids = ids(after.expect(200).json());
    assertThat(ids.get(0)).as("by thing and role").isEqualTo(before.get(2));
    assertThat(ids.get(1)).as("by thing alone").isEqualTo(before.get(0));
    assertThat(ids.get(2)).as("a new line").isNotIn(before);
    assertThat(after.header("ETag")).isEqualTo("\"2\"");
    assertThat(ledger.api().get("/rigs/HANG").json()).isEqualTo(after.json());
  }

  @Test
  void a_line_sent_with_its_id_stays_that_line_whatever_it_holds(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("OLD");
    workshop.unknown("YEW");
    workshop.rig("HANG", part("OLD", 1, "body"), part("OLD", 1, "body"));
    List<String> before = ids(ledger.api().get("/rigs/HANG").json());

    Answer after =
        workshop
            .put("HANG", part("YEW", 1, "body").withId(before.get(1)), part("OLD", 1, "body"))
            .expect(200);

    assertThat(ids(after.json())).containsExactly(before.get(1), before.get(0));
  }

  @Test
  void an_id_that_is_no_line_of_the_rig_is_refused(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.rig("HANG", part("BODY", 1, "body"));
    workshop.rig("OTHER", part("BODY", 1, "body"));
    String anothers = ids(ledger.api().get("/rigs/OTHER").json()).get(0);
    String own = ids(ledger.api().get("/rigs/HANG").json()).get(0);

    Answer refused =
        workshop.put(
            "HANG",
            part("BODY", 1, "body").withId(anothers),
            part("BODY", 2, "body").withId(own),
            part("BODY", 3, "body").withId(own));

    assertThat(pointers(refused.expect(400))).containsExactly("#/lines/0/id", "#/lines/2/id");
    assertThat(ids(ledger.api().get("/rigs/HANG").json())).containsExactly(own);
  }

  @Test
  void every_fault_is_said_at_once_and_nothing_is_kept(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.rig("KIT");

    Answer refused =
        ledger
            .api()
            .post(
                "/rigs",
                """
                {"code":"HANG","name":" ","lines":[
                  {"part":"GONE","quantity":1,"role":"body"},
                  {"rig":"GONE","quantity":1,"role":"body"},
                  {"part":"BODY","rig":"KIT","role":"body"},
                  {"role":"body"},
                  {"part":"BODY","quantity":0,"role":"body"},
                  {"part":"BODY","quantity":"100001","role":"body"},
                  {"part":"BODY","quantity":1.5,"role":""},
                  null]}""");

    assertThat(pointers(refused.expect(400)))
        .containsExactly(
            "#/name",
            "#/lines/0/part",
            "#/lines/1/rig",
            "#/lines/2/part",
            "#/lines/3/part",
            "#/lines/4/quantity",
            "#/lines/5/quantity",
            "#/lines/6/quantity",
            "#/lines/6/role",
            "#/lines/7");
    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    ledger.api().get("/rigs/HANG").expect(404);
  }

  @Test
  void more_lines_than_a_rig_takes_are_refused(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("STAKE");
    Line[] lines = new Line[2501];
    Arrays.fill(lines, part("STAKE", 1, "stake"));

    assertThat(pointers(workshop.post("MANY", lines).expect(400))).containsExactly("#/lines");
    ledger.api().get("/rigs/MANY").expect(404);
    assertThat(workshop.post("MANY", Arrays.copyOf(lines, 2500)).expect(201).json().path("lines"))
        .hasSize(2500);
  }

  @Test
  void a_code_is_taken_once_whatever_its_case(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.rig("HANG");

    assertThat(pointers(workshop.post("hang").expect(409))).containsExactly("#/code");
    assertThat(ledger.api().get("/rigs").json().path("items")).hasSize(1);
  }

  @Test
  void a_code_that_was_changed_still_finds_the_rig_and_no_other_may_take_it(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.rig("ALDER");
    ledger.api().put("/rigs/ALDER", Workshop.body("BIRCH")).expect(200);

    assertThat(ledger.api().get("/rigs/alder").expect(200).json().path("code").asString())
        .isEqualTo("BIRCH");
    workshop.post("ALDER").expect(409);
    workshop.rig("GROVE", rig("ALDER", 1, "other"));
    assertThat(ledger.api().get("/rigs/GROVE").json().path("lines").path(0).path("rig").asString())
        .isEqualTo("BIRCH");
  }

  @Test
  void the_second_of_two_who_edit_is_told_and_overwrites_nothing(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.unknown("NET");
    workshop.rig("HANG", part("BODY", 1, "body"));
    String tag = String.valueOf(ledger.api().get("/rigs/HANG").header("ETag"));

    ledger
        .api()
        .with("If-Match", tag)
        .put("/rigs/HANG", Workshop.body("HANG", part("BODY", 2, "body")))
        .expect(200);
    Answer second =
        ledger
            .api()
            .with("If-Match", tag)
            .put("/rigs/HANG", Workshop.body("HANG", part("NET", 1, "bug net")));

    second.expect(412);
    JsonNode kept = ledger.api().get("/rigs/HANG").json();
    assertThat(kept.path("revision").asInt()).isEqualTo(2);
    assertThat(kept.path("lines").path(0).path("part").asString()).isEqualTo("BODY");
    assertThat(kept.path("lines").path(0).path("quantity").asInt()).isEqualTo(2);
  }

  @Test
  void every_revision_is_kept(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.rig("HANG", part("BODY", 1, "body"));
    workshop.put("HANG", part("BODY", 7, "body")).expect(200);

    List<String> contents =
        ledger
            .server()
            .database()
            .queryForList(
                "select content from revision where ledger_id = ? and kind = 'rig' order by number",
                String.class,
                ledger.member().ledgerId());

    assertThat(contents).hasSize(2);
    assertThat(contents.get(0)).contains("\"quantity\":1");
    assertThat(contents.get(1)).contains("\"quantity\":7");
  }

  @Test
  void a_change_without_lines_is_refused_and_an_empty_list_takes_them_all_out(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.rig("HANG", part("BODY", 1, "body"));

    Answer refused = ledger.api().put("/rigs/HANG", Map.of("name", "hang"));

    assertThat(pointers(refused.expect(400))).containsExactly("#/lines");
    assertThat(ledger.api().get("/rigs/HANG").json().path("lines")).hasSize(1);
    assertThat(workshop.put("HANG").expect(200).json().path("lines")).isEmpty();
  }

  @Test
  void another_ledgers_rig_is_not_there(TestLedger mine, TestLedger theirs) {
    Workshop workshop = new Workshop(theirs);
    workshop.unknown("BODY");
    workshop.rig("HANG", part("BODY", 1, "body"));

    mine.api().get("/rigs/HANG").expect(404);
    mine.api().put("/rigs/HANG", Workshop.body("HANG")).expect(404);
    mine.api().get("/rigs/HANG/roll-up").expect(404);
    Answer refused = new Workshop(mine).post("MINE", rig("HANG", 1, "other"));
    assertThat(pointers(refused.expect(400))).containsExactly("#/lines/0/rig");
    Answer noPart = new Workshop(mine).post("MINE", part("BODY", 1, "body"));
    assertThat(pointers(noPart.expect(400))).containsExactly("#/lines/0/part");
  }

  static List<String> ids(JsonNode rig) {
    return rig.path("lines").valueStream().map(line -> line.path("id").asString()).toList();
  }

  static List<String> pointers(Answer refused) {
    return refused
        .json()
        .path("errors")
        .valueStream()
        .map(error -> error.path("pointer").asString())
        .toList();
  }
}
