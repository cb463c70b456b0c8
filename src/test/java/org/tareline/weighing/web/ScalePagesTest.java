package org.tareline.weighing.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

@FeatureTest
class ScalePagesTest {

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
}
