package org.tareline.exchange;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * The rows of a CSV file one after another, each with the line it begins at. What comes after
 * something that is no CSV is not there.
 */
final class CsvRows {

  /** Takes a row; the header is line 1. */
  interface Taking {
    void take(int line, List<String> cells);
  }

  /** Why it cannot be read from a line on. */
  record Broken(int line, String reason) {}

  private static final String NOT_UTF_8 =
      "Here or further down stands something that is not UTF-8.";
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private CsvRows() {}

  /** Spreadsheets put a mark before the text; a decoder of its own refuses what is not UTF-8. */
  static Reader withoutMark(InputStream bytes) throws IOException {
    Reader text =
        new BufferedReader(new InputStreamReader(bytes, StandardCharsets.UTF_8.newDecoder()));
    text.mark(1);
    if (text.read() != BYTE_ORDER_MARK) {
      text.reset();
    }
    return text;
  }

  /**
   * Reads to the end.
   *
   * @return where it broke; null where it did not
   */
  static @org.jspecify.annotations.Nullable Broken read(
      InputStream bytes, CSVFormat format, Taking taking) throws IOException {
    int line = 1;
    try (CSVParser parser = format.parse(withoutMark(bytes))) {
      Iterator<CSVRecord> records = parser.iterator();
      while (records.hasNext()) {
        List<String> cells = records.next().toList();
        if (cells.size() > 1 || !cells.get(0).isEmpty()) {
          taking.take(line, cells);
        }
        line = Math.toIntExact(parser.getCurrentLineNumber() + 1);
      }
      return null;
    } catch (CharacterCodingException notText) {
      return new Broken(line, NOT_UTF_8);
    } catch (UncheckedIOException unreadable) {
      return new Broken(
          line,
          unreadable.getCause() instanceof CharacterCodingException
              ? NOT_UTF_8
              : "From here on it is not CSV: look for a quotation mark without its partner.");
    }
  }
}
