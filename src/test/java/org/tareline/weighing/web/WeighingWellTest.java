package org.tareline.weighing.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

@FeatureTest
class WeighingWellTest {

  @Test
  void every_piece_of_advice_names_its_source_or_says_that_it_has_none(TestLedger ledger) {
    Document page = ledger.pages().get("/weighing-well").expect(200).page();

    assertThat(page.select(".advice dd")).hasSizeGreaterThan(12);
    for (Element advice : page.select(".advice dd")) {
      assertThat(advice.select(".advice__source").text())
          .as(advice.text())
          .containsPattern("[Cc]ommon practice, no source|JCGM|OIML|ISO 139|WGS|Computed|ledger");
    }
  }

  @Test
  void the_air_is_what_the_standard_says_and_what_this_ledger_allows(TestLedger ledger) {
    ledger.api().put("/settings", "{\"air\":{\"down\":\"6 1/2 %\"}}").expect(200);

    Document page = ledger.pages().get("/weighing-well").expect(200).page();

    // ISO 139: 20 ± 2 °C, 65 ± 4 % relative humidity; ASTM D1909: nylon 4.5 %, polyester 0.4 %
    assertThat(page.text()).contains("20 ± 2 °C at 65 ± 4 % relative humidity");
    assertThat(page.select("tbody tr").eachText())
        .contains("nylon 4.5 % 2.25 %", "polyester 0.4 % 0.2 %", "down 11.5 % 6 1/2 %");
  }

  @Test
  void bench_shows_the_gist_of_it_and_leads_there(TestLedger ledger) {
    Document bench = ledger.pages().get("/").expect(200).page();

    assertThat(bench.select(".hints li").size()).isBetween(3, 5);
    assertThat(bench.select(".hints a[href=/weighing-well]")).hasSize(1);
    assertThat(ledger.pages().get("/scales").page().select("a[href=/weighing-well]")).hasSize(1);
  }
}
