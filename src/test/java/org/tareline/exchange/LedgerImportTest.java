package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.ledger.Members;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** What a ledger that is taken in may be, and what it is refused for. */
@FeatureTest
class LedgerImportTest {

  private static final String PARTS = "id,code,name,system,owned,created-at,revision";
  private static final String ROW =
      "3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b6%d,%s,Thing,hang,1,2027-04-11T17:30:00Z,1";

  private TestServer server;
  private TestLedger ledger;

  @BeforeEach
  void meet(TestServer running, TestLedger empty) {
    server = running;
    ledger = empty;
  }

  private long count(String table) {
    return server.count(
        "select count(*) from " + table + " where ledger_id = ?", ledger.member().ledgerId());
  }

  private static Parcel parts(String... rows) {
    return new Parcel(Map.of("parts.csv", PARTS + "\r\n" + String.join("\r\n", rows) + "\r\n"));
  }

  private static String row(int number, String code) {
    return ROW.formatted(number, code);
  }

  @Test
  void every_bad_cell_is_named_by_file_line_and_column_and_nothing_is_written() {
    Parcel parcel =
        parts(
            row(1, "A"),
            row(2, "B").replace(",1,2027", ",many,2027"),
            row(3, "C").replace("hang", "flight").replace("17:30:00Z", "teatime"),
            row(4, "D").replace("Thing", ""),
            "too,short",
            row(5, "new"));

    Parcel.Reply tried = parcel.tryInto(ledger).expect(200);
    Parcel.Reply refused = parcel.putInto(ledger).expect(422);

    assertThat(List.of(0, 1, 2, 3, 4, 5))
        .allMatch(at -> tried.problem(at).equals(refused.problem(at)));
    assertThat(List.of(0, 1, 2, 3, 4, 5).stream().map(refused::problem))
        .containsExactly(
            "parts.csv 3 owned",
            "parts.csv 4 system",
            "parts.csv 4 created-at",
            "parts.csv 5 name",
            "parts.csv 6 ",
            "parts.csv 7 code");
    assertThat(refused.json().path("total").asInt()).isEqualTo(6);
    assertThat(refused.reason(1)).contains("one of", "hang", "flight");
    assertThat(refused.of("parts.csv", "refused")).isEqualTo(5);
    assertThat(count("part")).isZero();
  }

  @Test
  void what_names_a_refused_row_is_refused_with_it_and_not_told_twice() {
    Parcel parcel =
        new Parcel(
            Map.of(
                "parts.csv",
                PARTS + "\r\n" + row(1, "A").replace("hang", "flight") + "\r\n",
                "rigs.csv",
                "id,code,name,created-at,revision\r\n3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b61,R,Rig,2027-04-11T17:30:00Z,1\r\n",
                "rig-lines.csv",
                "id,rig,position,part,quantity,role\r\n3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b62,R,0,A,1,body\r\n"
                    + "3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b63,R,1,NOBODY,1,body\r\n"));

    Parcel.Reply refused = parcel.putInto(ledger).expect(422);

    assertThat(refused.problem(0)).isEqualTo("parts.csv 2 system");
    assertThat(refused.problem(1)).isEqualTo("rig-lines.csv 3 part");
    assertThat(refused.json().path("total").asInt()).isEqualTo(2);
    assertThat(refused.of("rig-lines.csv", "refused")).isEqualTo(2);
    assertThat(count("rig")).isZero();
  }

  @Test
  void a_rig_that_would_hold_itself_is_refused_and_its_way_round_named() {
    Parcel sample = Parcel.of(server.openSampleLedger());
    String lines = String.valueOf(sample.files().get("rig-lines.csv"));
    String header = lines.substring(0, lines.indexOf("\r\n"));
    assertThat(header).isEqualTo("id,rig,position,part,child-rig,quantity,role");
    Parcel circle =
        sample.with(
            "rig-lines.csv",
            header,
            header
                + "\r\n3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b62,STRAP-SET,9,,BRIDGE-3-SUMMER,1,suspension");

    Parcel.Reply refused = circle.putInto(ledger).expect(422);

    assertThat(refused.json().path("total").asInt()).isEqualTo(1);
    assertThat(refused.problem(0)).startsWith("rig-lines.csv").endsWith("child-rig");
    assertThat(refused.reason(0)).contains("would hold itself", "STRAP-SET → ", "BRIDGE-3-SUMMER");
    assertThat(count("rig_line")).isZero();
  }

  @Test
  void an_exact_mass_that_is_not_what_was_typed_is_refused() {
    Parcel.Reply refused =
        Parcel.of(server.openSampleLedger())
            .with("parts.csv", ",430,430 g,", ",43,430 g,")
            .putInto(ledger)
            .expect(422);

    assertThat(refused.problem(0)).isEqualTo("parts.csv 2 stated [g]");
    assertThat(refused.reason(0)).contains("43 g", "430 g");
    assertThat(count("part")).isZero();
  }

  @ParameterizedTest
  @CsvSource({
    "parts.csv, 6.8 kN, strength",
    "trips.csv, 4 °C, coldest-night",
    "rig-loads.csv, 80 kg ± 2 kg, lies",
    "rig-loads.csv, 2.49 m, ridge-length",
    "rig-load-ends.csv, 34 deg, body-angle",
    "rig-load-ends.csv, 120 GPa ± 10 %, bar-modulus",
    "rig-load-elements.csv, 3.5 %, breaking-stretch",
    "set-ups.csv, 38 cm, sag",
    "revisions.csv, '\"{\"\"code\"\":\"\"RIP-40\"\"', content",
  })
  void what_is_read_each_time_that_it_is_used_is_refused_where_it_does_not_read(
      String file, String text, String column) {
    Parcel sample = Parcel.of(server.openSampleLedger());

    Parcel.Reply refused =
        sample
            .with(file, text, text.startsWith("\"") ? "\"" : "strong")
            .putInto(ledger)
            .expect(422);

    assertThat(refused.problem(0)).startsWith(file).endsWith(' ' + column);
    assertThat(count("part")).isZero();
  }

  @Test
  void a_weighing_that_the_ledger_has_is_not_changed_by_a_file() {
    Parcel sample = Parcel.of(server.openSampleLedger());
    sample.putInto(ledger).expect(200);
    Map<String, String> before = Parcel.of(ledger).rows();

    Parcel.Reply note =
        sample
            .with("weighings.csv", "Old notebook, the pair", "A new story")
            .putInto(ledger)
            .expect(422);
    Parcel.Reply reading =
        sample.with("weighing-readings.csv", "32 1/2 oz", "33 oz").putInto(ledger).expect(422);

    assertThat(note.problem(0)).startsWith("weighings.csv").endsWith(" note");
    assertThat(note.reason(0)).contains("Old notebook, the pair", "not changed by an import");
    assertThat(reading.problem(0)).startsWith("weighing-readings.csv");
    assertThat(Parcel.of(ledger).rows()).isEqualTo(before);
  }

  @Test
  void a_later_save_of_a_thing_replaces_it_with_its_lines_and_an_earlier_one_is_refused() {
    TestLedger home = FullLedger.open(server);
    Parcel first = Parcel.of(home);
    first.putInto(ledger).expect(200);
    String trial = "/rigs/BRIDGE-3-SUMMER";
    String body = home.api().get(trial).expect(200).body();
    home.api()
        .put(trial, body.replaceFirst("\"name\":\"[^\"]+\"", "\"name\":\"The bridge, later\""))
        .expect(200);
    home.api()
        .put(
            "/parts/TRIAL-BODY",
            home.api()
                .get("/parts/TRIAL-BODY")
                .expect(200)
                .body()
                .replace("A trial body", "A body, tried"))
        .expect(200);
    home.api()
        .put(
            "/trips/UPLAND-SEP",
            "{\"code\":\"UPLAND-SEP\",\"name\":\"Upland\",\"starts\":\"2026-09-17\",\"days\":5,\"lines\":[{\"part\":\"PACK\",\"carry\":\"base\"}]}")
        .expect(200);
    Parcel later = Parcel.of(home);

    Parcel.Reply changed = later.putInto(ledger).expect(200);

    assertThat(changed.of("rigs.csv", "changed")).isEqualTo(1);
    assertThat(changed.of("parts.csv", "changed")).isEqualTo(1);
    assertThat(changed.of("trips.csv", "changed")).isEqualTo(1);
    assertThat(changed.of("revisions.csv", "added")).isEqualTo(3);
    Parcel now = Parcel.of(ledger);
    for (String file :
        List.of("rigs.csv", "rig-lines.csv", "parts.csv", "cut-lines.csv", "trips.csv")) {
      assertThat(now.files().get(file)).as(file).isEqualTo(later.files().get(file));
    }
    assertThat(sorted(now, "trip-lines.csv")).isEqualTo(sorted(later, "trip-lines.csv"));
    assertThat(sorted(now, "trip-amounts.csv")).isEqualTo(sorted(later, "trip-amounts.csv"));
    Parcel.Reply refused = first.putInto(ledger).expect(422);
    assertThat(refused.json().toString()).contains("is no later one, and nothing is overwritten");
    assertThat(Parcel.of(ledger).rows()).isEqualTo(now.rows());
  }

  private static List<String> sorted(Parcel parcel, String file) {
    return String.valueOf(parcel.files().get(file)).lines().sorted().toList();
  }

  @Test
  void things_come_beside_those_that_are_there_and_a_code_that_is_taken_is_refused() {
    ledger.api().post("/parts", "{\"code\":\"MINE\",\"name\":\"Mine\"}").expect(201);

    Parcel.Reply added = parts(row(1, "A"), row(2, "B")).putInto(ledger).expect(200);
    Parcel.Reply taken = parts(row(3, "C"), row(4, "mine")).putInto(ledger).expect(422);
    Parcel.Reply twice = parts(row(5, "D"), row(5, "E"), row(6, "d")).putInto(ledger).expect(422);

    assertThat(added.of("parts.csv", "added")).isEqualTo(2);
    assertThat(taken.problem(0)).isEqualTo("parts.csv 3 code");
    assertThat(twice.json().path("total").asInt()).isEqualTo(2);
    assertThat(count("part")).isEqualTo(3);
    ledger.api().get("/parts/A").expect(200);
  }

  @Test
  void a_column_that_may_be_empty_may_be_missing_and_one_that_nobody_knows_is_refused() {
    parts(row(1, "A")).putInto(ledger).expect(200);

    Parcel.Reply unknown =
        new Parcel(Map.of("parts.csv", PARTS + ",colour\r\n" + row(2, "B") + ",red\r\n"))
            .putInto(ledger)
            .expect(422);
    Parcel.Reply missing =
        new Parcel(Map.of("parts.csv", "id,code\r\n")).putInto(ledger).expect(422);
    // Where a line was left empty above them, the headings are the headings all the same.
    new Parcel(Map.of("parts.csv", "\r\n" + PARTS + "\r\n" + row(3, "C") + "\r\n"))
        .putInto(ledger)
        .expect(200);

    assertThat(unknown.problem(0)).isEqualTo("parts.csv 1 colour");
    assertThat(missing.problem(0)).isEqualTo("parts.csv 1 name");
    assertThat(count("part")).isEqualTo(2);
  }

  @Test
  void a_file_that_was_changed_on_the_way_is_refused_by_its_digest_and_by_its_count() {
    Parcel sample = Parcel.of(server.openSampleLedger());
    Map<String, String> changed = new LinkedHashMap<>(sample.files());
    changed.computeIfPresent("parts.csv", (file, text) -> text.replace("Wash bag", "Wish bag"));
    Map<String, String> lost = new LinkedHashMap<>(sample.files());
    lost.remove("set-ups.csv");
    Map<String, String> miscounted = new LinkedHashMap<>(sample.files());
    miscounted.computeIfPresent(
        Manifest.FILE, (file, text) -> text.replaceFirst("\"rows\" : 55", "\"rows\" : 56"));

    Parcel.Reply byDigest = new Parcel(changed).putInto(ledger).expect(422);
    Parcel.Reply byName = new Parcel(lost).putInto(ledger).expect(422);
    Parcel.Reply byCount = new Parcel(miscounted).putInto(ledger).expect(422);

    assertThat(byDigest.problem(0)).isEqualTo("parts.csv 1 ");
    assertThat(byDigest.reason(0)).contains("SHA-256");
    assertThat(byName.problem(0)).isEqualTo("set-ups.csv 1 ");
    assertThat(byCount.reason(0)).contains("56 rows", "55");
    assertThat(count("part")).isZero();
  }

  @Test
  void names_that_are_paths_or_unknown_or_there_twice_are_refused_and_so_is_what_is_no_zip() {
    for (String name :
        List.of(
            "../parts.csv", "/etc/parts.csv", "sub/parts.csv", "..\\parts.csv", "C:parts.csv")) {
      Parcel.Reply path = new Parcel(Map.of(name, "id\r\n")).putInto(ledger).expect(422);
      assertThat(path.reason(0)).as(name).contains("path in its name");
    }
    assertThat(new Parcel(Map.of("notes.csv", "id\r\n")).putInto(ledger).expect(422).reason(0))
        .contains("no file of this name");
    byte[] zip = new Parcel(Map.of("parts.csv", PARTS + "\r\n", "partz.csv", PARTS + "\r\n")).zip();
    byte[] twice =
        new String(zip, StandardCharsets.ISO_8859_1)
            .replace("partz.csv", "parts.csv")
            .getBytes(StandardCharsets.ISO_8859_1);
    assertThat(Parcel.send(ledger, twice, "").expect(422).reason(0)).contains("twice");
    assertThat(
            Parcel.send(ledger, "no zip at all".getBytes(StandardCharsets.UTF_8), "")
                .expect(422)
                .reason(0))
        .contains("not a zip");
    assertThat(count("part")).isZero();
  }

  @Test
  void a_zip_that_bursts_is_refused_before_it_is_unpacked() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      zip.putNextEntry(new ZipEntry("parts.csv"));
      byte[] spaces = new byte[1 << 20];
      Arrays.fill(spaces, (byte) ' ');
      for (int i = 0; i < 64; i++) {
        zip.write(spaces);
      }
    }
    assertThat(bytes.size()).as("packed").isLessThan(1 << 17);

    Parcel.Reply refused = Parcel.send(ledger, bytes.toByteArray(), "").expect(422);

    assertThat(refused.reason(0)).contains("times as large");
  }

  @Test
  void text_that_is_no_csv_or_not_utf_8_is_refused_at_its_line() throws IOException {
    Parcel.Reply quote = parts(row(1, "A"), row(2, "\"B")).putInto(ledger).expect(422);
    ByteArrayOutputStream latin = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(latin)) {
      zip.putNextEntry(new ZipEntry("parts.csv"));
      zip.write(
          (PARTS + "\r\n" + row(1, "A").replace("Thing", "Öse") + "\r\n")
              .getBytes(StandardCharsets.ISO_8859_1));
    }
    Parcel.Reply bytes = Parcel.send(ledger, latin.toByteArray(), "").expect(422);

    assertThat(quote.problem(0)).isEqualTo("parts.csv 3 ");
    assertThat(quote.reason(0)).contains("quotation mark");
    assertThat(bytes.problem(0)).startsWith("parts.csv ");
    assertThat(bytes.reason(0)).contains("not UTF-8");
    assertThat(count("part")).isZero();
  }

  @Test
  void a_row_after_one_of_several_lines_keeps_its_own_and_no_database_sees_a_control_character() {
    Parcel.Reply refused =
        parts(
                row(1, "A").replace("Thing", "\"A thing\r\nof two lines\""),
                row(2, "B").replace("Thing", "Th\0ing"))
            .putInto(ledger)
            .expect(422);

    assertThat(refused.json().path("total").asInt()).isEqualTo(1);
    assertThat(refused.problem(0)).isEqualTo("parts.csv 4 name");
    assertThat(refused.reason(0)).contains("control characters");
    assertThat(count("part")).isZero();
  }

  @Test
  void where_a_file_does_not_say_who_entered_a_row_and_when_it_is_who_takes_it_in_and_then() {
    Parcel byHand =
        new Parcel(
            Map.of(
                "parts.csv",
                (PARTS + "\r\n" + row(1, "A") + "\r\n")
                    .replace("created-at,", "")
                    .replace("2027-04-11T17:30:00Z,", ""),
                "life-events.csv",
                "id,part,kind,pieces,happened-at\r\n3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b64,A,washed,0,2027-04-11T17:30:00Z\r\n"));

    byHand.putInto(ledger).expect(200);

    assertThat(
            server.count(
                "select count(*) from life_event e join part p on p.id = e.part_id and p.created_at = e.entered_at"
                    + " join ledger l on l.id = e.ledger_id where l.id = ? and e.entered_by = ? and e.entered_at >= l.created_at",
                ledger.member().ledgerId(),
                ledger.member().accountId()))
        .isEqualTo(1);
    assertThat(byHand.putInto(ledger).expect(200).inAll("unchanged")).isEqualTo(2);
  }

  @Test
  void of_thousands_of_refusals_the_first_are_told_shortly_and_how_many_there_are() {
    String[] rows = new String[5_000];
    Arrays.setAll(rows, i -> row(1, "A" + i).replace("hang", "flight".repeat(500)));

    Parcel.Reply refused = parts(rows).putInto(ledger).expect(422);

    assertThat(refused.json().path("total").asInt()).isEqualTo(5_000);
    assertThat(refused.of("parts.csv", "refused")).isEqualTo(5_000);
    assertThat(refused.json().path("problems")).hasSize(200);
    assertThat(refused.json().toString().length()).isLessThan(200_000);
    assertThat(count("part")).isZero();
  }

  @Test
  void a_reader_takes_a_copy_out_and_only_an_owner_takes_one_in(
      TestLedger editor, TestLedger reader) {
    Parcel.of(server.openSampleLedger()).putInto(ledger).expect(200);
    String id = ledger.member().ledger().toString();
    for (Map.Entry<TestLedger, String> guest :
        Map.of(editor, "editor", reader, "reader").entrySet()) {
      Members members = server.bean(Members.class);
      String path = members.invite(ledger.member(), guest.getValue(), null).path();
      members.accept(path.substring("/invitation/".length()), guest.getKey().member());
      assertThat(
              guest
                  .getKey()
                  .api()
                  .with("X-Ledger", id)
                  .get("/export")
                  .expect(200)
                  .header("Content-Disposition"))
          .matches("attachment; filename.*tareline-\\d{4}-\\d\\d-\\d\\d\\.zip.*");
      guest
          .getKey()
          .api()
          .with("X-Ledger", id)
          .with("Content-Type", "application/zip")
          .post("/import", "x")
          .expect(403);
    }
  }

  @Test
  void many_rows_come_in_batches() {
    StringBuilder rows = new StringBuilder(PARTS).append("\r\n");
    for (int i = 0; i < 3_000; i++) {
      rows.append(
          "00000000-0000-4000-8000-%012d,P%d,Thing,hang,1,2027-04-11T17:30:00Z,1\r\n"
              .formatted(i, i));
    }
    Parcel parcel = new Parcel(Map.of("parts.csv", rows.toString()));

    assertThat(parcel.putInto(ledger).expect(200).of("parts.csv", "added")).isEqualTo(3_000);
    assertThat(parcel.putInto(ledger).expect(200).of("parts.csv", "unchanged")).isEqualTo(3_000);
    assertThat(count("part")).isEqualTo(3_000);
  }
}
