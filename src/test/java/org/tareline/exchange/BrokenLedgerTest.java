package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.exchange.BadRows.BadRow;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** Copies of the sample ledger that are broken somewhere: each is refused, and nothing comes in. */
@FeatureTest
class BrokenLedgerTest {

  private static final List<String> TABLES =
      List.of(
          "scale",
          "part",
          "life_event",
          "weighing",
          "weighing_subject",
          "reading",
          "scope",
          "rig",
          "trip",
          "revision");

  /** File, what stands there, what is put in its place, the column blamed, the reason given. */
  private static final List<String[]> BROKEN =
      List.of(
          broken("scales.csv", "0.07 g", "0.07 mg/m", "repeatability", "stopped at “mg/m”"),
          broken(
              "scales.csv",
              "PARCEL,",
              "kitchen,Twin,1 g,1 kg,,\nPARCEL,",
              "code",
              "kitchen is a scale already"),
          broken(
              "parts.csv",
              "B4-BAR,\"Bridge no. 4, wound bar\",hang,2,71 g,5 %",
              "B4-BAR,Bar,hang,2,71 g,5 mm",
              "tolerance",
              "mm"),
          broken(
              "parts.csv",
              "PILLOW,",
              "tq-1,Twin,sleep,1,,,,,,,,,,,\nPILLOW,",
              "code",
              "tq-1 is Top quilt, down already"),
          broken("parts.csv", ",rain,12,", ",roof,12,", "system", "hang, sleep, rain"),
          broken(
              "parts.csv", ",PEG,", ",G2-BODY,", "code", "G2-BODY is Gathered no. 2, body already"),
          broken(
              "parts.csv",
              "SPOON,",
              "SPOON/2,Bent,cook,1,,,,,,,,,,,\nSPOON,",
              "code",
              "letters, digits"),
          broken("weighings.csv", ",,1/2 oz,", ",,,", "scale", "Name the scale"),
          broken(
              "weighings.csv",
              "STAKE-L,2026-02-07",
              "STEAK-L,2026-02-07",
              "part",
              "There is no part STEAK-L"),
          broken("weighings.csv", "35 g,,12", "35 gg,,12", "readings", "stopped at “gg”"),
          broken("weighings.csv", "19 g,,6", "19 g,80 g,6", "tare", "below the reading"),
          broken("weighings.csv", "311 g; 311 g", "311 g; 7.1 kg", "readings", "ends at 5 kg"),
          broken(
              "weighings.csv",
              "2026-02-07T19:44+01:00,KITCHEN,,214 g; 214 g",
              "2026-02-07T19:44+01:00,KITCHEN,,",
              "readings",
              "at least one reading"),
          broken("weighings.csv", "561 g; 561 g", "561 g;", "readings", "a reading"),
          broken("weighings.csv", "2026-04-06T14:03+02:00", "6.4.2026", "weighed-at", "6.4.2026"),
          broken("weighings.csv", "189 g,,3", "189 g,,0", "count", "whole number"),
          broken("weighings.csv", ",wet,", ",soggy,", "condition", "dry, aired, damp or wet"),
          broken(
              "life-events.csv",
              "TARP-4,modified,2026-04-11",
              "TARP-44,modified,2026-04-11",
              "part",
              "There is no part TARP-44"),
          broken("life-events.csv", "PILLOW,washed,", "PILLOW,scrubbed,", "kind", "made, repaired"),
          broken(
              "life-events.csv",
              "TQ-1,returned,2026-07-12,1",
              "TQ-1,returned,2026-07-12,2",
              "count",
              "not so many"),
          broken(
              "scopes.csv",
              "Quilts and pillow,underquilt;top quilt;pillow,",
              "Quilts and pillow,,",
              "leaves-out",
              "none are named"),
          broken("scopes.csv", "roof-and-hang", "complete", "code", "complete is a scope already"),
          broken(
              "rigs.csv",
              "G2-SUSPENSION,",
              "b3-suspension,Twin,\nG2-SUSPENSION,",
              "code",
              "b3-suspension is Bridge no. 3"),
          broken(
              "rig-lines.csv",
              "STRAP-SET,BUCKLE,",
              "STRAPS,BUCKLE,",
              "rig",
              "There is no rig STRAPS in rigs.csv"),
          broken(
              "rig-lines.csv",
              "B3-BARS,BAR-TIP,,",
              "B3-BARS,BAR-TIP,STRAP-SET,",
              "part",
              "not both"),
          broken(
              "rig-lines.csv",
              "B3-NET-SET,B3-NET,",
              "B3-NET-SET,B3-LACE,",
              "part",
              "There is no part B3-LACE"),
          broken(
              "rig-lines.csv",
              "G2-NET-SET,G2-NET,,1",
              "G2-NET-SET,G2-NET,,0",
              "quantity",
              "whole number"),
          broken("trips.csv", "2026-09-17", "17.9.26", "starts", "17.9.26"),
          broken(
              "trip-lines.csv",
              ",BRIDGE-3-SUMMER,",
              ",BRIDGE-33,",
              "rig",
              "There is no rig BRIDGE-33"),
          broken(
              "trip-lines.csv",
              "PACK,,,,,1,base",
              "PACK,,,,,1,held",
              "carry",
              "base, worn or consumable"),
          broken("trip-lines.csv", "135 g", "135 mm", "mass", "mass"));

  private static String[] broken(
      String file, String good, String bad, String column, String reason) {
    return new String[] {file, good, bad, column, reason};
  }

  @Autowired private LedgerIntake intake;

  private final Copy copy = new Copy();
  private TestLedger ledger;
  private List<Integer> before;

  @BeforeEach
  void countWhatIsThere(TestLedger fresh) {
    ledger = fresh;
    before = counts();
  }

  @AfterEach
  void nothingHasComeIn() {
    assertThat(counts()).as(TABLES.toString()).isEqualTo(before);
  }

  @Test
  void the_copy_as_it_is_would_come_in(TestLedger another) {
    intake.takeIn(another.member(), copy);

    assertThat(another.api().get("/scales").expect(200).json().get("items")).isNotEmpty();
  }

  @Test
  void every_bad_row_is_listed_with_file_line_column_and_reason() {
    for (String[] broken : BROKEN) {
      copy.replace(broken[0], broken[1], broken[2]);
    }

    List<BadRow> rows = badRows();

    assertThat(rows)
        .extracting(row -> row.file() + ", " + row.line() + ", " + row.column())
        .containsExactlyElementsOf(
            BROKEN.stream()
                .map(
                    broken ->
                        broken[0] + ", " + copy.lineOf(broken[0], broken[2]) + ", " + broken[3])
                .toList());
    for (int i = 0; i < BROKEN.size(); i++) {
      assertThat(rows.get(i).reason()).as(rows.get(i).toString()).contains(BROKEN.get(i)[4]);
    }
  }

  @Test
  void rows_that_name_the_thing_of_a_bad_row_are_not_blamed_for_it() {
    int part =
        copy.replace(
            "parts.csv", "STRAP,\"Tree strap, 3.2 m\",hang", "STRAP,\"Tree strap, 3.2 m\",trees");

    assertThat(badRows())
        .extracting(row -> row.file() + ":" + row.line() + ":" + row.column())
        .containsExactly("parts.csv:" + part + ":system");
  }

  @Test
  void a_rig_that_would_hold_itself_by_way_of_others_is_refused_with_the_way() {
    copy.replace("rig-lines.csv", "STRAP-SET,BUCKLE,,", "STRAP-SET,,BRIDGE-3-SUMMER,");

    List<BadRow> rows = badRows();

    assertThat(rows).hasSize(1);
    assertThat(rows.get(0).file()).isEqualTo("rig-lines.csv");
    assertThat(rows.get(0).column()).isEqualTo("nested-rig");
    assertThat(rows.get(0).reason())
        .contains("would hold itself")
        .contains("STRAP-SET → BRIDGE-3-SUMMER → B3-SUSPENSION → STRAP-SET");
  }

  @Test
  void a_missing_file_is_named_and_what_names_its_things_is_not_blamed() {
    copy.remove("rigs.csv");

    assertThat(badRows()).containsExactly(new BadRow("rigs.csv", 1, "", "The file is missing."));
  }

  @Test
  void a_header_with_another_column_is_refused_with_the_columns_wanted() {
    copy.replace("trips.csv", "starts", "begins");

    List<BadRow> rows = badRows();

    assertThat(rows).hasSize(1);
    assertThat(rows.get(0).file()).isEqualTo("trips.csv");
    assertThat(rows.get(0).line()).isEqualTo(1);
    assertThat(rows.get(0).reason())
        .contains("code,name,starts,days,coldest-night,target-base,note");
  }

  @Test
  void a_row_with_a_cell_too_many_is_refused_and_the_next_one_keeps_its_line() {
    int short_ =
        copy.replace("scales.csv", "KITCHEN,Kitchen scale,", "KITCHEN,\"Kitchen\nscale\",,");
    int next = copy.replace("scales.csv", "11 lb", "11 ells");

    assertThat(next).isEqualTo(short_ + 2);
    assertThat(badRows())
        .extracting(row -> row.line() + ":" + row.column())
        .containsExactly(short_ + ":", next + ":capacity");
  }

  @Test
  void a_quotation_mark_without_its_partner_is_refused_at_its_row() {
    int line = copy.replace("trips.csv", "UPLAND-SEP,", "UPLAND-SEP,\"");

    assertThat(badRows().get(0).toString())
        .startsWith("trips.csv, line " + line + ": From here on it is not CSV");
  }

  @Test
  void bytes_that_are_not_utf_8_are_refused() {
    copy.replaceBytes("trips.csv", "Nights near 6 °C".getBytes(StandardCharsets.ISO_8859_1));

    assertThat(badRows().get(0).file()).isEqualTo("trips.csv");
    assertThat(badRows().get(0).reason()).contains("not UTF-8");
  }

  @Test
  void a_control_character_is_refused_before_any_database_sees_it() {
    int line = copy.replace("weighings.csv", "STAKE,2026-02-07", "STAKE\0,2026-02-07");

    assertThat(badRows())
        .containsExactly(
            new BadRow("weighings.csv", line, "part", "Leave control characters out."));
  }

  private List<BadRow> badRows() {
    BadRows refused =
        catchThrowableOfType(BadRows.class, () -> intake.takeIn(ledger.member(), copy));
    assertThat(refused).as("refusal").isNotNull();
    return refused.rows();
  }

  private List<Integer> counts() {
    List<Integer> counts = new ArrayList<>();
    for (String table : TABLES) {
      counts.add(
          ledger
              .server()
              .database()
              .queryForObject(
                  "select count(*) from " + table + " where ledger_id = ?",
                  Integer.class,
                  ledger.member().ledgerId()));
    }
    return counts;
  }

  /** A copy of the files of the sample, to be broken. */
  private static final class Copy implements LedgerFiles {

    private final Map<String, byte[]> files = new HashMap<>();

    Copy() {
      for (LedgerFile file : LedgerFile.values()) {
        try (InputStream bytes = SampleLedger.FILES.open(file.fileName())) {
          files.put(file.fileName(), Objects.requireNonNull(bytes).readAllBytes());
        } catch (IOException unreadable) {
          throw new AssertionError(unreadable);
        }
      }
    }

    @Override
    public @Nullable InputStream open(String name) {
      byte[] bytes = files.get(name);
      return bytes == null ? null : new ByteArrayInputStream(bytes);
    }

    /** Replaces the first such text. Answers with the line that it stands in. */
    int replace(String file, String good, String bad) {
      String text = new String(files.get(file), StandardCharsets.UTF_8);
      int at = text.indexOf(good);
      assertThat(at).as("%s holds %s", file, good).isNotNegative();
      String broken = text.substring(0, at) + bad + text.substring(at + good.length());
      files.put(file, broken.getBytes(StandardCharsets.UTF_8));
      return lineOf(file, bad);
    }

    /** The line in which the first such text begins. */
    int lineOf(String file, String bad) {
      String text = new String(files.get(file), StandardCharsets.UTF_8);
      return 1 + (int) text.substring(0, text.indexOf(bad)).chars().filter(c -> c == '\n').count();
    }

    void replaceBytes(String file, byte[] bytes) {
      files.put(file, bytes);
    }

    void remove(String file) {
      files.remove(file);
    }
  }
}
