package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.Member;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class SampleLedgerTest {

  @Autowired private LedgerIntake intake;
  @Autowired private Accounts accounts;

  private TestServer server;

  @BeforeEach
  void meet(TestServer running) {
    server = running;
  }

  @Test
  void a_ledger_opened_with_the_sample_holds_every_row_of_the_files() {
    Member owner = accounts.open("sampler of everything", "twelve letters", true);

    assertThat(count("scale", owner)).isEqualTo(rows("scales.csv").size());
    assertThat(count("part", owner)).isEqualTo(rows("parts.csv").size());
    assertThat(count("former_code", owner)).isEqualTo(entries("parts.csv", "former-codes"));
    assertThat(count("material", owner)).isEqualTo(rows("materials.csv").size());
    assertThat(count("swatch", owner)).isEqualTo(rows("swatches.csv").size());
    assertThat(count("cut_line", owner)).isEqualTo(rows("cut-lines.csv").size());
    assertThat(rows("cut-lines.csv").stream().map(line -> line.get("part")).distinct().toList())
        .isEqualTo(rows("cut-lists.csv").stream().map(list -> list.get("part")).toList());
    int weighings = rows("weighings.csv").size() + rows("swatches.csv").size();
    assertThat(count("weighing", owner)).isEqualTo(weighings);
    assertThat(count("weighing_subject", owner)).isEqualTo(weighings);
    assertThat(count("reading", owner))
        .isEqualTo(entries("weighings.csv", "readings") + entries("swatches.csv", "readings"));
    assertThat(count("weighing_void", owner))
        .isEqualTo(entries("weighings.csv", "voided") + entries("swatches.csv", "voided"));
    assertThat(count("life_event", owner)).isEqualTo(rows("life-events.csv").size());
    assertThat(count("life_event_void", owner)).isEqualTo(entries("life-events.csv", "voided"));
    assertThat(count("rig", owner)).isEqualTo(rows("rigs.csv").size());
    assertThat(count("rig_line", owner)).isEqualTo(rows("rig-lines.csv").size());
    assertThat(count("trip", owner)).isEqualTo(rows("trips.csv").size());
    assertThat(count("trip_carrier", owner)).isEqualTo(rows("trip-carriers.csv").size());
    assertThat(count("trip_line", owner)).isEqualTo(rows("trip-lines.csv").size());
  }

  @Test
  void a_ledger_opened_without_the_sample_is_empty(TestLedger ledger) {
    for (String table : List.of("scale", "part", "weighing", "rig", "trip")) {
      assertThat(count(table, ledger.member())).as(table).isZero();
    }
  }

  @Test
  void the_scopes_of_the_sample_stand_beside_those_of_every_ledger(TestLedger ledger) {
    int before = count("scope", ledger.member());
    assertThat(before).as("scopes that every ledger has").isPositive();

    intake.takeIn(ledger.member(), SampleLedger.FILES);

    assertThat(count("scope", ledger.member())).isEqualTo(before + rows("scopes.csv").size());
  }

  @Test
  void every_weighing_points_at_a_part_of_the_same_ledger(TestLedger ledger) {
    intake.takeIn(ledger.member(), SampleLedger.FILES);

    assertThat(
            server
                .database()
                .queryForObject(
                    "select count(*) from weighing_subject s where s.ledger_id = ? and s.kind = 'part'"
                        + " and exists (select 1 from part p where p.id = s.subject_id and p.ledger_id = s.ledger_id)",
                    Integer.class,
                    ledger.member().ledgerId()))
        .isEqualTo(rows("weighings.csv").size());
  }

  @Test
  void an_old_code_of_the_sample_still_finds_its_part(TestLedger ledger) {
    intake.takeIn(ledger.member(), SampleLedger.FILES);

    assertThat(ledger.api().get("/parts/PEG").expect(200).json().get("code").asString())
        .isEqualTo("STAKE");
  }

  @Test
  void every_reading_of_the_sample_is_one_that_its_scale_can_show() {
    Map<String, String> shown =
        Map.of("BENCH", "\\d+\\.\\d g", "KITCHEN", "\\d+ g", "PARCEL", "\\d+\\.\\d oz");

    List<CSVRecord> weighings = new ArrayList<>(rows("weighings.csv"));
    weighings.addAll(rows("swatches.csv"));
    for (CSVRecord weighing : weighings) {
      String scale = weighing.get("scale");
      if (!scale.isEmpty()) {
        assertThat((weighing.get("readings") + ";" + weighing.get("tare")).split("; *"))
            .as(weighing.toString())
            .allMatch(reading -> reading.matches(String.valueOf(shown.get(scale))));
      }
    }
  }

  private int count(String table, Member member) {
    return Objects.requireNonNull(
        server
            .database()
            .queryForObject(
                "select count(*) from " + table + " where ledger_id = ?",
                Integer.class,
                member.ledgerId()));
  }

  /** The rows as any reader of CSV sees them. */
  private static List<CSVRecord> rows(String file) {
    try (InputStream bytes = SampleLedger.FILES.open(file);
        CSVParser parser =
            CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(
                    new InputStreamReader(Objects.requireNonNull(bytes), StandardCharsets.UTF_8))) {
      return parser.getRecords();
    } catch (IOException unreadable) {
      throw new AssertionError(unreadable);
    }
  }

  private static int entries(String file, String column) {
    return (int)
        rows(file).stream()
            .map(row -> row.get(column))
            .flatMap(cell -> cell.isBlank() ? Stream.of() : Stream.of(cell.split(";")))
            .count();
  }
}
