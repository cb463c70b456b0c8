package org.tareline.rollup;

import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;

/**
 * One thing that, if it alone had happened, would explain why a whole and its parts do not agree.
 *
 * @param about the part or nested rig it would have happened to; the whole itself where its own
 *     weighing is meant
 * @param line id of the line; null where several lines hold the thing, or none that is counted
 * @param weighing id of the weighing to look at again; null where none is in question
 * @param sentence what would have happened, in plain words
 * @param residual what whole minus parts would be if it were true
 */
public record Explanation(
    Cause cause,
    Content about,
    @Nullable String line,
    @Nullable String weighing,
    String sentence,
    Estimate residual) {

  /** The kinds of causes that are looked for, the more plausible first among equal fits. */
  public enum Cause {
    /** The whole was weighed damp or wet, as its weighing says. */
    DAMP("damp"),
    /** Something was done to the part between the two weighings. */
    CHANGED("changed"),
    /** A reading in grams that were ounces, or the other way round. */
    UNIT("unit"),
    /** Two neighbouring digits of a reading, swapped. */
    DIGITS("digits"),
    /** Left off the pan, or listed once too often. */
    MISSING("missing"),
    /** On the pan and not listed, or listed once too few. */
    EXTRA("extra"),
    /** Water that a known fibre takes up from the air. */
    WATER("water");

    private final String word;

    Cause(String word) {
      this.word = word;
    }

    /** The word the API uses. */
    public String word() {
      return word;
    }
  }
}
