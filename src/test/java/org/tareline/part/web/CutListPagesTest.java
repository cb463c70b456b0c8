package org.tareline.part.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class CutListPagesTest {

  private static final String FORM = "form[action=/parts/BODY/cut-list/edit]";

  private TestLedger ledger;
  private Pages pages;

  @BeforeEach
  void aClothAndAPart(TestLedger ledger) {
    this.ledger = ledger;
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"CLOTH\",\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"tolerance\":\"5 %\",\"width\":\"1.5 m\"}")
        .expect(201);
    ledger.api().post("/parts", "{\"code\":\"BODY\",\"name\":\"Body\"}").expect(201);
    pages = ledger.pages();
  }

  @Test
  void a_line_is_added_filled_in_saved_and_drawn() {
    Answer empty = pages.follow(pages.get("/parts/BODY/cut-list").expect(303)).expect(200);
    Answer one = pages.submit(empty, FORM, "add", "RECTANGLE", "more", "line").expect(200);
    assertThat(one.page().select("legend").text()).isEqualTo("1. Panel, rectangle");

    Answer done =
        pages
            .submit(
                one,
                FORM,
                "lines[0].name",
                "floor",
                "lines[0].material",
                "CLOTH",
                "lines[0].length",
                "2 m",
                "lines[0].width",
                "900",
                "lines[0].widthAllowance",
                "20 mm")
            .expect(303);
    Document page = pages.follow(done).expect(200).page();

    assertThat(page.select("[role=status]").text()).isEqualTo("The cut list of BODY was saved.");
    // 2 m × 0.92 m at 40 g/m².
    assertThat(page.select(".stand__mass data").val()).isEqualTo("73.6");
    assertThat(page.select("tbody th").eachText().get(0)).isEqualTo("floor Panel, rectangle");
    assertThat(page.text()).contains("width 900 mm").contains("2.000 m of the roll");
    assertThat(page.select("svg title").eachText().get(0)).isEqualTo("floor, 2.000 m by 0.920 m");
    assertThat(page.select("polygon.drawing__finished")).hasSize(1);
    assertThat(pages.get("/parts/BODY").expect(200).page().text())
        .contains("From the cut list, and not weighed yet.");
  }

  @Test
  void what_cannot_be_cut_is_said_at_its_field_and_what_was_typed_is_kept() {
    Answer one =
        pages
            .submit(
                pages.get("/parts/BODY/cut-list/edit"),
                FORM,
                "add",
                "PARABOLIC_EDGES",
                "more",
                "line")
            .expect(200);

    Document page =
        pages
            .submit(
                one,
                FORM,
                "lines[0].material",
                "CLOTH",
                "lines[0].length",
                "3 m",
                "lines[0].width",
                "1 m",
                "lines[0].depth",
                "half a metre")
            .expect(422)
            .page();

    assertThat(page.select(".errors a").attr("href")).isEqualTo("#lines-0-depth");
    assertThat(page.select("#lines-0-depth").val()).isEqualTo("half a metre");
    assertThat(page.select("#lines-0-width").val()).isEqualTo("1 m");
  }

  @Test
  void a_line_is_taken_out_and_with_the_last_one_the_list() {
    ledger
        .api()
        .put(
            "/parts/BODY",
            "{\"name\":\"Body\",\"buildSheet\":{\"lines\":[{\"kind\":\"panel\",\"shape\":\"triangle\",\"material\":\"CLOTH\",\"base\":\"1 m\",\"height\":\"1 m\"}]}}")
        .expect(200);

    Answer done =
        pages
            .submit(pages.get("/parts/BODY/cut-list/edit"), FORM, "lines[0].out", "yes")
            .expect(303);

    assertThat(done.header("Location")).endsWith("/parts/BODY");
    assertThat(ledger.api().get("/parts/BODY").json().has("buildSheet")).isFalse();
  }

  @Test
  void somebody_elses_save_in_between_is_not_overwritten() {
    Answer one =
        pages
            .submit(pages.get("/parts/BODY/cut-list/edit"), FORM, "add", "TRIANGLE", "more", "line")
            .expect(200);
    ledger.api().put("/parts/BODY", "{\"name\":\"Hers\"}").expect(200);

    Answer refused =
        pages.submit(
            one,
            FORM,
            "lines[0].material",
            "CLOTH",
            "lines[0].base",
            "1 m",
            "lines[0].height",
            "1 m");

    refused.expect(422);
    assertThat(refused.page().select(".errors").text()).contains("BODY");
    assertThat(ledger.api().get("/parts/BODY").json().has("buildSheet")).isFalse();
  }

  @Test
  void what_is_cut_is_taken_off_the_stock_and_too_much_of_it_is_said() {
    ledger
        .api()
        .put(
            "/parts/BODY",
            "{\"name\":\"Body\",\"buildSheet\":{\"lines\":[{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"CLOTH\",\"length\":\"2 m\",\"width\":\"1 m\"}]}}")
        .expect(200);
    ledger.api().post("/materials/CLOTH/stock", "{\"counted\":\"3 m\"}").expect(201);
    Answer list = pages.get("/parts/BODY/cut-list").expect(200);
    assertThat(list.page().text()).contains("3 m, enough");

    Answer refused =
        pages.submit(list, "form.cut-off", "amounts[0].amount", "two metres").expect(422);
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#amounts-0-amount");
    assertThat(refused.page().select("#amounts-0-amount").val()).isEqualTo("two metres");

    Answer done = pages.submit(list, "form.cut-off", "quantity", "2").expect(303);

    Document after = pages.follow(done).expect(200).page();
    assertThat(after.select("[role=status]").text())
        .isEqualTo("Taken off the stock: CLOTH 4 m, leaves −1 m: more than there was.");
    assertThat(after.text()).contains("−1 m, not enough");
    Document material = pages.get("/materials/CLOTH").expect(200).page();
    assertThat(material.text())
        .contains("More was cut than there was. Count what is left.")
        .contains("cut 4 m")
        .contains("for BODY");
    assertThat(material.select("section[aria-labelledby=uses-title] tbody td").eachText())
        .containsExactly("80", "± 5", "2 m", "not enough");
  }

  @Test
  void a_line_is_weighed_keeps_it_through_an_edit_and_is_struck_out_again() {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    ledger
        .api()
        .put(
            "/parts/BODY",
            "{\"name\":\"Body\",\"buildSheet\":{\"lines\":[{\"kind\":\"panel\",\"shape\":\"rectangle\",\"name\":\"floor\",\"material\":\"CLOTH\",\"length\":\"2 m\",\"width\":\"1 m\"}]}}")
        .expect(200);
    Answer list = pages.get("/parts/BODY/cut-list").expect(200);
    assertThat(
            pages
                .submit(list, "form.line-weighing", "scale", "K1", "readings", "much")
                .expect(422)
                .page()
                .select(".errors a")
                .attr("href"))
        .isEqualTo("#readings");

    Document weighed =
        pages
            .follow(
                pages
                    .submit(list, "form.line-weighing", "scale", "K1", "readings", "84.2; 84.2")
                    .expect(303))
            .page();
    assertThat(weighed.select(".stand__mass data").val()).isEqualTo("84.2");
    assertThat(weighed.select("tbody th").eachText().get(0))
        .isEqualTo("floor Panel, rectangle weighed");
    assertThat(pages.get("/parts/BODY").page().text()).contains("1 of its 1 lines weighed");
    assertThat(pages.get("/").expect(200).page().text()).contains("cut for it, not sewn yet");

    pages
        .submit(pages.get("/parts/BODY/cut-list/edit"), FORM, "lines[0].length", "2.1 m")
        .expect(303);
    Document edited = pages.get("/parts/BODY/cut-list").page();
    assertThat(edited.select(".stand__mass data").val()).isEqualTo("84.2");
    assertThat(edited.text()).contains("something else is cut since");
    assertThat(
            pages
                .submit(pages.get("/parts/BODY/cut-list/edit"), FORM, "lines[0].out", "yes")
                .expect(422)
                .page()
                .select(".errors")
                .text())
        .contains("floor was weighed");

    Answer struck = pages.submit(pages.get("/parts/BODY/cut-list"), "form.strike-out").expect(303);
    assertThat(struck.header("Location")).endsWith("/parts/BODY/cut-list");
    assertThat(pages.follow(struck).page().select(".stand__mass data").val()).isEqualTo("84");
  }
}
