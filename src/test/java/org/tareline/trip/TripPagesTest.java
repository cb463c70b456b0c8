package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class TripPagesTest {

  private static final String FORM = "main form";

  /** A trip with a rig, a part twice, a worn part, one with no mass and a free item. */
  private static Workshop pack(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BODY", "Hang body", "hang", 1, "300 g");
    workshop.weighed("BAR", "Head bar", "hang", 2, "100 g");
    workshop.weighed("BOOTS", "Boots", "clothing", 1, "900 g");
    workshop.part("POT", "Pot", "cook", 1, null);
    workshop.rig("HANG", "Hang system", 1, "BODY", 2, "BAR");
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"FELL","name":"Four nights on the fell","starts":"2027-05-08","days":5,
             "lines":[
               {"rig":"HANG","place":"Hang bag"},
               {"part":"BOOTS","carry":"worn"},
               {"part":"POT","place":"Lid"},
               {"item":{"name":"oats","system":"food","mass":"250 g"},"quantity":4,
                "carry":"consumable","place":"hang bag"}]}
            """)
        .expect(201);
    return workshop;
  }

  private static Document page(TestLedger ledger, String path) {
    return ledger.pages().get(path).expect(200).page();
  }

  private static List<String> texts(Document page, String selector) {
    return page.select(selector).eachText();
  }

  private static Element byId(Document page, String id) {
    return page.expectFirst("[id=" + id + "]");
  }

  private static String valueOf(Document page, String name) {
    Element control = page.expectFirst("[name=" + name + "]");
    return control.is("select") ? control.select("option[selected]").val() : control.val();
  }

  @Test
  void a_trip_says_first_what_it_weighs_and_what_is_left_out(TestLedger ledger) {
    pack(ledger);

    Document page = page(ledger, "/trips/FELL");

    assertThat(page.select("h1").text()).isEqualTo("Four nights on the fell");
    assertThat(page.select("#sentence").text().replace('\u00a0', ' '))
        .matches(
            "Total pack at least 1500 g ± \\d+ g: base at least 500 g ± \\d+ g, consumables "
                + "1000 g ± \\d+ g\\. Worn 900 g ± \\d+ g\\. Skin-out at least 2400 g ± \\d+ g; "
                + "3 of 5 weighed\\.");
    assertThat(page.select("main").text())
        .contains("2027-05-08 to 2027-05-12, 5 days")
        .contains("Not weighed yet, and so in no figure: POT, Pot.");
  }

  @Test
  void the_list_is_grouped_by_bag_and_says_in_words_how_things_travel(TestLedger ledger) {
    pack(ledger);

    Document page = page(ledger, "/trips/FELL");

    assertThat(texts(page, "table.bags th[scope=rowgroup]"))
        .containsExactly("Hang bag", "Lid", "In no bag or pocket that has a name");
    Element hangBag = page.select("table.bags tbody").get(0);
    assertThat(hangBag.select("th[scope=row]").eachText())
        .containsExactly("Hang system HANG in the pack", "4 × oats used up on the way");
    assertThat(hangBag.select("tr").get(0).select("data").val()).isEqualTo("1500");
    assertThat(page.select("table.bags tbody").get(2).select("th[scope=row]").text())
        .isEqualTo("Boots BOOTS on the body or in the hand");
    assertThat(page.select("table.bags tbody").get(1).text()).contains("not weighed");
  }

  @Test
  void the_heaviest_lines_are_drawn_and_listed_from_the_same_numbers(TestLedger ledger) {
    pack(ledger);

    Document page = page(ledger, "/trips/FELL");
    Element section = page.expectFirst("section[aria-labelledby=heaviest-title]");
    assertThat(section.select("tbody th").eachText())
        .containsExactly("oats", "Boots BOOTS", "Hang system HANG");
    assertThat(section.select("svg text").eachText())
        .containsSubsequence("1. oats", "2. Boots", "3. Hang system");
    assertThat(section.select("svg rect").eachAttr("width")).hasSize(3);
    assertThat(section.select("svg title").text()).isNotEmpty();
    assertThat(section.select("svg desc").text()).startsWith("oats (4 of it) weighs most");
    assertThat(section.select("figcaption").text()).contains("42 % of what is known");
  }

  @Test
  void a_thing_packed_more_often_than_owned_is_told(TestLedger ledger) {
    pack(ledger);
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"T","name":"t","lines":[{"rig":"HANG"},{"part":"BAR"}]}
            """)
        .expect(201);

    assertThat(page(ledger, "/trips/T").select(".caution").text())
        .isEqualTo("BAR, Head bar, is packed 3 times, and 2 are owned.");
    assertThat(page(ledger, "/trips/FELL").select(".caution")).isEmpty();
  }

  @Test
  void the_list_of_trips_has_the_total_pack_of_each(TestLedger ledger) {
    assertThat(page(ledger, "/trips").select("main").text()).contains("There are no trips yet");
    pack(ledger);

    Element row = page(ledger, "/trips").expectFirst("tbody tr");
    assertThat(row.select("th").text())
        .isEqualTo("Four nights on the fell FELL 2027-05-08 to 2027-05-12, 5 days; 4 lines");
    assertThat(row.text()).contains("at least 1500").contains("at least 2400");
  }

  @Test
  void a_trip_too_heavy_to_add_up_leaves_the_others_their_figures(TestLedger ledger) {
    pack(ledger);
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"ROCK","name":"All the stones","lines":[
              {"item":{"name":"stones","mass":"9000000 kg"},"quantity":3}]}
            """)
        .expect(201);

    assertThat(texts(page(ledger, "/trips"), "tbody tr"))
        .satisfiesExactly(
            rock -> assertThat(rock).contains("All the stones", "too much to add up"),
            fell -> assertThat(fell).contains("at least 1500"));
    assertThat(ledger.pages().get("/trips/ROCK").expect(422).page().select("h1").text())
        .isNotEmpty();
    ledger.pages().get("/trips/ROCK/edit").expect(200);
    ledger.api().get("/trips/ROCK/weights").expect(400);
  }

  @Test
  void a_trip_is_made_by_the_form_with_things_named_by_code_or_name(TestLedger ledger) {
    pack(ledger);

    Answer done =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/trips/new"),
                FORM,
                "code",
                "T1",
                "name",
                "A day out",
                "lines[0].thing",
                "boots",
                "lines[0].carry",
                "worn",
                "lines[2].thing",
                "hang sys",
                "lines[2].place",
                "Bag",
                "lines[5].item.name",
                "apples",
                "lines[5].item.mass",
                "1 lb 2 oz",
                "lines[5].quantity",
                "2")
            .expect(303);

    assertThat(done.header("Location")).endsWith("/trips/T1");
    Document page = ledger.pages().follow(done).page();
    assertThat(page.select("[role=status]").text()).isEqualTo("T1 is in the ledger.");
    assertThat(texts(page, "table.bags th[scope=row]"))
        .containsExactly(
            "Hang system HANG in the pack",
            "Boots BOOTS on the body or in the hand",
            "2 × apples used up on the way",
            "Everything, skin-out");
  }

  @Test
  void a_refused_form_keeps_what_was_typed_and_links_to_each_fault(
      TestLedger ledger, TestServer server) {
    pack(ledger);

    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/trips/new"),
                FORM,
                "code",
                "T1",
                "name",
                "",
                "starts",
                "next week",
                "lines[1].thing",
                "no such thing",
                "lines[2].thing",
                "b",
                "lines[4].item.name",
                "apples",
                "lines[4].item.mass",
                "two",
                "lines[4].place",
                "Food bag")
            .expect(422)
            .page();

    assertThat(page.title()).startsWith("Error:");
    assertThat(valueOf(page, "starts")).isEqualTo("next week");
    // The empty row before them is gone, and the faults say so.
    assertThat(page.select(".errors a").eachAttr("href"))
        .containsExactly(
            "#name", "#starts", "#lines-0-thing", "#lines-1-thing", "#lines-2-item-mass");
    for (String link : page.select(".errors a").eachAttr("href")) {
      Element field = byId(page, link.substring(1));
      assertThat(field.attr("aria-invalid")).as(link).isEqualTo("true");
      assertThat(page.getElementById(field.attr("aria-describedby").split(" ")[0])).isNotNull();
    }
    assertThat(page.select(".errors").text())
        .contains("There is no part or rig no such thing")
        .contains("Say which is meant by \"b\": ");
    assertThat(byId(page, "lines-0-thing").val()).isEqualTo("no such thing");
    assertThat(byId(page, "lines-2-item-name").val()).isEqualTo("apples");
    assertThat(byId(page, "lines-2-item-mass").val()).isEqualTo("two");
    assertThat(byId(page, "lines-2-place").val()).isEqualTo("Food bag");
    assertThat(
            server.count(
                "select count(*) from trip where ledger_id = ?", ledger.member().ledgerId()))
        .isEqualTo(1);
  }

  @Test
  void a_line_is_taken_out_another_changed_and_the_rest_stay(TestLedger ledger) {
    pack(ledger);
    List<String> before = lineIds(ledger);

    ledger
        .pages()
        .submit(
            ledger.pages().get("/trips/FELL/edit"),
            FORM,
            "lines[1].out",
            "yes",
            "lines[3].quantity",
            "5")
        .expect(303);

    assertThat(lineIds(ledger)).containsExactly(before.get(0), before.get(2), before.get(3));
    assertThat(ledger.api().get("/trips/FELL").json().path("lines").get(2).path("quantity").asInt())
        .isEqualTo(5);
    assertThat(ledger.api().get("/trips/FELL").json().path("starts").asString())
        .isEqualTo("2027-05-08");
  }

  private static List<String> lineIds(TestLedger ledger) {
    List<String> ids = new ArrayList<>();
    ledger
        .api()
        .get("/trips/FELL")
        .json()
        .path("lines")
        .forEach(line -> ids.add(line.path("id").asString()));
    return ids;
  }

  @Test
  void a_line_emptied_by_hand_is_asked_about(TestLedger ledger) {
    pack(ledger);

    Document page =
        ledger
            .pages()
            .submit(ledger.pages().get("/trips/FELL/edit"), FORM, "lines[1].thing", "")
            .expect(422)
            .page();

    assertThat(page.select(".errors a").eachAttr("href")).containsExactly("#lines-1");
    assertThat(page.getElementById("lines-1")).isNotNull();
    assertThat(lineIds(ledger)).hasSize(4);
  }

  @Test
  void more_rows_are_given_without_saving_anything(TestLedger ledger) {
    pack(ledger);
    Answer form = ledger.pages().get("/trips/FELL/edit");
    int before = form.page().select("fieldset.row").size();

    // A browser sends the name of the button that was pressed.
    Document page =
        ledger
            .pages()
            .submit(
                form,
                FORM,
                "name",
                "Five nights",
                "lines[4].thing",
                "BODY",
                "lines[5].thing",
                "BAR",
                "more",
                "rows")
            .expect(200)
            .page();

    assertThat(page.select("fieldset.row")).hasSize(before + 2);
    assertThat(valueOf(page, "name")).isEqualTo("Five nights");
    assertThat(page.select("[name=lines[5].thing]").val()).isEqualTo("BAR");
    assertThat(ledger.api().get("/trips/FELL").json().path("revision").asInt()).isEqualTo(1);
  }

  @Test
  void who_saves_over_a_newer_state_is_told_and_keeps_what_was_typed(TestLedger ledger) {
    pack(ledger);
    Answer opened = ledger.pages().get("/trips/FELL/edit");
    ledger
        .api()
        .put(
            "/trips/FELL", "{\"code\":\"FELL\",\"name\":\"Theirs\",\"lines\":[{\"part\":\"POT\"}]}")
        .expect(200);

    Answer told = ledger.pages().submit(opened, FORM, "name", "Mine").expect(422);

    Document page = told.page();
    assertThat(page.select(".errors").text()).contains("Somebody else has saved trip FELL");
    assertThat(valueOf(page, "name")).isEqualTo("Mine");
    assertThat(page.select(".caution a").attr("href")).isEqualTo("/trips/FELL");
    assertThat(ledger.api().get("/trips/FELL").json().path("name").asString()).isEqualTo("Theirs");

    ledger.pages().submit(told, FORM).expect(303);
    assertThat(ledger.api().get("/trips/FELL").json().path("name").asString()).isEqualTo("Mine");
    assertThat(lineIds(ledger)).hasSize(4);
  }

  @Test
  void a_rig_that_shares_its_code_with_a_part_stays_a_rig(TestLedger ledger) {
    pack(ledger).part("HANG", "A part called as the rig is", "hang", 1, null);

    ledger
        .pages()
        .submit(
            ledger.pages().get("/trips/FELL/edit"),
            FORM,
            "lines[4].thing",
            "HANG",
            "lines[5].thing",
            "rig HANG")
        .expect(303);

    assertThat(texts(page(ledger, "/trips/FELL"), "table.bags th[scope=row] a[href^=/rigs]"))
        .containsExactly("Hang system", "Hang system");
    assertThat(texts(page(ledger, "/trips/FELL"), "table.bags a[href=/parts/HANG]")).hasSize(1);
  }

  @Test
  void suggestions_are_parts_and_rigs(TestLedger ledger) {
    pack(ledger);

    Answer answer = ledger.pages().get("/trips/suggestions?text={t}", "hang").expect(200);

    assertThat(answer.json().findValuesAsString("code")).containsExactly("BODY", "HANG");
    assertThat(answer.json().findValuesAsString("aside")).containsExactly("part", "rig");
  }

  @Test
  void another_ledgers_trip_has_no_page(TestLedger ledger, TestServer server) {
    pack(ledger);
    TestLedger other = server.openLedger();
    assertThat(ledger.pages().get("/trips/FELL").status()).isEqualTo(200);

    other.pages().get("/trips/FELL").expect(404);
    other.pages().get("/trips/FELL/packing-list").expect(404);
    other.pages().get("/trips/FELL/edit").expect(404);
    assertThat(page(other, "/trips").select("main").text()).doesNotContain("FELL");
    assertThat(other.pages().get("/trips/suggestions?text=hang").json()).isEmpty();
  }

  @Test
  void the_statements_of_a_page_do_not_grow_with_the_trip(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    StringBuilder lines = new StringBuilder();
    List<Integer> counts = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      workshop.weighed("P" + i, "part " + i, "hang", 1, (100 + i) + " g");
      workshop.rig("R" + i, "rig " + i, 1, "P" + i, 1, i == 0 ? "P0" : ">R" + (i - 1));
      lines
          .append(i == 0 ? "" : ",")
          .append("{\"part\":\"P" + i + "\"},{\"rig\":\"R" + i + "\"},{\"item\":{\"name\":\"x\"}}");
      if (i == 2 || i == 29) {
        String code = "T" + i;
        ledger
            .api()
            .post("/trips", "{\"code\":\"" + code + "\",\"name\":\"t\",\"lines\":[" + lines + "]}")
            .expect(201);
        // The first form of a session writes down what it is to be sent with.
        ledger.pages().get("/trips/" + code + "/edit").expect(200);
        for (String path : List.of("", "/edit", "/packing-list")) {
          counts.add(
              ledger
                  .statements(() -> ledger.pages().get("/trips/" + code + path).expect(200))
                  .size());
        }
        counts.add(ledger.statements(() -> ledger.pages().get("/trips").expect(200)).size());
      }
    }

    assertThat(counts.subList(4, 8)).isEqualTo(counts.subList(0, 4));
    assertThat(counts).allMatch(count -> count < 25);
  }
}
