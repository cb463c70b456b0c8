package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * What reads cell by cell and does not go together is refused where it stands, and not when a page
 * is opened.
 */
@FeatureTest
class TogetherTest {

  /** A file whose first row with these cells is changed, and what is then said. */
  private static final class Case {

    private final String file;
    private final Map<String, String> where = new LinkedHashMap<>();
    private final Map<String, String> cells = new LinkedHashMap<>();
    private boolean every;
    private boolean gone;
    private String blamed = "";
    private String reason = "";

    Case(String file) {
      this.file = file;
    }

    /** A row in which a cell is so; {@code *} for any that is not empty. */
    Case where(String column, String cell) {
      where.put(column, cell);
      return this;
    }

    Case set(String column, String cell) {
      cells.put(column, cell);
      return this;
    }

    Case without() {
      gone = true;
      return this;
    }

    Case withoutAny() {
      every = true;
      return without();
    }

    /** File and column, and words of the reason. */
    Case blames(String fileAndColumn, String words) {
      blamed = fileAndColumn;
      reason = words;
      return this;
    }

    private boolean fits(CSVRecord row) {
      return where.entrySet().stream()
          .allMatch(
              each ->
                  each.getValue().equals("*")
                      ? !row.get(each.getKey()).isEmpty()
                      : row.get(each.getKey()).equals(each.getValue()));
    }

    /** The line of the row that was changed, and the whole with it. */
    Map.Entry<Integer, Parcel> in(Parcel parcel) {
      Map<String, String> files = new LinkedHashMap<>(parcel.rows());
      StringWriter text = new StringWriter();
      int line = 0;
      try (CSVParser rows =
              CSVFormat.RFC4180
                  .builder()
                  .setHeader()
                  .setSkipHeaderRecord(true)
                  .get()
                  .parse(new StringReader(String.valueOf(files.get(file))));
          CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
        printer.printRecord(rows.getHeaderNames());
        int at = 2;
        for (CSVRecord row : rows) {
          boolean meant = (line == 0 || every) && fits(row);
          line = meant && line == 0 ? at : line;
          if (!meant || !gone) {
            List<String> cellsNow = new ArrayList<>();
            rows.getHeaderNames()
                .forEach(
                    column ->
                        cellsNow.add(
                            meant ? cells.getOrDefault(column, row.get(column)) : row.get(column)));
            printer.printRecord(cellsNow);
          }
          at += 1 + (int) String.join("", row).chars().filter(c -> c == '\n').count();
        }
      } catch (IOException unreadable) {
        throw new UncheckedIOException(unreadable);
      }
      assertThat(line).as("a row of %s with %s", file, where).isPositive();
      files.put(file, text.toString());
      return Map.entry(line, new Parcel(files));
    }
  }

  private static Case in(String file) {
    return new Case(file);
  }

  /** The id of no line. */
  private static final String NOWHERE = "3f0c4c1e-8a52-4a64-9f0e-1c5d2f8a7b6f";

  private static final List<Case> CASES =
      List.of(
          in("ledger.csv")
              .set("check-every-days", "99999")
              .blames("ledger.csv check-every-days", "whole number from 1"),
          in("ledger.csv").set("design-factor", "0").blames("ledger.csv design-factor", "1 to 100"),
          in("scales.csv")
              .where("code", "BENCH")
              .set("capacity [g]", "0.01")
              .set("capacity", "0.01 g")
              .blames("scales.csv capacity", "above the readability"),
          in("scale-check-readings.csv")
              .where("weight-class", "M1")
              .set("tolerance", "0.1")
              .blames("scale-check-readings.csv tolerance", "not both"),
          in("materials.csv")
              .where("kind", "cord")
              .set("fill-power [[cin_i]/[oz_av]]", "800")
              .blames("materials.csv ", "Only insulation has a fill power"),
          in("materials.csv")
              .where("kind", "fabric")
              .where("nominal", "*")
              .set("nominal", "2.1 oz/yd")
              .blames("materials.csv ", "Give the width"),
          in("materials.csv")
              .where("learned-parts", "*")
              .set("learned-ratio", "")
              .blames("materials.csv nominal", "Let the figures"),
          in("parts.csv")
              .where("strength", "")
              .set("strength-kind", "average-break")
              .blames("parts.csv strength", "strength"),
          in("parts.csv")
              .where("stated", "*")
              .where("tolerance", "*")
              .set("stated [g]", "")
              .set("stated", "")
              .blames("parts.csv stated", "Give the stated mass"),
          in("cut-sizes.csv")
              .where("name", "width")
              .without()
              .blames("cut-lines.csv ", "Give the width"),
          in("cut-sizes.csv")
              .where("name", "width")
              .set("amount", "14")
              .blames("cut-lines.csv ", "typed beside"),
          in("cut-lines.csv")
              .where("form", "panel/rectangle")
              .set("form", "panel/ellipse")
              .set("material", "CORD-3")
              .blames("cut-lines.csv material", "wants one known by mass per area"),
          in("swatches.csv")
              .where("width", "*")
              .set("width", "")
              .set("width [mm]", "")
              .set("width-half-width [mm]", "")
              .blames("swatches.csv width", "Give the width of the swatch"),
          in("swatches.csv")
              .where("width", "*")
              .set("width-half-width [mm]", "")
              .blames("swatches.csv length", "typed beside"),
          in("stock.csv")
              .where("entry", "2 m")
              .set("kind", "added")
              .blames("stock.csv part", "Only what is cut is for a part"),
          in("life-events.csv")
              .where("kind", "modified")
              .set("pieces", "2")
              .blames("life-events.csv ", "Leave the count out"),
          in("scope-roles.csv")
              .where("scope", "roof-and-hang")
              .withoutAny()
              .blames("scopes.csv ", "none are named"),
          in("rig-lines.csv")
              .where("role", "body")
              .set("role", "Body")
              .blames("rig-lines.csv role", "Write the role as body"),
          in("rig-loads.csv")
              .where("ridge-length", "2.49 m")
              .set("ridge-length", "24.9 m")
              .blames("rig-loads.csv ", "shorter than the body"),
          in("rig-loads.csv")
              .where("edge-sag", "*")
              .set("edge-sag", "")
              .blames("rig-loads.csv edge-sag", "Give the sag"),
          in("rig-load-ends.csv")
              .set("angle", "")
              .set("run", "2 m")
              .set("rise", "")
              .blames("rig-load-ends.csv rise", "Give the rise"),
          in("rig-load-ends.csv")
              .set("angle", "30 deg")
              .set("run", "2 m")
              .set("rise", "1 m")
              .blames("rig-load-ends.csv angle", "not both"),
          in("rig-load-ends.csv")
              .where("bar-length", "*")
              .set("bar-length", "")
              .blames("rig-load-ends.csv bar-length", "Give"),
          in("rig-load-ends.csv")
              .where("bar-length", "*")
              .set("bar-modulus", "")
              .set("bar-outer-diameter", "1 cm")
              .blames("rig-load-ends.csv bar-modulus", "modulus"),
          in("rig-load-ends.csv")
              .where("position", "0")
              .without()
              .blames("rig-loads.csv ", "does not go together"),
          in("rig-load-elements.csv")
              .set("termination-factor", "0.8")
              .set("termination-source", "")
              .blames("rig-load-elements.csv termination-source", "where the factor comes from"),
          in("rig-load-elements.csv")
              .set("termination-factor", "1.8")
              .set("termination-source", "a handbook")
              .blames("rig-load-elements.csv termination-factor", "at most 1"),
          in("set-ups.csv")
              .set("head-angle", "")
              .set("head-run", "2 m")
              .set("head-rise", "")
              .blames("set-ups.csv head-rise", "Give the rise"),
          in("trips.csv")
              .where("code", "MOOR-JUN")
              .set("days", "")
              .blames("trips.csv days", "Give the days"),
          in("trip-lines.csv")
              .where("trip", "UPLAND-SEP")
              .set("carrier", "nobody")
              .blames("trip-lines.csv carrier", "no carrier nobody"),
          in("trip-amounts.csv")
              .where("trip-line", "*")
              .set("on-day", "99")
              .blames("trip-lines.csv ", "Name a day of the trip"),
          in("weighings.csv")
              .where("scale", "BENCH")
              .set("tare [g]", "9000")
              .set("tare", "9 kg")
              .blames("weighings.csv tare", "leaves nothing"),
          in("weighing-readings.csv")
              .where("position", "0")
              .set("position", "7")
              .blames("weighings.csv ", "does not go together"),
          in("weighing-readings.csv")
              .where("position", "0")
              .set("reading [g]", "9000")
              .set("reading", "9 kg")
              .blames("weighing-readings.csv ", "ends at"),
          in("weighing-subjects.csv")
              .where("kind", "rig")
              .without()
              .blames("weighings.csv ", "Say what lay on the pan"),
          in("weighing-subjects.csv")
              .where("together", "yes")
              .set("usable", "yes")
              .blames("weighing-subjects.csv usable", "lay there alone"),
          in("weighings.csv")
              .where("condition", "dry")
              .set("condition", "wet")
              .blames("weighing-subjects.csv usable", "dry or aired"),
          in("weighing-subjects.csv")
              .where("kind", "part")
              .where("together", "no")
              .set("together", "yes")
              .blames("weighing-subjects.csv together", "no of one alone"),
          in("weighing-subjects.csv")
              .where("kind", "part")
              .set("weighed-at", "2199-01-01T00:00:00Z")
              .blames("weighing-subjects.csv weighed-at", "the time of the weighing"),
          in("weighing-subjects.csv")
              .where("kind", "part")
              .where("together", "no")
              .set("quantity", "7")
              .blames("weighing-subjects.csv quantity", "the count of the weighing"),
          in("weighing-subjects.csv")
              .where("together", "yes")
              .set("piece", "bent")
              .blames("weighing-subjects.csv piece", "by itself"),
          in("weighing-subjects.csv")
              .where("kind", "rig")
              .set("scope-code", "")
              .blames("weighing-subjects.csv scope-code", "what was counted"),
          in("weighing-subjects.csv")
              .where("kind", "part")
              .set("subject-revision", "1")
              .blames("weighing-subjects.csv subject-revision", "nothing else"),
          in("packing-checks.csv")
              .set("line", NOWHERE)
              .blames("packing-checks.csv line", "never had a line"),
          in("packing-checks.csv")
              .set("trip-revision", "99")
              .blames("packing-checks.csv trip-revision", "that the trip has had"),
          in("packing-checks.csv")
              .set("received-at", "2199-01-01T00:00:00Z")
              .blames("packing-checks.csv received-at", "a time that has come"),
          in("packing-checks.csv")
              .set("check-key", "c1 ")
              .blames("packing-checks.csv check-key", "spaces"),
          in("trip-outcomes.csv")
              .where("line", "*")
              .set("line", NOWHERE)
              .blames("trip-outcomes.csv line", "never had a line"),
          in("trip-outcomes.csv")
              .where("item-name", "*")
              .set("item-name", "A third spoon ")
              .blames("trip-outcomes.csv item-name", "spaces"));

  @Test
  void a_combination_that_could_not_be_typed_is_refused_with_its_file_its_line_and_its_reason(
      TestServer server, TestLedger empty) {
    Parcel whole = Parcel.of(FullLedger.open(server));
    SoftAssertions all = new SoftAssertions();
    for (Case each : CASES) {
      Map.Entry<Integer, Parcel> changed = each.in(whole);
      Parcel.Reply tried = changed.getValue().tryInto(empty).expect(200);
      String said =
          tried.problem(0) + ": " + tried.reason(0) + " (of " + tried.json().path("total") + ")";
      String wanted = each.blamed.substring(0, each.blamed.indexOf(' '));
      all.assertThat(tried.json().path("total").asInt())
          .as("%s %s -> %s: %s", each.file, each.where, each.cells, said)
          .isEqualTo(1);
      all.assertThat(
              tried.problem(0).startsWith(wanted + " ")
                  && tried.problem(0).endsWith(each.blamed.substring(each.blamed.indexOf(' ')))
                  && tried.reason(0).contains(each.reason))
          .as("%s %s -> %s: %s", each.file, each.where, each.cells, said)
          .isTrue();
      if (wanted.equals(each.file) && !each.gone) {
        all.assertThat(tried.json().at("/problems/0/line").asInt())
            .as("line of %s", said)
            .isEqualTo(changed.getKey());
      }
    }
    all.assertAll();
    assertThat(whole.putInto(empty).expect(200).inAll("added")).isGreaterThan(500);
  }

  @Test
  void of_a_thing_on_a_trip_one_thing_is_said(TestServer server, TestLedger empty) {
    Parcel whole = Parcel.of(FullLedger.open(server));
    String said = rowWith(whole, "trip-outcomes.csv", ",used");

    int line =
        String.valueOf(whole.files().get("trip-outcomes.csv")).lines().toList().indexOf(said) + 2;

    Parcel.Reply refused =
        whole
            .with(
                "trip-outcomes.csv",
                said + "\r\n",
                said + "\r\n" + said.replace(",used", ",missed") + "\r\n")
            .putInto(empty)
            .expect(422);

    assertThat(refused.json().path("total").asInt()).isEqualTo(1);
    assertThat(refused.problem(0)).isEqualTo("trip-outcomes.csv " + line + " outcome");
    assertThat(empty.api().get("/trips").expect(200).json().path("items")).isEmpty();
  }

  @Test
  void a_later_save_does_not_make_a_circle_of_variants(TestServer server, TestLedger copy) {
    TestLedger home = FullLedger.open(server);
    Parcel whole = Parcel.of(home);
    whole.putInto(copy).expect(200);
    Map<String, String> before = Parcel.of(copy).rows();
    String part = rowWith(whole, "parts.csv", ",TRIAL-BODY,").split(",")[1];

    for (Case circle :
        List.of(
            in("parts.csv").where("code", "TRIAL-BODY").set("variant-of", part),
            in("rigs.csv").where("code", "TRIAL").set("variant-of", "TRIAL-20"))) {
      Map.Entry<Integer, Parcel> forged = circle.set("revision", "9").in(whole);

      Parcel.Reply refused = forged.getValue().putInto(copy).expect(422);

      assertThat(refused.json().path("total").asInt()).isEqualTo(1);
      assertThat(refused.problem(0)).isEqualTo(circle.file + " " + forged.getKey() + " variant-of");
      assertThat(refused.reason(0)).contains("set when a thing is made", "nothing");
      assertThat(Parcel.of(copy).rows()).isEqualTo(before);
    }
  }

  /** The last row of a file that has this in it. */
  private static String rowWith(Parcel parcel, String file, String text) {
    return String.valueOf(parcel.files().get(file))
        .lines()
        .filter(row -> row.contains(text))
        .reduce((one, later) -> later)
        .orElseThrow();
  }
}
