package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Verdict;
import org.tareline.rig.HangFigures;
import org.tareline.rig.RigLoad;
import org.tareline.rollup.Comparison;
import org.tareline.rollup.RollUp;
import org.tareline.statics.Assessment;
import org.tareline.units.MassStyle;

/** How strong two rigs are, in words, beside which of them is lighter. */
final class StrengthBeside {

  private StrengthBeside() {}

  /**
   * The words, in sentences.
   *
   * @param known by code, of those of which it is said how they are hung; nothing is said where
   *     that is neither
   */
  static List<String> words(
      RollUp first, RollUp second, Map<String, RigLoad> known, MassStyle style) {
    RigLoad a = known.get(first.assembly().code());
    RigLoad b = known.get(second.assembly().code());
    List<String> sentences = new ArrayList<>();
    if (a == null && b == null) {
      return sentences;
    }
    double before = share(a);
    double after = share(b);
    Verdict mass = Comparison.of(first, second).total().verdict();
    String lighter =
        switch (mass) {
          case LIGHTER -> "lighter";
          case HEAVIER -> "heavier";
          case UNDECIDED -> "perhaps no lighter";
        };
    if (Double.isInfinite(before) || Double.isInfinite(after)) {
      sentences.add("Which is stronger for its load is not known.");
    } else {
      String strength = after < before ? "weaker" : after > before ? "stronger" : "as strong";
      sentences.add(
          second.assembly().code()
              + " is "
              + lighter
              + " and "
              + strength
              + " for its load than "
              + first.assembly().code()
              + ", as each is hung and as far as strengths are known.");
    }
    sentences.add(of(first.assembly().code(), a, style));
    sentences.add(of(second.assembly().code(), b, style));
    return sentences;
  }

  private static double share(@Nullable RigLoad load) {
    HangFigures figures = load == null ? null : load.figures();
    return figures == null ? Double.POSITIVE_INFINITY : figures.assessment().leastShare();
  }

  private static String of(String code, @Nullable RigLoad load, MassStyle style) {
    HangFigures figures = load == null ? null : load.figures();
    if (figures == null) {
      return code + ": not known, for nobody has said how it is hung.";
    }
    Assessment.Checked least = figures.assessment().least();
    return code
        + ": "
        + figures.assessment().verdict().word()
        + (least == null || least.factor() == null
            ? "."
            : "; the least known is "
                + least.element().name()
                + ", "
                + LoadWords.of(style).factor(least.factor())
                + " stronger than its load, wanted "
                + LoadWords.decimals(least.wanted(), 1)
                + (least.element().limit() ? ", a working load limit." : "."));
  }
}
