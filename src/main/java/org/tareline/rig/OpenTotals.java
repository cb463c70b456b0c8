package org.tareline.rig;

import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.rollup.Addends;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.MassStatement;
import org.tareline.rollup.Piece;
import org.tareline.site.Figure;
import org.tareline.site.SumTable;
import org.tareline.site.WeightStatement;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** Totals opened for pages, of rigs and of trips. */
public final class OpenTotals {

  private OpenTotals() {}

  /**
   * The weight statement of a total, with what the settings of the ledger allow.
   *
   * @param leaves that the total is the sum of
   */
  public static WeightStatement statement(
      Member member, List<Leaf> leaves, Estimate total, @Nullable Mass target) {
    MassStyle style = member.massStyle();
    MassStatement statement = MassStatement.of(leaves, member.settings()::growthAllowance, target);
    return WeightStatement.of(
        MassStatement.byBasis(leaves, member.settings()::growthAllowance).stream()
            .map(
                of -> new WeightStatement.Part(of.basis(), of.mass(), of.allowed(), of.allowance()))
            .toList(),
        new WeightStatement.Figures(
            statement.basic(),
            statement.growthAllowance(),
            statement.predicted(),
            statement.target(),
            statement.margin(),
            statement.marginOfTarget(),
            statement.marginOfPredicted()),
        leaves.stream().anyMatch(leaf -> leaf.estimate() == null),
        style,
        Math.max(1, Figure.decimals(List.of(total), style)));
  }

  /**
   * The parts of which a total is the sum.
   *
   * @param code of what has a page of its own; null of what has none
   */
  public static SumTable sum(
      List<Leaf> leaves, Function<Piece, @Nullable String> code, MassStyle style) {
    Addends addends = Addends.of(leaves);
    return SumTable.of(
        addends.each().stream()
            .map(
                each -> {
                  Leaf leaf = each.leaf();
                  Estimate estimate = leaf.estimate();
                  return new SumTable.Item(
                      code.apply(leaf.piece()),
                      leaf.piece().name(),
                      leaf.line().role(),
                      leaf.multiplicity(),
                      estimate,
                      each.shareOfMass(),
                      each.shareOfVariance(),
                      leaf.piece().basis());
                })
            .toList(),
        addends.sum(),
        style);
  }
}
