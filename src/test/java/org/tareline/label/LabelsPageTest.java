package org.tareline.label;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.QrReader;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;

@FeatureTest
class LabelsPageTest {

  @Autowired private TestClock clock;

  private TestLedger ledger;

  @BeforeEach
  void threePartsAndARig(TestLedger fresh) {
    ledger = fresh;
    clock.stopAt(Instant.parse("2027-05-01T10:00:00Z"));
    ledger
        .api()
        .post(
            "/scales",
            Map.of("code", "K1", "name", "K1", "readability", "0.1 g", "capacity", "5 kg"))
        .expect(201);
    part("TP 1", "Tarp", "rain", "120 g");
    part("TQ", "Top quilt", "sleep", null);
    part("UQ", "Underquilt", "sleep", null);
    weigh("TQ", "560", "2027-04-11");
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"NIGHT\",\"name\":\"For the night\",\"lines\":[{\"part\":\"TQ\",\"role\":\"top quilt\"},"
                + "{\"part\":\"UQ\",\"role\":\"underquilt\"}]}")
        .expect(201);
  }

  @Test
  void a_label_says_code_name_mass_and_day_and_unknown_is_not_weighed() {
    Document page = labels("show=both");

    // Stated within 10 %: U = 1.96 × 12 g/√3 = 13.6 g. Weighed: 1.96 × √2 × 0.1 g/√12 = 0.08 g.
    assertThat(page.select(".label__words").eachText())
        .containsExactly(
            "TP 1 Tarp 120 g ± 14 g stated, 2027-05-01",
            "TQ Top quilt 560.00 g ± 0.08 g weighed 2027-04-11",
            "UQ Underquilt not weighed 2027-05-01",
            "NIGHT For the night at least 560.00 g ± 0.08 g complete, 2027-05-01");
    assertThat(page.select("h2").text()).isEqualTo("4 labels");
  }

  @Test
  void the_code_on_it_opens_bench_with_the_thing_filled_in() {
    Document page = labels("show=both");

    List<String> read = page.select(".label__qr").stream().map(QrReader::read).toList();

    String server = ledger.server().address();
    assertThat(read)
        .containsExactly(
            server + "/?part=TP%201",
            server + "/?part=TQ",
            server + "/?part=UQ",
            server + "/?rig=NIGHT");
    Document bench =
        ledger.pages().get(read.get(0).substring(server.length()).replace("%20", " ")).page();
    assertThat(bench.select("#part").val()).isEqualTo("TP 1");
    assertThat(page.select(".label__qr").get(0).attr("aria-label"))
        .isEqualTo("Opens Bench to weigh TP 1");
  }

  @ParameterizedTest
  @CsvSource({"Ölmütze", "A+B#1", "a_b.c-d", "漢字 7"})
  void any_code_comes_back_from_its_label(String code) {
    part(code, "A thing", "other", null);

    Document page = ledger.pages().get("/labels?show=parts&codes={c}", code).expect(200).page();
    String read = QrReader.read(page.expectFirst(".label__qr"));

    assertThat(read).startsWith(ledger.server().address() + "/?part=");
    String value = read.substring(read.indexOf('=') + 1);
    assertThat(value).matches("[A-Za-z0-9._%-]+");
    assertThat(URLDecoder.decode(value, StandardCharsets.UTF_8)).isEqualTo(code);
  }

  @Test
  void the_longest_code_fits() {
    String code = "L" + "ö".repeat(59);
    part(code, "A thing", "other", null);

    Document page = ledger.pages().get("/labels?show=parts&codes={c}", code).expect(200).page();

    assertThat(QrReader.read(page.expectFirst(".label__qr"))).endsWith("%C3%B6".repeat(59));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "show=parts|TP 1,TQ,UQ",
        "show=rigs|NIGHT",
        "show=parts&system=sleep|TQ,UQ",
        "show=parts&since=2027-04-11|TQ",
        "show=parts&since=2027-04-12|",
        "show=both&system=sleep&since=2027-01-01|TQ,NIGHT",
        "show=rigs&codes=uq,night;TQ|UQ,NIGHT,TQ",
        "show=parts&codes=TQ%0D%0ATQ|TQ,TQ",
      })
  void those_asked_for_are_shown(String query, @Nullable String codes) {
    assertThat(String.join(",", labels(query).select(".label__code").eachText()))
        .isEqualTo(codes == null ? "" : codes);
  }

  @Test
  void a_code_that_was_changed_still_names_its_thing() {
    ledger.api().put("/parts/TQ", "{\"code\":\"TOPQ\",\"name\":\"Top quilt\"}").expect(200);

    assertThat(labels("show=parts&codes=TQ").select(".label__code").text()).isEqualTo("TOPQ");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "show=parts&codes=TQ,NONE|codes|no part and no rig NONE",
        "show=parts&since=spring|since|Give the time",
        "show=parts&system=kitchen|system|Choose one",
        "show=flags|show|parts, rigs or both",
        "show=|show|Give what"
      })
  void what_is_wrong_is_said_and_what_was_typed_is_kept(String query, String field, String said) {
    Document page = ledger.pages().get("/labels?" + query).expect(422).page();

    assertThat(page.select(".errors a").attr("href")).isEqualTo("#" + field);
    assertThat(page.select(".errors").text()).contains(said);
    assertThat(page.select(".label")).isEmpty();
    if (field.equals("codes")) {
      assertThat(page.select("#codes").text()).isEqualTo("TQ,NONE");
    }
  }

  @Test
  void nothing_is_printed_before_something_is_asked_for() {
    Document page = ledger.pages().get("/labels").expect(200).page();

    assertThat(page.select(".label")).isEmpty();
    assertThat(page.select("h2")).isEmpty();
  }

  @Test
  void an_address_that_no_phone_can_reach_is_warned_of() {
    assertThat(labels("show=parts").select(".caution").text())
        .contains("only this machine can reach")
        .contains("SERVER_ADDRESS");
  }

  @Test
  void more_than_ten_sheets_are_shown_in_turn_and_in_a_fixed_number_of_statements() {
    Pages pages = ledger.pages();
    pages.get("/labels?show=both").expect(200);
    int few = ledger.statements(() -> pages.get("/labels?show=both").expect(200)).size();
    for (int i = 0; i < 240; i++) {
      part("Z%03d".formatted(i), "Stake", "hang", null);
    }

    Document first = labels("show=parts");
    Document second = labels("show=parts&page=2");

    assertThat(first.select("h2").text()).isEqualTo("243 labels, here 1 to 240");
    assertThat(first.select(".label")).hasSize(240);
    assertThat(second.select(".label__code").eachText()).containsExactly("Z237", "Z238", "Z239");
    Element next = first.expectFirst("a[rel=next]");
    assertThat(pages.click(next).expect(200).page().select(".label")).hasSize(3);
    assertThat(ledger.statements(() -> pages.get("/labels?show=both").expect(200))).hasSize(few);
  }

  @Test
  void another_ledger_has_no_labels_of_these(TestLedger other) {
    assertThat(other.pages().get("/labels?show=both").expect(200).page().select(".label"))
        .isEmpty();
    other.pages().get("/labels?show=both&codes=TQ").expect(422);
  }

  private Document labels(String query) {
    return ledger.pages().get("/labels?" + query.replace("%0D%0A", "\r\n")).expect(200).page();
  }

  private void part(String code, String name, String system, @Nullable String stated) {
    Map<String, Object> part = new HashMap<>();
    part.putAll(Map.of("code", code, "name", name, "system", system));
    if (stated != null) {
      part.put("stated", Map.of("mass", stated, "tolerance", "10 %"));
    }
    ledger.api().post("/parts", part).expect(201);
  }

  private void weigh(String part, String reading, String day) {
    ledger
        .api()
        .post(
            "/weighings",
            Map.of("part", part, "scale", "K1", "readings", List.of(reading), "weighedAt", day))
        .expect(201);
  }
}
