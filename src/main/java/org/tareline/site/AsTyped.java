package org.tareline.site;

import org.tareline.units.Unit;

/** What somebody typed, shown again as typed. */
public final class AsTyped {

  private AsTyped() {}

  /**
   * The text; a bare number with the unit that was taken to be meant, so that it says what it is.
   */
  public static String text(String typed, Unit meant) {
    boolean bare = typed.codePoints().noneMatch(c -> Character.isLetter(c) || c == '%');
    return bare ? typed + "\u00a0" + meant.symbol() : typed;
  }
}
