package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class LoadsPagesTest {

  private TestLedger ledger;
  private Pages pages;

  @BeforeEach
  void aRig(TestLedger fresh) {
    ledger = fresh;
    pages = fresh.pages();
    fresh
        .api()
        .post(
            "/parts",
            "{\"code\":\"LINE\",\"name\":\"Line\",\"system\":\"hang\",\"strength\":\"7 kN\",\"stated\":{\"mass\":\"30 g\",\"tolerance\":\"1 g\"}}")
        .expect(201);
    fresh
        .api()
        .post(
            "/parts",
            "{\"code\":\"THIN\",\"name\":\"Thin line\",\"system\":\"hang\",\"strength\":\"3 kN\",\"stated\":{\"mass\":\"10 g\",\"tolerance\":\"1 g\"}}")
        .expect(201);
    for (String[] rig : new String[][] {{"R", "LINE"}, {"T", "THIN"}}) {
      fresh
          .api()
          .post(
              "/rigs",
              "{\"code\":\"%s\",\"name\":\"Rig\",\"lines\":[{\"part\":\"%s\",\"role\":\"suspension\"}]}"
                  .formatted(rig[0], rig[1]))
          .expect(201);
    }
  }

  private Document loads(String rig) {
    return pages.get("/rigs/" + rig + "/loads").expect(200).page();
  }

  private Answer hang(String rig) {
    return hang(rig, "100 kg", "30 deg");
  }

  private Answer hang(String rig, String lies, String secondAngle) {
    return pages.submit(
        pages.get("/rigs/" + rig + "/loads/edit").expect(200),
        "form.hang-form",
        "lies",
        lies,
        "ends[0].angle",
        "30 deg",
        "ends[1].angle",
        secondAngle,
        "elements[0].where",
        "suspension",
        "elements[0].termination",
        "as rated");
  }

  @Test
  void a_rig_of_which_nothing_is_said_is_not_known_and_its_form_names_what_carries() {
    Document page = loads("R");
    assertThat(page.select(".quote").text())
        .isEqualTo("Not known: nobody has said how it is hung.");
    assertThat(page.select(".cautions li")).hasSize(Cautions.ALL.size());
    assertThat(pages.get("/rigs/R/loads/edit").page().select("#elements-0-part").val())
        .isEqualTo("LINE");
    assertThat(pages.get("/rigs/R").expect(200).page().select("a[href=/rigs/R/loads]")).hasSize(1);
  }

  @Test
  void what_is_said_in_the_form_shows_its_loads_with_drawings_and_cautions() {
    hang("R").expect(303);
    Document page = loads("R");

    // J2.20 and F25: 980.665 N; 7000 N over that is 7.138, rounded down.
    assertThat(page.select(".quote").text()).contains("LINE, 7.13 times stronger than its load");
    assertThat(page.select("table:has(#elements-caption)").text())
        .contains("981 N")
        .contains("meets");
    assertThat(page.select("svg[role=img]")).hasSize(3);
    assertThat(page.select("svg desc").text()).contains("T, the suspension, 981 N");
    assertThat(page.select(".cautions li")).hasSize(Cautions.ALL.size());
    // Down to asin(980.665 × 5 / (2 × 7000)) = 20.5°, said a little steeper.
    assertThat(page.text()).contains("down to both suspensions at 20.6°");
  }

  @Test
  void a_refused_form_keeps_what_was_typed_and_nothing_moves() {
    hang("R").expect(303);
    Document page = hang("R", "a lot", "95 deg").expect(422).page();

    assertThat(page.select("#lies").val()).isEqualTo("a lot");
    assertThat(page.select("#lies-error").text()).contains("a lot");
    assertThat(page.select("#ends-1-angle").val()).isEqualTo("95 deg");
    assertThat(page.select("[role=alert] a[href=#ends-1-angle]")).hasSize(1);
    assertThat(loads("R").text()).contains("100 kg");
  }

  @Test
  void who_saves_second_is_told() {
    Answer hers = pages.get("/rigs/R/loads/edit").expect(200);
    hang("R").expect(303);
    Document told =
        pages
            .submit(
                hers,
                "form.hang-form",
                "lies",
                "70 kg",
                "ends[0].angle",
                "30 deg",
                "ends[1].angle",
                "30 deg")
            .expect(422)
            .page();
    assertThat(told.select("[role=alert]").text()).contains("Somebody else has saved");
    assertThat(loads("R").text()).contains("100 kg").doesNotContain("70 kg");
  }

  @Test
  void a_hang_is_written_down_and_its_trees_moved() {
    hang("R").expect(303);
    Answer form = pages.get("/rigs/R/set-ups/new").expect(200);
    assertThat(
            pages
                .submit(form, "main form", "hungOn", "soon", "sag", "40 cm")
                .expect(422)
                .page()
                .select("#sag")
                .val())
        .isEqualTo("40 cm");
    pages
        .submit(
            form,
            "main form",
            "hungOn",
            "2027-04-11",
            "ridgeLength",
            "2.5 m",
            "anchorDistance",
            "4.5 m",
            "headAngle",
            "30 deg",
            "words",
            "calm & <flat>",
            "favourite",
            "on")
        .expect(303);
    Document page = loads("R");

    assertThat(page.select(".hang-record").text())
        .contains("2027-04-11 · the favourite")
        .contains("calm & <flat>");
    // Run 1 m and rise tan 30° = 0.57735 m; trees 1 m further: run 1.5 m, atan = 21.05°, 289 mm
    // more to keep 30°.
    assertThat(page.select("table:has(#trees-caption) tbody tr:last-child").text())
        .isEqualTo("550.0 cm 21.1° 1365 N 5.12 28.9 cm higher");
    Answer edit = pages.get(page.select(".hang-record a").attr("href")).expect(200);
    pages.submit(edit, "main form", "words", "better").expect(303);
    assertThat(loads("R").select(".hang-record").text()).contains("better");
  }

  @Test
  void what_gives_brings_the_ends_in_and_what_is_not_said_makes_it_at_least_that() {
    Answer form = pages.get("/rigs/R/loads/edit").expect(200);
    String[] said = {
      "lies",
      "100 kg",
      "ends[0].angle",
      "30 deg",
      "ends[1].angle",
      "30 deg",
      "elements[0].where",
      "suspension",
      "elements[0].termination",
      "as rated",
      "gives.tree",
      "1 cm ± 0.5 cm"
    };
    pages.submit(form, "form.hang-form", said).expect(303);
    assertThat(loads("R").select("table:has(caption:contains(come in)) tr").eachText())
        .containsExactly(
            "What gives By Between",
            "The body takes its curve not said",
            "Lines stretch, those that say not said",
            "Trees bend in 2.0 cm 1.0 to 3.0 cm",
            "Knots and line settle not said",
            "In all, at least 2.0 cm 1.0 to 3.0 cm");

    said[said.length - 1] = "much";
    Document refused =
        pages
            .submit(pages.get("/rigs/R/loads/edit").expect(200), "form.hang-form", said)
            .expect(422)
            .page();
    assertThat(refused.select("#gives-tree").val()).isEqualTo("much");
    assertThat(refused.select("[role=alert] a[href=#gives-tree]")).hasSize(1);
  }

  @Test
  void side_by_side_says_lighter_and_weaker() {
    assertThat(pages.get("/side-by-side?rig=R&rig=T").expect(200).page().select(".pair .note"))
        .isEmpty();
    hang("R").expect(303);
    assertThat(pages.get("/side-by-side?rig=R&rig=T").expect(200).page().select(".pair").text())
        .contains("Which is stronger for its load is not known.");
    hang("T").expect(303);
    Document both = pages.get("/side-by-side?rig=R&rig=T").expect(200).page();

    // In full, for it is printed and carried away.
    assertThat(both.select(".cautions li")).hasSize(Cautions.ALL.size());
    assertThat(both.select(".pair").text())
        .contains("T is lighter and weaker for its load than R")
        .contains("T: below; the least known is THIN, 3.05 times");
  }

  @Test
  void the_sag_of_a_line_is_worked_out_and_a_refusal_keeps_what_was_typed() {
    // REFERENCES J2.38: 50 N/m over 4 m at 0.2 m of sag pull 500 N sideways and 509.902 N at the
    // ends; the exact parabola is 4.0265089 m long.
    Document page =
        ledger.pages().get("/loads/line?span=4+m&perLength=50+N/m&sag=20+cm").expect(200).page();
    assertThat(page.select("main").text())
        .contains("sags by 20.0 cm and pulls with 510 N")
        .contains("Sideways that is 500 N; the line is 2.7 cm longer");
    assertThat(page.select(".cautions li")).isNotEmpty();

    Answer refused = ledger.pages().get("/loads/line?span=4+m&perLength=net&sag=20+cm").expect(422);
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#perLength");
    assertThat(refused.page().select("#perLength").val()).isEqualTo("net");
    assertThat(ledger.pages().get("/loads/line").expect(200).page().select(".errors")).isEmpty();
  }
}
