package org.tareline.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.tareline.exchange.Sheet.Row;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** Rows that have lines under them in another file. */
final class RowsWithLines {

  private final LedgerFile rowsFile;
  private final String key;
  private final List<Row> rows;
  private final Map<String, List<Row>> lines;

  private RowsWithLines(
      LedgerFile rowsFile, String key, List<Row> rows, Map<String, List<Row>> lines) {
    this.rowsFile = rowsFile;
    this.key = key;
    this.rows = rows;
    this.lines = lines;
  }

  /**
   * Reads both files; a line under a row that is not there is noted and left out.
   *
   * @param column of the lines, with the code of the row that a line belongs to; of the rows as
   *     well, where they have no code of their own
   */
  static RowsWithLines read(
      LedgerFiles files,
      LedgerFile rowsFile,
      LedgerFile linesFile,
      String column,
      Rejects rejects) {
    return of(
        rowsFile, Sheet.read(files, rowsFile, rejects).rows(), files, linesFile, column, rejects);
  }

  /** The same rows with their lines in another file. */
  RowsWithLines with(LedgerFiles files, LedgerFile linesFile, String column, Rejects rejects) {
    return of(rowsFile, rows, files, linesFile, column, rejects);
  }

  private static RowsWithLines of(
      LedgerFile rowsFile,
      List<Row> rows,
      LedgerFiles files,
      LedgerFile linesFile,
      String column,
      Rejects rejects) {
    Map<String, List<Row>> lines = new HashMap<>();
    String key = rowsFile.columns().contains("code") ? "code" : column;
    rows.forEach(row -> lines.put(Codes.key(row.cell(key)), new ArrayList<>()));
    for (Row line : Sheet.read(files, linesFile, rejects).rows()) {
      List<Row> itsLines = lines.get(Codes.key(line.cell(column)));
      if (itsLines == null) {
        rejects.note(
            line,
            column,
            "There is no "
                + column
                + " "
                + Faults.shortened(line.cell(column))
                + " in "
                + rowsFile.fileName()
                + ".");
      } else {
        itsLines.add(line);
      }
    }
    return new RowsWithLines(rowsFile, key, rows, lines);
  }

  List<Row> rows() {
    return rows;
  }

  /** In the order of their file. */
  List<Row> linesOf(Row row) {
    return lines.getOrDefault(Codes.key(row.cell(key)), List.of());
  }
}
