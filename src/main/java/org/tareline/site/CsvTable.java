package org.tareline.site;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;

/**
 * A table as CSV (RFC 4180) in UTF-8: one line of headings, which name the unit by its UCUM code in
 * brackets, and figures as exact decimals with a point.
 *
 * <p>A text that begins with {@code = + - @}, a tab or a line's end would be run as a formula by a
 * spreadsheet (OWASP, "CSV Injection"); it gets a leading apostrophe, which {@link #SAFE_CELLS}
 * tells the reader of the page. Figures are never touched.
 */
public final class CsvTable {

  /** What a page says beside a link to a table. */
  public static final String SAFE_CELLS =
      "Text that a spreadsheet would run as a formula is given a leading apostrophe.";

  private static final String MEDIA_TYPE = "text/csv;charset=UTF-8;header=present";
  private static final String RUN_AS_FORMULA = "=+-@\t\r\n";

  private final StringBuilder text = new StringBuilder();
  private final CSVPrinter printer;

  public CsvTable(String... headings) {
    try {
      printer = new CSVPrinter(text, CSVFormat.RFC4180);
    } catch (IOException cannotBe) {
      throw new UncheckedIOException(cannotBe);
    }
    write((Object[]) headings);
  }

  /**
   * Adds a line.
   *
   * @param cells texts and numbers; an empty cell for null
   */
  public CsvTable line(@Nullable Object... cells) {
    Object[] safe = new Object[cells.length];
    for (int i = 0; i < cells.length; i++) {
      safe[i] = safe(cells[i]);
    }
    write(safe);
    return this;
  }

  private void write(Object... cells) {
    try {
      printer.printRecord(cells);
    } catch (IOException cannotBe) {
      throw new UncheckedIOException(cannotBe);
    }
  }

  private static Object safe(@Nullable Object cell) {
    if (cell == null) {
      return "";
    }
    if (cell instanceof BigDecimal decimal) {
      return decimal.toPlainString();
    }
    if (cell instanceof Number) {
      return cell;
    }
    String words = cell.toString();
    return !words.isEmpty() && RUN_AS_FORMULA.indexOf(words.charAt(0)) >= 0 ? "'" + words : words;
  }

  /** The table as an answer that a browser keeps as a file of this name. */
  public ResponseEntity<byte[]> asFile(String fileName) {
    return ResponseEntity.ok()
        .header(HttpHeaders.CONTENT_TYPE, MEDIA_TYPE)
        .header(
            HttpHeaders.CONTENT_DISPOSITION,
            ContentDisposition.attachment()
                .filename(fileName, StandardCharsets.UTF_8)
                .build()
                .toString())
        .body(toString().getBytes(StandardCharsets.UTF_8));
  }

  /** The whole of it, lines ended by CR LF. */
  @Override
  public String toString() {
    return text.toString();
  }
}
