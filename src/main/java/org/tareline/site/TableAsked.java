package org.tareline.site;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What an address asks of a table of things with a code and a name, as typed; what makes no sense
 * is taken as not asked.
 *
 * @param text what code or name has to hold
 * @param sort the word of a column
 * @param order {@code ascending} or {@code descending}
 */
public record TableAsked(@Nullable String text, @Nullable String sort, @Nullable String order) {

  public String words() {
    return text == null ? "" : text.strip();
  }

  public boolean filtered() {
    return !words().isEmpty();
  }

  public boolean finds(String code, String name) {
    String key = Codes.key(words());
    return Codes.key(code).contains(key) || name.toLowerCase(Locale.ROOT).contains(key);
  }

  /**
   * How many were found, as a caption begins: {@code 3 of 14 rigs holding “tarp”}.
   *
   * @param thing such as {@code rig}
   * @param filtered whether by anything, so that it is told how many there are
   */
  public String found(int found, int all, String thing, boolean filtered) {
    return found
        + (filtered ? " of " + all : "")
        + ' '
        + thing
        + (all == 1 ? "" : "s")
        + (filtered() ? " holding “" + words() + "”" : "");
  }
}
