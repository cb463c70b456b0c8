package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * What it costs to take in a ledger of 100 000 rows and to take it out again, beside reading the
 * same zip as CSV and no more, in a heap of 384 MB. Times are one machine's.
 */
@Tag("benchmark")
@FeatureTest
class ImportBenchmark {

  private static final int PARTS = 10_000;
  private static final int WEIGHINGS = 30_000;
  private static final String AT = "2027-04-11T17:30:00Z";

  @Test
  void aLedgerOf100000Rows(TestLedger ledger, TestServer server, @TempDir Path folder)
      throws IOException {
    Path zip = folder.resolve("large.zip");
    write(zip);
    LedgerImport imports = server.bean(LedgerImport.class);
    double floor = seconds(() -> readOnly(zip));
    ImportProgress progress = new ImportProgress();
    double tried = seconds(() -> take(imports, ledger, zip, true, progress));
    double done = seconds(() -> take(imports, ledger, zip, false, new ImportProgress()));
    double again = seconds(() -> take(imports, ledger, zip, false, new ImportProgress()));
    Path out = folder.resolve("out.zip");
    double exported =
        seconds(
            () -> {
              try (OutputStream to = Files.newOutputStream(out)) {
                server.bean(LedgerExport.class).write(ledger.member(), to);
              }
            });
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    System.out.printf(
        Locale.ROOT,
        "100 000 rows (%.1f MB zip): read as CSV %.2f s; tried %.1f s, taken in %.1f s (ratio %.0f), once more %.1f s; taken"
            + " out %.1f s (ratio %.0f); heap %d of %d MB%n",
        Files.size(zip) / 1e6,
        floor,
        tried,
        done,
        done / floor,
        again,
        exported,
        exported / floor,
        (runtime.totalMemory() - runtime.freeMemory()) >> 20,
        runtime.maxMemory() >> 20);
    assertThat(progress.rows()).isEqualTo(PARTS + 3L * WEIGHINGS);
    assertThat(
            server.count(
                "select count(*) from weighing where ledger_id = ?", ledger.member().ledgerId()))
        .isEqualTo(WEIGHINGS);
  }

  private interface Doing {
    void run() throws IOException;
  }

  private static double seconds(Doing doing) throws IOException {
    long start = System.nanoTime();
    doing.run();
    return (System.nanoTime() - start) / 1e9;
  }

  private static void take(
      LedgerImport imports, TestLedger ledger, Path zip, boolean dryRun, ImportProgress progress) {
    assertThat(imports.takeIn(ledger.member(), zip, dryRun, progress).problems()).isEmpty();
  }

  private static void readOnly(Path zip) throws IOException {
    long[] cells = {0};
    try (ZipFile file = new ZipFile(zip.toFile())) {
      for (ZipEntry entry : java.util.Collections.list(file.entries())) {
        try (InputStream bytes = file.getInputStream(entry)) {
          CsvRows.read(bytes, CSVFormat.RFC4180, (line, row) -> cells[0] += row.size());
        }
      }
    }
    assertThat(cells[0]).isGreaterThan(600_000);
  }

  private static void write(Path to) throws IOException {
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(to))) {
      PrintWriter text = new PrintWriter(zip, false, StandardCharsets.UTF_8);
      begin(zip, text, "parts.csv", "id,code,name,system,owned,created-at,revision");
      for (int i = 0; i < PARTS; i++) {
        text.printf("%s,P-%d,Part number %d,hang,1,%s,1\r\n", id(1, i), i, i, AT);
      }
      begin(
          zip,
          text,
          "weighings.csv",
          "id,scale,tolerance [g],tolerance,tare [g],count,condition,note,weighed-at,entered-at,entered-by"
              .replace(",count,", ",piece-count,"));
      for (int i = 0; i < WEIGHINGS; i++) {
        text.printf("%s,,1,1 g,0,1,dry,,%s,%s,ada\r\n", id(2, i), AT, AT);
      }
      begin(zip, text, "weighing-readings.csv", "weighing,position,reading [g],reading");
      for (int i = 0; i < WEIGHINGS; i++) {
        text.printf(
            "%s,0,%d.%d,%d.%d g\r\n", id(2, i), 1 + i % 900, 1 + i % 9, 1 + i % 900, 1 + i % 9);
      }
      begin(
          zip,
          text,
          "weighing-subjects.csv",
          "weighing,kind,subject,quantity,usable,together,weighed-at");
      for (int i = 0; i < WEIGHINGS; i++) {
        text.printf("%s,part,P-%d,1,yes,no,%s\r\n", id(2, i), i % PARTS, AT);
      }
      text.flush();
    }
  }

  private static void begin(ZipOutputStream zip, PrintWriter text, String file, String header)
      throws IOException {
    text.flush();
    zip.putNextEntry(new ZipEntry(file));
    text.print(header + "\r\n");
  }

  private static String id(int kind, int number) {
    return "%08d-0000-4000-8000-%012d".formatted(kind, number);
  }
}
