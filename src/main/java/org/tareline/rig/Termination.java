package org.tareline.rig;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;

/** How the ends of a line are made, and what that leaves of its strength. */
public enum Termination {
  SPLICED(
      "spliced",
      "0.925 ± 0.025",
      "eye splice, 90 to 95 % left: USCG Auxiliary Boat Crew Seamanship, Table 7-6"),
  KNOTTED(
      "knotted",
      "0.65 ± 0.15",
      "half to four fifths left: Cordage Institute CI 1401, 4 (as much as 50 % lost); Montgomery, Single Rope "
          + "Techniques (20 to 40 % lost)"),
  /** Bar tacks and box stitches hold what their pattern and thread do: test them. */
  SEWN("sewn", null, "not known until a sample of the same stitching was pulled"),
  RATED("as rated", "1", "rated with its ends, or a thing that has none");

  private final String word;
  private final @Nullable String factor;
  private final String source;

  Termination(String word, @Nullable String factor, String source) {
    this.word = word;
    this.factor = factor;
    this.source = source;
  }

  /** The word in API, files and database, and on pages. */
  public String word() {
    return word;
  }

  /** What it leaves where nothing better is known, as a number with its ±; null is not known. */
  @Nullable String factor() {
    return factor;
  }

  /** Where that comes from. */
  String source() {
    return source;
  }

  public static Optional<Termination> of(String word) {
    String key = Codes.key(word);
    return Arrays.stream(values()).filter(one -> one.word.equals(key)).findFirst();
  }

  /** All words, for sentences. */
  static String words() {
    return Arrays.stream(values()).map(Termination::word).collect(Collectors.joining(", "));
  }
}
