package org.tareline.exchange;

/**
 * One fault of one row that was not taken in.
 *
 * @param line where the row begins in the file; the header is line 1
 * @param column empty where it is the row as a whole
 * @param reason what is wrong and what would be right, as a sentence
 */
public record BadRow(String file, int line, String column, String reason) {

  @Override
  public String toString() {
    return file + ", line " + line + (column.isEmpty() ? "" : ", column " + column) + ": " + reason;
  }
}
