package org.tareline.evidence;

/**
 * Where a mass comes from. The first three are the categories of mass-properties control
 * (estimated, calculated, actual); {@link #MIXED} is a total over more than one of them.
 */
public enum Basis {
  /** Stated by a maker, or guessed. */
  ESTIMATED("estimated", "stated"),
  /** From a cut list and its materials. */
  CALCULATED("calculated", "from the cut list"),
  /** Read from a scale. */
  WEIGHED("weighed", "weighed"),
  /** A total over several of the others. */
  MIXED("mixed", "mixed");

  private final String word;
  private final String pageWords;

  Basis(String word, String pageWords) {
    this.word = word;
    this.pageWords = pageWords;
  }

  /** The basis of two things taken together: theirs where they agree, else mixed. */
  public static Basis of(Basis first, Basis second) {
    return first == second ? first : MIXED;
  }

  /** The word the API and files use. */
  public String word() {
    return word;
  }

  /** The words pages use. */
  public String pageWords() {
    return pageWords;
  }
}
