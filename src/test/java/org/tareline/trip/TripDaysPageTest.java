package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** The pack by day, who carries it, and what is said of each line. */
@FeatureTest
class TripDaysPageTest {

  private static Document page(TestLedger ledger, String trip) {
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BODY", "body", "hang", 1, "300 g");
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("POLE", "pole", "other", 2, "250 g");
    workshop.rig("HANG", "hang system", 1, "BODY", 2, "BAR");
    ledger.api().post("/trips", trip).expect(201);
    return ledger.pages().get("/trips/T").expect(200).page();
  }

  private static final String TWO =
      """
      {"code":"T","name":"t","starts":"2027-05-30","days":3,
       "carriers":[{"code":"ANN","name":"Ann","bodyMass":"50"},{"code":"BO","name":"Bo"}],
       "lines":[{"rig":"HANG","leftAtHome":["BODY"]},
        {"part":"POLE","quantity":2,"carry":"worn","standsInFor":[{"rig":"HANG","part":"BAR"}]},
        {"item":{"name":"water"},"taken":{"1":"3 L","3":"2 L"},"used":{"1":"3 L","3":"1 L"}},
        {"part":"BODY","carrier":"BO","place":"Bag"}]}
      """;

  @Test
  void it_leads_with_the_heaviest_morning_and_has_a_row_and_a_step_for_each_day(TestLedger ledger) {
    Document page = page(ledger, TWO);

    assertThat(page.select(".lead").text())
        .startsWith("Heaviest on the morning of day 1: 3300 g ±")
        .contains("Lightest on the evening of day 1: 300 g ±")
        // (3300 + 300)/2, 300 and (2300 + 1300)/2, and a third of their sum.
        .contains("Mean over the days: 1300 g ±");
    assertThat(page.select("[aria-labelledby=days-caption] tbody tr").eachText())
        .satisfiesExactly(
            first -> assertThat(first).startsWith("1 2027-05-30 3300 ±").endsWith("300 1800 3800"),
            second -> assertThat(second).startsWith("2 2027-05-31 300 ±"),
            third -> assertThat(third).startsWith("3 2027-06-01 2300 ±"));
    assertThat(page.select("path.chart__line").attr("d").chars().filter(c -> c == 'L').count())
        .isEqualTo(5);
  }

  @Test
  void each_carrier_has_a_share_of_body_mass_where_it_is_given_with_guidance_and_no_verdict(
      TestLedger ledger) {
    Document page = page(ledger, TWO);

    assertThat(page.select("[aria-labelledby=carriers-caption] tbody tr").eachText())
        .satisfiesExactly(
            // 3000 g of 50 kg; with the poles 3500 g.
            ann ->
                assertThat(ann)
                    .startsWith("Ann ANN50 kg; heaviest on the morning of day 1")
                    .endsWith(" 6 7"),
            bo -> assertThat(bo).startsWith("Bo BOheaviest on").endsWith("– –"));
    assertThat(page.select("section[aria-labelledby=carriers-title]").text())
        .contains("US Army", "30 %", "45 %", "common practice");
  }

  @Test
  void the_list_says_what_stays_at_home_and_what_doubles_as_it(TestLedger ledger) {
    Document page = page(ledger, TWO);

    assertThat(page.select("table.bags .bags__bag th").eachText())
        .containsExactly("Ann: in no bag or pocket that has a name", "Bo: Bag");
    assertThat(page.select("table.bags .bags__thing .trip__gloss").eachText())
        .containsExactly(
            "2 × BAR stays at home: POLE doubles as it",
            "BODY stays at home",
            "doubles as 2 × BAR of HANG",
            "taken day 1: 3 L, day 3: 2 L",
            "used day 1: 3 L, day 3: 1 L");
  }

  @Test
  void without_days_and_carriers_neither_is_drawn(TestLedger ledger) {
    Document page = page(ledger, "{\"code\":\"T\",\"name\":\"t\",\"lines\":[{\"part\":\"BODY\"}]}");

    assertThat(page.select("#days-title, #carriers-title")).isEmpty();
    assertThat(page.select(".lead").text()).startsWith("Total pack 300 g");
  }
}
