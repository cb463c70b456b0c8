package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

/** The table of trips: sorted, filtered and as a file. */
@FeatureTest
class TripTableTest {

  private TestLedger ledger;

  /** One dated late, one dated early with nothing in the pack, one not weighed, one too heavy. */
  @BeforeEach
  void four_trips(TestLedger ledger) {
    this.ledger = ledger;
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("TARP", "Tarp", "rain", 2, "400 g");
    workshop.part("POT", "Pot", "cook", 1, null);
    trip(
        """
        {"code":"LATE","name":"Late moor","starts":"2027-09-01","days":2,"lines":[{"part":"TARP"},
         {"item":{"name":"oats","system":"food","mass":"100 g"},"carry":"consumable"}]}
        """);
    trip(
        """
        {"code":"EARLY","name":"=Early fell","starts":"2027-05-08","days":1,
         "lines":[{"part":"TARP","carry":"worn"}]}
        """);
    trip("{\"code\":\"PLAN\",\"name\":\"A plan\",\"lines\":[{\"part\":\"POT\"}]}");
    trip(
        """
        {"code":"ROCK","name":"Stones","lines":[
         {"item":{"name":"stones","mass":"9000000 kg"},"quantity":3}]}
        """);
  }

  private void trip(String body) {
    ledger.api().post("/trips", body).expect(201);
  }

  private Document page(String asked) {
    return ledger.pages().get("/trips?" + asked).expect(200).page();
  }

  private static List<String> codes(Document page) {
    return page.select("tbody th .code").eachText();
  }

  @Test
  void unless_it_is_asked_otherwise_those_not_dated_come_first_then_the_latest() {
    Document page = page("");

    assertThat(codes(page)).containsExactly("PLAN", "ROCK", "LATE", "EARLY");
    assertThat(page.select("caption").text()).startsWith("4 trips; total pack is");
    assertThat(page.select("th[aria-sort]").eachAttr("aria-sort")).containsExactly("descending");
    assertThat(page.select("th a.sorted").text()).isEqualTo("Day");
  }

  @ParameterizedTest
  @CsvSource({
    "day, descending, PLAN ROCK LATE EARLY",
    "day, ascending, EARLY LATE PLAN ROCK",
    "name, ascending, EARLY PLAN LATE ROCK",
    "name, descending, ROCK LATE PLAN EARLY",
    "code, ascending, EARLY LATE PLAN ROCK",
    "code, descending, ROCK PLAN LATE EARLY",
    "total-pack, descending, LATE PLAN ROCK EARLY",
    "total-pack, ascending, LATE PLAN ROCK EARLY",
    "total-pack-uncertainty, descending, LATE PLAN ROCK EARLY",
    "skin-out, descending, LATE EARLY PLAN ROCK",
    "skin-out, ascending, EARLY LATE PLAN ROCK",
    "skin-out-uncertainty, descending, LATE EARLY PLAN ROCK",
    "no-such-column, descending, PLAN ROCK LATE EARLY"
  })
  void every_column_sorts_and_what_is_not_known_comes_last(
      String column, String order, String codes) {
    Document page = page("sort=" + column + "&order=" + order);

    assertThat(codes(page)).containsExactly(codes.split(" "));
    assertThat(page.select("th[aria-sort]").eachAttr("aria-sort")).containsExactly(order);
  }

  @Test
  void a_heading_sorts_and_then_turns_and_keeps_the_filter() {
    Document page = page("text=la");
    String bySkinOut = page.select("thead a:contains(Skin-out, g)").attr("href");

    Document sorted = ledger.pages().get(bySkinOut).expect(200).page();

    assertThat(bySkinOut).contains("text=la").contains("order=descending");
    assertThat(codes(sorted)).containsExactly("LATE", "PLAN");
    assertThat(sorted.select("th[aria-sort=descending]").text()).isEqualTo("Skin-out, g");
    assertThat(sorted.select("thead a:contains(Skin-out, g)").attr("href"))
        .contains("order=ascending");
    assertThat(sorted.select("form.filter [name=sort]").val()).isEqualTo("skin-out");
    assertThat(sorted.select("a[download]").attr("href"))
        .isEqualTo("/trips.csv?text=la&sort=skin-out&order=descending");
  }

  @Test
  void the_table_is_filtered_by_code_or_name() {
    Pages pages = ledger.pages();
    Document page =
        pages
            .submit(pages.get("/trips").expect(200), "form.filter", "text", " STONES ")
            .expect(200)
            .page();

    assertThat(codes(page)).containsExactly("ROCK");
    assertThat(page.select("caption").text()).startsWith("1 of 4 trips holding “STONES”; ");
    assertThat(page.select("form.filter a[href=/trips]").text()).isEqualTo("Show all");
    assertThat(codes(page("text=early"))).containsExactly("EARLY");
    assertThat(codes(page("text=nothing-is-called-this"))).isEmpty();
  }

  @Test
  void the_file_holds_the_same_rows_exactly_and_nothing_a_spreadsheet_would_run(TestLedger other) {
    Answer file = ledger.pages().get("/trips.csv?sort=code").expect(200);

    assertThat(file.header("Content-Type")).startsWith("text/csv;").contains("charset=UTF-8");
    assertThat(file.header("Content-Disposition")).contains("attachment").contains("trips.csv");
    assertThat(file.body()).endsWith("\r\n");
    List<String> lines = file.body().lines().toList();
    assertThat(lines.get(0))
        .isEqualTo(
            "code,name,starts,ends,days [d],lines,"
                + "total pack [g],expanded uncertainty of the total pack [g],"
                + "without a mass in the total pack,"
                + "skin-out [g],expanded uncertainty of skin-out [g],without a mass in skin-out");
    assertThat(lines.get(1))
        .matches("EARLY,'=Early fell,2027-05-08,2027-05-08,1,1,,,0,400,[0-9.]+,0");
    assertThat(lines.get(2))
        .matches("LATE,Late moor,2027-09-01,2027-09-02,2,2,500,[0-9.]+,0,500,[0-9.]+,0");
    assertThat(lines.subList(3, lines.size()))
        .containsExactly("PLAN,A plan,,,,1,,,1,,,1", "ROCK,Stones,,,,1,,,,,,");

    assertThat(ledger.pages().get("/trips.csv?text=plan").body().lines()).hasSize(2);
    assertThat(other.pages().get("/trips.csv").expect(200).body().lines()).hasSize(1);
    assertThat(page("").select("main").text())
        .contains("Text that a spreadsheet would run as a formula is given a leading apostrophe.");
  }
}
