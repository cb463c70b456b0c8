package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.ArrayList;
import java.util.List;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.part.Part;
import org.tareline.rig.Workshop.Line;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class RigPagesTest {

  private static final String FORM = "main form[method=post]";

  /** Two straps and a net of its own, weighed; two bars, stated. */
  private static Workshop hang(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.scale("BENCH", "0.1 g");
    workshop.weigh(workshop.unknown("BODY"), "BENCH", "420 g");
    workshop.weigh(workshop.unknown("STRAP"), "BENCH", "32 g");
    workshop.weigh(workshop.unknown("NET"), "BENCH", "120 g");
    workshop.stated("BAR", "140 g", "4 g");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"));
    workshop.rig(
        "HANG",
        part("BODY", 1, "body"),
        rig("KIT", 1, "suspension"),
        part("NET", 1, "bug net"),
        part("BAR", 2, "spreader bar"));
    return workshop;
  }

  private static String main(Answer page) {
    return page.page().select("main").text().replace('\u00a0', ' ');
  }

  private static List<String> faults(Answer refused) {
    return refused.page().select(".errors a, .errors span").eachText();
  }

  @Test
  void the_sentence_to_quote_says_what_is_counted_and_how_it_is_known(TestLedger ledger) {
    hang(ledger);

    Document page =
        ledger.pages().get("/rigs/HANG?scope=anchor-to-anchor-bars-out").expect(200).page();

    // 420 + 2 × 32 + 120 g; whoever reads grams is given ounces as well, for others.
    assertThat(page.select("#quote").text().replace('\u00a0', ' '))
        .matches(
            "Anchor to anchor, bars out, net in: 604\\.\\d+ g ± 0\\.\\d+ g \\(21\\.31 oz\\); "
                + "3 of 3 weighed; dry; \\d{4}-\\d\\d-\\d\\d\\.");
    assertThat(page.select("button[data-copy=quote]")).hasSize(1);
  }

  @Test
  void the_sentence_says_only_what_is_so(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("TARP");
    workshop.rig("ROOF", part("TARP", 1, "tarp"));
    workshop.rig("ROOFED", part("TARP", 1, "tarp"), part("BAR", 1, "spreader bar"));

    String bars = main(ledger.pages().get("/rigs/ROOFED").expect(200));
    assertThat(bars)
        .contains("Complete: at least 140 g")
        .contains("0 of 2 weighed, 1 stated, 1 not known");
    assertThat(bars).doesNotContain("dry;");
    assertThat(main(ledger.pages().get("/rigs/ROOF").expect(200)))
        .contains("Complete: not known yet; 0 of 1 weighed, 1 not known;");
    assertThat(main(ledger.pages().get("/rigs/ROOF?scope=hammock-only").expect(200)))
        .contains("Nothing in it is counted.");
  }

  @Test
  void what_the_scope_leaves_out_is_said_and_listed(TestLedger ledger) {
    hang(ledger);

    Answer barsOut = ledger.pages().get("/rigs/HANG?scope=bars-out").expect(200);
    assertThat(main(barsOut)).contains("Spreader bar left out.");
    assertThat(barsOut.page().select(".left-out li").eachText())
        .containsExactly("BAR the bar 2 of it, spreader bar");
    assertThat(barsOut.page().select(".switch [aria-current]").text()).isEqualTo("Bars out");

    Answer complete = ledger.pages().get("/rigs/HANG").expect(200);
    assertThat(main(complete)).contains("Nothing left out.");
    assertThat(complete.page().select(".switch [aria-current]").text()).isEqualTo("Complete");
  }

  @Test
  void the_breakdown_is_one_table_in_which_nested_lines_name_their_rig(TestLedger ledger) {
    hang(ledger);

    Document page = ledger.pages().get("/rigs/HANG").expect(200).page();
    Element table = page.select("table").get(0);

    assertThat(table.select("tbody tr")).hasSize(5);
    Element strap = table.select("tbody tr").get(2);
    assertThat(strap.select("th").text()).isEqualTo("STRAP the strap");
    assertThat(strap.select("th a").attr("href")).isEqualTo("/parts/STRAP");
    assertThat(strap.select("td:last-child").text()).isEqualTo("KIT");
    assertThat(strap.select("data").attr("value")).startsWith("64");
    assertThat(table.select("tfoot data").attr("value")).startsWith("884");
    assertThat(table.select("tfoot").text()).contains("Total").contains("mixed");
  }

  @Test
  void what_has_no_mass_is_named_and_the_total_is_a_least_one(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("TARP");
    workshop.rig("CAMP", rig("HANG", 1, "body"), part("TARP", 1, "tarp"));

    Answer page = ledger.pages().get("/rigs/CAMP").expect(200);

    assertThat(page.page().select(".caution a").attr("href")).isEqualTo("/parts/TARP");
    assertThat(page.page().select("tfoot").get(0).text()).startsWith("Total, at least");
    assertThat(main(page)).contains("not weighed");
  }

  @Test
  void rows_that_round_away_from_their_total_are_said_to_and_others_are_not(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    // Each is shown to the gram, as its uncertainty asks for.
    workshop.stated("A", "100.4 g", "4 g");
    workshop.stated("B", "200.4 g", "4 g");
    workshop.stated("C", "100 g", "4 g");
    workshop.rig("ROUNDED", part("A", 1, "body"), part("B", 1, "tarp"));
    workshop.rig("EVEN", part("C", 1, "body"), part("C", 1, "tarp"));

    assertThat(main(ledger.pages().get("/rigs/ROUNDED"))).contains("do not add up");
    assertThat(main(ledger.pages().get("/rigs/EVEN"))).doesNotContain("do not add up");
  }

  @Test
  void the_list_shows_totals_and_can_be_filtered_and_sorted_without_scripts(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Document all = pages.get("/rigs").expect(200).page();
    assertThat(all.select("tbody th .code").eachText()).containsExactly("HANG", "KIT");
    assertThat(all.select("tbody tr").get(0).text()).contains("1 of 4").contains("mixed");
    assertThat(
            pages.get("/rigs?sort=mass&order=ascending").page().select("tbody th .code").eachText())
        .containsExactly("KIT", "HANG");
    Document some = pages.get("/rigs?text=ki").expect(200).page();
    assertThat(some.select("tbody th .code").eachText()).containsExactly("KIT");
    assertThat(some.select("caption").text()).startsWith("1 of 2 rigs");
    assertThat(some.select("thead th:last-child a").attr("href")).contains("text=ki");
    assertThat(pages.get("/rigs.csv").expect(200).body()).contains("HANG,the rig HANG,884");
  }

  @Test
  void a_rig_is_made_by_its_form(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("TARP");
    Pages pages = ledger.pages();

    Answer done =
        pages.submit(
            pages.get("/rigs/new").expect(200),
            FORM,
            "code",
            "CAMP",
            "name",
            "Camp",
            "lines[0].thing",
            "the rig hang",
            "lines[0].role",
            "body",
            "lines[2].thing",
            "TARP",
            "lines[2].quantity",
            "2",
            "lines[2].role",
            "Roof Flap");

    assertThat(done.expect(303).header("Location")).endsWith("/rigs/CAMP");
    Answer page = pages.follow(done).expect(200);
    assertThat(page.page().select(".done").text())
        .contains("CAMP is in the ledger")
        .contains("roof flap");
    assertThat(main(page)).contains("this ledger's own words: roof flap");
    JsonNode lines = ledger.api().get("/rigs/CAMP").json().path("lines");
    assertThat(lines).hasSize(2);
    assertThat(lines.path(0).path("rig").asString()).isEqualTo("HANG");
    assertThat(lines.path(1).path("quantity").asInt()).isEqualTo(2);
  }

  @Test
  void a_refusal_links_to_each_field_and_keeps_what_was_typed(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Answer refused =
        pages.submit(
            pages.get("/rigs/new"),
            FORM,
            "code",
            "CAMP",
            "lines[1].thing",
            "NOTHING LIKE IT",
            "lines[1].quantity",
            "a few",
            "lines[2].role",
            "body");

    refused.expect(422);
    assertThat(refused.page().title()).startsWith("Error: ");
    assertThat(refused.page().select(".errors a").eachAttr("href"))
        .containsExactly(
            "#name", "#lines-1-thing", "#lines-1-quantity", "#lines-1-role", "#lines-2-thing");
    for (String reference : refused.page().select(".errors a").eachAttr("href")) {
      assertThat(refused.page().select(reference)).hasSize(1);
    }
    assertThat(refused.page().select("[name='lines[1].thing']").val()).isEqualTo("NOTHING LIKE IT");
    assertThat(refused.page().select("[name='lines[1].quantity']").val()).isEqualTo("a few");
    assertThat(refused.page().select("[name=code]").val()).isEqualTo("CAMP");
    ledger.api().get("/rigs/CAMP").expect(404);
  }

  @Test
  void a_code_that_is_a_part_and_a_rig_has_to_be_told_apart(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("KIT");
    Pages pages = ledger.pages();
    Answer form = pages.get("/rigs/new");

    Answer refused =
        pages
            .submit(
                form,
                FORM,
                "code",
                "CAMP",
                "name",
                "Camp",
                "lines[0].thing",
                "kit",
                "lines[0].role",
                "other")
            .expect(422);
    assertThat(faults(refused)).anyMatch(fault -> fault.contains("part: KIT or rig: KIT"));
    pages
        .submit(
            form,
            FORM,
            "code",
            "CAMP",
            "name",
            "Camp",
            "lines[0].thing",
            "rig: kit",
            "lines[0].role",
            "other",
            "lines[1].thing",
            "part:KIT",
            "lines[1].role",
            "other")
        .expect(303);

    JsonNode lines = ledger.api().get("/rigs/CAMP").json().path("lines");
    assertThat(lines.path(0).path("rig").asString()).isEqualTo("KIT");
    assertThat(lines.path(1).path("part").asString()).isEqualTo("KIT");
    assertThat(pages.get("/rigs/CAMP/edit").page().select("[name='lines[0].thing']").val())
        .isEqualTo("rig: KIT");
    JsonNode offered = pages.get("/rigs/things?text=KIT").expect(200).json();
    assertThat(offered.valueStream().map(thing -> thing.path("code").asString()).toList())
        .contains("part: KIT", "rig: KIT");
  }

  @Test
  void letters_that_fit_several_things_name_them(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Answer refused =
        pages
            .submit(
                pages.get("/rigs/new"),
                FORM,
                "code",
                "CAMP",
                "name",
                "Camp",
                "lines[0].thing",
                "the",
                "lines[0].role",
                "other")
            .expect(422);

    assertThat(faults(refused)).anyMatch(fault -> fault.contains("the could be"));
  }

  @Test
  void lines_are_changed_and_taken_out_and_keep_their_ids(TestLedger ledger) {
    hang(ledger);
    List<String> before = RigResourceTest.ids(ledger.api().get("/rigs/HANG").json());
    Pages pages = ledger.pages();
    Answer form = pages.get("/rigs/HANG/edit").expect(200);

    pages
        .submit(form, FORM, "code", "HANG 2", "lines[0].quantity", "2", "lines[2].out", "yes")
        .expect(303);

    JsonNode after = ledger.api().get("/rigs/{code}", "HANG 2").json();
    assertThat(RigResourceTest.ids(after))
        .containsExactly(before.get(0), before.get(1), before.get(3));
    assertThat(after.path("lines").path(0).path("quantity").asInt()).isEqualTo(2);
    assertThat(pages.get("/rigs/HANG").expect(303).header("Location")).endsWith("/rigs/HANG%202");
  }

  @Test
  void a_line_that_is_emptied_is_not_taken_out_by_accident(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Answer refused =
        pages.submit(pages.get("/rigs/HANG/edit"), FORM, "lines[0].thing", " ").expect(422);

    assertThat(refused.page().select(".errors a").eachAttr("href"))
        .containsExactly("#lines-0-thing");
    assertThat(ledger.api().get("/rigs/HANG").json().path("lines")).hasSize(4);
  }

  @Test
  void more_lines_come_without_scripts_and_keep_what_was_typed(TestLedger ledger) {
    Pages pages = ledger.pages();
    Answer form = pages.get("/rigs/new");
    int rows = form.page().select("fieldset.rig-line").size();

    Answer more =
        pages.submit(form, FORM, "code", "CAMP", "lines[0].thing", "X", "more", "rows").expect(200);

    assertThat(more.page().select("fieldset.rig-line").size()).isGreaterThan(rows);
    assertThat(more.page().select("[name='lines[0].thing']").val()).isEqualTo("X");
    assertThat(more.page().select("[name=code]").val()).isEqualTo("CAMP");
    ledger.api().get("/rigs/CAMP").expect(404);
  }

  @Test
  void a_forged_row_is_no_fault_of_the_server(TestLedger ledger) {
    Pages pages = ledger.pages();
    String token = pages.get("/rigs/new").page().select(FORM + " [name=_csrf]").val();

    for (String row : List.of("lines[x].thing", "lines[999999].thing", "lines[-1].thing")) {
      pages
          .forge("/rigs/new", "_csrf", token, "code", "CAMP", "name", "Camp", row, "X")
          .expect(400);
    }
    ledger.api().get("/rigs/CAMP").expect(404);
  }

  @Test
  void a_circle_is_refused_with_its_path_and_nothing_changes(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Answer refused =
        pages
            .submit(
                pages.get("/rigs/KIT/edit"),
                FORM,
                "lines[1].thing",
                "HANG",
                "lines[1].role",
                "other")
            .expect(422);

    assertThat(faults(refused)).anyMatch(fault -> fault.contains("KIT → HANG → KIT"));
    assertThat(refused.page().select(".errors a").eachAttr("href"))
        .containsExactly("#lines-1-thing");
    assertThat(refused.page().select("[name='lines[1].thing']").val()).isEqualTo("HANG");
    assertThat(ledger.api().get("/rigs/KIT").json().path("revision").asInt()).isEqualTo(1);
  }

  @Test
  void the_second_of_two_editors_is_told_who_changed_what_and_overwrites_nothing(
      TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();
    Answer first = pages.get("/rigs/HANG/edit");
    Answer second = pages.get("/rigs/HANG/edit");
    pages
        .submit(first, FORM, "name", "Renamed", "lines[0].quantity", "3", "lines[3].out", "yes")
        .expect(303);

    Answer told =
        pages.submit(second, FORM, "name", "Mine", "lines[1].role", "hardware").expect(422);

    assertThat(main(told)).contains(ledger.name() + " saved it on");
    List<String> rows = told.page().select("tbody tr").eachText();
    assertThat(rows)
        .contains("Name Renamed Mine")
        .contains("Line 3 × BODY, body 1 × BODY, body")
        .contains("Line 1 × KIT, suspension 1 × KIT, hardware")
        .contains("Line no such line 2 × BAR, spreader bar");
    assertThat(told.page().select("[name=name]").val()).isEqualTo("Mine");
    JsonNode kept = ledger.api().get("/rigs/HANG").json();
    assertThat(kept.path("name").asString()).isEqualTo("Renamed");
    assertThat(kept.path("revision").asInt()).isEqualTo(2);

    pages.submit(told, FORM).expect(303);
    JsonNode again = ledger.api().get("/rigs/HANG").json();
    assertThat(again.path("name").asString()).isEqualTo("Mine");
    assertThat(again.path("lines")).hasSize(4);
  }

  @Test
  void another_ledgers_pages_are_not_there(TestLedger mine, TestLedger theirs) {
    hang(theirs);

    mine.pages().get("/rigs/HANG").expect(404);
    mine.pages().get("/rigs/HANG/edit").expect(404);
    mine.pages().get("/rigs/HANG/breakdown.csv").expect(404);
    assertThat(mine.pages().get("/rigs/things?text=HANG").json()).isEmpty();
    assertThat(mine.pages().get("/rigs/suggestions?text=HANG").json()).isEmpty();
    mine.pages().get("/side-by-side?rig=HANG&rig=KIT").expect(422);
  }

  @Test
  void side_by_side_says_first_whether_the_same_things_are_counted(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.rig(
        "BARE", part("BODY", 1, "body"), rig("KIT", 1, "suspension"), part("NET", 1, "bug net"));

    // Two of the same bar within ±4 g: U = 2 × 1.959964 × 4 g/√3 = 9.05 g.
    Answer unlike = ledger.pages().get("/side-by-side?rig=HANG&rig=BARE").expect(200);
    assertThat(main(unlike))
        .contains("They are not like with like. HANG has spreader bar, and BARE has not.")
        .contains("HANG has and BARE lacks: 2 × BAR the bar")
        .contains("BARE is lighter than HANG by 280 g ± 9 g.")
        .contains("A lighter line may be a weaker one");
    assertThat(unlike.page().select("tbody tr").get(0).text()).contains("the same");
    assertThat(unlike.page().select("svg title").text()).contains("From HANG to BARE");
    Answer like = ledger.pages().get("/side-by-side?rig=HANG&rig=BARE&scope=bars-out").expect(200);
    assertThat(main(like))
        .contains("The same roles are counted in both. They hold the same parts.")
        .contains("Left out of HANG here: spreader bar.")
        .contains("BARE weighs the same as HANG.");
  }

  @Test
  void side_by_side_says_when_it_cannot_tell_and_what_would_tell(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("A", "100 g", "3 g");
    workshop.stated("B", "102 g", "3 g");
    workshop.unknown("C");
    workshop.rig("RA", part("A", 1, "body"));
    workshop.rig("RB", part("B", 1, "body"));
    workshop.rig("RC", part("C", 1, "body"));

    // U = 1.959964 × √6 g = 4.8 g.
    assertThat(main(ledger.pages().get("/side-by-side?rig=RA&rig=RB").expect(200)))
        .contains(
            "Whether RB is lighter than RA cannot be told yet: the difference of 2 g is within its ± 5 g.")
        .contains("To tell, weigh A, B.");
    assertThat(main(ledger.pages().get("/side-by-side?rig=RA&rig=RC").expect(200)))
        .contains("cannot be told yet: C has no mass.");
  }

  @Test
  void side_by_side_takes_more_than_two_and_keeps_what_it_does_not_know(TestLedger ledger) {
    hang(ledger);
    Pages pages = ledger.pages();

    Answer three = pages.get("/side-by-side?rig=HANG&rig=KIT&rig=HANG").expect(200);
    assertThat(three.page().select("section.pair h2").eachText())
        .containsExactly("the rig KIT against the rig HANG", "the rig HANG against the rig HANG");
    Answer refused = pages.get("/side-by-side?rig=HANG&rig=NOWHERE").expect(422);
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#rig-1");
    assertThat(refused.page().select("#rig-1").val()).isEqualTo("NOWHERE");
    assertThat(refused.page().select("section.pair")).isEmpty();
    assertThat(main(pages.get("/side-by-side").expect(200))).contains("Name two rigs");
    pages.get("/side-by-side?rig=HANG&rig=KIT&scope=nowhere").expect(404);
    assertThat(pages.get("/side-by-side.csv?rig=HANG&rig=KIT").expect(200).body())
        .contains("complete,HANG,KIT,total,884");
  }

  @Test
  void a_sum_that_goes_out_of_range_spoils_no_other_page(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    Part anvil = workshop.stated("ANVIL", "100 kg", "1 kg");
    workshop.rig("A0", part("ANVIL", 100_000, "other"));
    workshop.rig("A1", rig("A0", 100_000, "other"));
    workshop.rig("LIGHT", part("ANVIL", 1, "other"));

    assertThat(main(ledger.pages().get("/rigs").expect(200))).contains("too much to add up");
    assertThat(main(ledger.pages().get("/rigs/A1").expect(422))).contains("ANVIL");
    ledger.api().get("/rigs/A1/roll-up").expect(400);
    ledger.pages().get("/rigs/A1/edit").expect(200);
    workshop.scale("BENCH", "1 g");
    assertThat(
            ledger
                .api()
                .post(
                    "/weighings",
                    """
                    {"part":"ANVIL","scale":"BENCH","readings":["4000 g"]}""")
                .status())
        .isEqualTo(201);
    assertThat(anvil.code()).isEqualTo("ANVIL");
  }

  @Test
  void the_number_of_sql_statements_of_each_page_does_not_depend_on_the_size_of_the_tree(
      TestLedger ledger) {
    Workshop workshop = hang(ledger);
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < 120; i++) {
      workshop.weigh(workshop.unknown("PEG" + i), "BENCH", "9 g");
      lines.add(part("PEG" + i, 1, "stake"));
    }
    workshop.rig("PEGS", lines.toArray(Line[]::new));
    for (int level = 0; level < 8; level++) {
      workshop.rig(
          "LEVEL" + level,
          rig(level == 0 ? "PEGS" : "LEVEL" + (level - 1), 1, "other"),
          part("BODY", 1, "body"));
    }
    Pages pages = ledger.pages();
    // The first form of a session writes down what it is to be sent with.
    pages.get("/rigs/{rig}/edit", "KIT").expect(200);

    for (String path :
        List.of("/rigs/{rig}", "/rigs/{rig}/edit", "/side-by-side?rig={rig}&rig=HANG")) {
      List<String> small = ledger.statements(() -> pages.get(path, "KIT").expect(200));
      List<String> large = ledger.statements(() -> pages.get(path, "LEVEL7").expect(200));
      List<String> wide = ledger.statements(() -> pages.get(path, "PEGS").expect(200));
      assertThat(large).as("%s %s", path, large).hasSameSizeAs(small);
      assertThat(wide).as("%s %s", path, wide).hasSameSizeAs(small);
    }
  }
}
