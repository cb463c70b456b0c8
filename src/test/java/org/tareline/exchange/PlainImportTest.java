package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** A table of somebody's own, at the API and by the steps of its page. */
@FeatureTest
class PlainImportTest {

  private static final String COLUMNS = "form[action=/exchange/table/rows]";

  private TestLedger ledger;

  @BeforeEach
  void meet(TestLedger empty) {
    ledger = empty;
  }

  private Answer send(String how, Map<String, Object> table) {
    return ledger.api().post("/import/plain" + how, table);
  }

  private static Map<String, Object> parts(String text, String... columns) {
    return Map.of("things", "parts", "text", text, "columns", List.of(columns));
  }

  private long count(String table) {
    return ledger
        .server()
        .count(
            "select count(*) from " + table + " where ledger_id = ?", ledger.member().ledgerId());
  }

  @Test
  void a_table_with_semicolons_and_decimal_commas_is_read_and_kept_as_it_was_typed() {
    String text =
        "Kürzel;Was;Masse;Rest\nTP1;Tarp;381,5;x\nTP2;\"Tarp; old\";13 1/4 oz;y\nTP3;Net;1,234 kg;z\n";
    Map<String, Object> table =
        Map.of(
            "things",
            "parts",
            "text",
            text,
            "columns",
            List.of("code", "name", "stated", ""),
            "units",
            List.of("", "", "g", ""),
            "decimalComma",
            true);

    JsonNode tried = send("?dryRun=true", table).expect(200).json();
    assertThat(count("part")).isZero();
    send("", table).expect(200);

    assertThat(tried.path("rows").path(0).path("values").toString())
        .isEqualTo("[\"TP1\",\"Tarp\",\"other\",\"1\",\"381,5 g\",\"381.5 g\",\"\"]");
    // 1 oz = 28.349 523 125 g (NIST HB 44, App. C)
    assertThat(tried.path("rows").path(1).path("values").path(5).asString())
        .isEqualTo("375.631181406 g");
    assertThat(tried.path("rows").path(2).path("values").path(5).asString()).isEqualTo("1234 g");
    assertThat(
            ledger.api().get("/parts/TP1").expect(200).json().at("/stated/mass/typed").asString())
        .isEqualTo("381,5 g");
    assertThat(ledger.api().get("/parts/TP2").expect(200).json().path("name").asString())
        .isEqualTo("Tarp; old");
  }

  @Test
  void every_fault_is_told_with_its_line_and_column_and_nothing_is_written() {
    String text = "code,name,mass\nA,One,1,234\nB,,12 g\nC,Three,heavy\nD,Four,5 g\nD,Five,6 g\n";

    JsonNode refused =
        send("", parts(text.replace("1,234", "\"1,234 g\""), "code", "name", "stated"))
            .expect(422)
            .json();

    assertThat(refused.path("problems"))
        .extracting(p -> p.path("line").asInt() + " " + p.path("column").asString())
        .containsExactly("2 mass", "3 name", "4 mass", "6 code");
    assertThat(count("part")).isZero();
  }

  @Test
  void what_is_not_said_of_the_columns_is_asked_for() {
    assertThat(send("", parts("a,b\n1,2\n", "code", "colour")).expect(400).json().path("errors"))
        .extracting(error -> error.path("pointer").asString())
        .containsExactly("#/columns/1", "#/columns");
    assertThat(send("", parts("a,b\n1,2\n", "name", "name")).expect(400).body())
        .contains("Another column says this already", "which column is the code");
    send("", Map.of("things", "boats", "text", "a\n1\n")).expect(400);
    send("", parts("", "code")).expect(400);
    send("", parts("code\n", "code")).expect(400);
  }

  @Test
  void weighings_come_in_with_their_readings_in_the_unit_of_the_column() {
    ledger
        .api()
        .post(
            "/scales",
            "{\"code\":\"K\",\"name\":\"Kitchen\",\"readability\":\"1 g\",\"capacity\":\"5 kg\"}")
        .expect(201);
    ledger.api().post("/parts", "{\"code\":\"A\",\"name\":\"One\"}").expect(201);
    Map<String, Object> table =
        Map.of(
            "things", "weighings",
            "text", "What,First,Second,Day\nA,12,12.5,2026-03-01\nA,340 g,,2026-03-02\n",
            "columns", List.of("part", "reading", "reading", "weighed-at"),
            "units", List.of("", "oz", "oz", ""),
            "scale", "K");

    JsonNode done = send("", table).expect(200).json();
    JsonNode refused =
        send(
                "",
                Map.of(
                    "things",
                    "weighings",
                    "text",
                    "p,r\nA,5\nZ,6\n",
                    "columns",
                    List.of("part", "reading")))
            .expect(422)
            .json();

    assertThat(done.path("rows").path(0).path("values").path(1).asString())
        .isEqualTo("12 oz; 12.5 oz");
    assertThat(done.path("rows").path(0).path("values").path(2).asString())
        .isEqualTo("340.1942775 g; 354.369039062 g");
    assertThat(refused.path("problems").toString()).contains("There is no part Z");
    assertThat(count("weighing")).isEqualTo(2);
    assertThat(
            ledger.api().get("/parts/A").expect(200).json().at("/estimate/mass/value").asString())
        .isEqualTo("340");
  }

  @Test
  void the_page_guesses_the_columns_shows_how_rows_are_understood_and_takes_them() {
    Pages pages = ledger.pages();
    Answer first = pages.get("/exchange/table").expect(200);
    Answer columns =
        pages
            .submit(
                first,
                "form[action=/exchange/table]",
                "text",
                "Code\tName\tWeight [oz]\nA\tPeg\t0.5\nB\tLine, thin\t1 1/4\n")
            .expect(200);
    assertThat(columns.page().select("select[name=columns[2]] option[selected]").val())
        .isEqualTo("stated");
    assertThat(columns.page().select("select[name=units[2]] option[selected]").val())
        .isEqualTo("oz");

    Answer preview = pages.submit(columns, COLUMNS, "step", "look").expect(200);
    assertThat(preview.page().select("[role=status]").text()).contains("2 would be taken in");
    assertThat(
            preview.page().select("caption:contains(understood)").parents().select("td").eachText())
        .contains("0.5 oz", "14.174761562 g", "Line, thin");
    assertThat(count("part")).isZero();

    Answer done = pages.submit(preview, COLUMNS, "step", "take").expect(303);
    assertThat(pages.follow(done).page().select(".done").text()).isEqualTo("2 rows were taken in.");
    assertThat(count("part")).isEqualTo(2);
  }

  @Test
  void the_page_keeps_what_was_typed_when_it_refuses() {
    Pages pages = ledger.pages();
    String text = "Code,Name\nA,Peg\n,Nameless\n";
    Answer columns =
        pages
            .submit(pages.get("/exchange/table"), "form[action=/exchange/table]", "text", text)
            .expect(200);

    Answer refused = pages.submit(columns, COLUMNS, "step", "take").expect(422);

    assertThat(refused.page().select("tbody tr").get(0).text()).startsWith("3 Code");
    assertThat(refused.page().select("textarea[name=text]").val().strip()).isEqualTo(text.strip());
    Answer without = pages.submit(refused, COLUMNS, "step", "look", "columns[0]", "").expect(422);
    assertThat(without.page().select(".errors").text()).contains("which column is the code");
    assertThat(count("part")).isZero();
    Answer empty =
        pages
            .submit(pages.get("/exchange/table"), "form[action=/exchange/table]", "text", " ")
            .expect(422);
    assertThat(empty.page().select("#text-error").text()).contains("Paste a table");
  }

  @Test
  void a_long_table_of_letters_that_take_many_bytes_goes_through_every_step(TestLedger ledger) {
    Pages pages = ledger.pages();
    String text = "code,name,mine\nA,Thing," + "ö".repeat(900_000) + "\n";
    Answer columns =
        pages.upload(
            pages.get("/exchange/table"),
            "form[action=/exchange/table]",
            "file",
            "a.csv",
            text.getBytes(StandardCharsets.UTF_8));

    Answer rows =
        pages.upload(
            columns.expect(200), "form[action=/exchange/table/rows]", "nothing", "", new byte[0]);

    assertThat(columns.page().select("form[action=/exchange/table/rows]").attr("enctype"))
        .isEqualTo("multipart/form-data");
    assertThat(rows.expect(200).page().select("[role=status]").text())
        .startsWith("Every row was understood");
    ledger
        .api()
        .post("/import/plain", Map.of("things", "parts", "text", "x".repeat(1_000_001)))
        .expect(413);
  }
}
