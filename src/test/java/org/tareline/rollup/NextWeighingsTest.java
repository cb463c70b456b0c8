package org.tareline.rollup;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rollup.Rigs.line;
import static org.tareline.rollup.Rigs.rig;
import static org.tareline.rollup.Rigs.unknown;
import static org.tareline.rollup.Rigs.weighed;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Instrument;
import org.tareline.evidence.Source;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.rollup.NextWeighings.Which;
import org.tareline.units.Mass;

class NextWeighingsTest {

  private static final Instrument SCALE =
      new Instrument("scale", "bench", Mass.ofGrams("0.1"), Mass.ofGrams("0.05"), 9, 0.001);

  private static final NextWeighings.Scale BENCH = bench(SCALE);

  private static NextWeighings.Scale bench(Instrument instrument) {
    return new NextWeighings.Scale(
        instrument, Mass.ofGrams("5000"), piece -> Estimate.exact(Mass.ZERO));
  }

  @Test
  void theGreatestDoubtComesFirstAndWeighingItLeavesTheRest() {
    RollUp rollUp =
        RollUp.of(
            rig(
                "r",
                line("body", 1, weighed("sure", "300", 3)),
                line("pad", 2, weighed("vague", "100", 2))),
            Scope.COMPLETE);
    Instrument exact = new Instrument("x", "x", Mass.ofGrams("1"), null, 1, 0);
    NextWeighings next = NextWeighings.of(rollUp, bench(exact), Which.ALL);
    // By hand: u² = 3² + (2·2)² = 25 g²; the pads have 16/25 of it. One reading of readability 1 g
    // has u² = 2/12 g², and two of the pad have 4 times that.
    assertThat(next.expandedUncertaintyInGrams()).isCloseTo(1.959964 * 5, within(1e-9));
    assertThat(next.candidates())
        .extracting(candidate -> candidate.piece().code())
        .containsExactly("vague", "sure");
    assertThat(next.candidates().get(0).shareOfVariance()).isCloseTo(0.64, within(1e-12));
    assertThat(next.candidates().get(0).expandedUncertaintyInGramsAfter())
        .isCloseTo(1.959964 * Math.sqrt(9 + 4 * 2 / 12.0), within(1e-9));
    assertThat(next.candidates().get(1).expandedUncertaintyInGramsAfter())
        .isCloseTo(1.959964 * Math.sqrt(5 * 2 / 12.0), within(1e-9));
  }

  @Test
  void whatIsWeighedBetterAlreadyIsNoHelp() {
    RollUp rollUp =
        RollUp.of(
            rig(
                "r",
                line("body", 1, weighed("well", "300", 0.01)),
                line("tarp", 1, weighed("badly", "100", 0.2))),
            Scope.COMPLETE);
    // One reading on this scale has u² = 0.05² + 2 × 0.1²/12 + (0.001 m)²/3, above 0.01² g².
    assertThat(NextWeighings.of(rollUp, BENCH, Which.ALL).candidates())
        .extracting(candidate -> candidate.piece().code())
        .containsExactly("badly", "well");
    assertThat(NextWeighings.of(rollUp, BENCH, Which.THAT_HELP).candidates())
        .extracting(candidate -> candidate.piece().code())
        .containsExactly("badly");
  }

  @Test
  void whatWouldBeJustAsUnsureForTheAirIsNoHelp() {
    RollUp rollUp = RollUp.of(rig("r", line("body", 1, weighed("body", "300", 2))), Scope.COMPLETE);
    Source air = Source.of("air", "air of today");
    NextWeighings.Scale inTheAir =
        new NextWeighings.Scale(
            SCALE, Mass.ofGrams("5000"), piece -> Estimate.of(Mass.ZERO, Map.of(air, 3.0)));
    assertThat(NextWeighings.of(rollUp, inTheAir, Which.THAT_HELP).candidates()).isEmpty();
    // 3² of the air, and 0.05² + 2 × 0.1²/12 + (0.3/√3)² of the scale.
    assertThat(
            NextWeighings.of(rollUp, inTheAir, Which.ALL)
                .candidates()
                .get(0)
                .expandedUncertaintyInGramsAfter())
        .isCloseTo(1.959964 * Math.sqrt(9 + 0.0025 + 0.02 / 12 + 0.03), within(1e-6));
  }

  @Test
  void whatHasNoMassOrIsTooHeavyIsListedApart() {
    RollUp rollUp =
        RollUp.of(
            rig(
                "r",
                line("body", 1, weighed("heavy", "6000", 3)),
                line("pad", 1, unknown("new")),
                line("tarp", 1, weighed("tarp", "300", 1))),
            Scope.COMPLETE);
    NextWeighings next = NextWeighings.of(rollUp, BENCH, Which.ALL);
    assertThat(next.missing()).extracting(Piece::code).containsExactly("new");
    assertThat(next.tooHeavy()).extracting(Piece::code).containsExactly("heavy");
    assertThat(next.candidates())
        .extracting(candidate -> candidate.piece().code())
        .containsExactly("tarp");
  }

  @Test
  void whatIsInBothDoesNotHelpToTellThemApart() {
    Line shared = line("tarp", 1, weighed("tarp", "400", 50));
    RollUp first =
        RollUp.of(rig("a", shared, line("body", 1, weighed("old", "300", 1))), Scope.COMPLETE);
    RollUp second =
        RollUp.of(rig("b", shared, line("body", 1, weighed("new", "299", 2))), Scope.COMPLETE);
    NextWeighings next = NextWeighings.of(first, second, BENCH, Which.ALL);
    assertThat(next.candidates())
        .extracting(candidate -> candidate.piece().code())
        .containsExactly("new", "old");
    assertThat(next.expandedUncertaintyInGrams())
        .isCloseTo(
            Comparison.of(first, second).total().difference().expandedUncertaintyInGrams(),
            within(1e-12));
  }

  static List<Long> seeds() {
    return new Random(29).longs(150).boxed().toList();
  }

  /** Against a whole roll-up of a rig in which the first, the first two, ... were replaced. */
  @ParameterizedTest
  @MethodSource("seeds")
  void everyStepIsWhatARollUpAfterItWouldSay(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    Scope scope = Rigs.anyScope(random);
    RollUp rollUp = RollUp.of(whole, scope);
    NextWeighings next = NextWeighings.of(rollUp, BENCH, Which.ALL);
    assertThat(next.expandedUncertaintyInGrams())
        .isCloseTo(rollUp.estimate().expandedUncertaintyInGrams(), within(1e-9));
    assertThat(next.missing()).containsExactlyInAnyOrderElementsOf(rollUp.missing());
    Map<String, Piece> replaced = new HashMap<>();
    double last = Double.POSITIVE_INFINITY;
    for (NextWeighings.Candidate candidate : next.candidates()) {
      assertThat(candidate.shareOfVariance())
          .isCloseTo(shareOf(candidate.piece(), rollUp), within(1e-9))
          .isLessThanOrEqualTo(last);
      last = candidate.shareOfVariance();
      replaced.put(candidate.piece().id(), weighedOnce(candidate.piece()));
      double after =
          RollUp.of(replace(whole, replaced), scope).estimate().expandedUncertaintyInGrams();
      assertThat(candidate.expandedUncertaintyInGramsAfter()).isCloseTo(after, within(1e-9));
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everyStepOfADifferenceIsWhatAComparisonAfterItWouldSay(long seed) {
    Random random = new Random(seed);
    Assembly first = Rigs.any(random);
    Assembly second =
        rig(
            "second",
            line("body", 2, first),
            line("tarp", 1, weighed("n", "3", 1)),
            line("pad", 1, weighed("m", "4", 2)));
    NextWeighings next =
        NextWeighings.of(
            RollUp.of(first, Scope.COMPLETE), RollUp.of(second, Scope.COMPLETE), BENCH, Which.ALL);
    Map<String, Piece> replaced = new HashMap<>();
    for (NextWeighings.Candidate candidate : next.candidates()) {
      replaced.put(candidate.piece().id(), weighedOnce(candidate.piece()));
      Comparison after =
          Comparison.of(
              RollUp.of(replace(first, replaced), Scope.COMPLETE),
              RollUp.of(replace(second, replaced), Scope.COMPLETE));
      assertThat(candidate.expandedUncertaintyInGramsAfter())
          .isCloseTo(after.total().difference().expandedUncertaintyInGrams(), within(1e-9));
    }
  }

  private static double shareOf(Piece piece, RollUp rollUp) {
    return rollUp.leaves().stream()
        .filter(leaf -> leaf.piece().id().equals(piece.id()))
        .mapToDouble(Leaf::shareOfVariance)
        .sum();
  }

  private static Piece weighedOnce(Piece piece) {
    Estimate once =
        WeighingEvidence.from(
                "again " + piece.id(),
                List.of(requireNonNull(piece.each()).value()),
                Mass.ZERO,
                1,
                SCALE)
            .estimate();
    return new Piece(piece.id(), piece.code(), piece.name(), once, Basis.WEIGHED);
  }

  static Assembly replace(Assembly assembly, Map<String, Piece> pieces) {
    return new Assembly(
        assembly.id(),
        assembly.code(),
        assembly.name(),
        assembly.lines().stream()
            .map(
                line ->
                    new Line(
                        line.id(),
                        line.role(),
                        line.quantity(),
                        line.content() instanceof Assembly nested
                            ? replace(nested, pieces)
                            : pieces.getOrDefault(line.content().id(), (Piece) line.content())))
            .toList());
  }
}
