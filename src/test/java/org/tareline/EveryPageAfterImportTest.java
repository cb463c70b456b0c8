package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.exchange.ImportProgress;
import org.tareline.exchange.ImportReport;
import org.tareline.exchange.LedgerExport;
import org.tareline.exchange.LedgerImport;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/**
 * Whatever an import took in can be looked at: every page and every answer of the API. Files are
 * changed by chance, in cells that take what stands elsewhere in their column, or nothing.
 */
@FeatureTest
class EveryPageAfterImportTest {

  private static final int TRIES = Integer.getInteger("tareline.import.tries", 60);
  private static final long SEED = Long.getLong("tareline.import.seed", 20270411);

  @Test
  void what_an_import_accepts_every_page_and_every_answer_can_show(
      TestServer server, @TempDir Path folder) throws IOException {
    TestLedger sample = EveryPage.sample(server);
    Map<String, List<List<String>>> whole = files(server, sample);
    TestLedger plain = server.openLedger();
    assertThat(put(server, plain, whole, folder, false).good()).isTrue();
    TreeSet<String> shown = new TreeSet<>();
    everything(plain)
        .forEach(
            (path, status) -> {
              if (status == 200) {
                shown.add(path);
              }
            });
    assertThat(shown.size()).as("pages and answers that are shown").isGreaterThan(200);

    Random chance = new Random(SEED);
    TestLedger ledger = server.openLedger();
    List<String> accepted = new ArrayList<>();
    int refused = 0;
    while (refused + accepted.size() < TRIES) {
      Map<String, List<List<String>>> tried = new LinkedHashMap<>(whole);
      String what = change(tried, chance);
      if (what.isEmpty()) {
        continue;
      }
      if (put(server, ledger, tried, folder, true).good()) {
        whole = tried;
        accepted.add(what);
      } else {
        refused++;
      }
    }
    assertThat(put(server, ledger, whole, folder, false).problems()).isEmpty();

    Map<String, Integer> now = everything(ledger);
    assertThat(shown.stream().filter(path -> now.getOrDefault(path, 200) != 200))
        .as("shown no more after %s", String.join("\n", accepted))
        .isEmpty();
    assertThat(accepted.size()).as("changes that were accepted").isGreaterThan(TRIES / 5);
    assertThat(refused).as("changes that were refused").isGreaterThan(TRIES / 10);
  }

  /** Changes one cell by chance, in a copy of its row and its file; says what, or nothing. */
  private static String change(Map<String, List<List<String>>> files, Random chance) {
    List<String> names = List.copyOf(files.keySet());
    String file = names.get(chance.nextInt(names.size()));
    List<List<String>> rows = files.get(file);
    if (rows == null || rows.size() < 2) {
      return "";
    }
    int row = 1 + chance.nextInt(rows.size() - 1);
    int column = chance.nextInt(rows.get(0).size());
    String heading = rows.get(0).get(column);
    String other =
        chance.nextInt(3) == 0 ? "" : rows.get(1 + chance.nextInt(rows.size() - 1)).get(column);
    // Pages are asked for by codes and ids.
    if (heading.equals("code") || heading.equals("id") || other.equals(rows.get(row).get(column))) {
      return "";
    }
    List<String> cells = new ArrayList<>(rows.get(row));
    String before = cells.set(column, other);
    List<List<String>> copy = new ArrayList<>(rows);
    copy.set(row, cells);
    files.put(file, copy);
    return file + " row " + row + " " + heading + ": " + before + " -> " + other;
  }

  private static Map<String, Integer> everything(TestLedger ledger) {
    Map<String, Integer> found = new LinkedHashMap<>();
    Pages pages = ledger.pages();
    for (String path : EveryPage.shown()) {
      found.put(path, pages.get(path).status());
    }
    for (String kind : List.of("parts", "materials", "rigs", "trips", "scales", "scopes")) {
      found.put("API /" + kind, ledger.api().get("/" + kind).status());
      JsonNode items = ledger.api().get("/" + kind).json().path("items");
      for (JsonNode item : items) {
        String code = item.path("code").asString();
        List<String> paths = new ArrayList<>(List.of("/" + kind + "/" + code));
        switch (kind) {
          case "parts" -> paths.add("/parts/" + code + "/events");
          case "materials" -> paths.add("/materials/" + code + "/stock");
          case "scales" -> {
            paths.add("/scales/" + code + "/checks");
            paths.add("/scales/" + code + "/repeatability");
          }
          case "rigs" -> {
            for (String of : List.of("roll-up", "reconciliation", "loads", "set-ups")) {
              paths.add("/rigs/" + code + "/" + of);
            }
          }
          case "trips" -> {
            for (String of : List.of("weights", "packing", "afterwards", "nights")) {
              paths.add("/trips/" + code + "/" + of);
            }
          }
          default -> {}
        }
        paths.forEach(path -> found.put("API " + path, ledger.api().get(path).status()));
      }
    }
    found.put("API /settings", ledger.api().get("/settings").status());
    found.put("API /weighings", ledger.api().get("/weighings").status());
    return found;
  }

  private static Map<String, List<List<String>>> files(TestServer server, TestLedger ledger)
      throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    server.bean(LedgerExport.class).write(ledger.member(), bytes);
    Map<String, List<List<String>>> files = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        if (entry.getName().endsWith(".csv")) {
          String text = new String(zip.readAllBytes(), StandardCharsets.UTF_8);
          try (CSVParser rows = CSVFormat.RFC4180.parse(new StringReader(text))) {
            List<List<String>> all = new ArrayList<>();
            rows.forEach(row -> all.add(row.toList()));
            files.put(entry.getName(), all);
          }
        }
      }
    }
    return files;
  }

  private static ImportReport put(
      TestServer server,
      TestLedger ledger,
      Map<String, List<List<String>>> files,
      Path folder,
      boolean dryRun)
      throws IOException {
    Path file = folder.resolve("ledger.zip");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
      for (Map.Entry<String, List<List<String>>> each : files.entrySet()) {
        StringWriter text = new StringWriter();
        try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
          printer.printRecords(each.getValue());
        }
        zip.putNextEntry(new ZipEntry(each.getKey()));
        zip.write(text.toString().getBytes(StandardCharsets.UTF_8));
      }
    }
    return server
        .bean(LedgerImport.class)
        .takeIn(ledger.member(), file, dryRun, new ImportProgress());
  }
}
