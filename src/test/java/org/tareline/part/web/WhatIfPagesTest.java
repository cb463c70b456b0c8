package org.tareline.part.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class WhatIfPagesTest {

  private TestLedger ledger;
  private Pages pages;

  @BeforeEach
  void aBodyAndWhatItCouldBeMadeOf(TestLedger fresh) {
    ledger = fresh;
    pages = fresh.pages();
    material(
        "CLOTH",
        "fabric",
        "40 g/m²",
        "\"strength\":\"500 N\",\"width\":\"1.5 m\",\"price\":\"12 EUR/m\",\"fibre\":\"nylon\"");
    material(
        "LIGHT",
        "fabric",
        "30 g/m²",
        "\"strength\":\"400 N\",\"width\":\"0.9 m\",\"price\":\"10 EUR/m\"");
    material(
        "STOUT",
        "fabric",
        "60 g/m²",
        "\"strength\":\"900 N\",\"width\":\"1.5 m\",\"price\":\"15 EUR/m\"");
    material("MESH", "netting", "20 g/m²", "\"strength\":\"90 N\"");
    material("CORD", "cord", "1.4 g/m", "\"note\":\"-\"");
    part(
        "BODY",
        "{\"kind\":\"panel\",\"shape\":\"rectangle\",\"name\":\"floor\",\"material\":\"CLOTH\",\"length\":\"3 m\",\"width\":\"1 m\"},"
            + "{\"kind\":\"length\",\"material\":\"CORD\",\"length\":\"2 m\"}");
  }

  @Test
  void
      each_candidate_of_its_kind_stands_in_a_column_and_says_what_it_holds_before_what_it_weighs() {
    Document page = pages.get("/parts/BODY/what-if").expect(200).page();

    assertThat(page.select(".candidates thead th .code").eachText())
        .containsExactly("CLOTH", "LIGHT", "STOUT");
    List<String> rows = page.select(".candidates tbody th").eachText();
    assertThat(rows.get(0)).isEqualTo("What it holds");
    assertThat(rows.get(1)).isEqualTo("Mass by the cut list, g");
    assertThat(row(page, "What it holds").get(1)).startsWith("Weaker: LIGHT holds 400 N");
    assertThat(row(page, "What it holds").get(2)).startsWith("Stronger: STOUT holds 900 N");
    assertThat(page.select("td.candidates__caution").eachText()).hasSize(1);
    // 3 m² of 40, 30 and 60 g/m², and 2.8 g of cord.
    assertThat(page.select(".candidates data").eachAttr("value"))
        .containsExactly("122.8", "92.8", "182.8");
    assertThat(row(page, "Difference").get(1)).startsWith("lighter by 30 g");
    assertThat(row(page, "Difference").get(2)).startsWith("heavier by 60");
    assertThat(row(page, "Cost, as far as it can be told"))
        .containsExactly(
            "36.00 EUR", "not known; the difference is not known", "45.00 EUR; 9.00 EUR more");
    assertThat(row(page, "To buy, at most").get(0)).isEqualTo("3.000 m of the roll");
    assertThat(row(page, "To buy, at most").get(1)).contains("pieced: floor");
    assertThat(row(page, "What the material weighs").get(1)).isEqualTo("as printed, 30 g/m²");
    assertThat(page.text()).contains("can be hurt");
  }

  @Test
  void another_material_can_be_looked_at_and_what_does_not_fit_is_said() {
    Answer all = pages.get("/parts/BODY/what-if");

    assertThat(pages.get("/parts/BODY/what-if?replace=CORD").page().text())
        .contains("No other material of its kind in this ledger fits where CORD stands.");
    assertThat(
            pages
                .get("/parts/BODY/what-if?replace=CLOTH&text=stout")
                .page()
                .select(".candidates thead th .code")
                .eachText())
        .containsExactly("CLOTH", "STOUT");
    Document refused = pages.get("/parts/BODY/what-if?replace=MESH").expect(422).page();
    assertThat(refused.select(".errors a").attr("href")).isEqualTo("#replace");
    assertThat(all.page().select("#replace option").eachText())
        .containsExactly("CLOTH, The CLOTH", "CORD, The CORD");
    ledger.api().post("/parts", "{\"code\":\"BAR\",\"name\":\"Bar\"}").expect(201);
    assertThat(pages.get("/parts/BAR/what-if").expect(200).page().text()).contains("no cut list");
    assertThat(pages.get("/parts/BAR").page().select("a[href$=what-if]")).isEmpty();
    assertThat(pages.get("/parts/BODY").page().select("a[href$=what-if]")).hasSize(1);
  }

  @Test
  void what_was_weighed_stays_in_what_it_would_weigh() {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    ledger
        .api()
        .post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"130 g\"]}")
        .expect(201);

    Document page = pages.get("/parts/BODY/what-if").expect(200).page();

    assertThat(page.select("tr:contains(As it was weighed) data").eachAttr("value"))
        .containsExactly("130", "100", "190");
  }

  @Test
  void a_candidate_is_kept_as_a_variant_and_the_two_stand_side_by_side() {
    Answer form = pages.get("/parts/BODY/variants/new?replace=CLOTH&by=LIGHT").expect(200);
    assertThat(form.page().select("p.caution").text()).startsWith("Weaker");
    assertThat(form.page().select("#code").val()).isEqualTo("BODY-V2");

    Answer done = pages.submit(form, "main form", "name", "Light body").expect(303);
    Document variant = pages.follow(done).expect(200).page();

    assertThat(variant.select("[role=status]").text())
        .contains("BODY-V2")
        .contains("variant of BODY");
    String beside = variant.select("a[href*=beside]").attr("href");
    Document page = pages.get(beside).expect(200).page();
    assertThat(page.select(".quote").text()).startsWith("BODY-V2 is lighter than BODY by 30");
    assertThat(page.text()).contains("1 line is alike in both");
    assertThat(page.select("tbody tr")).hasSize(1);
    assertThat(page.select("tbody td").eachText())
        .contains("1 of CLOTH", "120.0", "1 of LIGHT", "90.0");
    assertThat(pages.get("/parts/BODY").page().select("#kin-title + ul .code").text())
        .isEqualTo("BODY-V2");
  }

  @Test
  void a_code_that_is_taken_is_said_at_its_field_and_what_was_typed_is_kept() {
    Answer form = pages.get("/parts/BODY/variants/new?replace=CLOTH&by=LIGHT").expect(200);

    Document page =
        pages.submit(form, "main form", "code", "BODY", "name", "Mine").expect(422).page();

    assertThat(page.select(".errors a").attr("href")).isEqualTo("#code");
    assertThat(page.select("#name").val()).isEqualTo("Mine");
    assertThat(page.select("p.caution").text()).startsWith("Weaker");
    assertThat(page.select("input[name=by]").val()).isEqualTo("LIGHT");
    assertThat(ledger.api().get("/parts/BODY").json().has("variants")).isFalse();
  }

  @Test
  void parts_of_which_too_little_is_known_are_not_compared() {
    ledger.api().post("/parts", "{\"code\":\"BAR\",\"name\":\"Bar\"}").expect(201);

    Document page = pages.get("/parts/BODY/beside?other=BAR").expect(200).page();

    assertThat(page.select(".quote").text()).startsWith("Cannot tell");
    assertThat(page.text()).contains("Not both of them have a cut list.");
    assertThat(
            pages
                .get("/parts/BODY/beside?other=NONE")
                .expect(422)
                .page()
                .select(".errors a")
                .attr("href"))
        .isEqualTo("#other");
    assertThat(pages.get("/parts/BODY/beside").expect(200).page().select(".quote")).isEmpty();
  }

  @Test
  void it_takes_as_many_statements_for_many_materials_as_for_few_and_shows_the_lightest() {
    pages.get("/parts/BODY/what-if").expect(200);
    int few = ledger.statements(() -> pages.get("/parts/BODY/what-if").expect(200)).size();
    for (int i = 1; i <= 30; i++) {
      material("F" + i, "fabric", i + " g/m²", "\"width\":\"1.5 m\"");
    }

    assertThat(ledger.statements(() -> pages.get("/parts/BODY/what-if").expect(200))).hasSize(few);
    Document page = pages.get("/parts/BODY/what-if").page();
    assertThat(page.select(".candidates thead th")).hasSize(1 + 12);
    assertThat(page.select(".candidates thead th .code").get(1).text()).isEqualTo("F1");
    assertThat(page.text()).contains("The 12 lightest of 32 are shown");
  }

  private static List<String> row(Document page, String label) {
    for (Element row : page.select(".candidates tbody tr")) {
      if (row.select("th").text().equals(label)) {
        return row.select("td").eachText();
      }
    }
    throw new AssertionError("No row " + label + " in " + page.select(".candidates").text());
  }

  private void material(String code, String kind, String nominal, String rest) {
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"%s\",\"name\":\"The %s\",\"kind\":\"%s\",\"nominal\":\"%s\",%s}"
                .formatted(code, code, kind, nominal, rest))
        .expect(201);
  }

  private void part(String code, String lines) {
    ledger
        .api()
        .post(
            "/parts",
            "{\"code\":\"%s\",\"name\":\"Body\",\"buildSheet\":{\"lines\":[%s]}}"
                .formatted(code, lines))
        .expect(201);
  }
}
