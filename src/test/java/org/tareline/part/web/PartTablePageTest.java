package org.tareline.part.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.part.ManyParts;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

@FeatureTest
class PartTablePageTest {

  /** A tarp weighed, stakes weighed by the eight, bars stated, a net of which nothing is known. */
  private static void fill(TestLedger ledger) {
    part(ledger, "'code':'TP','name':'Tarp, grey','system':'rain'");
    part(ledger, "'code':'ST','name':'Stake','system':'rain','owned':8");
    part(
        ledger,
        "'code':'BAR','name':'Spreader bar','system':'hang','owned':2,'stated':{'mass':'95'}");
    part(ledger, "'code':'NET','name':'=Net','system':'hang'");
    ledger
        .api()
        .post(
            "/scales",
            json(
                "'code':'K1','name':'Bench','readability':'0.1','capacity':'5 kg','spanTolerance':'0.1 %'"))
        .expect(201);
    weighing(ledger, "'part':'TP','readings':['340','340'],'weighedAt':'2026-04-11'");
    weighing(ledger, "'part':'ST','readings':['95.4'],'count':8,'weighedAt':'2026-05-01'");
  }

  @Test
  void the_table_says_what_each_part_weighs_and_what_all_that_is_owned_does(TestLedger ledger) {
    fill(ledger);

    Document page = ledger.pages().get("/parts").expect(200).page();

    assertThat(page.select("caption").text()).startsWith("4 parts");
    assertThat(codes(page)).containsExactly("BAR", "NET", "ST", "TP");
    assertThat(page.select("tbody tr").get(1).text()).contains("not weighed").contains("not known");
    assertThat(page.select("tbody tr").get(2).select("data").eachAttr("value"))
        .containsExactly("11.925", "95.4");
    // 2 × 95 + 8 × 11.925 + 340 g; the net is missing
    assertThat(page.select("tfoot data").val()).isEqualTo("625.4");
    assertThat(page.select("tfoot th").text()).isEqualTo("All 12 owned, at least");
    assertThat(page.select(".caution").text()).endsWith("NET.");
  }

  @Test
  void rows_that_do_not_add_up_as_shown_say_so_and_rows_that_do_say_nothing(TestLedger ledger) {
    part(ledger, "'code':'A','name':'A','stated':{'mass':'10.4','tolerance':'3 g'}");
    part(ledger, "'code':'B','name':'B','stated':{'mass':'10.4','tolerance':'3 g'}");

    // Shown as 10 and 10 and 21
    Document page = ledger.pages().get("/parts").expect(200).page();
    assertThat(page.select("tbody tr").get(0).select("data").get(1).text()).isEqualTo("10");
    assertThat(page.select("tfoot data").text()).isEqualTo("21");
    assertThat(page.select("main").text()).contains("do not add up in the last digit");

    assertThat(ledger.pages().get("/parts?text=A").expect(200).page().select("main").text())
        .doesNotContain("do not add up");
  }

  @Test
  void the_table_is_filtered_by_text_system_and_what_waits_for_the_scale(TestLedger ledger) {
    fill(ledger);

    shows(ledger, "text=TP", "TP");
    shows(ledger, "text=GREY", "TP");
    shows(ledger, "text=s", "BAR", "ST");
    shows(ledger, "system=hang", "BAR", "NET");
    shows(ledger, "waiting=on", "BAR", "NET");
    shows(ledger, "waiting=on&text=net", "NET");
    shows(ledger, "system=no-such", "BAR", "NET", "ST", "TP");
    shows(ledger, "text=nothing-is-called-this");
  }

  @Test
  void every_column_sorts_both_ways_and_what_is_not_known_comes_last(TestLedger ledger) {
    fill(ledger);

    shows(ledger, "sort=code&order=ascending", "BAR", "NET", "ST", "TP");
    shows(ledger, "sort=code&order=descending", "TP", "ST", "NET", "BAR");
    shows(ledger, "sort=name&order=ascending", "NET", "BAR", "ST", "TP");
    shows(ledger, "sort=mass&order=descending", "TP", "BAR", "ST", "NET");
    shows(ledger, "sort=mass&order=ascending", "ST", "BAR", "TP", "NET");
    shows(ledger, "sort=uncertainty&order=descending", "BAR", "TP", "ST", "NET");
    shows(ledger, "sort=owned&order=descending", "ST", "BAR", "NET", "TP");
    shows(ledger, "sort=together&order=descending", "TP", "BAR", "ST", "NET");
    shows(ledger, "sort=together-uncertainty&order=descending", "BAR", "TP", "ST", "NET");
    shows(ledger, "sort=system&order=ascending", "BAR", "NET", "ST", "TP");
    shows(ledger, "sort=basis&order=ascending", "BAR", "ST", "TP", "NET");
    shows(ledger, "sort=weighed&order=descending", "ST", "TP", "BAR", "NET");
    shows(ledger, "sort=no-such-column&order=ascending", "BAR", "NET", "ST", "TP");
  }

  private static void shows(TestLedger ledger, String asked, String... codes) {
    Document page = ledger.pages().get("/parts?" + asked).expect(200).page();

    assertThat(codes(page)).as(asked).containsExactly(codes);
    assertThat(page.select("tfoot td")).as(asked).isNotEmpty();
    assertThat(page.select("th[aria-sort]").eachAttr("aria-sort"))
        .as(asked)
        .containsExactly(asked.contains("descending") ? "descending" : "ascending");
  }

  @Test
  void a_heading_sorts_and_then_turns_and_keeps_the_filter(TestLedger ledger) {
    fill(ledger);

    Document page = ledger.pages().get("/parts?text=s&system=rain").expect(200).page();
    String byMass = page.select("thead a:contains(One, g)").attr("href");
    assertThat(byMass).contains("text=s").contains("system=rain").contains("order=descending");
    Document sorted = ledger.pages().get(byMass.replace("&amp;", "&")).expect(200).page();

    assertThat(codes(sorted)).containsExactly("ST");
    assertThat(sorted.select("thead a:contains(One, g)").attr("href")).contains("order=ascending");
    assertThat(sorted.select("th[aria-sort=descending]").text()).isEqualTo("One, g");
  }

  @Test
  void the_file_holds_the_same_rows_exactly_and_nothing_a_spreadsheet_would_run(TestLedger ledger) {
    fill(ledger);

    Answer file = ledger.pages().get("/parts.csv?system=hang").expect(200);

    assertThat(file.header("Content-Type")).startsWith("text/csv;").contains("charset=UTF-8");
    assertThat(file.header("Content-Disposition")).contains("attachment").contains("parts.csv");
    List<String> lines = file.body().lines().toList();
    assertThat(lines.get(0))
        .isEqualTo(
            "code,name,system,owned,mass of one [g],expanded uncertainty of one [g],"
                + "mass of all owned [g],expanded uncertainty of all owned [g],basis,last weighed");
    // U = 1.959964 × 5 % of 95 g / √3, and twice that for the two
    assertThat(lines.get(1))
        .isEqualTo("BAR,Spreader bar,hang,2,95,5.375032279,190,10.750064559,estimated,");
    assertThat(lines.get(2)).isEqualTo("NET,'=Net,hang,1,,,,,,");
    assertThat(lines).hasSize(3);
    assertThat(ledger.pages().get("/parts").body())
        .contains("Text that a spreadsheet would run as a formula is given a leading apostrophe.");
  }

  @Test
  void type_ahead_gets_the_few_that_fit_best_first(TestLedger ledger, TestLedger other) {
    fill(ledger);

    JsonNode found = ledger.pages().get("/parts/suggestions?text=t").expect(200).json();

    assertThat(found.path(0).path("code").asString()).isEqualTo("TP");
    assertThat(found.path(0).path("name").asString()).isEqualTo("Tarp, grey");
    assertThat(found.path(0).path("aside").asString()).startsWith("340.0\u00a0g ±");
    assertThat(
            ledger
                .pages()
                .get("/parts/suggestions?text=NET")
                .json()
                .path(0)
                .path("aside")
                .asString())
        .isEqualTo("not weighed");
    assertThat(
            ledger
                .pages()
                .get("/parts/suggestions?text=bar")
                .json()
                .path(0)
                .path("aside")
                .asString())
        .isEqualTo("stated 95\u00a0g ± 5\u00a0g");
    assertThat(ledger.pages().get("/parts/suggestions?text={t}", "%").json().size()).isZero();
    assertThat(other.pages().get("/parts/suggestions?text=t").expect(200).json().size()).isZero();
  }

  @Test
  void type_ahead_gives_no_more_than_twelve(TestLedger ledger, TestServer server) {
    ManyParts.into(ledger, server, 20);

    assertThat(ledger.pages().get("/parts/suggestions?text=part").expect(200).json().size())
        .isEqualTo(12);
  }

  @Test
  void many_parts_take_no_more_statements_than_few(
      TestLedger few, TestLedger many, TestServer server) {
    ManyParts.into(few, server, 2);
    ManyParts.into(many, server, 1_200);
    few.pages().get("/parts").expect(200);
    many.pages().get("/parts").expect(200);

    int forFew = server.statements(() -> few.pages().get("/parts").expect(200)).size();
    int forMany = server.statements(() -> many.pages().get("/parts").expect(200)).size();

    assertThat(forFew).isPositive();
    assertThat(forMany).isEqualTo(forFew);
  }

  @Test
  void many_parts_come_in_pages_that_are_added_up_when_that_is_asked_for(
      TestLedger ledger, TestServer server) {
    ManyParts.into(ledger, server, 450);

    Document first = ledger.pages().get("/parts").expect(200).page();
    assertThat(codes(first)).hasSize(200).startsWith("P 00001").endsWith("P 00200");
    assertThat(first.select("caption").text()).startsWith("450 parts, rows 1 to 200");
    assertThat(first.select("tbody tr").get(199).select("data").eachAttr("value"))
        .containsExactly("100", "100");
    assertThat(first.select(".lead").text()).isEqualTo("All 450 owned: add up what they weigh");
    assertThat(first.select("tfoot")).isEmpty();
    assertThat(first.select("a[rel=prev]")).isEmpty();

    Document added = ledger.pages().click(first.expectFirst(".lead a")).expect(200).page();
    assertThat(codes(added)).isEqualTo(codes(first));
    assertThat(added.select("tfoot data").val()).isEqualTo("45000");
    assertThat(added.select("main").text()).contains("The total is over all 450 rows");

    Document second = ledger.pages().click(first.expectFirst("a[rel=next]")).expect(200).page();
    assertThat(codes(second)).hasSize(200).startsWith("P 00201").endsWith("P 00400");
    assertThat(second.select("tfoot")).isEmpty();
    Document last = ledger.pages().click(added.expectFirst("a[rel=next]")).expect(200).page();
    last = ledger.pages().click(last.expectFirst("a[rel=next]")).expect(200).page();
    assertThat(codes(last)).hasSize(50).startsWith("P 00401").endsWith("P 00450");
    assertThat(last.select("tfoot data").val()).isEqualTo("45000");
    assertThat(last.select("a[rel=next]")).isEmpty();
    assertThat(codes(ledger.pages().get("/parts?page=99").expect(200).page()))
        .isEqualTo(codes(last));
    assertThat(codes(ledger.pages().get("/parts?page=0").expect(200).page()))
        .isEqualTo(codes(first));
    assertThat(ledger.pages().get("/parts.csv").expect(200).body().lines()).hasSize(451);
  }

  @Test
  void however_many_there_are_they_are_sorted_and_filtered_over_all_pages(
      TestLedger ledger, TestServer server) {
    ManyParts.into(ledger, server, 450);
    fill(ledger);

    assertThat(codes(page(ledger, "sort=mass&order=descending"))).startsWith("TP", "P 00001");
    assertThat(codes(page(ledger, "sort=mass&order=descending&page=3"))).endsWith("ST", "NET");
    assertThat(page(ledger, "sort=mass&order=descending").select("tfoot data").val())
        .isEqualTo("45625.4");
    assertThat(codes(page(ledger, "sort=owned&order=descending"))).startsWith("ST", "BAR", "NET");
    assertThat(codes(page(ledger, "sort=code&order=descending"))).startsWith("TP", "ST", "P 00450");
    assertThat(codes(page(ledger, "sort=name&order=descending"))).startsWith("TP", "ST", "BAR");
    assertThat(codes(page(ledger, "waiting=on"))).containsExactly("BAR", "NET");
    assertThat(codes(page(ledger, "text=0044"))).hasSize(11).startsWith("P 00044");
    assertThat(page(ledger, "text=0044").select("tfoot data").val()).isEqualTo("1100");
    Document rain = page(ledger, "system=rain");
    assertThat(codes(rain)).containsExactly("ST", "TP");
    assertThat(rain.select("tfoot data").val()).isEqualTo("435.4");
    assertThat(page(ledger, "system=hang").select(".lead").text()).startsWith("All 453 owned: add");
    assertThat(page(ledger, "system=hang&total=on").select("tfoot data").val()).isEqualTo("45190");
  }

  private static Document page(TestLedger ledger, String asked) {
    return ledger.pages().get("/parts?" + asked).expect(200).page();
  }

  @Test
  void more_than_can_be_added_up_is_said_and_breaks_no_page(TestLedger ledger) {
    part(ledger, "'code':'ANVIL','name':'Anvil','owned':1000000,'stated':{'mass':'9000 kg'}");

    Document page = ledger.pages().get("/parts").expect(200).page();

    assertThat(page.select("tbody").text()).contains("too much to add up");
    assertThat(page.select("tfoot").text()).contains("too much to add up");
    ledger.pages().get("/parts/ANVIL").expect(200);
    ledger.pages().get("/parts.csv").expect(200);
  }

  @Test
  void an_empty_ledger_says_how_to_begin(TestLedger ledger) {
    Document page = ledger.pages().get("/parts").expect(200).page();

    assertThat(page.select("table")).isEmpty();
    assertThat(page.select("main").text()).contains("There are no parts yet");
  }

  private static List<String> codes(Document page) {
    return page.select("tbody th").eachText();
  }

  private static void part(TestLedger ledger, String fields) {
    ledger.api().post("/parts", json(fields)).expect(201);
  }

  private static void weighing(TestLedger ledger, String fields) {
    ledger.api().post("/weighings", json("'scale':'K1'," + fields)).expect(201);
  }

  private static String json(String fields) {
    return ("{" + fields + "}").replace('\'', '"');
  }
}
