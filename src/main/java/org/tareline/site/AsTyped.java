package org.tareline.site;

import java.util.regex.Pattern;
import org.tareline.units.Unit;

/** What somebody typed, shown again as typed. */
public final class AsTyped {

  private static final Pattern LIKE_THOUSANDS =
      Pattern.compile("(?<![0-9.,])[1-9][0-9]{0,2},[0-9]{3}(?![0-9.,])");

  private AsTyped() {}

  /**
   * The text; a bare number with the unit that was taken to be meant, so that it says what it is,
   * and a comma that looks as if it parted thousands with a word on what it is: such a text is kept
   * only where somebody said so.
   */
  public static String text(String typed, Unit meant) {
    boolean bare = typed.codePoints().noneMatch(c -> Character.isLetter(c) || c == '%');
    return (bare ? typed + "\u00a0" + meant.symbol() : typed)
        + (LIKE_THOUSANDS.matcher(typed).find() ? " (decimal comma)" : "");
  }
}
