package org.tareline.evidence;

/** Whether a difference can be told from nothing at 95 %. */
public enum Verdict {
  LIGHTER("lighter"),
  HEAVIER("heavier"),
  /** The difference is within its own expanded uncertainty: it may be nothing at all. */
  UNDECIDED("undecided");

  private final String word;

  Verdict(String word) {
    this.word = word;
  }

  /**
   * What a difference says of its first term: below nothing by more than U is lighter, above by
   * more is heavier, and |difference| ≤ U is undecided.
   */
  public static Verdict of(Estimate difference) {
    double grams = difference.value().inGrams();
    if (Math.abs(grams) <= difference.expandedUncertaintyInGrams()) {
      return UNDECIDED;
    }
    return grams < 0 ? LIGHTER : HEAVIER;
  }

  /** The word the API and files use. */
  public String word() {
    return word;
  }
}
