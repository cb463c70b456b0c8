package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.HangFigures;
import org.tareline.rig.LoadsBeside;
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
    LoadsBeside loads =
        LoadsBeside.of(known.get(first.assembly().code()), known.get(second.assembly().code()));
    List<String> sentences = new ArrayList<>();
    if (loads == null) {
      return sentences;
    }
    String lighter =
        switch (Comparison.of(first, second).total().verdict()) {
          case LIGHTER -> "lighter";
          case HEAVIER -> "heavier";
          case UNDECIDED -> "perhaps no lighter";
        };
    sentences.add(
        loads.verdict() == LoadsBeside.Verdict.NOT_KNOWN
            ? "Which is stronger for its load is not known."
            : second.assembly().code()
                + " is "
                + lighter
                + " and "
                + loads.verdict().word().replace('-', ' ')
                + " for its load than "
                + first.assembly().code()
                + ", as each is hung and as far as strengths are known.");
    sentences.add(of(first.assembly().code(), loads.a(), style));
    sentences.add(of(second.assembly().code(), loads.b(), style));
    return sentences;
  }

  private static String of(String code, @Nullable HangFigures figures, MassStyle style) {
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
