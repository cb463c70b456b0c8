package org.tareline.rig.web;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.rig.Forest;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.RollUp;
import org.tareline.site.AsTyped;
import org.tareline.site.Figure;
import org.tareline.site.SumTable;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Percent;
import org.tareline.units.Unit;

/**
 * The lines of a weight statement: every part with its mass and where that comes from, down to the
 * readings.
 *
 * @param today the day it is made
 * @param standing how many lines there are of each basis, in words
 */
record StatementSheet(String today, String standing, List<Row> rows) {

  /**
   * A part in one line.
   *
   * @param standard u
   * @param share of the total's variance
   * @param whence the weighing or the statement that its mass comes from
   */
  record Row(
      String code,
      String name,
      String role,
      String count,
      @Nullable Figure figure,
      String standard,
      String share,
      String whence) {}

  static StatementSheet of(RollUp rollUp, Forest forest, Member member, RigPage.Dates dates) {
    MassStyle style = member.massStyle();
    List<Leaf> leaves = rollUp.leaves();
    List<@Nullable Estimate> column = new ArrayList<>();
    leaves.forEach(leaf -> column.add(leaf.estimate()));
    column.add(rollUp.estimate());
    int decimals = Figure.decimals(column, style);
    return new StatementSheet(
        dates.today(),
        Quote.standing(rollUp),
        leaves.stream().map(leaf -> row(leaf, forest, member, style, decimals, dates)).toList());
  }

  private static Row row(
      Leaf leaf, Forest forest, Member member, MassStyle style, int decimals, RigPage.Dates dates) {
    Estimate estimate = leaf.estimate();
    Mass standard = estimate == null ? Mass.ZERO : estimate.standardUncertainty();
    return new Row(
        leaf.piece().code(),
        leaf.piece().name(),
        leaf.line().role(),
        String.valueOf(leaf.multiplicity()),
        Figure.orNull(estimate, style, decimals),
        estimate == null ? "" : style.number(standard, style.decimals(standard, 2)),
        estimate == null ? "" : SumTable.percent(leaf.shareOfVariance()),
        whence(
            forest.part(leaf.piece()).orElse(null),
            forest.mass(leaf.piece()).orElse(PartMass.UNKNOWN),
            member,
            dates));
  }

  private static String whence(
      @Nullable Part part, PartMass mass, Member member, RigPage.Dates dates) {
    String accounts =
        mass.weighings().stream()
            .map(weighing -> WholePanel.account(weighing, dates))
            .collect(Collectors.joining(". "));
    if (!accounts.isEmpty()) {
      String how =
          mass.remainder()
              ? "What was left of several things together: "
              : mass.weighings().size() > 1 ? "Mean of pieces weighed one by one: " : "";
      return how + accounts;
    }
    if (part == null || mass.basis() == null) {
      return "Not weighed, and no mass is stated";
    }
    if (mass.basis() != Basis.ESTIMATED) {
      return mass.basis().pageWords();
    }
    return "Stated as "
        + AsTyped.text(part.statedTyped().orElse(""), Unit.GRAM)
        + "; taken as good to ± "
        + part.statedToleranceTyped()
            .map(typed -> AsTyped.text(typed, Unit.GRAM))
            .orElseGet(() -> percent(member.settings().statedTolerance()));
  }

  private static String percent(BigDecimal fraction) {
    return new Percent(fraction).toString();
  }
}
