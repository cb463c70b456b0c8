package org.tareline.rig;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.tareline.statics.Assessment.Checked;
import org.tareline.statics.Assessment.Verdict;
import org.tareline.units.Range;

/**
 * What a rig carries as it is hung, held against what its parts hold and against what they would
 * hold.
 */
public record LoadsChange(HangFigures before, HangFigures after) {

  /** What would have less than is wanted of it, and has enough or is not known as it is. */
  private List<Checked> dropped() {
    List<Checked> dropped = new ArrayList<>();
    for (int i = 0; i < after.assessment().checked().size(); i++) {
      Checked then = after.assessment().checked().get(i);
      if (then.verdict() == Verdict.BELOW
          && before.assessment().checked().get(i).verdict() != Verdict.BELOW) {
        dropped.add(then);
      }
    }
    return dropped;
  }

  /** Whether something in the path of the load drops below what is wanted of it. */
  public boolean dropsBelow() {
    return !dropped().isEmpty();
  }

  /** What becomes of the strength as it is hung, the worst first, in sentences. */
  public String words() {
    List<String> sentences = new ArrayList<>();
    dropped().forEach(one -> sentences.add("Below the design factor: " + words(one) + "."));
    if (after.assessment().verdict() == Verdict.NOT_KNOWN) {
      sentences.add("Not known whether it holds: " + unknown() + ".");
    }
    Checked least = after.assessment().least();
    if (sentences.isEmpty() && least != null) {
      sentences.add(
          (after.assessment().verdict() == Verdict.BELOW
                  ? "Below the design factor as it is and as it would be: "
                  : "All that is named has what is wanted of it; the least: ")
              + words(least)
              + ".");
    }
    return String.join(" ", sentences);
  }

  private String unknown() {
    List<String> names =
        after.assessment().checked().stream()
            .filter(one -> one.verdict() == Verdict.NOT_KNOWN)
            .map(one -> one.element().name())
            .toList();
    return names.isEmpty()
        ? "nothing is named that carries"
        : "what " + String.join(", ", names) + " would hold";
  }

  private static String words(Checked one) {
    Range factor = one.factor();
    if (factor == null || Double.isInfinite(factor.low())) {
      return one.element().name() + " would carry nothing";
    }
    return one.element().name()
        + " would be "
        + (factor.isWide() ? "as little as " : "")
        + downTo3Digits(factor.low())
        + " times stronger than its load, wanted "
        + downTo3Digits(one.wanted());
  }

  /** Down, so that what is less never reads as what is wanted; a hair up first, for the doubles. */
  private static String downTo3Digits(double number) {
    return new BigDecimal(number * (1 + 1e-9))
        .round(new MathContext(3, RoundingMode.DOWN))
        .stripTrailingZeros()
        .toPlainString();
  }
}
