package org.tareline.part.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class PartHistoryPageTest {

  private TestLedger ledger;

  @BeforeEach
  void aScaleAndAQuilt(TestLedger fresh) {
    ledger = fresh;
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench scale\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\","
                + "\"repeatability\":\"0.2\",\"spanTolerance\":\"1 %\"}")
        .expect(201);
    ledger.api().post("/parts", "{\"code\":\"TQ\",\"name\":\"Top quilt\"}").expect(201);
  }

  @Test
  void a_change_larger_than_its_uncertainty_is_called_one_with_what_happened_between() {
    weigh("2026-03-01", "560.0");
    event("washed", "2026-03-20");
    event("repaired", "2026-04-02");
    weigh("2026-05-01", "563.0");
    weigh("2026-06-01", "563.3");

    List<String> changes = page().select(".weighed__change").eachText();

    // One scale: its span, ±1 % and so u = 3.2 g of each, all but cancels. What is left of it is
    // 3.0 × 0.01/√3; with twice (0.2² + 2 × 0.1²/12) g², u = 0.289 g and U = 0.57 g at k = 1.96.
    assertThat(changes)
        .containsExactly(
            "No change that can be told since 2026-05-01 (0.30 g ± 0.57 g).",
            "Changed since 2026-03-01: heavier by 3.00 g ± 0.57 g. "
                + "Between: washed 2026-03-20, repaired 2026-04-02.");
  }

  @Test
  void the_same_on_another_scale_is_no_change_that_can_be_told() {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K2\",\"name\":\"Other\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\","
                + "\"repeatability\":\"0.2\",\"spanTolerance\":\"1 %\"}")
        .expect(201);
    weigh("2026-03-01", "560.0");
    log("'scale':'K2','readings':['563.0'],'weighedAt':'2026-05-01'");

    assertThat(page().select(".weighed__change").text()).startsWith("No change that can be told");
  }

  @Test
  void what_is_struck_out_or_damp_is_compared_with_nothing() {
    weigh("2026-03-01", "560.0");
    log("'scale':'K1','readings':['590.0'],'condition':'damp','weighedAt':'2026-03-02'");
    String wrong = log("'scale':'K1','readings':['506.0'],'weighedAt':'2026-03-03'");
    ledger.api().post("/weighings/{id}/void", Map.of("reason", "mistyped"), wrong).expect(200);
    weigh("2026-03-04", "552.0");

    Document page = page();

    assertThat(page.select(".weighed__change").eachText())
        .containsExactly(
            "Changed since 2026-03-01: lighter by 8.00 g ± 0.57 g. "
                + "Nothing is noted to have happened between.");
    assertThat(page.select("svg .chart__mark")).hasSize(4);
    assertThat(page.select("svg .chart__mark--hollow")).hasSize(1);
    assertThat(page.select("svg text").eachText()).contains("damp 590");
    assertThat(page.select("svg .chart__change")).hasSize(1);
    assertThat(page.select("svg desc").text())
        .isEqualTo(
            "4 weighings from 2026-03-01 to 2026-03-04, 1 of them struck out; "
                + "1 change that can be told from one to the next. The list has every figure.");
  }

  @Test
  void pieces_are_compared_each_with_itself() {
    log("'scale':'K1','readings':['100.0'],'piece':'A','weighedAt':'2026-03-01'");
    log("'scale':'K1','readings':['120.0'],'piece':'B','weighedAt':'2026-03-02'");
    log("'scale':'K1','readings':['100.1'],'piece':'A','weighedAt':'2026-03-03'");

    assertThat(page().select(".weighed__change").eachText())
        .containsExactly("No change that can be told since 2026-03-01 (0.10 g ± 0.57 g).");
  }

  @Test
  void weighings_and_what_happened_stand_in_one_list_newest_first() {
    weigh("2026-03-01", "560.0");
    event("washed", "2026-03-20");
    weigh("2026-05-01", "563.0");
    event("lent", "2026-06-01");

    Document page = page();

    assertThat(page.select(".weighed__head").eachText())
        .extracting(head -> head.replaceAll(".*(2026-\\d\\d-\\d\\d).*", "$1"))
        .containsExactly("2026-06-01", "2026-05-01", "2026-03-20", "2026-03-01");
    assertThat(page.select("svg .chart__event")).hasSize(2);
    assertThat(page.select("svg text").eachText()).contains("washed", "lent");
  }

  @Test
  void masses_and_days_are_drawn_in_proportion_and_whiskers_as_long_as_the_uncertainty() {
    weigh("2026-03-01", "560.0");
    weigh("2026-03-11", "563.0");
    weigh("2026-03-31", "572.0");

    Document page = page();

    List<double[]> dots =
        page.select("svg .chart__mark").eachAttr("d").stream()
            .map(PartHistoryPageTest::beginning)
            .toList();
    double perDay = (dots.get(1)[0] - dots.get(0)[0]) / 10;
    double perGram = (dots.get(0)[1] - dots.get(1)[1]) / 3;
    assertThat(perDay).isPositive();
    assertThat(perGram).isPositive();
    // To the hundredth to which coordinates are written, over 10 days and 3 g.
    assertThat((dots.get(2)[0] - dots.get(1)[0]) / 20).isCloseTo(perDay, within(0.002));
    assertThat((dots.get(1)[1] - dots.get(2)[1]) / 9).isCloseTo(perGram, within(0.006));

    // 560 g: u² = 0.2² + 2 × 0.1²/12 + (560 × 0.01/√3)², U = 6.35 g, from end to end twice that
    String whisker = page.expectFirst("svg .chart__whisker").attr("d");
    double top = beginning(whisker)[1];
    double bottom = Double.parseDouble(whisker.replaceAll(".*?V([\\d.]+).*", "$1"));
    assertThat(bottom - top).isCloseTo(2 * 6.35 * perGram, within(0.1));
  }

  private static double[] beginning(String path) {
    String[] place = path.substring(1).split("[ aVc]");
    return new double[] {Double.parseDouble(place[0]), Double.parseDouble(place[1])};
  }

  @Test
  void what_was_struck_out_or_wet_and_is_far_off_stands_at_the_edge_with_its_figure() {
    weigh("2026-03-01", "560.0");
    String wrong = log("'scale':'K1','readings':['2560'],'weighedAt':'2026-03-02'");
    ledger.api().post("/weighings/{id}/void", Map.of("reason", "mistyped"), wrong).expect(200);
    weigh("2026-03-03", "563.0");
    log("'scale':'K1','readings':['640'],'condition':'wet','weighedAt':'2026-03-04'");

    Document page = page();

    assertThat(page.select("svg .chart__mark--hollow")).hasSize(1);
    assertThat(page.select("svg .chart__whisker")).as("none for those off the scale").hasSize(2);
    assertThat(page.select("svg text").eachText()).contains("2560", "wet 640", "560");
  }

  @Test
  void one_weighing_is_no_history_to_draw() {
    weigh("2026-03-01", "560.0");

    assertThat(page().select("svg")).isEmpty();
  }

  @Test
  void what_happened_is_noted_and_struck_out_on_the_page() {
    Pages pages = ledger.pages();
    Answer page = pages.get("/parts/TQ").expect(200);

    Answer noted =
        pages.follow(
            pages
                .submit(
                    page, "form.event", "kind", "retired", "date", "2026-04-01", "note", "moths")
                .expect(303));

    assertThat(noted.page().select(".done").text())
        .isEqualTo("Noted: retired. 0 owned, 0 at hand.");
    Element entry = noted.page().expectFirst("li.happened");
    assertThat(entry.text()).contains("retired 1 piece 2026-04-01").contains("moths");

    Answer struckOut =
        pages.follow(
            pages
                .submit(noted, "li.happened form.strike-out", "reason", "it did not happen")
                .expect(303));
    assertThat(struckOut.page().select(".done").text())
        .isEqualTo("Struck out: retired. 1 owned, 1 at hand.");
    assertThat(struckOut.page().expectFirst("li.happened").text())
        .contains("struck out: it did not happen");
    assertThat(struckOut.page().select("li.happened form")).isEmpty();
  }

  @Test
  void a_note_that_cannot_be_read_keeps_what_was_typed() {
    Pages pages = ledger.pages();

    Document refused =
        pages
            .submit(
                pages.get("/parts/TQ"),
                "form.event",
                "kind",
                "washed",
                "date",
                "in spring",
                "count",
                "2",
                "note",
                "by hand")
            .expect(422)
            .page();

    assertThat(refused.select(".errors a").eachAttr("href")).containsExactly("#date", "#count");
    assertThat(refused.select("#kind option[selected]").val()).isEqualTo("washed");
    assertThat(refused.select("#date").val()).isEqualTo("in spring");
    assertThat(refused.select("#count").val()).isEqualTo("2");
    assertThat(refused.select("#note").val()).isEqualTo("by hand");
    assertThat(refused.select("li.happened")).isEmpty();
  }

  @Test
  void the_page_takes_as_many_statements_however_much_there_is() {
    weigh("2026-03-01", "560.0");
    event("washed", "2026-03-20");
    Pages pages = ledger.pages();
    pages.get("/parts/TQ").expect(200);
    int few = ledger.statements(() -> pages.get("/parts/TQ").expect(200)).size();
    for (int day = 1; day < 10; day++) {
      weigh("2026-05-0" + day, "563.0");
      event("washed", "2026-06-0" + day);
    }

    assertThat(ledger.statements(() -> pages.get("/parts/TQ").expect(200))).hasSize(few);
  }

  private Document page() {
    return ledger.pages().get("/parts/TQ").expect(200).page();
  }

  private void weigh(String day, String reading) {
    log("'scale':'K1','readings':['" + reading + "'],'weighedAt':'" + day + "'");
  }

  private String log(String weighing) {
    return ledger
        .api()
        .post("/weighings", ("{'part':'TQ'," + weighing + "}").replace('\'', '"'))
        .expect(201)
        .json()
        .path("id")
        .asString();
  }

  private void event(String kind, String date) {
    ledger.api().post("/parts/TQ/events", Map.of("kind", kind, "date", date)).expect(201);
  }
}
