package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** Two trips side by side, and a packing list as a file. */
@FeatureTest
class CompareTripsTest {

  private TestLedger ledger;
  private Workshop workshop;

  @BeforeEach
  void pack(TestLedger fresh) {
    ledger = fresh;
    workshop = new Workshop(ledger);
    workshop.weighed("QUILT", "quilt", "sleep", 1, "700 g");
    workshop.weighed("TARP", "tarp", "rain", 1, "400 g");
    workshop.weighed("SHEET", "light tarp", "rain", 1, "300 g");
    workshop.weighed("BOOTS", "boots", "clothing", 1, "900 g");
    workshop.part("POT", "pot", "cook", 1, null);
    trip("ONE", "{\"part\":\"QUILT\"},{\"part\":\"TARP\",\"place\":\"=top\"}");
    trip(
        "TWO", "{\"part\":\"QUILT\"},{\"part\":\"SHEET\"},{\"part\":\"BOOTS\",\"carry\":\"worn\"}");
  }

  private void trip(String code, String lines) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\"%s\",\"name\":\"trip %s\",\"days\":2,\"lines\":[%s]}"
                .formatted(code, code, lines))
        .expect(201);
  }

  private JsonNode compared(String a, String b) {
    return ledger.api().get("/compare?trip=" + a + "&trip=" + b).expect(200).json();
  }

  private static double grams(JsonNode estimate, String of) {
    return Double.parseDouble(estimate.path(of).path("value").asString());
  }

  @Test
  void what_is_on_both_cancels_error_and_all() {
    JsonNode compared = compared("ONE", "TWO");

    assertThat(compared.path("first").asString()).isEqualTo("ONE");
    JsonNode base = compared.path("base");
    assertThat(grams(base.path("a"), "mass")).isEqualTo(1100);
    assertThat(grams(base.path("b"), "mass")).isEqualTo(1000);
    assertThat(grams(base.path("difference"), "mass")).isEqualTo(-100);
    assertThat(base.path("verdict").asString()).isEqualTo("lighter");
    // By hand (JCGM 100:2008, 5.2): each of the two tarps has a reading of u = 0.5 g and a
    // resolution of 1 g on zero and load; the span, 1 % rectangular, is that of one scale and acts
    // on the 100 g between them. The quilt is in neither term.
    double byHand = Math.sqrt(2 * (0.25 + 2.0 / 12) + Math.pow(100 * 0.01 / Math.sqrt(3), 2));
    assertThat(grams(base.path("difference"), "standardUncertainty"))
        .isCloseTo(byHand, within(1e-6));

    List<String> systems = compared.path("systems").findValuesAsString("system");
    assertThat(systems).containsExactly("sleep", "rain", "clothing");
    JsonNode sleep = compared.path("systems").get(0);
    assertThat(grams(sleep.path("difference"), "expandedUncertainty")).isZero();
    assertThat(sleep.path("verdict").asString()).isEqualTo("undecided");
    JsonNode clothing = compared.path("systems").get(2);
    assertThat(clothing.path("a").isNull()).isTrue();
    assertThat(clothing.path("verdict").asString()).isEqualTo("heavier");
    assertThat(compared.path("totalPack")).isEqualTo(base);
    assertThat(compared.path("skinOut").path("verdict").asString()).isEqualTo("heavier");
    assertThat(grams(compared.path("worn").path("difference"), "mass")).isEqualTo(900);
  }

  @Test
  void what_has_no_mass_keeps_the_verdict_open_unless_it_is_on_both() {
    trip("THREE", "{\"part\":\"QUILT\"},{\"part\":\"SHEET\"},{\"part\":\"POT\"}");
    trip("FOUR", "{\"part\":\"QUILT\"},{\"part\":\"TARP\"},{\"part\":\"POT\"}");

    JsonNode differs = compared("ONE", "THREE").path("base");
    assertThat(differs.path("verdict").asString()).isEqualTo("undecided");
    assertThat(differs.path("b").path("missing").toString()).isEqualTo("[\"POT\"]");
    assertThat(compared("FOUR", "THREE").path("base").path("verdict").asString())
        .isEqualTo("lighter");
  }

  @Test
  void a_trip_alone_three_of_them_and_a_rig_beside_a_trip_are_refused() {
    for (String asked :
        List.of("trip=ONE", "trip=ONE&trip=TWO&trip=ONE", "trip=ONE&trip=TWO&rig=X")) {
      JsonNode problem = ledger.api().get("/compare?" + asked).expect(400).json();
      assertThat(problem.path("detail").asString()).as(asked).isNotBlank();
    }
    ledger.api().get("/compare?trip=ONE&trip=NONE").expect(404);
    ledger.api().get("/compare").expect(400);
  }

  @Test
  void no_trip_takes_the_address_of_the_page() {
    JsonNode problem =
        ledger.api().post("/trips", Map.of("code", "Side-by-side", "name", "x")).expect(400).json();

    assertThat(problem.path("errors").findValuesAsString("pointer")).containsExactly("#/code");
  }

  @Test
  void another_ledgers_trip_is_not_there(TestLedger other) {
    other.api().get("/compare?trip=ONE&trip=TWO").expect(404);
    other.pages().get("/trips/side-by-side.csv?trip=ONE&trip=TWO").expect(404);
    other.pages().get("/trips/ONE/packing-list.csv").expect(404);
  }

  @Test
  void the_page_says_it_in_words_and_as_a_file() {
    Document page = ledger.pages().get("/trips/side-by-side?trip=ONE&trip=TWO").expect(200).page();

    assertThat(page.select("p.quote").text())
        .isEqualTo("The total pack of TWO is lighter than that of ONE by 100.0 g ± 2.1 g.");
    assertThat(page.select("tbody tr:not(.bags__bag) th").eachText())
        .containsExactly(
            "base", "worn", "consumables", "total pack", "skin-out", "sleep", "rain", "clothing");
    assertThat(page.select("td.verdict").eachText())
        .contains("the same")
        .noneMatch(words -> words.isBlank());
    assertThat(page.select("select[id=second] option[selected]").val()).isEqualTo("TWO");

    String csv = ledger.pages().get(page.select("a[download]").attr("href")).expect(200).body();
    assertThat(csv.lines().filter(line -> line.startsWith("ONE,TWO,total pack,")).toList())
        .hasSize(1)
        .allMatch(line -> line.startsWith("ONE,TWO,total pack,1100,1000,-100,"))
        .allMatch(line -> line.endsWith(",0,0,lighter"));

    Answer gone = ledger.pages().get("/trips/side-by-side?trip=ONE&trip=NONE").expect(422);
    assertThat(gone.page().select(".errors a").attr("href")).isEqualTo("#first");
    assertThat(gone.page().select("select[id=first] option[selected]").val()).isEqualTo("ONE");
    assertThat(ledger.pages().get("/trips/side-by-side").expect(200).page().select("table"))
        .isEmpty();
  }

  @Test
  void the_packing_list_is_a_file_of_things_with_safe_cells() {
    workshop.rig("BOTH", "both tarps", 1, "TARP", 1, "SHEET");
    trip(
        "CAMP",
        """
        {"rig":"BOTH","quantity":2,"place":"=1+1","leftAtHome":["SHEET"]},{"part":"POT"},
        {"item":{"name":"oats, \\"rolled\\"","system":"food","mass":"250 g"},"quantity":4,"carry":"consumable"}
        """);
    JsonNode list = ledger.api().get("/trips/CAMP").json();
    ledger
        .api()
        .post(
            "/trips/CAMP/packing",
            Map.of(
                "checks",
                List.of(
                    Map.of(
                        "line", list.path("lines").get(1).path("id").asString(),
                        "state", "packed",
                        "key", "one-of-a-kind"))))
        .expect(200);

    Answer file = ledger.pages().get("/trips/CAMP/packing-list.csv").expect(200);

    assertThat(file.header("Content-Type")).startsWith("text/csv");
    assertThat(file.header("Content-Disposition")).contains("packing list CAMP.csv");
    assertThat(file.body())
        .startsWith(
            "trip,carrier,system,bag,rig,quantity,code,name,carry,all [g],expanded uncertainty of all [g],packed\r\n"
                + "CAMP,,rain,'=1+1,BOTH,2,TARP,tarp,base,800,")
        .contains("\r\nCAMP,,cook,,,1,POT,pot,base,,,packed\r\n")
        .contains("\r\nCAMP,,food,,,4,,\"oats, \"\"rolled\"\"\",consumable,1000,")
        .doesNotContain("SHEET");
    assertThat(ledger.pages().get("/trips/CAMP").page().select("a[href$=packing-list.csv]"))
        .hasSize(1);
    assertThat(ledger.pages().get("/trips/CAMP/packing-list").page().select("a[href$=list.csv]"))
        .hasSize(1);
  }
}
