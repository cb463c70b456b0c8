package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A table in which the comma is the decimal mark: what could be thousands is kept as it was typed,
 * and stays what it was wherever it is read again. Figures are by hand.
 */
@FeatureTest
class DecimalCommaTest {

  private static final String PARTS = "/import/plain";
  private static final String EDIT = "main form";

  private TestLedger ledger;

  @BeforeEach
  void meet(TestLedger empty) {
    ledger = empty;
  }

  private Answer takeParts(String text) {
    return ledger
        .api()
        .post(
            PARTS,
            Map.of(
                "things",
                "parts",
                "text",
                text,
                "columns",
                List.of("code", "name", "stated", "tolerance"),
                "units",
                List.of("", "", "kg", ""),
                "decimalComma",
                true));
  }

  private Answer takeWeighings(String text) {
    return ledger
        .api()
        .post(
            PARTS,
            Map.of(
                "things",
                "weighings",
                "text",
                text,
                "columns",
                List.of("part", "reading", "tare", "tolerance"),
                "units",
                List.of("", "g", "", ""),
                "decimalComma",
                true));
  }

  private void takeBoth() {
    takeParts("code;name;mass;good to\nTARP;Tarp;1,234;0,125 %\nNET;Net;2,345 kg;± 1,250 g\n")
        .expect(200);
    takeWeighings("part;read;tare;good to\nTARP;1,235 kg;1,125 g;1,500 g\nNET;345,678;;2,125 g\n")
        .expect(200);
  }

  private Map<String, Object> part(String code) {
    return row(
        "select stated_ng, stated_typed, stated_half_width_ng, stated_tolerance_typed, revision"
            + " from part where ledger_id = ? and code = ?",
        code);
  }

  private Map<String, Object> weighing(String code) {
    return row(
        "select r.reading_ng, r.typed, w.tare_ng, w.tare_typed, w.tolerance_ng, w.tolerance_typed"
            + " from weighing w join reading r on r.weighing_id = w.id"
            + " join weighing_subject o on o.weighing_id = w.id join part p on p.id = o.subject_id"
            + " where w.ledger_id = ? and o.kind = 'part' and p.code = ?",
        code);
  }

  private Map<String, Object> row(String sql, String code) {
    return ledger.server().database().queryForMap(sql, ledger.member().ledgerId(), code);
  }

  @Test
  void a_page_says_of_a_comma_that_could_part_thousands_what_it_is() {
    takeBoth();

    String page = ledger.pages().get("/parts/TARP").page().text();

    assertThat(page)
        .contains("Read 1,235 kg (decimal comma)")
        .contains("tare 1,125 g (decimal comma)")
        .contains("± 1,500 g (decimal comma)")
        .contains("1,234 kg (decimal comma)")
        .doesNotContain("0,125 % (decimal comma)");
  }

  @Test
  void what_is_kept_is_what_was_typed_and_exactly_what_it_says() {
    takeBoth();

    assertThat(part("TARP"))
        .containsEntry("stated_typed", "1,234 kg")
        .containsEntry("stated_ng", 1_234_000_000_000L)
        .containsEntry("stated_tolerance_typed", "0,125 %")
        .containsEntry("stated_half_width_ng", 1_542_500_000L);
    assertThat(part("NET"))
        .containsEntry("stated_typed", "2,345 kg")
        .containsEntry("stated_ng", 2_345_000_000_000L)
        .containsEntry("stated_tolerance_typed", "± 1,250 g")
        .containsEntry("stated_half_width_ng", 1_250_000_000L);
    assertThat(weighing("TARP"))
        .containsEntry("typed", "1,235 kg")
        .containsEntry("reading_ng", 1_235_000_000_000L)
        .containsEntry("tare_typed", "1,125 g")
        .containsEntry("tare_ng", 1_125_000_000L)
        .containsEntry("tolerance_typed", "1,500 g")
        .containsEntry("tolerance_ng", 1_500_000_000L);
    assertThat(weighing("NET"))
        .containsEntry("typed", "345,678 g")
        .containsEntry("reading_ng", 345_678_000_000L)
        .containsEntry("tolerance_typed", "2,125 g")
        .containsEntry("tolerance_ng", 2_125_000_000L);
    // 1235 g - 1.125 g
    assertThat(
            ledger
                .api()
                .get("/parts/TARP")
                .expect(200)
                .json()
                .at("/estimate/mass/value")
                .asString())
        .isEqualTo("1233.875");
    assertThat(ledger.pages().get("/parts/TARP").expect(200).page().text())
        .contains("Stated as 1,234 kg", "± 0,125 %", "Read 1,235 kg", "tare 1,125 g");
  }

  @Test
  void a_point_that_may_part_thousands_is_refused_where_the_comma_is_said_to_be_the_mark() {
    JsonNode refused =
        takeParts("code;name;mass;good to\nA;One;1.234;\nB;Two;1.234,5;\nC;Three;12.5;1.250 g\n")
            .expect(422)
            .json();

    assertThat(refused.path("problems"))
        .extracting(p -> p.path("line").asInt() + " " + p.path("column").asString())
        .containsExactly("2 mass", "3 mass", "4 good to");
    assertThat(refused.path("problems").path(0).path("reason").asString())
        .contains("the point may part thousands or decimals; write 1234 or 1,234");
    assertThat(refused.path("problems").path(1).path("reason").asString())
        .contains("one decimal mark");
    assertThat(
            ledger
                .server()
                .count("select count(*) from part where ledger_id = ?", ledger.member().ledgerId()))
        .isZero();
    JsonNode plain = takeParts("code;name;mass;good to\nC;Three;12.5 g;1.5 g\n").expect(200).json();
    assertThat(plain.at("/rows/0/values/4").asString()).isEqualTo("12.5 g");
    assertThat(plain.at("/rows/0/values/5").asString()).isEqualTo("12.5 g");
    assertThat(plain.at("/rows/0/values/6").asString()).isEqualTo("± 1.5 g");
  }

  @Test
  void out_in_and_out_again_it_is_the_same_to_the_last_byte(TestLedger other) {
    takeBoth();
    Parcel first = Parcel.of(ledger);
    assertThat(first.rows().get("parts.csv")).contains(",1234,\"1,234 kg\",");
    assertThat(first.rows().get("weighing-readings.csv")).contains("345.678,\"345,678 g\"");

    first.putInto(other).expect(200);

    assertThat(Parcel.of(other).rows()).isEqualTo(first.rows());
    Parcel.Reply again = first.putInto(other).expect(200);
    assertThat(again.inAll("added") + again.inAll("changed")).isZero();
    assertThat(other.api().get("/parts/NET").expect(200).json().at("/stated/mass/value").asString())
        .isEqualTo("2345");
  }

  @Test
  void a_file_that_takes_the_comma_for_thousands_is_refused(TestLedger other) {
    takeBoth();

    Parcel.Reply refused =
        Parcel.of(ledger)
            .with("parts.csv", ",2345,\"2,345 kg\",", ",2345000,\"2,345 kg\",")
            .putInto(other)
            .expect(422);
    Parcel.Reply reading =
        Parcel.of(ledger)
            .with("weighing-readings.csv", "345.678,\"345,678 g\"", "345678,\"345,678 g\"")
            .putInto(other)
            .expect(422);

    assertThat(refused.problem(0)).startsWith("parts.csv").endsWith("stated [g]");
    assertThat(reading.problem(0)).startsWith("weighing-readings.csv").endsWith("reading [g]");
  }

  @Test
  void the_form_saves_what_it_shows_and_asks_about_what_is_typed_anew() {
    takeBoth();
    Pages pages = ledger.pages();

    Answer form = pages.get("/parts/TARP/edit").expect(200);
    assertThat(form.page().select("[name=stated.mass]").val()).isEqualTo("1,234 kg");
    pages.submit(form, EDIT).expect(303);
    assertThat(part("TARP"))
        .containsEntry("stated_typed", "1,234 kg")
        .containsEntry("stated_ng", 1_234_000_000_000L)
        .containsEntry("stated_tolerance_typed", "0,125 %")
        .containsEntry("revision", 2);

    form = pages.get("/parts/NET/edit").expect(200);
    pages.submit(form, EDIT, "name", "Mosquito net").expect(303);
    assertThat(part("NET"))
        .containsEntry("stated_typed", "2,345 kg")
        .containsEntry("stated_ng", 2_345_000_000_000L)
        .containsEntry("stated_tolerance_typed", "± 1,250 g")
        .containsEntry("stated_half_width_ng", 1_250_000_000L);

    form = pages.get("/parts/NET/edit").expect(200);
    Answer asked = pages.submit(form, EDIT, "stated.mass", "2,346 kg").expect(422);
    assertThat(asked.page().select(".errors").text())
        .contains("the comma may part thousands or decimals; write 2346 or 2.346");
    assertThat(asked.page().select("[name=stated.mass]").val()).isEqualTo("2,346 kg");
    // What belongs to the mass alone says nothing of the tolerance.
    pages.submit(form, EDIT, "stated.tolerance", "2,345 kg").expect(422);
    assertThat(part("NET")).containsEntry("revision", 2);
    pages.submit(form, EDIT, "stated.mass", "2.346 kg").expect(303);
    assertThat(part("NET"))
        .containsEntry("stated_typed", "2.346 kg")
        .containsEntry("stated_ng", 2_346_000_000_000L)
        .containsEntry("stated_tolerance_typed", "± 1,250 g");
  }

  @Test
  void an_answer_may_be_sent_back_and_the_value_beside_the_text_says_how_it_reads() {
    takeBoth();
    ObjectNode sent = (ObjectNode) ledger.api().get("/parts/NET").expect(200).json();

    ledger.api().put("/parts/NET", sent).expect(200);
    assertThat(part("NET"))
        .containsEntry("stated_typed", "2,345 kg")
        .containsEntry("stated_ng", 2_345_000_000_000L)
        .containsEntry("stated_tolerance_typed", "± 1,250 g")
        .containsEntry("stated_half_width_ng", 1_250_000_000L);

    ledger.api().post("/parts", sent.deepCopy().put("code", "NET-2")).expect(201);
    assertThat(part("NET-2"))
        .containsEntry("stated_typed", "2,345 kg")
        .containsEntry("stated_ng", 2_345_000_000_000L)
        .containsEntry("stated_half_width_ng", 1_250_000_000L);

    ObjectNode changed = sent.deepCopy();
    ((ObjectNode) changed.at("/stated/mass")).put("value", "2400");
    ledger.api().put("/parts/NET", changed).expect(200);
    assertThat(part("NET"))
        .containsEntry("stated_typed", "2400 g")
        .containsEntry("stated_ng", 2_400_000_000_000L);

    ((ObjectNode) sent.path("stated")).put("mass", "2,345 kg");
    assertThat(ledger.api().put("/parts/NET", sent).expect(400).body())
        .contains("#/stated/mass", "the comma may part thousands or decimals");
  }

  @Test
  void a_variant_has_it_from_the_part_it_is_of() {
    takeBoth();

    ledger.api().post("/parts/NET/variants", Map.of("code", "NET-B")).expect(201);

    assertThat(part("NET-B"))
        .containsEntry("stated_typed", "2,345 kg")
        .containsEntry("stated_ng", 2_345_000_000_000L)
        .containsEntry("stated_tolerance_typed", "± 1,250 g")
        .containsEntry("stated_half_width_ng", 1_250_000_000L);
  }

  @Test
  void the_page_shows_what_it_makes_of_the_comma_and_keeps_the_cell() {
    Pages pages = ledger.pages();
    Answer columns =
        pages
            .submit(
                pages.get("/exchange/table"),
                "form[action=/exchange/table]",
                "text",
                "Code;Name;Weight [g];Tolerance\nA;Peg;12,345;1,250 %\n")
            .expect(200);
    String form = "form[action=/exchange/table/rows]";

    Answer asked = pages.submit(columns, form, "step", "look").expect(422);
    assertThat(asked.page().select("tbody tr").text())
        .contains("the comma may part thousands or decimals");
    Answer preview = pages.submit(columns, form, "step", "look", "comma", "yes").expect(200);
    assertThat(
            preview.page().select("caption:contains(understood)").parents().select("td").eachText())
        .containsSubsequence("12,345 g", "12.345 g", "± 0.1543125 g");
    assertThat(preview.page().select("#comma").hasAttr("checked")).isTrue();

    // The comma that was ticked is sent again with the form.
    pages.submit(preview, form, "step", "take").expect(303);
    assertThat(part("A"))
        .containsEntry("stated_typed", "12,345 g")
        .containsEntry("stated_ng", 12_345_000_000L)
        .containsEntry("stated_tolerance_typed", "1,250 %")
        .containsEntry("stated_half_width_ng", 154_312_500L);
  }

  @Test
  void the_tolerance_beside_the_table_is_read_by_the_same_mark() {
    takeParts("code;name;mass;good to\nA;One;;\n").expect(200);

    JsonNode done =
        ledger
            .api()
            .post(
                PARTS,
                Map.of(
                    "things", "weighings",
                    "text", "part;read\nA;\"12,345 g;12,346 g\"\n",
                    "columns", List.of("part", "reading"),
                    "decimalComma", true,
                    "tolerance", "1,250 g"))
            .expect(200)
            .json();

    assertThat(done.at("/rows/0/values").toString())
        .contains("12,345 g; 12,346 g", "12.345 g; 12.346 g", "± 1.25 g");
    assertThat(
            ledger.api().get("/parts/A").expect(200).json().at("/evidence/0/readings").toString())
        .isEqualTo("[\"12,345 g\",\"12,346 g\"]");
  }
}
