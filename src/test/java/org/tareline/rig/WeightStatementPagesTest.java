package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** A rig of a weighed body and two straps, and two stated bars: 420 + 2 × 32 + 2 × 140 g. */
@FeatureTest
class WeightStatementPagesTest {

  private static Workshop hang(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.scale("BENCH", "0.1 g");
    workshop.weigh(workshop.unknown("BODY"), "BENCH", "420 g");
    workshop.weigh(workshop.unknown("STRAP"), "BENCH", "32 g");
    workshop.stated("BAR", "140 g", "4 g");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"));
    workshop.rig(
        "HANG",
        part("BODY", 1, "body"),
        rig("KIT", 1, "suspension"),
        part("BAR", 2, "spreader bar"));
    return workshop;
  }

  private static void weighWhole(TestLedger ledger, String scope, String reading) {
    ledger
        .api()
        .post(
            "/weighings",
            Map.of("rig", "HANG", "scope", scope, "scale", "BENCH", "readings", List.of(reading)))
        .expect(201);
  }

  private static Document page(TestLedger ledger, String path) {
    return ledger.pages().get(path).expect(200).page();
  }

  private static String text(Document page, String selector) {
    return page.select(selector).text().replace('\u00a0', ' ');
  }

  @Test
  void a_rig_that_was_not_weighed_whole_offers_to_weigh_it(TestLedger ledger) {
    hang(ledger);

    Document page = page(ledger, "/rigs/HANG?scope=bars-out");

    Element panel = page.expectFirst("section[aria-labelledby=whole-title]");
    assertThat(panel.text()).contains("HANG has not been weighed whole with this counted");
    assertThat(panel.select("a.button").attr("href")).isEqualTo("/?rig=HANG&scope=bars-out");
    Document bench = page(ledger, "/?rig=HANG&scope=bars-out");
    assertThat(bench.select("form.entry [name=part]").val()).contains("HANG");
  }

  @Test
  void a_whole_that_does_not_agree_is_explained_with_a_way_to_put_it_right(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.weigh(workshop.unknown("TARP"), "BENCH", "181 g");
    workshop.put("HANG", part("BODY", 1, "body"), part("TARP", 1, "tarp")).expect(200);
    weighWhole(ledger, "complete", "538 g"); // with a tarp of 118 g

    Document page = page(ledger, "/rigs/HANG");

    assertThat(text(page, ".whole__lead"))
        .startsWith("The whole does not agree with its parts: it is 63.0 g ±");
    Element first = page.expectFirst(".whole__causes li");
    assertThat(first.text()).startsWith("The reading 181 g of TARP was 118 g:");
    Answer weighing = ledger.pages().click(first.expectFirst("a"));
    assertThat(weighing.expect(200).page().select("h1").text()).isEqualTo("the tarp");
    String fragment = first.select("a").attr("href").replaceFirst(".*#", "");
    assertThat(weighing.page().getElementById(fragment)).isNotNull();
    assertThat(first.select("a").eachAttr("href")).contains("/?part=TARP");
    assertThat(text(page(ledger, "/rigs/HANG/statement"), "main"))
        .contains("Of single causes this would fit best: The reading 181 g of TARP was 118 g");
    // Nothing was changed by looking.
    assertThat(ledger.api().get("/parts/TARP").json().at("/estimate/mass/value").asString())
        .isEqualTo("181");
  }

  @Test
  void the_weighing_of_a_whole_can_be_struck_out_where_it_is_shown(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "complete", "764 g");
    Answer rig = ledger.pages().get("/rigs/HANG").expect(200);
    assertThat(text(rig.page(), ".whole__lead")).startsWith("The whole agrees with its parts");

    Answer after =
        ledger
            .pages()
            .follow(
                ledger
                    .pages()
                    .submit(
                        rig, "section[aria-labelledby=whole-title] form", "reason", "mistyped"));

    assertThat(after.page().select(".done").text()).contains("struck out");
    assertThat(after.page().select("section[aria-labelledby=whole-title]").text())
        .contains("has not been weighed whole");
  }

  @Test
  void what_to_weigh_next_links_to_the_bench_with_the_part_filled_in(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("NET");
    workshop
        .put(
            "HANG",
            part("BODY", 1, "body"),
            part("NET", 1, "bug net"),
            part("BAR", 2, "spreader bar"))
        .expect(200);

    Element section = page(ledger, "/rigs/HANG").expectFirst("section[aria-labelledby=next-title]");

    assertThat(section.select("a[href^=/?part]").eachAttr("href"))
        .containsExactly("/?part=NET&scale=BENCH", "/?part=BAR&scale=BENCH");
    assertThat(page(ledger, "/?part=BAR&scale=BENCH").select("form.entry [name=part]").val())
        .isEqualTo("BAR");
  }

  @Test
  void side_by_side_says_what_to_weigh_only_where_it_cannot_tell(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.stated("LIGHT", "419 g", "5 g");
    workshop.rig("OTHER", part("LIGHT", 1, "body"), rig("KIT", 1, "suspension"));
    workshop.rig("ONE", part("BODY", 1, "body"), rig("KIT", 1, "suspension"));

    Document undecided = page(ledger, "/side-by-side?rig=ONE&rig=OTHER");

    assertThat(undecided.select("a[href^=/?part]").eachAttr("href"))
        .containsExactly("/?part=LIGHT&scale=BENCH");
    assertThat(page(ledger, "/side-by-side?rig=ONE&rig=HANG").select("a[href^=/?part]")).isEmpty();
  }

  /** Basic 764 g, of which 280 g are stated and grow by 20 %: predicted 820 g. */
  @Test
  void a_target_in_the_address_brings_the_margin(TestLedger ledger) {
    hang(ledger);

    Document page = page(ledger, "/rigs/HANG?target=800");

    assertThat(text(page, ".weight__margin"))
        .startsWith("Over the target by 20.0 g: 2.5 % of the target, 2.4 % of the predicted mass");
    assertThat(text(page, "section[aria-labelledby=weight-title] tbody"))
        .isEqualTo("stated 280.0 20 % 56.0 weighed 484.0 0 % 0.0");
    Answer refused = ledger.pages().get("/rigs/HANG?target=heavy");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.page().select("[name=target]").val()).isEqualTo("heavy");
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#target");
    assertThat(text(refused.page(), "#quote")).contains("764");
  }

  @Test
  void what_has_no_mass_yet_can_only_make_the_margin_smaller(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("NET");
    workshop.put("HANG", part("BODY", 1, "body"), part("NET", 1, "bug net")).expect(200);

    assertThat(text(page(ledger, "/rigs/HANG?target=500"), ".weight__margin"))
        .startsWith("Under the target by at most 80.0 g");
    assertThat(text(page(ledger, "/rigs/HANG?target=400"), ".weight__margin"))
        .startsWith("Over the target by at least 20.0 g");
  }

  @Test
  void every_total_opens_to_the_parts_and_each_to_its_readings(TestLedger ledger) {
    hang(ledger);
    Answer rig = ledger.pages().get("/rigs/HANG?scope=complete").expect(200);

    Element role = rig.page().expectFirst("section[aria-labelledby=roles-title] a");
    assertThat(role.text()).isEqualTo("body");
    Answer opened = ledger.pages().click(role).expect(200);
    Element row = opened.page().expectFirst("tbody tr");
    assertThat(row.text()).contains("BODY", "420", "100.0");
    Answer part = ledger.pages().click(row.expectFirst("a")).expect(200);
    assertThat(part.page().select("main").text()).contains("420 g");
    assertThat(part.page().select("table.terms").text()).contains("resolution, at the load");
    // A nested rig opens under the same way of counting.
    Element kit = rig.page().expectFirst("a[href^=/rigs/KIT]");
    assertThat(kit.attr("href")).isEqualTo("/rigs/KIT?scope=complete");
    assertThat(page(ledger, "/rigs/HANG/total").select("tbody tr")).hasSize(3);
    assertThat(ledger.pages().get("/rigs/HANG/total?role=pillow").status()).isEqualTo(404);
  }

  @Test
  void the_statement_has_every_reading_as_typed_and_the_cautions(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "complete", "764 g");

    String sheet = text(page(ledger, "/rigs/HANG/statement?target=900"), "main");

    assertThat(sheet)
        .contains(
            "Complete: 764",
            "2 of 3 weighed, 1 stated",
            "Read 420 g on BENCH; dry;",
            "Read 32 g on BENCH; dry;",
            "Stated as 140 g; taken as good to ± 4 g",
            "Under the target by 80.0 g",
            "The whole agrees with its parts",
            "Read 764 g on BENCH; dry;",
            "It says nothing of strength",
            "never enough",
            "Inspect",
            "not for lifting, climbing or fall arrest",
            "makers' ratings, local rules and qualified people");
    assertThat(ledger.pages().get("/rigs/NONE/statement").status()).isEqualTo(404);
  }

  @Test
  void another_ledger_sees_none_of_it(TestLedger ledger, TestLedger other) {
    hang(ledger);
    for (String path :
        List.of("/rigs/HANG/statement", "/rigs/HANG/total", "/rigs/HANG?target=800")) {
      assertThat(other.pages().get(path).status()).as(path).isEqualTo(404);
    }
    other.api().get("/rigs/HANG/reconciliation").expect(404);
    other.api().get("/rigs/HANG/next-weighings").expect(404);
  }
}
