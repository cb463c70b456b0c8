package org.tareline.exchange;

import java.util.List;
import java.util.stream.Collectors;

/** A ledger that was not taken in, and every row that stood in the way. */
public final class BadRows extends RuntimeException {

  /**
   * One fault of one row.
   *
   * @param line where the row begins in the file; the header is line 1
   * @param column empty where it is the row as a whole
   * @param reason what is wrong and what would be right, as a sentence
   */
  public record BadRow(String file, int line, String column, String reason) {

    @Override
    public String toString() {
      return file
          + ", line "
          + line
          + (column.isEmpty() ? "" : ", column " + column)
          + ": "
          + reason;
    }
  }

  private final transient List<BadRow> rows;

  BadRows(List<BadRow> rows) {
    super(
        rows.stream()
            .map(BadRow::toString)
            .collect(Collectors.joining("\n", "Nothing was taken in.\n", "")));
    this.rows = List.copyOf(rows);
  }

  /** In the order of the files and of their rows; never empty. */
  public List<BadRow> rows() {
    return rows;
  }
}
