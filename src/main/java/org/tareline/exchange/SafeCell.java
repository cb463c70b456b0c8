package org.tareline.exchange;

/**
 * Text in a cell that a spreadsheet opens: what would be run as a formula there (OWASP, "CSV
 * Injection") gets a leading apostrophe, and so does what has one already, so that every text comes
 * back as it was. An apostrophe alone is the text of no characters; an empty cell is no text.
 */
final class SafeCell {

  private static final String MARK = "'";
  private static final String RUN_AS_FORMULA = "=+-@\t\r\n";

  private SafeCell() {}

  static String write(String text) {
    return text.isEmpty() || text.startsWith(MARK) || RUN_AS_FORMULA.indexOf(text.charAt(0)) >= 0
        ? MARK + text
        : text;
  }

  /** The text of a cell that is not empty. */
  static String read(String cell) {
    return cell.startsWith(MARK) ? cell.substring(1) : cell;
  }

  /** The text of a cell of a table of somebody's own, where an apostrophe may be just that. */
  static String readForeign(String cell) {
    return cell.length() > 1 && cell.startsWith(MARK) && RUN_AS_FORMULA.indexOf(cell.charAt(1)) >= 0
        ? cell.substring(1)
        : cell;
  }
}
