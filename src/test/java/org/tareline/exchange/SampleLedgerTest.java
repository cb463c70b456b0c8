package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The sample ledger is an exported ledger, but for what {@link SampleFiles} leaves out of one. */
@FeatureTest
class SampleLedgerTest {

  private TestServer server;

  @BeforeEach
  void meet(TestServer running) {
    server = running;
  }

  @Test
  void a_ledger_opened_with_the_sample_is_exported_as_the_files_that_are_shipped(TestLedger empty)
      throws IOException {
    Map<String, String> again =
        SampleFiles.of(Parcel.of(server.openSampleLedger()), Parcel.of(empty));

    assertThat(again.keySet()).contains("parts.csv", "revisions.csv", "trip-stand-ins.csv");
    assertThat(again).isEqualTo(shipped());
    try (var files = Files.list(Path.of("sample-data"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .as("nothing lies there that nobody reads")
          .filteredOn(name -> !name.equals("README.md"))
          .containsExactlyInAnyOrderElementsOf(again.keySet());
    }
  }

  @Test
  void a_ledger_opened_without_the_sample_is_empty(TestLedger ledger) {
    for (String table : List.of("scale", "part", "weighing", "rig", "trip")) {
      assertThat(count(table, ledger)).as(table).isZero();
    }
  }

  @Test
  void the_files_in_a_zip_are_taken_in_like_any_export_and_again_they_are_all_there(
      TestLedger ledger) throws IOException {
    String settings = ledger.api().get("/settings").expect(200).body();
    int scopes = count("scope", ledger);
    assertThat(scopes).as("scopes that every ledger has").isPositive();
    Parcel sample = new Parcel(shipped());
    int rows = shipped().values().stream().mapToInt(csv -> SampleFiles.rows(csv).size() - 1).sum();

    Parcel.Reply first = sample.putInto(ledger).expect(200);
    Parcel.Reply second = sample.putInto(ledger).expect(200);

    assertThat(first.inAll("added")).isEqualTo(rows);
    assertThat(second.inAll("unchanged")).isEqualTo(rows);
    assertThat(count("scope", ledger)).isEqualTo(scopes + first.of("scopes.csv", "added"));
    assertThat(ledger.api().get("/settings").expect(200).body()).isEqualTo(settings);
    assertThat(Parcel.of(ledger).rows().get("parts.csv"))
        .contains(SampleFiles.rows(shipped().get("parts.csv")).get(1).get(0));
  }

  @Test
  void whoever_opens_the_ledger_has_entered_all_of_it_and_then() {
    long before = server.count("select max(id) from account");
    TestLedger ledger = server.openSampleLedger();

    assertThat(server.count("select count(*) from account where id > ?", before))
        .as("nobody else came to be")
        .isEqualTo(1);
    for (String entered : List.of("weighing.entered", "life_event.entered", "revision.made")) {
      String[] table = entered.split("\\.");
      assertThat(count(table[0], ledger)).as(entered).isPositive();
      assertThat(
              server.count(
                  "select count(*) from %s t join ledger l on l.id = t.ledger_id where l.id = ? and t.%s_by = ? and t.%s_at >= l.created_at"
                      .formatted(table[0], table[1], table[1]),
                  ledger.member().ledgerId(),
                  ledger.member().accountId()))
          .as(entered)
          .isEqualTo(count(table[0], ledger));
    }
  }

  @Test
  void the_newest_kept_state_of_a_thing_is_what_it_is() throws IOException {
    Map<String, String> newest = new HashMap<>();
    for (Map<String, String> state : shipped("revisions.csv")) {
      newest.put(state.get("kind") + " " + state.get("subject"), state.get("content"));
    }
    for (String kind : List.of("part", "rig", "material", "trip")) {
      List<Map<String, String>> things = shipped(kind + "s.csv");
      assertThat(things).as(kind).isNotEmpty();
      for (Map<String, String> thing : things) {
        JsonNode state = JsonMapper.shared().readTree(newest.get(kind + " " + thing.get("code")));
        for (String said : List.of("code", "name", "note")) {
          assertThat(state.path(said).asString(""))
              .as(kind + " " + thing.get("code") + " " + said)
              .isEqualTo(thing.getOrDefault(said, ""));
        }
      }
    }
  }

  @Test
  void an_old_code_of_the_sample_still_finds_its_part() {
    assertThat(
            server
                .openSampleLedger()
                .api()
                .get("/parts/PEG")
                .expect(200)
                .json()
                .get("code")
                .asString())
        .isEqualTo("STAKE");
  }

  @Test
  void every_reading_of_the_sample_is_one_that_its_scale_can_show() throws IOException {
    Map<String, String> shown =
        Map.of("BENCH", "\\d+\\.\\d g", "KITCHEN", "\\d+ g", "PARCEL", "\\d+\\.\\d oz");
    Map<String, String> scales = new HashMap<>();
    for (Map<String, String> weighing : shipped("weighings.csv")) {
      String scale = String.valueOf(weighing.get("scale"));
      scales.put(String.valueOf(weighing.get("id")), scale);
      if (!scale.isEmpty() && !String.valueOf(weighing.get("tare")).isEmpty()) {
        assertThat(weighing.get("tare")).matches(String.valueOf(shown.get(scale)));
      }
    }
    int read = 0;
    for (Map<String, String> reading : shipped("weighing-readings.csv")) {
      String scale = String.valueOf(scales.get(reading.get("weighing")));
      if (!scale.isEmpty()) {
        read++;
        assertThat(reading.get("reading")).matches(String.valueOf(shown.get(scale)));
      }
    }
    assertThat(read).isGreaterThan(200);
  }

  private int count(String table, TestLedger ledger) {
    return (int)
        server.count(
            "select count(*) from " + table + " where ledger_id = ?", ledger.member().ledgerId());
  }

  private static Map<String, String> shipped() throws IOException {
    Map<String, String> files = new LinkedHashMap<>();
    for (Table table : LedgerTables.ALL) {
      try (InputStream bytes = SampleLedger.FILES.read(table.file())) {
        if (bytes != null) {
          files.put(table.file(), new String(bytes.readAllBytes(), StandardCharsets.UTF_8));
        }
      }
    }
    return files;
  }

  /** The rows of a shipped file by heading, as any reader of CSV sees them. */
  private static List<Map<String, String>> shipped(String file) throws IOException {
    List<CSVRecord> records = SampleFiles.rows(Objects.requireNonNull(shipped().get(file)));
    List<Map<String, String>> rows = new ArrayList<>();
    for (CSVRecord record : records.subList(1, records.size())) {
      Map<String, String> row = new HashMap<>();
      for (int i = 0; i < record.size(); i++) {
        row.put(records.get(0).get(i), record.get(i));
      }
      rows.add(row);
    }
    return rows;
  }
}
