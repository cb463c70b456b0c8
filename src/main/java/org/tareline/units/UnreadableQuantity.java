package org.tareline.units;

/**
 * A text that is not a quantity, or not one that is wanted. Its message is fit to be shown to the
 * person who typed it: what was read, where reading stopped and why, and one example that reads.
 */
public final class UnreadableQuantity extends IllegalArgumentException {

  private static final long serialVersionUID = 1L;

  /** As much of a text as a message quotes, in characters. */
  private static final int QUOTED = 60;

  private final String text;
  private final int position;
  private final String reason;
  private final String example;

  UnreadableQuantity(String text, int position, String reason, String example) {
    super(message(text, position, reason, example));
    this.text = text.substring(0, Math.min(text.length(), QuantityReader.LONGEST_LIST));
    this.position = Math.min(position, this.text.length());
    this.reason = reason;
    this.example = example;
  }

  /** What was typed, cut to {@value QuantityReader#LONGEST_LIST} characters. */
  public String text() {
    return text;
  }

  /**
   * Where reading stopped, in characters from the start of {@link #text()}, from 0 to its length.
   * The length itself where something is missing at the end, or where the whole was read and is not
   * wanted.
   */
  public int position() {
    return position;
  }

  /** Why, in words that begin small and end without a full stop. */
  public String reason() {
    return reason;
  }

  /** One text that would have been read. */
  public String example() {
    return example;
  }

  private static String message(String text, int position, String reason, String example) {
    String read;
    if (text.chars().allMatch(UnreadableQuantity::isBlank)) {
      read = "Nothing was written";
    } else if (position <= 0) {
      read = "Nothing of " + quoted(text) + " could be read";
    } else if (position >= text.length()) {
      read = "Read " + quoted(text) + " to its end";
    } else {
      read =
          "Read "
              + quoted(text.substring(0, position))
              + " and stopped at "
              + quoted(text.substring(position));
    }
    return read + ": " + reason + ". One that reads: " + example + ".";
  }

  /** White space of any sort: the JDK's own test leaves out the no-break spaces. */
  private static boolean isBlank(int c) {
    return Character.isWhitespace(c) || Character.isSpaceChar(c);
  }

  /**
   * The text in quotation marks, shortened, with nothing in it that could disturb a page or log.
   */
  static String quoted(String text) {
    String stripped = text.strip();
    StringBuilder shown = new StringBuilder("“");
    stripped
        .codePoints()
        .limit(QUOTED)
        .forEach(c -> shown.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
    if (stripped.codePointCount(0, Math.min(stripped.length(), 2 * QUOTED + 2)) > QUOTED) {
      shown.append('…');
    }
    return shown.append('”').toString();
  }
}
