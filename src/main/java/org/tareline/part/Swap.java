package org.tareline.part;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import org.tareline.material.Material;
import org.tareline.material.StrengthKind;
import org.tareline.site.CandidateTable;
import org.tareline.units.Quantity;

/** One material in the place of another, in every line of a cut list that has it. */
public record Swap(Material from, Material to) {

  /** What a swap does to the strength. */
  public enum Holds {
    WEAKER("weaker"),
    AS_STRONG("as-strong"),
    STRONGER("stronger"),
    /** One of the two is not known, or both; never a pass. */
    NOT_KNOWN("not-known"),
    /** The two say different things, such as an average and a least. */
    NOT_COMPARABLE("not-comparable");

    private final String word;

    Holds(String word) {
      this.word = word;
    }

    /** The word in the API. */
    public String word() {
      return word;
    }
  }

  public Holds holds() {
    if (from.strength().isEmpty() || to.strength().isEmpty()) {
      return Holds.NOT_KNOWN;
    }
    double ratio = ratio().orElse(0.0);
    if (ratio == 0) {
      return Holds.NOT_COMPARABLE;
    }
    return ratio < 1 ? Holds.WEAKER : ratio > 1 ? Holds.STRONGER : Holds.AS_STRONG;
  }

  /** The new strength over the old one; nothing unless both are known and are of one kind. */
  public Optional<Double> ratio() {
    return from.strengthKind().equals(to.strengthKind())
        ? from.strength()
            .flatMap(was -> to.strength().map(is -> is.force().newtons() / was.force().newtons()))
        : Optional.empty();
  }

  /** The change in strength as a sentence. */
  public String words() {
    String was = strength(from);
    String is = strength(to);
    return switch (holds()) {
      case WEAKER ->
          "Weaker: "
              + to.code()
              + " holds "
              + is
              + ", "
              + downTo3Digits(100 * ratio().orElse(0.0))
              + "\u00a0% of the "
              + was
              + " of "
              + from.code()
              + ".";
      case STRONGER ->
          "Stronger: "
              + to.code()
              + " holds "
              + is
              + ", "
              + downTo3Digits(ratio().orElse(0.0))
              + " times the "
              + was
              + " of "
              + from.code()
              + ".";
      case AS_STRONG ->
          "As strong: " + to.code() + " holds " + is + ", as " + from.code() + " does.";
      case NOT_COMPARABLE ->
          "Not to be compared: "
              + to.code()
              + " holds "
              + is
              + ", and "
              + from.code()
              + " "
              + was
              + ", which is not the same kind of figure.";
      case NOT_KNOWN ->
          "Strength not known: of "
              + (to.strength().isPresent()
                  ? from.code() + "; " + to.code() + " holds " + is
                  : from.strength().isPresent()
                      ? to.code() + "; " + from.code() + " holds " + was
                      : to.code() + " and of " + from.code())
              + ".";
    };
  }

  /** The same in a table; to be minded wherever it may hold less. */
  public CandidateTable.Cell cell() {
    return new CandidateTable.Cell(
        null, words(), holds() != Holds.STRONGER && holds() != Holds.AS_STRONG);
  }

  /** What a material holds, and what kind of figure that is. */
  public static String strength(Material material) {
    return material.strength().map(Quantity::text).orElse("not known")
        + material.strengthKind().map(StrengthKind::pageWords).map(kind -> " " + kind).orElse("");
  }

  /** Towards nothing, so that what is weaker never reads as 100 %. */
  private static String downTo3Digits(double number) {
    return new BigDecimal(number)
        .round(new MathContext(3, RoundingMode.DOWN))
        .stripTrailingZeros()
        .toPlainString();
  }
}
