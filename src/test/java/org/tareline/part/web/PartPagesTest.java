package org.tareline.part.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class PartPagesTest {

  @Test
  void a_part_is_made_by_the_form_and_shown(TestLedger ledger) {
    Answer done =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/parts/new"),
                "form[action=/parts/new]",
                "code",
                "TP-1",
                "name",
                "Tarp <grey>",
                "system",
                "rain",
                "stated.mass",
                "12 oz",
                "stated.tolerance",
                "5 %")
            .expect(303);
    Document page = ledger.pages().follow(done).expect(200).page();

    assertThat(page.select("[role=status]").text()).isEqualTo("TP-1 is in the ledger.");
    assertThat(page.select("h1").text()).isEqualTo("Tarp <grey>");
    assertThat(page.select(".stand__mass").text()).isEqualTo("340 g ± 19 g");
    assertThat(page.select(".stand__mass data").val()).isEqualTo("340.1942775");
    assertThat(page.select(".stand").text()).contains("not weighed yet").contains("± 5 %");
    assertThat(page.select("a[href=/?part=TP-1]").text()).isEqualTo("Weigh it now");
  }

  @Test
  void a_refused_part_keeps_what_was_typed_and_links_to_its_fields(TestLedger ledger) {
    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/parts/new"),
                "form[action=/parts/new]",
                "code",
                "TP-1",
                "name",
                "",
                "system",
                "rain",
                "owned",
                "two",
                "stated.mass",
                "12 m",
                "note",
                "first\nsecond")
            .expect(422)
            .page();

    assertThat(page.title()).startsWith("Error: ");
    assertThat(page.select("[role=alert] a").eachAttr("href"))
        .containsExactly("#name", "#owned", "#stated-mass");
    for (String link : page.select("[role=alert] a").eachAttr("href")) {
      Element field = page.expectFirst(link);
      assertThat(field.attr("aria-invalid")).isEqualTo("true");
      assertThat(page.select("#" + field.id() + "-error").text()).startsWith("Error: ");
      assertThat(field.attr("aria-describedby").split(" ")).contains(field.id() + "-error");
    }
    assertThat(page.select("#code").val()).isEqualTo("TP-1");
    assertThat(page.select("#owned").val()).isEqualTo("two");
    assertThat(page.select("#stated-mass").val()).isEqualTo("12 m");
    assertThat(page.select("#system option[selected]").val()).isEqualTo("rain");
    assertThat(page.select("#note").val()).isEqualTo("first\nsecond");
    assertThat(ledger.api().get("/parts").json().path("items").size()).isZero();
  }

  @Test
  void a_code_that_is_taken_is_said_at_its_field(TestLedger ledger) {
    tarp(ledger);

    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/parts/new"),
                "form[action=/parts/new]",
                "code",
                "tp-1",
                "name",
                "Another")
            .expect(422)
            .page();

    assertThat(page.select("#code-error").text()).contains("Choose another code");
    assertThat(page.select("#name").val()).isEqualTo("Another");
  }

  @Test
  void who_saves_second_is_told_and_loses_nothing_and_overwrites_nothing(TestLedger ledger) {
    tarp(ledger);
    Pages hers = ledger.pages();
    Answer herForm = hers.get("/parts/TP-1/edit").expect(200);
    ledger.api().put("/parts/TP-1", "{\"name\":\"His tarp\",\"system\":\"rain\"}").expect(200);

    Answer told =
        hers.submit(herForm, "form.form--narrow", "name", "Her tarp", "note", "hemmed").expect(422);

    Document page = told.page();
    assertThat(page.select("[role=alert]").text())
        .contains("Somebody else has saved part TP-1")
        .contains("Nothing was overwritten");
    assertThat(page.select("#name").val()).isEqualTo("Her tarp");
    assertThat(page.select("#note").val()).isEqualTo("hemmed");
    assertThat(page.select("tbody tr").eachText())
        .containsExactly(
            "Name His tarp Her tarp", "Stated mass nothing 12 oz", "Note nothing hemmed");
    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString())
        .isEqualTo("His tarp");

    hers.submit(told, "form.form--narrow").expect(303);
    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString())
        .isEqualTo("Her tarp");
  }

  @Test
  void a_form_that_names_no_revision_overwrites_nothing(TestLedger ledger) {
    tarp(ledger);
    Answer form = ledger.pages().get("/parts/TP-1/edit").expect(200);

    ledger.pages().submit(form, "form.form--narrow", "revision", "", "name", "Blind").expect(422);

    assertThat(ledger.api().get("/parts/TP-1").json().path("name").asString()).isEqualTo("Tarp");
  }

  @Test
  void an_old_label_leads_to_the_part(TestLedger ledger) {
    tarp(ledger);
    ledger.api().put("/parts/TP-1", "{\"code\":\"TP 9\",\"name\":\"Tarp\"}").expect(200);

    Answer moved = ledger.pages().get("/parts/TP-1").expect(303);

    assertThat(moved.header("Location")).endsWith("/parts/TP%209");
    assertThat(ledger.pages().follow(moved).expect(200).page().select("h1").text())
        .isEqualTo("Tarp");
  }

  @Test
  void another_ledgers_part_has_no_page_here(TestLedger ledger, TestLedger other) {
    tarp(ledger);

    ledger.pages().get("/parts/TP-1").expect(200);
    other.pages().get("/parts/TP-1").expect(404);
    other.pages().get("/parts/TP-1/edit").expect(404);
    assertThat(other.pages().get("/parts").expect(200).body()).doesNotContain("TP-1");
  }

  @Test
  void the_evidence_shows_every_reading_and_what_makes_up_the_uncertainty(TestLedger ledger) {
    tarp(ledger);
    scale(ledger, "\"repeatability\":\"0.1\",\"spanTolerance\":\"0.1 %\",");
    weighing(
        ledger,
        "'readings':['351.2','351.3','351.2'],'tare':'12.1','weighedAt':'2026-04-11T19:30'");
    weighing(ledger, "'readings':['371'],'condition':'damp','weighedAt':'2026-05-02'");

    Document page = ledger.pages().get("/parts/TP-1").expect(200).page();

    assertThat(page.select(".stand__mass").text()).isEqualTo("339.1 g ± 0.4 g");
    assertThat(page.select(".stand").text())
        .contains("Weighed on 2026-04-11 on Bench scale, dry: 3 readings.");
    List<String> heads = page.select(".weighed__head").eachText();
    assertThat(heads).hasSize(3);
    assertThat(heads.get(0)).contains("2026-05-02 kept, and does not count: damp");
    assertThat(heads.get(1)).contains("2026-04-11 19:30 this one counts");
    assertThat(heads.get(2)).contains("stated a weighing counts for more");
    assertThat(page.select(".weighed__account").get(1).text())
        .isEqualTo("Read 351.2 g, 351.3 g, 351.2 g on Bench scale; tare 12.1 g; dry");
    // Root sum of squares: 0.1/√3, 0.1/√12 twice, and 339.13 × 0.001/√3
    assertThat(page.select(".weighed").get(1).select("tbody tr").eachText())
        .containsExactly(
            "repeatability of Bench scale 0.058 g 8 %",
            "resolution, at the load 0.029 g 2 %",
            "resolution, at the zero or tare 0.029 g 2 %",
            "span of Bench scale 0.20 g 88 %");
  }

  @Test
  void a_weighing_is_struck_out_from_the_parts_page_and_stays_in_sight(TestLedger ledger) {
    tarp(ledger);
    scale(ledger, "");
    weighing(ledger, "'readings':['339'],'weighedAt':'2026-04-11'");
    weighing(ledger, "'readings':['3390'],'weighedAt':'2026-04-12'");
    Pages browser = ledger.pages();
    Answer page = browser.get("/parts/TP-1").expect(200);
    assertThat(page.page().select(".stand__mass").text()).startsWith("3390");

    String form = "li.weighed:has(strong) form.strike-out";
    Answer done = browser.submit(page, form, "reason", "mistyped").expect(303);
    Document after = browser.follow(done).expect(200).page();

    assertThat(after.location()).endsWith("/parts/TP-1");
    assertThat(after.select(".stand__mass").text()).startsWith("339.0");
    Element struck = after.select("li.weighed").get(0);
    assertThat(struck.select("s").text()).startsWith("3390");
    assertThat(struck.text()).contains("struck out: mistyped");
    assertThat(struck.select("form")).isEmpty();
  }

  @Test
  void a_single_reading_of_unknown_repeatability_offers_a_second(TestLedger ledger) {
    tarp(ledger);
    scale(ledger, "");
    weighing(ledger, "'readings':['339']");
    assertThat(ledger.pages().get("/parts/TP-1").page().select(".stand .note").text())
        .contains("read once")
        .contains("second reading");

    weighing(ledger, "'readings':['339','339.1']");
    assertThat(ledger.pages().get("/parts/TP-1").page().select(".stand .note")).isEmpty();
  }

  @Test
  void eight_alike_weighed_together_say_what_one_weighs_and_all_that_are_owned(TestLedger ledger) {
    ledger.api().post("/parts", "{\"code\":\"TP-1\",\"name\":\"Stake\",\"owned\":8}").expect(201);
    scale(ledger, "");
    weighing(ledger, "'readings':['95.4'],'count':8");

    Document page = ledger.pages().get("/parts/TP-1").expect(200).page();

    assertThat(page.select(".stand__mass data").val()).isEqualTo("11.925");
    assertThat(page.select(".stand").text())
        .contains("1 reading of 8 alike together, shared out over 8")
        .contains("All that are owned: 95.40 g ± 0.08 g");
  }

  @Test
  void a_part_says_in_which_rigs_it_is_used_and_how_many_of_it(TestLedger ledger) {
    tarp(ledger);
    assertThat(ledger.pages().get("/parts/TP-1").page().select("main").text())
        .contains("In no rig and on no trip yet");
    ledger
        .api()
        .post(
            "/rigs",
            "{'code':'R 1','name':'Rain','lines':[{'part':'TP-1','quantity':2,'role':'tarp'}]}"
                .replace('\'', '"'))
        .expect(201);

    Document page = ledger.pages().get("/parts/TP-1").expect(200).page();

    Element use = page.expectFirst("section[aria-labelledby=uses-title] li");
    assertThat(use.text()).isEqualTo("R 1 Rain rig, 2 of it");
    assertThat(use.select("a").attr("href")).isEqualTo("/rigs/R%201");
  }

  @Test
  void a_part_of_which_nothing_is_known_is_not_weighed_and_not_zero(TestLedger ledger) {
    ledger.api().post("/parts", "{\"code\":\"X\",\"name\":\"Net\"}").expect(201);

    Document page = ledger.pages().get("/parts/X").expect(200).page();

    assertThat(page.select(".stand__mass").text()).isEqualTo("not weighed");
    assertThat(page.select("main").text()).contains("never weighed, and no mass is stated");
  }

  private static void tarp(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/parts",
            "{\"code\":\"TP-1\",\"name\":\"Tarp\",\"system\":\"rain\",\"stated\":{\"mass\":\"12 oz\"}}")
        .expect(201);
  }

  private static void scale(TestLedger ledger, String more) {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench scale\","
                + more
                + "\"readability\":\"0.1\",\"capacity\":\"5 kg\"}")
        .expect(201);
  }

  private static void weighing(TestLedger ledger, String rest) {
    ledger
        .api()
        .post("/weighings", ("{'part':'TP-1','scale':'K1'," + rest + "}").replace('\'', '"'))
        .expect(201);
  }
}
