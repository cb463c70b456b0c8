package org.tareline.exchange;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/**
 * What of an exported ledger is shipped as the sample: no settings, no scopes that every ledger has
 * from the start, nothing of who entered a row and when, and neither files nor columns without
 * anything in them.
 */
final class SampleFiles {

  private static final CSVFormat WRITTEN =
      CSVFormat.RFC4180.builder().setRecordSeparator("\n").get();

  private SampleFiles() {}

  static Map<String, String> of(Parcel exported, Parcel emptyLedger) {
    Set<String> scopes =
        rows(emptyLedger.files().get("scopes.csv")).stream()
            .skip(1)
            .map(scope -> scope.get(1))
            .collect(Collectors.toSet());
    Map<String, String> shipped = new LinkedHashMap<>();
    for (Table table : LedgerTables.ALL) {
      List<CSVRecord> rows = new ArrayList<>(rows(exported.files().get(table.file())));
      if (table.name().startsWith("scope")) {
        int code = table.index(table.name().equals("scope") ? "code" : "scope_id");
        rows.removeIf(row -> scopes.contains(row.get(code)));
      }
      if (rows.size() > 1 && !table.name().equals("ledger")) {
        shipped.put(table.file(), written(table, rows));
      }
    }
    return shipped;
  }

  private static String written(Table table, List<CSVRecord> rows) {
    List<Integer> kept =
        IntStream.range(0, table.fields().size())
            .filter(at -> !table.fields().get(at).isStamp())
            .filter(at -> rows.stream().skip(1).anyMatch(row -> !row.get(at).isEmpty()))
            .boxed()
            .toList();
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, WRITTEN)) {
      for (CSVRecord row : rows) {
        printer.printRecord(kept.stream().map(row::get).toList());
      }
    } catch (IOException cannotBe) {
      throw new UncheckedIOException(cannotBe);
    }
    return text.toString();
  }

  /** The headings, and the rows below them. */
  static List<CSVRecord> rows(@Nullable String csv) {
    try (CSVParser parser = CSVFormat.RFC4180.parse(new StringReader(String.valueOf(csv)))) {
      return parser.getRecords();
    } catch (IOException cannotBe) {
      throw new UncheckedIOException(cannotBe);
    }
  }
}
