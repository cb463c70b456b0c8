package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** What came of things on trips. */
@FeatureTest
class AfterwardsTest {

  private TestLedger ledger;

  @BeforeEach
  void own(TestLedger ledger) {
    this.ledger = ledger;
    Workshop workshop = new Workshop(ledger);
    workshop.part("BODY", "Hang body", "hang", 1, null);
    workshop.part("NET", "Bug net", "hang", 1, null);
    workshop.part("TROWEL", "Trowel", "hygiene", 1, null);
    workshop.part("MITTS", "Mittens", "clothing", 1, null);
    workshop.rig("HANG", "Hang system", 1, "BODY", 1, "NET");
  }

  private void trip(String code, String starts) {
    ledger
        .api()
        .post(
            "/trips",
            Map.of(
                "code",
                code,
                "name",
                "Trip " + code,
                "starts",
                starts,
                "days",
                3,
                "lines",
                List.of(
                    Map.of("rig", "HANG"),
                    Map.of("part", "TROWEL"),
                    Map.of("item", Map.of("name", "salt")))))
        .expect(201);
  }

  private String line(String trip, int index) {
    return ledger
        .api()
        .get("/trips/" + trip)
        .json()
        .path("lines")
        .path(index)
        .path("id")
        .asString();
  }

  private Answer say(String trip, List<Map<String, String>> things, String... missed) {
    return ledger
        .api()
        .put("/trips/" + trip + "/afterwards", Map.of("things", things, "missed", List.of(missed)));
  }

  private JsonNode found(String trip) {
    return ledger.api().get("/trips/" + trip + "/afterwards").expect(200).json();
  }

  private List<String> asked(String path) {
    return ledger.pages().get(path).expect(200).page().select("[id=questions] li").eachText();
  }

  @Test
  void what_came_of_each_thing_is_kept_and_can_be_put_back_as_it_is() {
    trip("T1", "2027-05-08");
    say(
            "T1",
            List.of(
                Map.of("line", line("T1", 0), "part", "NET", "outcome", "not used"),
                Map.of("line", line("T1", 0), "part", "BODY", "outcome", "used"),
                Map.of("line", line("T1", 2), "outcome", "missed")),
            "mitts",
            "A third spoon")
        .expect(200);

    JsonNode found = found("T1");
    assertThat(found.path("things").findValuesAsString("name"))
        .containsExactly("Hang body", "Bug net", "Trowel", "salt");
    assertThat(found.path("things").path(1).path("outcome").asString()).isEqualTo("not used");
    assertThat(found.path("things").path(2).has("outcome")).isFalse();
    assertThat(found.path("things").path(3).path("outcome").asString()).isEqualTo("missed");
    assertThat(found.path("missed").toString()).isEqualTo("[\"MITTS\",\"A third spoon\"]");

    ledger.api().put("/trips/T1/afterwards", found.toString()).expect(200);
    assertThat(found("T1")).isEqualTo(found);
  }

  @Test
  void what_is_said_of_a_rig_is_said_of_all_its_parts() {
    trip("T1", "2027-05-08");
    say("T1", List.of(Map.of("line", line("T1", 0), "outcome", "used"))).expect(200);

    assertThat(found("T1").path("things").findValuesAsString("outcome"))
        .containsExactly("used", "used");
  }

  @Test
  void every_fault_is_told_at_its_place_and_what_was_said_before_stands() {
    trip("T1", "2027-05-08");
    say("T1", List.of(Map.of("line", line("T1", 1), "outcome", "used")), "MITTS").expect(200);
    JsonNode before = found("T1");

    Answer refused =
        say(
                "T1",
                List.of(
                    Map.of("line", "nowhere", "outcome", "used"),
                    Map.of("line", line("T1", 0), "part", "TROWEL", "outcome", "used"),
                    Map.of("line", line("T1", 1), "outcome", "lost"),
                    Map.of("line", line("T1", 1), "outcome", "used"),
                    Map.of("line", line("T1", 1), "part", "TROWEL", "outcome", "not used")))
            .expect(400);
    assertThat(refused.json().path("errors").findValuesAsString("pointer"))
        .containsExactly(
            "#/things/0/line", "#/things/1/part", "#/things/2/outcome", "#/things/4/outcome");
    say("T1", List.of(), " ").expect(400);

    assertThat(found("T1")).isEqualTo(before);
  }

  @Test
  void not_used_three_times_in_a_row_is_worth_a_question_and_twice_or_since_used_is_not() {
    // The second by date is the last that is written down.
    for (String[] trip :
        new String[][] {{"T1", "2027-05-01"}, {"T3", "2027-07-01"}, {"T2", "2027-06-01"}}) {
      trip(trip[0], trip[1]);
      assertThat(asked("/parts")).isEmpty();
      say(
              trip[0],
              List.of(
                  Map.of("line", line(trip[0], 0), "part", "NET", "outcome", "not used"),
                  Map.of(
                      "line",
                      line(trip[0], 1),
                      "outcome",
                      trip[0].equals("T2") ? "used" : "not used")))
          .expect(200);
    }

    assertThat(asked("/parts")).containsExactly("Bug net NET: not used on its last 3 trips");
    assertThat(asked("/trips/new")).isEqualTo(asked("/parts"));
    trip("T4", "2027-08-01");
    say("T4", List.of(Map.of("line", line("T4", 0), "outcome", "used"))).expect(200);
    assertThat(asked("/parts")).isEmpty();
  }

  @Test
  void missed_twice_is_worth_a_question_whether_it_is_a_part_or_not() {
    trip("T1", "2027-05-01");
    trip("T2", "2027-06-01");
    say("T1", List.of(), "MITTS", "Third spoon", "Rope").expect(200);
    assertThat(asked("/parts")).isEmpty();

    say("T2", List.of(Map.of("line", line("T2", 2), "outcome", "used")), "mitts", "third spoon")
        .expect(200);

    assertThat(asked("/parts"))
        .containsExactly("Mittens MITTS: missed on 2 trips", "third spoon: missed on 2 trips");
  }

  @Test
  void the_page_writes_the_same_and_gives_back_what_was_typed() {
    trip("T1", "2027-05-08");
    Pages pages = ledger.pages();
    Answer page = pages.get("/trips/T1/afterwards").expect(200);
    String net = nameOf(page.page(), "Bug net NET");
    String salt = nameOf(page.page(), "salt");

    pages
        .submit(page, "form.came", net, "not used", salt, "used", "missed", "MITTS\n\n rope ")
        .expect(303);

    JsonNode found = found("T1");
    assertThat(found.path("things").findValuesAsString("outcome"))
        .containsExactly("not used", "used");
    assertThat(found.path("missed").toString()).isEqualTo("[\"MITTS\",\"rope\"]");
    Document refused =
        pages.submit(page, "form.came", net, "used", "missed", "x".repeat(201)).expect(422).page();
    assertThat(refused.select("textarea").text()).hasSize(201);
    assertThat(refused.select("[name=" + net + "][checked]").val()).isEqualTo("used");
    assertThat(found("T1")).isEqualTo(found);
  }

  private static String nameOf(Document page, String label) {
    return page.select("[role=radiogroup]").stream()
        .filter(one -> one.expectFirst("p").text().equals(label))
        .map(one -> one.expectFirst("input").attr("name"))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void what_is_said_of_a_rig_on_the_page_is_of_all_its_parts_but_those_told_apart() {
    trip("T1", "2027-05-08");
    Pages pages = ledger.pages();
    Answer page = pages.get("/trips/T1/afterwards").expect(200);
    assertThat(page.page().select("details.came__parts[open]")).isEmpty();

    pages
        .submit(
            page,
            "form.came",
            nameOf(page.page(), "Hang system HANG"),
            "used",
            nameOf(page.page(), "Bug net NET"),
            "not used")
        .expect(303);

    assertThat(found("T1").path("things").path(0).path("outcome").asString()).isEqualTo("used");
    assertThat(found("T1").path("things").path(1).path("outcome").asString()).isEqualTo("not used");
    assertThat(found("T1").path("things").path(2).has("outcome")).isFalse();
    // Sent back as it is shown, it stays as it was.
    JsonNode before = found("T1");
    Answer again = pages.get("/trips/T1/afterwards").expect(200);
    assertThat(again.page().select("details.came__parts[open]")).hasSize(1);
    pages.submit(again, "form.came").expect(303);
    assertThat(found("T1")).isEqualTo(before);
  }

  @Test
  void the_rest_is_used_where_that_is_said_and_what_was_said_stands() {
    trip("T1", "2027-05-08");
    Pages pages = ledger.pages();
    Answer page = pages.get("/trips/T1/afterwards").expect(200);

    pages
        .submit(page, "form.came", nameOf(page.page(), "Trowel TROWEL"), "not used", "rest", "used")
        .expect(303);

    assertThat(found("T1").path("things").findValuesAsString("outcome"))
        .containsExactly("used", "used", "not used", "used");
    Document folded = pages.get("/trips/T1/afterwards").page();
    assertThat(folded.select("[name=" + nameOf(folded, "Hang system HANG") + "][checked]").val())
        .isEqualTo("used");
    assertThat(folded.select("details.came__parts[open]")).isEmpty();
  }

  @Test
  void who_may_not_change_it_reads_it_and_finds_no_form(TestServer server) {
    trip("T1", "2027-05-08");
    say("T1", List.of(Map.of("line", line("T1", 1), "outcome", "not used")), "rope").expect(200);

    String link =
        ledger
            .api()
            .post("/invitations", Map.of("role", "reader"))
            .expect(201)
            .json()
            .path("link")
            .asString();
    Pages reader = server.pages();
    Answer offer = reader.get(URI.create(link).getPath()).expect(200);
    reader
        .submit(
            offer, "main form", "name", "reader of " + ledger.name(), "password", "twelve letters")
        .expect(303);

    Document read = reader.get("/trips/T1/afterwards").expect(200).page();

    assertThat(read.select("main form")).isEmpty();
    assertThat(read.select("main li").eachText())
        .containsExactly("Hang system: no word", "Trowel: not used", "salt: no word");
    assertThat(read.select("main").text()).contains("Missed, and not on the trip: rope");
  }

  @Test
  void what_was_damaged_goes_into_the_parts_own_record_once() {
    trip("T1", "2020-05-08");
    Pages pages = ledger.pages();
    Answer page = pages.get("/trips/T1/afterwards").expect(200);

    pages
        .submit(page, "form.happened", "part", "NET", "kind", "damaged", "note", "by a branch")
        .expect(303);
    pages.submit(page, "form.happened", "part", "", "kind", "damaged").expect(422);

    JsonNode events = ledger.api().get("/parts/NET/events").expect(200).json().path("items");
    assertThat(events.size()).isEqualTo(1);
    assertThat(events.path(0).path("kind").asString()).isEqualTo("damaged");
    assertThat(events.path(0).path("note").asString()).isEqualTo("by a branch");
    assertThat(events.path(0).path("date").asString()).contains("2020-05-");
  }

  @Test
  void another_ledger_has_none_of_it(TestServer server) {
    trip("T1", "2027-05-08");
    say("T1", List.of(Map.of("line", line("T1", 1), "outcome", "used"))).expect(200);
    TestLedger other = server.openLedger();

    other.api().get("/trips/T1/afterwards").expect(404);
    other.api().put("/trips/T1/afterwards", "{}").expect(404);
    other.pages().get("/trips/T1/afterwards").expect(404);

    assertThat(found("T1").path("things").findValuesAsString("outcome")).containsExactly("used");
  }

  @Test
  void who_starts_from_an_older_state_is_refused_and_every_state_is_kept() {
    trip("T1", "2027-05-08");
    String path = "/trips/T1/afterwards";
    assertThat(ledger.api().get(path).header("ETag")).isEqualTo("\"0\"");
    Answer opened = ledger.pages().get(path);
    Map<String, Object> used =
        Map.of("things", List.of(Map.of("line", line("T1", 1), "outcome", "used")));
    Answer first = ledger.api().with("If-Match", "\"0\"").put(path, used).expect(200);
    assertThat(first.header("ETag")).isEqualTo("\"1\"");

    ledger.api().with("If-Match", "\"0\"").put(path, Map.of("things", List.of())).expect(412);
    assertThat(found("T1")).isEqualTo(first.json());

    Answer stale =
        ledger.pages().submit(opened, "form.came", "missed", "A third spoon").expect(422);
    assertThat(stale.page().select(".errors").text()).contains("Nothing was overwritten");
    assertThat(stale.page().select("[name=missed]").text()).isEqualTo("A third spoon");
    assertThat(found("T1")).isEqualTo(first.json());

    ledger.pages().submit(stale, "form.came").expect(303);
    assertThat(found("T1").path("missed").toString()).isEqualTo("[\"A third spoon\"]");
    ledger.api().put(path, used).expect(200);
    assertThat(ledger.api().get(path).header("ETag")).isEqualTo("\"3\"");
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from revision where ledger_id = ? and kind = 'afterwards'",
                    ledger.member().ledgerId()))
        .isEqualTo(3);
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from revision where ledger_id = ? and kind = 'afterwards' "
                        + "and number = 2 and content like '%A third spoon%'",
                    ledger.member().ledgerId()))
        .isEqualTo(1);
  }
}
