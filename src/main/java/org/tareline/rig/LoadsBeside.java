package org.tareline.rig;

import org.jspecify.annotations.Nullable;
import org.tareline.statics.Assessment;

/**
 * How strong two rigs are for their loads, one beside the other.
 *
 * @param a null where nobody has said how it is hung; not where neither is
 * @param b likewise
 */
public record LoadsBeside(@Nullable HangFigures a, @Nullable HangFigures b) {

  /** The second against the first, by the least that is known of each against what is wanted. */
  public enum Verdict {
    WEAKER("weaker"),
    AS_STRONG("as-strong"),
    STRONGER("stronger"),
    NOT_KNOWN("not-known");

    private final String word;

    Verdict(String word) {
      this.word = word;
    }

    /** As it stands in an answer. */
    public String word() {
      return word;
    }
  }

  /**
   * Of the loads of two rigs.
   *
   * @return null where nobody has said how either is hung
   */
  public static @Nullable LoadsBeside of(@Nullable RigLoad a, @Nullable RigLoad b) {
    HangFigures first = a == null ? null : a.figures();
    HangFigures second = b == null ? null : b.figures();
    return first == null && second == null ? null : new LoadsBeside(first, second);
  }

  /** What may have something weaker in it than is known is never said to be the stronger. */
  public Verdict verdict() {
    double before = share(a);
    double after = share(b);
    if (after < before && allKnown(a)) {
      return Verdict.WEAKER;
    }
    if (after > before && allKnown(b)) {
      return Verdict.STRONGER;
    }
    return after == before && allKnown(a) && allKnown(b) ? Verdict.AS_STRONG : Verdict.NOT_KNOWN;
  }

  private static boolean allKnown(@Nullable HangFigures figures) {
    return figures != null && figures.assessment().verdict() != Assessment.Verdict.NOT_KNOWN;
  }

  private static double share(@Nullable HangFigures figures) {
    return figures == null ? Double.POSITIVE_INFINITY : figures.assessment().leastShare();
  }
}
