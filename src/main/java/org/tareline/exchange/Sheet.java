package org.tareline.exchange;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** The rows of one file: CSV after RFC 4180, in UTF-8, with a header row. */
record Sheet(LedgerFile file, List<Sheet.Row> rows) {

  private static final String NOT_UTF_8 =
      "Here or further down stands something that is not UTF-8.";
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  /**
   * A row that has a cell for every column of the header.
   *
   * @param line where it begins in the file
   */
  record Row(LedgerFile file, int line, List<String> header, List<String> cells) {

    /** What is written there, without the white space around it; empty when nothing is. */
    String cell(String column) {
      return file.mayLack(column) && !header.contains(column)
          ? ""
          : cells.get(header.indexOf(column)).strip();
    }

    /** The entries of a cell that holds several, separated by semicolons. */
    List<String> several(String column) {
      String cell = cell(column);
      return cell.isEmpty()
          ? List.of()
          : Arrays.stream(cell.split(";", -1)).map(String::strip).toList();
    }
  }

  /** Reads a file; what cannot be read as rows of its columns is noted and left out. */
  static Sheet read(LedgerFiles files, LedgerFile file, Rejects rejects) {
    List<Row> rows = new ArrayList<>();
    try (InputStream bytes = files.open(file.fileName())) {
      if (bytes == null && file.mayBeMissing()) {
        return new Sheet(file, rows);
      }
      if (bytes == null) {
        rejects.noteUnread(file, 1, "The file is missing.");
      } else {
        readRows(withoutMark(bytes), file, rows, rejects);
      }
    } catch (CharacterCodingException notText) {
      rejects.noteUnread(file, 1, NOT_UTF_8);
    } catch (IOException broken) {
      throw new UncheckedIOException("Could not read " + file.fileName(), broken);
    }
    return new Sheet(file, rows);
  }

  /** Spreadsheets put a mark before the text; a decoder of its own refuses what is not UTF-8. */
  private static Reader withoutMark(InputStream bytes) throws IOException {
    Reader text =
        new BufferedReader(new InputStreamReader(bytes, StandardCharsets.UTF_8.newDecoder()));
    text.mark(1);
    if (text.read() != BYTE_ORDER_MARK) {
      text.reset();
    }
    return text;
  }

  private static void readRows(Reader text, LedgerFile file, List<Row> rows, Rejects rejects)
      throws IOException {
    int line = 1;
    try (CSVParser parser = CSVFormat.RFC4180.parse(text)) {
      Iterator<CSVRecord> records = parser.iterator();
      List<String> header = records.hasNext() ? cells(records.next()) : List.of();
      if (!fits(header, file, rejects)) {
        return;
      }
      line = after(parser);
      while (records.hasNext()) {
        List<String> cells = cells(records.next());
        if (cells.size() == header.size()) {
          Row row = new Row(file, line, header, cells);
          if (isText(row, rejects)) {
            rows.add(row);
          } else {
            rejects.reject(row);
          }
        } else if (!cells.equals(List.of(""))) {
          rejects.noteUnread(
              file,
              line,
              "The row has " + cells.size() + " cells and the header " + header.size() + ".");
        }
        line = after(parser);
      }
    } catch (UncheckedIOException unreadable) {
      rejects.noteUnread(
          file,
          line,
          unreadable.getCause() instanceof CharacterCodingException
              ? NOT_UTF_8
              : "From here on it is not CSV: look for a quotation mark without its partner.");
    }
  }

  /** Not every database takes every character, not even to say that it has no such code. */
  private static boolean isText(Row row, Rejects rejects) {
    boolean isText = true;
    for (String column : row.header()) {
      if (row.cell(column)
          .chars()
          .anyMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t')) {
        rejects.note(row, column, "Leave control characters out.");
        isText = false;
      }
    }
    return isText;
  }

  private static int after(CSVParser parser) {
    return Math.toIntExact(parser.getCurrentLineNumber() + 1);
  }

  private static List<String> cells(CSVRecord row) {
    return row.stream().toList();
  }

  private static boolean fits(List<String> header, LedgerFile file, Rejects rejects) {
    List<String> named =
        file.columns().stream()
            .filter(column -> header.contains(column) || !file.mayLack(column))
            .toList();
    boolean fits =
        header.size() == named.size() && new HashSet<>(header).equals(new HashSet<>(named));
    if (!fits) {
      rejects.noteUnread(
          file,
          1,
          "The header has to name these columns, in any order: "
              + file.columns().stream().collect(Collectors.joining(","))
              + ".");
    }
    return fits;
  }
}
