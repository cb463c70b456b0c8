package org.tareline.trip;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Something about a trip that somebody should look at before leaving.
 *
 * @param message a sentence that names the things
 * @param parts codes of the parts it is about
 * @param items names of the free items it is about
 * @param rigs codes of the rigs it is about
 * @param trips codes of the other trips it is about
 * @param day of the trip; null where it is about no day
 */
public record Warning(
    Kind kind,
    String message,
    List<String> parts,
    List<String> items,
    List<String> rigs,
    List<String> trips,
    @Nullable Integer day) {

  /** What a warning is of. */
  public enum Kind {
    /** Packed more often than it is owned. */
    MORE_THAN_OWNED("more-than-owned"),
    /** Enough are owned, but too many of them are lent. */
    LENT("lent"),
    /** All there were have been retired. */
    RETIRED("retired"),
    /** Another trip on the same days wants it too, and there are not enough for both. */
    WANTED_ELSEWHERE("wanted-elsewhere"),
    /** A consumable that is gone before the end. */
    RUNS_OUT("runs-out"),
    MORE_USED_THAN_TAKEN("more-used-than-taken"),
    /** It is to serve for something that is not on the trip. */
    STANDS_IN_FOR_NOTHING("stands-in-for-nothing"),
    /** What is taken against the cold is stated for milder nights. */
    COLD_NIGHT("cold-night"),
    /** More than the pack takes, by the sum of packed volumes. */
    DOES_NOT_FIT("does-not-fit"),
    /** Longer than what goes into the pack. */
    TOO_LONG("too-long"),
    NOT_WEIGHED("not-weighed"),
    /** A rig that was weighed whole and is not the sum of its parts. */
    DOES_NOT_AGREE("does-not-agree");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** The word in the API. */
    public String word() {
      return word;
    }
  }
}
