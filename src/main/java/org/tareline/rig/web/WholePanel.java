package org.tareline.rig.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.rig.Reconciliations;
import org.tareline.rollup.Explanation;
import org.tareline.rollup.Piece;
import org.tareline.rollup.Reconciliation;
import org.tareline.site.AsTyped;
import org.tareline.site.Figure;
import org.tareline.units.MassStyle;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * A rig weighed whole, held against its parts, as its page shows it. Where it was not weighed whole
 * there are notes alone.
 *
 * @param lead whether they agree, as a sentence
 * @param figures the whole, the parts together, and the one minus the other
 * @param account of the weighing of the whole
 * @param weighing its id; null where there is none
 * @param zeta whole minus parts by its standard uncertainty
 * @param likeliest the explanations that fit best
 * @param others the rest of them
 * @param atLeast whether the parts together are a least sum
 */
record WholePanel(
    String rig,
    String scope,
    @Nullable String weighing,
    @Nullable String lead,
    String unit,
    List<Row> figures,
    String account,
    String zeta,
    List<Cause> likeliest,
    List<Cause> others,
    List<String> notes,
    List<String> reasons) {

  private static final int MOST_AT_ONCE = 6;

  /** A figure with its name. */
  record Row(String name, Figure figure, boolean atLeast) {}

  /**
   * One thing that would explain it.
   *
   * @param left what whole minus parts would be
   * @param part code of the part it is about; null where that is a rig
   * @param weighing id of the weighing to look at; null where none is in question
   * @param whole whether that is the weighing of the whole
   * @param ofList whether the lines of the rig may be wrong rather than a weighing
   */
  record Cause(
      String sentence,
      String left,
      @Nullable String part,
      @Nullable String weighing,
      boolean whole,
      boolean ofList) {}

  static WholePanel of(Reconciliations.Held held, MassStyle style, RigPage.Dates dates) {
    String rig = held.rollUp().assembly().code();
    String scope = held.rollUp().scope().code();
    Reconciliation found = held.reconciliation();
    Weighings.Logged logged = held.whole();
    if (found == null || logged == null) {
      return new WholePanel(
          rig,
          scope,
          null,
          null,
          style.heading(),
          List.of(),
          "",
          "",
          List.of(),
          List.of(),
          held.notes(),
          List.of());
    }
    int decimals =
        Figure.decimals(List.of(found.whole(), found.rolledUp(), found.residual()), style);
    List<Cause> causes =
        found.explanations().stream().map(each -> cause(each, held, style)).toList();
    int shown = Math.min(MOST_AT_ONCE, causes.size());
    return new WholePanel(
        rig,
        scope,
        logged.weighing().uuid().toString(),
        lead(found, style),
        style.heading(),
        List.of(
            new Row("Weighed whole", Figure.of(found.whole(), style, decimals), false),
            new Row(
                "Parts together",
                Figure.of(found.rolledUp(), style, decimals),
                !found.missing().isEmpty()),
            new Row("Whole minus parts", Figure.of(found.residual(), style, decimals), false)),
        account(logged.weighing(), dates),
        Double.isInfinite(found.zeta())
            ? "infinite"
            : new BigDecimal(found.zeta())
                .setScale(2, RoundingMode.HALF_EVEN)
                .toPlainString()
                .replace('-', '\u2212'),
        causes.subList(0, shown),
        causes.subList(shown, causes.size()),
        held.notes(),
        Weighings.REASONS_TO_STRIKE_OUT);
  }

  private static String lead(Reconciliation found, MassStyle style) {
    Estimate residual = found.residual();
    String size =
        Figure.of(residual.value().signum() < 0 ? residual.times(-1) : residual, style).sentence();
    return switch (found.agreement()) {
      case AGREES -> "The whole agrees with its parts: the difference is within its ±.";
      case DISAGREES ->
          "The whole does not agree with its parts: it is "
              + size
              + (residual.value().signum() < 0 ? " lighter" : " heavier")
              + " than they are together.";
      case CANNOT_TELL ->
          "Whether the whole agrees with its parts cannot be told: some of them have no mass yet.";
    };
  }

  /** As {@code Read 472 g on the bench scale; dry; 2027-04-11}. */
  static String account(Weighing weighing, RigPage.Dates dates) {
    Unit unit = weighing.scale().map(Scale::unit).orElse(Unit.GRAM);
    return "Read "
        + weighing.readings().stream()
            .map(reading -> AsTyped.text(reading.typed(), unit))
            .collect(Collectors.joining(", "))
        + weighing.tareTyped().map(tare -> " with a tare of " + AsTyped.text(tare, unit)).orElse("")
        + (weighing.pieceCount() == 1 ? "" : ", " + weighing.pieceCount() + " of it at once,")
        + weighing
            .scale()
            .map(Scale::code)
            .map(scale -> " on " + scale)
            .orElse(
                ", scale not recorded"
                    + weighing
                        .toleranceTyped()
                        .map(good -> ", good to ± " + AsTyped.text(good, Unit.GRAM))
                        .orElse(""))
        + "; "
        + weighing.condition().word()
        + "; "
        + dates.of(weighing.weighedAt());
  }

  private static Cause cause(Explanation explanation, Reconciliations.Held held, MassStyle style) {
    Weighing weighing = held.weighing(explanation).orElse(null);
    Estimate left = explanation.residual();
    return new Cause(
        explanation.sentence(),
        style.withUncertainty(left.value(), left.expandedUncertainty(), 1),
        explanation.about() instanceof Piece piece ? piece.code() : null,
        weighing == null ? null : weighing.uuid().toString(),
        held.whole() != null && held.whole().weighing() == weighing,
        explanation.cause() == Explanation.Cause.MISSING
            || explanation.cause() == Explanation.Cause.EXTRA);
  }
}
