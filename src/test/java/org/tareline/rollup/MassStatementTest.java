package org.tareline.rollup;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rollup.Rigs.line;
import static org.tareline.rollup.Rigs.rig;
import static org.tareline.rollup.Rigs.unknown;
import static org.tareline.rollup.Rigs.weighed;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.MassStatement.Item;
import org.tareline.units.Mass;
import org.tareline.units.Percent;

class MassStatementTest {

  private static Item item(String grams, String allowed) {
    return new Item(Mass.ofGrams(grams), Percent.parse(allowed).fraction());
  }

  /**
   * Worked in exact decimals by hand: 180 × 0.05 + 96 × 0.10 + 250 × 0.20 = 68.60 g. The parts
   * allowed are those of ESA SRE-PA/2011.097, 2.1 (5, 10 and 20 %), and 0 for what is weighed
   * (ANSI/AIAA S-120A).
   */
  @Test
  void aWorkedStatementAddsUp() {
    MassStatement statement =
        MassStatement.of(
            List.of(
                item("412.6", "0 %"),
                item("180", "5 %"),
                item("96", "10 %"),
                item("250", "20 %"),
                item("33.5", "0 %")),
            Mass.ofGrams("1050"));
    assertThat(statement.basic()).isEqualTo(Mass.ofGrams("972.1"));
    assertThat(statement.growthAllowance()).isEqualTo(Mass.ofGrams("68.6"));
    assertThat(statement.predicted()).isEqualTo(Mass.ofGrams("1040.7"));
    assertThat(statement.margin()).isEqualTo(Mass.ofGrams("9.3"));
    Offset<Double> printed = within(5e-7); // half a step of the last printed digit
    assertThat(requireNonNull(statement.marginOfPredicted()).doubleValue())
        .isCloseTo(0.893629, printed);
    assertThat(requireNonNull(statement.marginOfTarget()).doubleValue())
        .isCloseTo(0.885714, printed);
  }

  @Test
  void aMarginBelowNothingIsOver() {
    MassStatement statement = MassStatement.of(List.of(item("100", "20 %")), Mass.ofGrams("110"));
    assertThat(statement.margin()).isEqualTo(Mass.ofGrams("-10"));
    assertThat(statement.marginOfTarget()).isNegative();
  }

  @Test
  void anAllowanceIsRoundedOnceAndHalfEven() {
    // Two halves of a nanogram are one nanogram; rounded one by one, half-even, they were none.
    Item half = new Item(new Mass(10), new BigDecimal("0.05"));
    assertThat(MassStatement.of(List.of(half, half), null).growthAllowance())
        .isEqualTo(new Mass(1));
    assertThat(MassStatement.of(List.of(half), null).growthAllowance()).isEqualTo(Mass.ZERO);
    Item oneAndAHalf = new Item(new Mass(30), new BigDecimal("0.05"));
    assertThat(MassStatement.of(List.of(oneAndAHalf), null).growthAllowance())
        .isEqualTo(new Mass(2));
  }

  @Test
  void everyLineHasTheAllowanceOfItsBasisAndWhatHasNoMassHasNone() {
    Piece stated =
        new Piece("s", "S", "s", Estimate.of(Mass.ofGrams("50"), Map.of()), Basis.ESTIMATED);
    Piece fromCutList =
        new Piece("c", "C", "c", Estimate.of(Mass.ofGrams("40"), Map.of()), Basis.CALCULATED);
    RollUp rollUp =
        RollUp.of(
            rig(
                "r",
                line("body", 1, weighed("w", "300", 1)),
                line("tarp", 2, stated),
                line("pad", 3, fromCutList),
                line("pillow", 1, unknown("u"))),
            Scope.COMPLETE);
    MassStatement statement =
        MassStatement.of(
            rollUp.leaves(),
            basis ->
                new BigDecimal(
                    basis == Basis.ESTIMATED ? "0.2" : basis == Basis.CALCULATED ? "0.05" : "0"),
            null);
    // 20 % of 100 g and 5 % of 120 g.
    assertThat(statement.growthAllowance()).isEqualTo(Mass.ofGrams("26"));
    assertThat(statement.basic()).isEqualTo(rollUp.estimate().value());
    assertThat(statement.margin()).isNull();
    assertThat(statement.marginOfTarget()).isNull();
    assertThat(statement.marginOfPredicted()).isNull();
  }

  @Test
  void aTargetOfNothingIsRefused() {
    assertThatThrownBy(() -> MassStatement.of(List.of(), Mass.ZERO))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
