package org.tareline.weighing.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;

@FeatureTest
class ScalePagesTest {

  @Autowired private TestClock clock;

  @Test
  void a_scale_is_added_by_the_form_and_shown_in_words(TestLedger ledger) {
    Answer scales = ledger.pages().get("/scales").expect(200);
    assertThat(scales.page().select("main").text()).contains("There are no scales yet");

    Answer done =
        ledger
            .pages()
            .submit(
                scales,
                "form[action=/scales]",
                "code",
                "K1",
                "name",
                "Bench scale",
                "readability",
                "0.1",
                "capacity",
                "5 kg")
            .expect(303);
    Document page = ledger.pages().follow(done).expect(200).page();

    assertThat(page.select("[role=status]").text()).isEqualTo("K1 is in the ledger.");
    assertThat(page.select("h1").text()).isEqualTo("Bench scale");
    assertThat(page.select("dl").text())
        .contains("steps of 0.1 g")
        .contains("Repeatability not known: a single reading leaves it out");
  }

  @Test
  void a_refused_scale_keeps_what_was_typed_and_links_to_its_fields(TestLedger ledger) {
    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/scales"),
                "form[action=/scales]",
                "code",
                "K1",
                "name",
                "Bench <scale>",
                "readability",
                "0.1 m",
                "capacity",
                "5 kg")
            .expect(422)
            .page();

    assertThat(page.title()).startsWith("Error: ");
    assertThat(page.select("[role=alert] a").attr("href")).isEqualTo("#readability");
    assertThat(page.select("#readability").val()).isEqualTo("0.1 m");
    assertThat(page.select("#readability").attr("aria-describedby")).contains("readability-error");
    assertThat(page.select("#name").val()).isEqualTo("Bench <scale>");
    assertThat(ledger.api().get("/scales").json().path("items").size()).isZero();
  }

  @Test
  void the_list_says_how_often_a_scale_was_used_and_when_last(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            "{'code':'K1','name':'Bench','readability':'1','capacity':'5 kg'}".replace('\'', '"'))
        .expect(201);
    ledger.api().post("/parts", "{\"code\":\"TP\",\"name\":\"Tarp\"}").expect(201);
    for (String day : new String[] {"2026-03-01", "2026-04-11"}) {
      ledger
          .api()
          .post(
              "/weighings",
              "{'part':'TP','scale':'K1','readings':['340'],'weighedAt':'DAY'}"
                  .replace('\'', '"')
                  .replace("DAY", day))
          .expect(201);
    }

    Document page = ledger.pages().get("/scales").expect(200).page();

    assertThat(page.select("tbody tr td").eachText().subList(5, 7))
        .containsExactly("2", "2026-04-11");
  }

  @Test
  void another_ledgers_scale_has_no_page_here(TestLedger ledger, TestLedger other) {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"B\",\"readability\":\"1\",\"capacity\":\"5 kg\"}")
        .expect(201);

    ledger.pages().get("/scales/K1").expect(200);
    other.pages().get("/scales/K1").expect(404);
  }

  private static void scale(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            "{'code':'K1','name':'Bench','readability':'0.1 g','capacity':'5 kg'}"
                .replace('\'', '"'))
        .expect(201);
  }

  private static void check(TestLedger ledger, String day) {
    ledger
        .api()
        .post(
            "/scales/K1/checks",
            "{'weights':[{'nominal':'500','class':'M1','indication':'500.2'}],'checkedAt':'DAY'}"
                .replace('\'', '"')
                .replace("DAY", day))
        .expect(201);
  }

  private static void weigh(TestLedger ledger) {
    ledger.api().post("/parts", "{\"code\":\"TP\",\"name\":\"Tarp\"}").expect(201);
    ledger
        .api()
        .post(
            "/weighings",
            "{'part':'TP','scale':'K1','readings':['250.1'],'weighedAt':'2026-03-02'}"
                .replace('\'', '"'))
        .expect(201);
  }

  /** Sends a form of the scale's page and follows where that leads. */
  private static Document kept(TestLedger ledger, String form, String... namesAndValues) {
    Answer done =
        ledger.pages().submit(ledger.pages().get("/scales/K1"), form, namesAndValues).expect(303);
    return ledger.pages().follow(done).expect(200).page();
  }

  private static Document refused(TestLedger ledger, String form, String... namesAndValues) {
    return ledger
        .pages()
        .submit(ledger.pages().get("/scales/K1"), form, namesAndValues)
        .expect(422)
        .page();
  }

  @Test
  void a_check_is_logged_by_the_form_and_shown_with_its_fit(TestLedger ledger) {
    scale(ledger);
    Document before = ledger.pages().get("/scales/K1").expect(200).page();
    assertThat(before.select("main").text())
        .contains("A check is due: never checked with a weight.")
        .contains("Off by not known, and so not in any ±");
    assertThat(before.select("svg.chart")).isEmpty();

    Document page =
        kept(
            ledger,
            "form.check",
            "weights[0].nominal",
            "500",
            "weights[0].weightClass",
            "M1",
            "weights[0].indication",
            "500.2",
            "weights[2].nominal",
            "1 kg",
            "weights[2].tolerance",
            "0.05",
            "weights[2].indication",
            "1000.3",
            "note",
            "after <moving>");

    assertThat(page.select("[role=status]").text())
        .isEqualTo(
            "The check is kept. It counts from its time on; what was weighed before stays as it was.");
    assertThat(page.select("main").text())
        .doesNotContain("A check is due")
        .contains("times what is on it, and is divided by that");
    assertThat(page.select("tbody tr th").eachText()).containsExactly("500 g", "1 kg");
    assertThat(page.select("tbody tr td").eachText())
        .contains("class M1", "± 0.05 g", "500.2 g", "+0.20", "+0.30");
    // As many points as weights, each with its whiskers, and the line.
    assertThat(page.select("svg.chart circle")).hasSize(2);
    assertThat(page.select("svg.chart path.chart__whisker")).hasSize(2);
    assertThat(page.select("svg.chart path.chart__line")).hasSize(1);
    assertThat(page.select("svg.chart desc").text())
        .contains("500 g showed 500.2 g; 1 kg showed 1000.3 g");
    assertThat(page.select("li.weighed").text())
        .contains("this one counts")
        .contains("after <moving>");
  }

  @Test
  void a_refused_check_keeps_what_was_typed_and_links_to_its_fields(TestLedger ledger) {
    scale(ledger);
    Document page =
        refused(
            ledger,
            "form.check",
            "weights[1].nominal",
            "300 <g>",
            "weights[1].weightClass",
            "M1",
            "weights[1].indication",
            "300.1",
            "weights[2].nominal",
            "300 g",
            "weights[2].weightClass",
            "M1",
            "weights[2].indication",
            "300.2",
            "checkedAt",
            "soon");

    assertThat(page.title()).startsWith("Error: ");
    // Rows left empty are no weights, so those that were typed move up.
    assertThat(page.select("[role=alert] a").eachAttr("href"))
        .containsExactly("#weights-0-nominal", "#weights-1-weightClass", "#checkedAt");
    assertThat(page.select("#weights-0-nominal").val()).isEqualTo("300 <g>");
    assertThat(page.select("#weights-1-indication").val()).isEqualTo("300.2");
    assertThat(page.select("#weights-1-weightClass option[selected]").val()).isEqualTo("M1");
    assertThat(page.select("#checkedAt").val()).isEqualTo("soon");
    assertThat(ledger.api().get("/scales/K1/checks").json().path("items").size()).isZero();
  }

  @Test
  void without_scripts_more_rows_come_from_the_server(TestLedger ledger) {
    scale(ledger);
    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/scales/K1"),
                "form.check",
                "weights[0].nominal",
                "500",
                "more",
                "rows")
            .expect(200)
            .page();

    assertThat(page.select("#weights-0-nominal").val()).isEqualTo("500");
    assertThat(page.select("form.check fieldset")).hasSizeGreaterThan(3);
    assertThat(page.select("[role=alert]")).isEmpty();
  }

  @Test
  void repeatability_is_found_by_the_form(TestLedger ledger) {
    scale(ledger);
    Document refused = refused(ledger, "form.repeatability", "readings", "200 g; two");
    assertThat(refused.select("#readings").val()).isEqualTo("200 g; two");
    assertThat(refused.select("[role=alert] a").attr("href")).isEqualTo("#readings");
    assertThat(
            refused(ledger, "form.repeatability", "readings", "200").select("[role=alert]").text())
        .contains("there is 1");

    // s of 200.0 and 200.2 is 0.2/√2 = 0.1414 g (JCGM 100:2008, 4.2.2).
    Document page = kept(ledger, "form.repeatability", "readings", "200.0; 200.2");
    assertThat(page.select("dl.facts").text())
        .contains("scatter with a standard deviation of 0.14 g, by 2 readings of one load");
    assertThat(page.select("li.weighed").text()).contains("One load read 200.0 g, 200.2 g");
  }

  @Test
  void a_reading_apart_from_the_others_is_named(TestLedger ledger) {
    scale(ledger);
    Document page =
        kept(ledger, "form.repeatability", "readings", "412.1; 412.3; 412.2; 412.4; 412.2; 415.0");
    assertThat(page.select("li.weighed").text()).contains("apart from the others: 415.0 g");
  }

  @Test
  void a_check_is_struck_out_and_it_is_said_what_that_changed(TestLedger ledger) {
    scale(ledger);
    check(ledger, "2026-03-01");
    weigh(ledger);
    assertThat(ledger.pages().get("/parts/TP").page().select(".weighed__account").text())
        .contains("divided by 1.0004, which a check of the scale found");
    assertThat(ledger.pages().get("/scales/K1").page().select("li.weighed").text())
        .contains("1 weighing rests on it");

    Document done = kept(ledger, "form.strike-out", "reason", "wrong weight");

    assertThat(done.select("[role=status]").text())
        .isEqualTo(
            "Struck out: wrong weight. 1 weighing rested on it, and goes by what counted before.");
    assertThat(done.select("li.weighed s").text()).contains("shows 1.0004");
    assertThat(done.select("li.weighed").text()).contains("struck out: wrong weight");
    assertThat(done.select("form.strike-out")).isEmpty();
    assertThat(ledger.pages().get("/parts/TP").page().select(".weighed__account").text())
        .doesNotContain("divided");
  }

  @Test
  void a_check_that_is_dated_back_says_what_it_changed(TestLedger ledger) {
    scale(ledger);
    weigh(ledger);
    Document page =
        kept(
            ledger,
            "form.check",
            "weights[0].nominal",
            "500",
            "weights[0].weightClass",
            "M1",
            "weights[0].indication",
            "500.2",
            "checkedAt",
            "2026-03-01");
    assertThat(page.select("[role=status]").text())
        .isEqualTo("The check is kept. 1 weighing made since its time goes by it now.");
  }

  @Test
  void an_older_check_can_be_shown_in_full(TestLedger ledger) {
    scale(ledger);
    check(ledger, "2026-02-01");
    check(ledger, "2026-03-01");
    Document page = ledger.pages().get("/scales/K1").expect(200).page();
    assertThat(page.select("#fit-title").text()).isEqualTo("Check of 2026-03-01");

    Document older =
        ledger
            .pages()
            .click(page.select("li.weighed a:contains(Show it)").get(1))
            .expect(200)
            .page();
    assertThat(older.select("#fit-title").text()).isEqualTo("Check of 2026-02-01");
    ledger.pages().get("/scales/K1?check=nonsense").expect(404);
  }

  @Test
  void bench_says_that_the_scale_in_use_is_due_for_a_check(TestLedger ledger) {
    scale(ledger);
    assertThat(hint(ledger)).isEqualTo("K1: never checked with a weight. Check it");
    check(ledger, LocalDate.now(clock).minusDays(366).toString());
    assertThat(hint(ledger)).contains("not checked with a weight since").contains("every 365 days");
    check(ledger, LocalDate.now(clock).minusDays(1).toString());
    assertThat(hint(ledger)).isEmpty();
    clock.pass(Duration.ofDays(365));
    assertThat(hint(ledger)).contains("not checked with a weight since");
  }

  private static String hint(TestLedger ledger) {
    return ledger.pages().get("/").expect(200).page().select("p:has(a:contains(Check it))").text();
  }

  @Test
  void a_scale_of_a_class_says_what_it_is_permitted(TestLedger ledger) {
    String[] shop = {
      "code",
      "K4",
      "name",
      "Shop",
      "readability",
      "1",
      "capacity",
      "10 kg",
      "accuracyClass",
      "III",
      "verificationInterval",
      "1",
      "checkEvery",
      "90"
    };
    Answer form = ledger.pages().get("/scales");
    Answer done = ledger.pages().submit(form, "form[action=/scales]", shop).expect(303);
    // OIML R 76-1:2006, table 6 and 3.5.2 for the errors, table 3 for the least load.
    assertThat(ledger.pages().follow(done).expect(200).page().select("dl.facts").text())
        .contains("class III, e = 1 g: in service up to ± 1 g off, ± 2 g and ± 3 g at larger loads")
        .contains("not made for less than 20 g")
        .contains("every 90 days");

    shop[1] = "K5";
    shop[9] = "V";
    Document refused = ledger.pages().submit(form, "form[action=/scales]", shop).expect(422).page();
    assertThat(refused.select("[role=alert] a").attr("href")).isEqualTo("#accuracyClass");
    assertThat(refused.select("details:has(#accuracyClass)").hasAttr("open")).isTrue();
    assertThat(refused.select("#checkEvery").val()).isEqualTo("90");
  }

  @Test
  void the_list_is_sorted_by_its_headings_and_taken_as_a_file(TestLedger ledger) {
    scale(ledger);
    ledger
        .api()
        .post(
            "/scales",
            "{'code':'A2','name':'=2+2','readability':'1 g','capacity':'10 kg','spanTolerance':'0.3 %'}"
                .replace('\'', '"'))
        .expect(201);
    check(ledger, "2026-03-01");
    Answer list = ledger.pages().get("/scales").expect(200);
    assertThat(codes(list)).containsExactly("A2", "K1");

    Answer bySpan =
        ledger.pages().click(list.page().select("th a:contains(Off by up to)").get(0)).expect(200);
    assertThat(codes(bySpan)).containsExactly("K1", "A2");
    assertThat(bySpan.page().select("th[aria-sort=ascending]").text()).isEqualTo("Off by up to");
    // Never checked is not known, and comes last whichever way.
    assertThat(codes(ledger.pages().get("/scales?sort=checked"))).containsExactly("K1", "A2");
    assertThat(codes(ledger.pages().get("/scales?sort=checked&order=descending")))
        .containsExactly("K1", "A2");

    String[] csv = ledger.pages().get("/scales.csv?sort=code").expect(200).body().split("\r\n");
    assertThat(csv[0]).startsWith("code,name,smallest step [g],capacity [g],repeatability [g]");
    assertThat(csv[1]).startsWith("A2,'=2+2,1,10000,,0.003,");
    assertThat(csv[2]).startsWith("K1,Bench,0.1,5000,,,,,1.0004,").contains(",2026-03-01,365,0,");
  }

  private static List<String> codes(Answer list) {
    return list.page().select("tbody th").eachText();
  }
}
