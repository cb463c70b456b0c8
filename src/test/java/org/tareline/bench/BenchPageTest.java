package org.tareline.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class BenchPageTest {

  private static final String ENTRY = "form.entry";

  private TestLedger ledger;
  private Pages pages;

  @BeforeEach
  void aScaleAndTwoParts(TestLedger ledger) {
    this.ledger = ledger;
    this.pages = ledger.pages();
    ledger
        .api()
        .post(
            "/scales",
            Map.of("code", "K1", "name", "Bench", "readability", "1 g", "capacity", "2 kg"))
        .expect(201);
    ledger
        .api()
        .post("/parts", Map.of("code", "TP1", "name", "Small tarp", "system", "rain"))
        .expect(201);
    ledger
        .api()
        .post("/parts", Map.of("code", "TP2", "name", "Wide tarp", "system", "rain"))
        .expect(201);
  }

  @Test
  void part_reading_and_enter_log_a_weighing_and_the_answer_is_on_the_next_page() {
    Document bench = log("part", "small", "readings", "118; 118; 119");

    assertThat(bench.select(".answer__title").text()).isEqualTo("TP1 Small tarp");
    assertThat(bench.select(".answer__mass").text()).isEqualTo("118.3 g ± 1.1 g");
    assertThat(bench.select("table tbody tr")).hasSize(1);
    assertThat(bench.select("#scale option[selected]").attr("value")).isEqualTo("K1");
    assertThat(bench.select("[data-focus]").attr("id")).isEqualTo("part");
  }

  @Test
  void the_page_offers_the_parts_that_wait_and_takes_the_one_that_was_tapped() {
    assertThat(pages.get("/").expect(200).page().select(".waiting .code").eachText())
        .contains("TP1", "TP2");

    Document tapped = pages.get("/?part=TP2").expect(200).page();

    assertThat(tapped.select("#part").val()).isEqualTo("TP2");
    assertThat(tapped.select("[data-focus]").attr("id")).isEqualTo("readings");
  }

  @Test
  void letters_that_fit_two_parts_are_refused_with_both_named_and_everything_typed_is_kept() {
    Answer refused =
        pages.submit(
            pages.get("/").expect(200),
            ENTRY,
            "part",
            "tarp",
            "readings",
            "118 g",
            "tare",
            "12 g",
            "note",
            "after the wash");

    Document page = refused.expect(422).page();
    assertThat(page.title()).startsWith("Error: ");
    assertThat(page.select(".errors a").attr("href")).isEqualTo("#part");
    assertThat(page.select(".errors").text())
        .contains("TP1 (Small tarp)")
        .contains("TP2 (Wide tarp)");
    assertThat(page.select("#part").val()).isEqualTo("tarp");
    assertThat(page.select("#part").attr("aria-invalid")).isEqualTo("true");
    assertThat(page.select("#readings").val()).isEqualTo("118 g");
    assertThat(page.select("#tare").val()).isEqualTo("12 g");
    assertThat(page.select("#note").val()).isEqualTo("after the wash");
    assertThat(pages.get("/").page().select("table")).isEmpty();
  }

  @Test
  void a_reading_that_looks_like_ounces_is_asked_about_and_taken_when_said_to_be_right() {
    log("part", "TP1", "readings", "118");

    Answer asked =
        pages.submit(pages.get("/").expect(200), ENTRY, "part", "TP1", "readings", "4.2");
    assertThat(asked.expect(422).page().select(".errors").text()).contains("looks like ounces");
    assertThat(asked.page().select("#readings").val()).isEqualTo("4.2");

    Answer sure = pages.submit(asked, ENTRY, "sure", "yes");
    assertThat(pages.follow(sure.expect(303)).page().select(".answer__mass").text())
        .startsWith("4.2 g");
  }

  @Test
  void a_new_part_and_a_new_scale_are_made_without_leaving() {
    Answer unknown =
        pages.submit(pages.get("/").expect(200), ENTRY, "part", "UQ3", "readings", "14.2");
    assertThat(unknown.expect(422).page().select("#newPart-code").val()).isEqualTo("UQ3");

    Answer made =
        pages.submit(
            unknown,
            ENTRY,
            "newPart.name",
            "Summer underquilt",
            "newPart.system",
            "sleep",
            "newScale.code",
            "OZ",
            "newScale.name",
            "Ounce scale",
            "newScale.readability",
            "0.05 oz",
            "newScale.capacity",
            "11 lb");

    assertThat(pages.follow(made.expect(303)).page().select(".answer__title").text())
        .isEqualTo("UQ3 Summer underquilt");
    // In the unit of the new scale: 14.2 oz exactly.
    assertThat(
            ledger.api().get("/parts/UQ3").expect(200).json().at("/estimate/mass/value").asString())
        .isEqualTo("402.563228375");
  }

  @Test
  void a_refused_entry_makes_neither_the_new_part_nor_the_new_scale() {
    Answer unknown =
        pages.submit(pages.get("/").expect(200), ENTRY, "part", "UQ3", "readings", "14.2");

    Document page =
        pages
            .submit(
                unknown,
                ENTRY,
                "readings",
                "heavy",
                "newPart.name",
                "Summer underquilt",
                "newScale.code",
                "OZ",
                "newScale.name",
                "Ounce scale",
                "newScale.readability",
                "0.05 oz",
                "newScale.capacity",
                "11 lb")
            .expect(422)
            .page();

    assertThat(page.select("#newScale-code").val()).isEqualTo("OZ");
    assertThat(page.select("#newPart-name").val()).isEqualTo("Summer underquilt");
    ledger.api().get("/parts/UQ3").expect(404);
    ledger.api().get("/scales/OZ").expect(404);
  }

  @Test
  void one_tap_strikes_a_weighing_out_and_it_stays_on_the_page_as_struck_out() {
    log("part", "TP1", "readings", "118");
    Document bench = log("part", "TP1", "readings", "181");

    Answer struck =
        pages.submit(
            pages.get("/"),
            "form.strike[action='" + bench.select("form.strike").attr("action") + "']");

    Document after = pages.follow(struck.expect(303)).page();
    assertThat(after.select(".answer__struck")).isNotEmpty();
    assertThat(after.select(".answer__mass").text()).startsWith("118.0 g");
    assertThat(after.select("table tbody tr.struck-row").text()).contains("struck out: mistyped");
  }

  private Document log(String... fields) {
    return pages
        .follow(pages.submit(pages.get("/").expect(200), ENTRY, fields).expect(303))
        .expect(200)
        .page();
  }
}
