package org.tareline.material;

import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

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

  /**
   * Reads a kind; a strength without one is a minimum, and no strength has none.
   *
   * @param holder what stands before the names of the fields, as {@code elements[2].}
   */
  public static @Nullable StrengthKind read(
      Faults faults, String holder, @Nullable String strength, @Nullable String typed) {
    String word = faults.optionalText(holder + "strengthKind", typed, "what the strength is", 60);
    if (word == null) {
      return strength == null ? null : MINIMUM_BREAKING;
    }
    Optional<StrengthKind> kind = of(word);
    if (kind.isEmpty()) {
      faults.add(
          holder + "strengthKind",
          "Say minimum-breaking, average-break or working-load-limit; read \""
              + Faults.shortened(word)
              + "\".");
    } else if (strength == null) {
      faults.add(holder + "strength", "Give the strength that this says the kind of.");
    }
    return kind.orElse(null);
  }
}
