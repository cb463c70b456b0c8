package org.tareline.trip;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.part.Part;
import org.tareline.rollup.Piece;
import org.tareline.units.MassStyle;

/**
 * The base weight of a trip held against what it is to be at most.
 *
 * @param margin target minus base, as far as that is known; below nothing where it is over
 * @param missing what of the base has no mass yet
 * @param lookAtFirst the heaviest first
 */
public record HeldToTarget(
    Amount target, Estimate margin, List<Piece> missing, List<Thing> lookAtFirst) {

  /**
   * A thing in the pack that is worth a look.
   *
   * @param mass of all of it; null where nobody knows it
   * @param share of the base weight, 0 to 1, where it is one of the largest; else null
   * @param useless null where it was used as often as not
   * @param lighter null where none is known to be
   */
  public record Thing(
      Checklist.Thing thing,
      @Nullable Estimate mass,
      @Nullable Double share,
      @Nullable Unused useless,
      @Nullable Lighter lighter) {

    boolean worthALook() {
      return share != null || useless != null || lighter != null;
    }
  }

  /**
   * How often a thing was not used.
   *
   * @param trips on which it was along and it is known what came of it
   */
  public record Unused(int unused, int trips) {}

  /** How strong what is lighter is, where it would carry load; the better first. */
  public enum Strong {
    NOT_WEAKER("not weaker", "It is rated as strong"),
    NOT_KNOWN("not known", "Whether it is as strong is not known"),
    WEAKER("weaker", "It is weaker by its rating");

    private final String word;
    private final String pageWords;

    Strong(String word, String pageWords) {
      this.word = word;
      this.pageWords = pageWords;
    }

    /** The word in the API. */
    public String word() {
      return word;
    }

    public String pageWords() {
      return pageWords;
    }
  }

  /**
   * A part that is owned, at hand, not on the trip, and lighter by more than the uncertainty of the
   * difference.
   *
   * @param sameRole whether it stands in rigs as the other does; else it is for the same system
   * @param saves what the pack would weigh less
   * @param strength null where it carries no load
   */
  public record Lighter(Part part, boolean sameRole, Estimate saves, @Nullable Strong strength) {}

  /** How it stands: {@code within}, {@code over} or {@code undecided}. */
  public String verdict() {
    return switch (Verdict.of(margin)) {
      case LIGHTER -> "over";
      case HEAVIER -> missing.isEmpty() ? "within" : "undecided";
      case UNDECIDED -> "undecided";
    };
  }

  /** The same as a sentence. */
  public String words(MassStyle style) {
    boolean over = margin.value().signum() < 0;
    String by =
        style.withUncertainty(
            over ? margin.value().negated() : margin.value(), margin.expandedUncertainty());
    return switch (verdict()) {
      case "over" -> "Over the target by " + (missing.isEmpty() ? "" : "at least ") + by + ".";
      case "within" -> "Within the target, with " + by + " to spare.";
      default ->
          missing.isEmpty()
              ? "Too near the target to tell: "
                  + (over ? "over by " : "with ")
                  + by
                  + (over ? "." : " to spare.")
              : "Not to be told yet: what is known "
                  + (over ? "is over by " : "leaves ")
                  + by
                  + ", and not all has a mass.";
    };
  }
}
