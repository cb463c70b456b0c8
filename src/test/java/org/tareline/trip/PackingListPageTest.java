package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** The packing list without scripts, and what its script asks for. */
@FeatureTest
class PackingListPageTest {

  private static final String LIST = "/trips/FELL/packing-list";

  private TestLedger ledger;

  @BeforeEach
  void pack(TestLedger ledger) {
    this.ledger = ledger;
    Workshop workshop = new Workshop(ledger);
    workshop.part("BODY", "Hang body", "hang", 1, null);
    workshop.part("TARP", "Tarp", "rain", 1, null);
    workshop.part("BAR", "Head bar", "hang", 2, null);
    workshop.part("BOOTS", "Boots", "clothing", 1, null);
    workshop.rig("HANG", "Hang system", 1, "TARP", 1, "BODY", 2, "BAR");
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"FELL","name":"Four nights on the fell","starts":"2027-05-08","days":5,"lines":[
               {"rig":"HANG","place":"Hang bag"},
               {"part":"BOOTS","carry":"worn"},
               {"item":{"name":"oats","system":"food"},"quantity":4,"carry":"consumable","place":"hang bag"}]}
            """)
        .expect(201);
  }

  private static String left(Document page) {
    Element left = page.expectFirst(".packing__left").clone();
    left.select("[hidden]").remove();
    return left.text();
  }

  private static List<String> things(Document page) {
    return page.select("[role=checkbox]").eachText();
  }

  private static Element thing(Document page, String name) {
    return page.select("li.packing__thing").stream()
        .filter(row -> row.select("[data-name]").text().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** Presses one of the buttons of a thing: they stand outside of the form that they send. */
  private Answer press(Answer page, String name, String button) {
    Element pressed = thing(page.page(), name).expectFirst("[data-sets=" + button + "]");
    assertThat(pressed.attr("formaction")).startsWith(form(page).attr("action") + "#");
    return send(page, pressed.val());
  }

  private static Element form(Answer page) {
    return page.page().expectFirst("form[id=checks]");
  }

  private Answer send(Answer page, String check) {
    return ledger
        .pages()
        .forge(
            form(page).attr("action"),
            "_csrf",
            form(page).expectFirst("[name=_csrf]").val(),
            "check",
            check);
  }

  private Answer open(String path) {
    return ledger.pages().get(path).expect(200);
  }

  @Test
  void there_is_a_box_for_each_part_of_a_rig_by_system() {
    Document page = open(LIST).page();

    assertThat(page.select("h2 > span:first-child").eachText())
        .containsExactly("Hang", "Rain", "Clothing", "Food");
    assertThat(things(page))
        .containsExactly(
            "Hang body BODY Hang system · Hang bag",
            "2 × Head bar BAR Hang system · Hang bag",
            "Tarp TARP Hang system · Hang bag",
            "Boots BOOTS on the body or in the hand",
            "4 × oats hang bag · used up on the way");
    assertThat(left(page)).isEqualTo("5 of 5 still to pack");
    assertThat(page.select(".only-print").text())
        .contains("Four nights on the fell", "2027-05-08", "FELL, revision 1, printed");
  }

  @Test
  void or_by_bag_in_the_order_in_which_bags_are_met() {
    Document page = open(LIST + "?by=bag").page();

    assertThat(page.select("h2 > span:first-child").eachText())
        .containsExactly("Hang bag", "In no bag or pocket that has a name");
    assertThat(things(page).get(3)).isEqualTo("4 × oats used up on the way");
  }

  @Test
  void a_press_checks_a_thing_off_and_another_takes_it_back() {
    Answer done = press(open(LIST + "?by=bag&show=left"), "Head bar", "packed").expect(303);
    assertThat(done.header("Location")).endsWith("/trips/FELL/packing-list?by=bag&show=left");

    Answer page = open(LIST);
    assertThat(thing(page.page(), "Head bar").expectFirst("[role=checkbox]").attr("aria-checked"))
        .isEqualTo("true");
    assertThat(page.page().select("[aria-checked=true]")).hasSize(1);
    assertThat(left(page.page())).isEqualTo("4 of 5 still to pack");
    assertThat(page.page().expectFirst("h2").text()).isEqualTo("Hang 1 left");

    press(page, "Head bar", "packed").expect(303);
    assertThat(open(LIST).page().select("[aria-checked=true]")).isEmpty();
  }

  @Test
  void what_is_to_be_fetched_says_so_and_is_still_to_be_packed() {
    press(open(LIST), "Tarp", "'to fetch'").expect(303);

    Document page = open(LIST).page();
    assertThat(page.select("[aria-pressed=true]").text()).isEqualTo("to fetch Tarp");
    assertThat(left(page)).isEqualTo("5 of 5 still to pack, 1 of them to fetch");
    press(open(LIST), "Tarp", "packed").expect(303);
    assertThat(open(LIST).page().select("[aria-pressed=true]")).isEmpty();
  }

  @Test
  void what_is_still_to_be_packed_comes_first_and_can_stand_alone() {
    press(open(LIST), "Hang body", "packed").expect(303);
    press(open(LIST), "Tarp", "packed").expect(303);

    Document page = open(LIST).page();
    assertThat(things(page).subList(0, 2))
        .containsExactly(
            "2 × Head bar BAR Hang system · Hang bag", "Hang body BODY Hang system · Hang bag");
    Document left = open(LIST + "?show=left").page();
    assertThat(left.select("li.packing__thing:not([hidden]) [data-name]").eachText())
        .containsExactly("Head bar", "Boots", "oats");
    assertThat(left.select("section[hidden] h2").eachText()).containsExactly("Rain all packed");
    assertThat(left.select("[data-filter][aria-current]").text()).isEqualTo("Still to pack");
  }

  @Test
  void a_press_that_names_nothing_on_the_list_is_refused_and_nothing_moves() {
    Answer page = open(LIST);
    send(page, "nonsense").expect(422);
    send(page, "a|b|packed").expect(422);

    assertThat(open(LIST).page().select("[aria-checked=true]")).isEmpty();
  }

  @Test
  void a_trip_with_nothing_on_it_says_so() {
    ledger.api().post("/trips", "{\"code\":\"BARE\",\"name\":\"Bare\"}").expect(201);

    Document page = open("/trips/BARE/packing-list").page();
    assertThat(page.select("main").text()).contains("Nothing is on this trip yet");
    assertThat(page.select("[role=checkbox]")).isEmpty();
  }

  @Test
  void the_script_hears_what_is_new_and_nothing_twice() {
    Document page = open(LIST).page();
    String owner = page.select("main").attr("data-owner");
    String seen = page.select("main").attr("data-seen");
    String address = LIST + "/checks?owner=" + owner + "&seen=";

    assertThat(open(address + seen).json().has("things")).isFalse();
    press(open(LIST), "Boots", "packed").expect(303);
    Answer news = open(address + seen);
    assertThat(news.json().path("things").findValuesAsString("state"))
        .containsExactly("open", "open", "open", "packed", "open");
    assertThat(open(address + news.json().path("seen").asString()).json().has("things")).isFalse();
  }

  @Test
  void who_else_checked_a_thing_is_named(TestServer server) {
    TestLedger bea = server.openLedger();
    server
        .database()
        .update(
            "insert into member (ledger_id, account_id, role, joined_at) values (?, ?, 'EDITOR', current_timestamp)",
            ledger.member().ledgerId(),
            bea.member().accountId());
    String uuid =
        server
            .database()
            .queryForObject(
                "select cast(uuid as varchar) from ledger where id = ?",
                String.class,
                ledger.member().ledgerId());
    String line =
        ledger.api().get("/trips/FELL").json().path("lines").path(1).path("id").asString();
    bea.api()
        .with("X-Ledger", String.valueOf(uuid))
        .post(
            "/trips/FELL/packing",
            Map.of("checks", List.of(Map.of("line", line, "state", "to fetch"))))
        .expect(200);

    assertThat(thing(open(LIST).page(), "Boots").text()).contains("to fetch by " + bea.name());
  }

  @Test
  void a_page_of_another_account_hears_and_sends_nothing(TestServer server) {
    String owner = open(LIST).page().select("main").attr("data-owner");
    Pages other = server.openLedger().pages();

    other.get("/trips/FELL/packing-list").expect(404);
    other.get(LIST + "/checks?owner=" + owner).expect(409);
    ledger.pages().get(LIST + "/checks?owner=0-0").expect(409);
    server.pages().get(LIST + "/checks?owner=" + owner).expect(302);
  }

  @Test
  void the_worker_that_keeps_the_page_is_there_for_everybody(TestServer server) {
    Answer worker = server.pages().get("/packing-worker.js").expect(200);
    assertThat(worker.header("Content-Type")).contains("javascript");
    assertThat(worker.header("Content-Security-Policy")).contains("worker-src 'self'");
  }
}
