package org.tareline.material.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class MaterialPagesTest {

  private static void cloth(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            """
            {"code":"S","name":"Small scale","readability":"0.01 g","capacity":"500 g","repeatability":"0.01 g"}""")
        .expect(201);
    ledger
        .api()
        .post(
            "/materials",
            """
            {"code":"F","name":"Ripstop","kind":"fabric","nominal":"50 g/m²","tolerance":"2 %"}""")
        .expect(201);
  }

  @Test
  void a_material_is_written_down_and_described_anew(TestLedger ledger) {
    Pages pages = ledger.pages();

    Answer made =
        pages.follow(
            pages
                .submit(
                    pages.get("/materials/new").expect(200),
                    "main form",
                    "code",
                    "C-3",
                    "name",
                    "Hollow braid",
                    "kind",
                    "cord",
                    "nominal",
                    "4.7 g/m",
                    "strength",
                    "1500 lbf")
                .expect(303));
    assertThat(made.page().text())
        .contains("C-3 is in the ledger")
        .contains("4.7 g/m ± 0.3 g/m")
        .contains("1500 lbf, minimum breaking strength")
        .contains("As printed, because there is no swatch that counts");

    Answer saved =
        pages.follow(
            pages
                .submit(
                    pages.get("/materials/C-3/edit").expect(200),
                    "main form",
                    "strength",
                    "",
                    "code",
                    "C-3A")
                .expect(303));
    assertThat(saved.page().text()).contains("C-3A was saved").contains("Strength not known");
    assertThat(pages.follow(pages.get("/materials/C-3").expect(303)).page().text())
        .contains("C-3A");
  }

  @Test
  void a_refused_material_keeps_what_was_typed(TestLedger ledger) {
    Pages pages = ledger.pages();

    Document refused =
        pages
            .submit(
                pages.get("/materials/new").expect(200),
                "main form",
                "code",
                "C-3",
                "name",
                "Hollow braid",
                "kind",
                "cord",
                "nominal",
                "54 g/m²",
                "price",
                "cheap")
            .expect(422)
            .page();

    assertThat(refused.select(".errors a[href=#nominal]").text()).contains("54 g/m²");
    assertThat(refused.select(".errors a[href=#price]")).isNotEmpty();
    assertThat(refused.select("input[name=nominal]").val()).isEqualTo("54 g/m²");
    assertThat(refused.select("select[name=kind] option[selected]").val()).isEqualTo("cord");
  }

  @Test
  void whoever_saves_second_is_shown_what_was_saved_meanwhile(TestLedger ledger) {
    cloth(ledger);
    Pages pages = ledger.pages();
    Answer opened = pages.get("/materials/F/edit").expect(200);
    ledger
        .api()
        .put("/materials/F", "{\"name\":\"Ripstop\",\"kind\":\"fabric\",\"nominal\":\"46 g/m²\"}")
        .expect(200);

    Document refused = pages.submit(opened, "main form", "name", "Taffeta").expect(422).page();

    assertThat(refused.select("table").text()).contains("46 g/m²").contains("Taffeta");
    assertThat(refused.select("input[name=revision]").val()).isEqualTo("2");
  }

  @Test
  void swatches_are_logged_compared_with_what_is_printed_and_struck_out(TestLedger ledger) {
    cloth(ledger);
    Pages pages = ledger.pages();

    Answer page = pages.get("/materials/F").expect(200);
    for (String reading : new String[] {"24.00; 24.01", "24.02; 24.00", "23.99"}) {
      page =
          pages.follow(
              pages
                  .submit(
                      page,
                      "form.swatch",
                      "length",
                      "1 m",
                      "width",
                      "50 cm",
                      "scale",
                      "S",
                      "readings",
                      reading)
                  .expect(303));
    }

    String said = page.page().text();
    assertThat(said).contains("As its swatches weigh, because three swatches or more agree");
    // of the printed mass alone U = 1.959964 × 1 g/m² / √3 = 1.13 g/m²
    assertThat(said).contains("It weighs less than is printed, by 2.0 g/m² ± 1.1 g/m²");
    assertThat(page.page().select("li.weighed")).hasSize(3);

    Answer struck =
        pages.follow(
            pages
                .submit(
                    page, "li.weighed:first-of-type form.strike-out", "reason", "wrong material")
                .expect(303));
    assertThat(struck.page().text())
        .contains("The swatch was struck out: wrong material")
        .contains("there are fewer than three swatches");
    assertThat(struck.page().select("li.weighed s.struck")).hasSize(1);
  }

  @Test
  void a_refused_swatch_keeps_what_was_typed(TestLedger ledger) {
    cloth(ledger);
    Pages pages = ledger.pages();

    Document refused =
        pages
            .submit(
                pages.get("/materials/F").expect(200),
                "form.swatch",
                "length",
                "300",
                "width",
                "300 mm",
                "scale",
                "S",
                "readings",
                "4.32; heavy")
            .expect(422)
            .page();

    assertThat(refused.select(".errors a[href=#length]")).isNotEmpty();
    assertThat(refused.select(".errors a[href=#readings]")).isNotEmpty();
    assertThat(refused.select("input[name=length]").val()).isEqualTo("300");
    assertThat(refused.select("input[name=readings]").val()).isEqualTo("4.32; heavy");
    assertThat(refused.select("li.weighed")).isEmpty();
  }

  @Test
  void the_table_is_filtered_sorted_and_a_file(TestLedger ledger) {
    cloth(ledger);
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"=H\",\"name\":\"Hook\",\"kind\":\"hardware\",\"nominal\":\"4 g\"}")
        .expect(400);
    ledger
        .api()
        .post(
            "/materials",
            "{\"code\":\"H\",\"name\":\"=Hook\",\"kind\":\"hardware\",\"nominal\":\"4 g\",\"stock\":12}")
        .expect(201);
    Pages pages = ledger.pages();

    Document sorted = pages.get("/materials?sort=mass&order=descending").expect(200).page();
    assertThat(sorted.select("tbody th").eachText()).containsExactly("F", "H");
    assertThat(sorted.select("th[aria-sort=descending]").text()).isEqualTo("Mass");
    Document filtered = pages.get("/materials?kind=hardware").expect(200).page();
    assertThat(filtered.select("tbody th").eachText()).containsExactly("H");
    assertThat(filtered.select("caption").text()).startsWith("1 of 2 materials, hardware");

    Answer file = pages.get("/materials.csv?kind=hardware").expect(200);
    assertThat(file.header("Content-Type")).startsWith("text/csv");
    assertThat(file.body())
        .contains("code,name,kind,mass used,expanded uncertainty,unit")
        .contains("H,'=Hook,hardware,4,0.226")
        .contains(",g,nominal,0,4 g,");
  }

  @Test
  void a_style_of_ounces_shows_ounces(TestLedger ledger, TestServer server) {
    cloth(ledger);
    server
        .database()
        .update(
            "update account set mass_style = 'OUNCES' where id = ?", ledger.member().accountId());

    // U = 1.959964 × 2 % of it / √3; 50 g/m² over 33.905 747 474 9 g/m² of an oz/yd² (NIST SP 811,
    // B.8)
    assertThat(ledger.openBrowser().get("/materials/F").expect(200).page().text())
        .contains("1.47 oz/yd² ± 0.03 oz/yd²");
  }

  @Test
  void what_came_and_went_is_written_down_refused_with_its_field_and_struck_out(
      TestLedger another) {
    another
        .api()
        .post(
            "/materials",
            "{\"code\":\"C\",\"name\":\"Cord\",\"kind\":\"cord\",\"nominal\":\"2 g/m\",\"stock\":\"10 m\"}")
        .expect(201);
    Pages browser = another.pages();
    Answer page = browser.get("/materials/C").expect(200);

    Answer refused =
        browser.submit(page, "form.stock", "stockAmount", "two", "stockPart", "NONE").expect(422);
    assertThat(refused.page().select(".errors a").eachAttr("href"))
        .containsExactly("#stockPart", "#stockAmount");
    assertThat(refused.page().select("#stockAmount").val()).isEqualTo("two");

    Document cut =
        browser
            .follow(browser.submit(page, "form.stock", "stockAmount", "2.5 m").expect(303))
            .page();
    assertThat(cut.select("[role=status]").text()).isEqualTo("Written down; on hand: 7.5 m.");
    assertThat(browser.get("/materials").expect(200).page().text()).contains("7.5 m");

    Document struck =
        browser
            .follow(
                browser.submit(browser.get("/materials/C"), "form[action$=strike-out]").expect(303))
            .page();
    assertThat(struck.select("[role=status]").text())
        .isEqualTo("The line was struck out; on hand: 10 m.");
    assertThat(struck.select("s.struck").text()).isEqualTo("cut 2.5 m");
  }
}
