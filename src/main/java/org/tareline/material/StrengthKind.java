package org.tareline.material;

import java.util.Arrays;
import java.util.Optional;
import org.tareline.site.Codes;

/** What a strength says. */
public enum StrengthKind {
  /** What a new, unused line must hold at the least in a laboratory (CI 1401). */
  MINIMUM_BREAKING("minimum-breaking", "minimum breaking strength"),
  AVERAGE_BREAK("average-break", "average break"),
  /** Holds its design factor already. */
  WORKING_LOAD_LIMIT("working-load-limit", "working load limit");

  private final String word;
  private final String pageWords;

  StrengthKind(String word, String pageWords) {
    this.word = word;
    this.pageWords = pageWords;
  }

  /** The word in API and database. */
  public String word() {
    return word;
  }

  /** The words on a page. */
  public String pageWords() {
    return pageWords;
  }

  public static Optional<StrengthKind> of(String word) {
    String key = Codes.key(word);
    return Arrays.stream(values()).filter(kind -> kind.word.equals(key)).findFirst();
  }
}
