package org.tareline.rollup;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rollup.Rigs.line;
import static org.tareline.rollup.Rigs.rig;
import static org.tareline.rollup.Rigs.unknown;
import static org.tareline.rollup.Rigs.weighed;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

class RollUpTest {

  private static Mass g(String grams) {
    return Mass.ofGrams(grams);
  }

  private final Assembly straps =
      rig(
          "straps",
          line("tree strap", 2, weighed("strap", "38", 0.3)),
          line("hardware", 4, weighed("ring", "2.5", 0.1)));
  private final Assembly hammock =
      rig(
          "hammock",
          line("body", 1, weighed("cloth", "310", 0.4)),
          line("suspension", 1, straps),
          line("other", 1, unknown("patch")));

  @Test
  void aTotalIsTheSumOfItsPartsAndSoIsItsVariance() {
    RollUp rollUp = RollUp.of(hammock, Scope.COMPLETE);
    // By hand: 310 + 2 × 38 + 4 × 2.5 g; (0.4)² + (2 × 0.3)² + (4 × 0.1)² g².
    assertThat(rollUp.estimate().value()).isEqualTo(g("396"));
    assertThat(rollUp.estimate().variance()).isCloseTo(0.68, within(1e-12));
    assertThat(rollUp.leafLines()).isEqualTo(4);
  }

  @Test
  void everyEntrySaysWhatItContributes() {
    List<Entry> entries = RollUp.of(hammock, Scope.COMPLETE).lines();
    Entry nested = entries.get(1);
    assertThat(requireNonNull(nested.estimate()).value()).isEqualTo(g("86"));
    assertThat(nested.shareOfMass()).isCloseTo(86.0 / 396, within(1e-12));
    assertThat(nested.shareOfVariance()).isCloseTo(0.52 / 0.68, within(1e-12));
    Entry rings = nested.children().get(1);
    assertThat(rings.count()).isEqualTo(4);
    assertThat(requireNonNull(rings.estimate()).value()).isEqualTo(g("10"));
    assertThat(rings.shareOfVariance()).isCloseTo(0.16 / 0.68, within(1e-12));
    assertThat(rings.children()).isEmpty();
  }

  @Test
  void aPieceWithNoMassIsNamedAndNotTakenForNothing() {
    RollUp rollUp = RollUp.of(hammock, Scope.COMPLETE);
    assertThat(rollUp.atLeast()).isTrue();
    assertThat(rollUp.missing()).extracting(Piece::id).containsExactly("patch");
    Entry patch = rollUp.lines().get(2);
    assertThat(patch.estimate()).isNull();
    assertThat(patch.basis()).isNull();
    assertThat(patch.atLeast()).isTrue();
    assertThat(rollUp.lines().get(0).atLeast()).isFalse();
    assertThat(RollUp.of(hammock, Scope.ANCHOR_TO_ANCHOR).atLeast()).isFalse();
  }

  @Test
  void aNestedRigOfUnknownsHasNoMassEither() {
    Assembly whole = rig("whole", line("other", 1, rig("bag", line("other", 3, unknown("thing")))));
    RollUp rollUp = RollUp.of(whole, Scope.COMPLETE);
    assertThat(rollUp.lines().get(0).estimate()).isNull();
    assertThat(rollUp.basis()).isNull();
    assertThat(rollUp.estimate()).isEqualTo(Estimate.exact(Mass.ZERO));
  }

  @Test
  void whatIsNotWeighedIsCountedByDistinctLines() {
    Piece stated = new Piece("stake", "stake", "stake", Estimate.exact(g("9")), Basis.ESTIMATED);
    Assembly bag = rig("bag", line("stake", 6, stated), line("other", 1, unknown("bit")));
    Assembly whole =
        rig(
            "whole",
            line("tarp", 1, bag),
            line("other", 2, bag), // the same bag again: its lines are the same lines
            line("body", 1, weighed("cloth", "300", 0)));
    RollUp rollUp = RollUp.of(whole, Scope.COMPLETE);
    assertThat(rollUp.leafLines()).isEqualTo(3);
    assertThat(rollUp.unweighedLines()).isEqualTo(2);
    assertThat(rollUp.basisCounts()).isEqualTo(Map.of(Basis.ESTIMATED, 1, Basis.WEIGHED, 1));
    assertThat(rollUp.basis()).isEqualTo(Basis.MIXED);
    assertThat(rollUp.lines().get(1).unweighedLines()).isEqualTo(2);
    assertThat(rollUp.lines().get(1).basis()).isEqualTo(Basis.ESTIMATED);
    assertThat(rollUp.estimate().value()).isEqualTo(g("462")); // 300 + 3 × 6 × 9
    assertThat(rollUp.leaves().get(1).multiplicity()).isEqualTo(18);
  }

  @Test
  void aShareOfVarianceIsNegativeWhereAnErrorMakesUpForAnother() {
    Source roll = Source.of("roll", "one roll");
    Piece heavier = piece("a", Map.of(roll, 3.0));
    Piece lighter = piece("b", Map.of(roll, -1.0));
    RollUp rollUp =
        RollUp.of(rig("r", line("body", 1, heavier), line("tarp", 1, lighter)), Scope.COMPLETE);
    // By hand: C = 2, u² = 4; shares 3 × 2/4 and −1 × 2/4.
    assertThat(rollUp.lines().get(0).shareOfVariance()).isEqualTo(1.5);
    assertThat(rollUp.lines().get(1).shareOfVariance()).isEqualTo(-0.5);
  }

  private static Piece piece(String id, Map<Source, Double> coefficients) {
    return new Piece(id, id, id, Estimate.of(Mass.ofGrams("1"), coefficients), Basis.WEIGHED);
  }

  @Test
  void sharesOfNothingAreNothing() {
    Piece exact = new Piece("p", "p", "p", Estimate.exact(Mass.ZERO), Basis.ESTIMATED);
    Entry entry = RollUp.of(rig("r", line("body", 1, exact)), Scope.COMPLETE).lines().get(0);
    assertThat(entry.shareOfMass()).isZero();
    assertThat(entry.shareOfVariance()).isZero();
    assertThat(RollUp.of(rig("empty"), Scope.COMPLETE).lines()).isEmpty();
  }

  @Test
  void totalsByRoleGoByTheLeafLinesOwnRole() {
    Map<String, RoleTotal> roles = RollUp.of(hammock, Scope.COMPLETE).byRole();
    assertThat(roles.keySet()).containsExactly("body", "other", "tree strap", "hardware");
    RoleTotal hardware = requireNonNull(roles.get("hardware"));
    assertThat(hardware.estimate().value()).isEqualTo(g("10"));
    RoleTotal other = requireNonNull(roles.get("other"));
    assertThat(other.atLeast()).isTrue();
  }

  @Test
  void aRigThatHoldsItselfIsRefusedWithTheWayRound() {
    Assembly inner = rig("c", line("other", 1, rig("b", line("body", 1, unknown("x")))));
    Assembly circle = rig("a", line("body", 1, rig("b", line("suspension", 1, inner))));
    assertThatExceptionOfType(Circle.class)
        .isThrownBy(() -> RollUp.of(circle, Scope.COMPLETE))
        .withMessageContaining("b > c > b")
        .satisfies(refusal -> assertThat(refusal.path()).containsExactly("b", "c", "b"));
    // Even where the scope leaves the circle out: it is a fault of the rig, not of the question.
    assertThatExceptionOfType(Circle.class).isThrownBy(() -> RollUp.of(circle, Scope.HAMMOCK_ONLY));
    Assembly itself = rig("a", line("body", 1, rig("a")));
    assertThatExceptionOfType(Circle.class)
        .isThrownBy(() -> Tree.of(itself))
        .satisfies(refusal -> assertThat(refusal.path()).containsExactly("a", "a"));
  }

  @Test
  void theSameRigTwiceIsNoCircle() {
    Assembly twice = rig("twice", line("suspension", 2, straps), line("other", 1, straps));
    assertThat(RollUp.of(twice, Scope.COMPLETE).estimate())
        .isEqualTo(RollUp.of(straps, Scope.COMPLETE).estimate().times(3));
  }

  @Test
  void anEqualCopyIsTheSameRigAndAnUnlikeOneIsRefused() {
    Assembly copy = new Assembly("straps", "straps", "straps", straps.lines());
    Assembly both = rig("both", line("suspension", 1, straps), line("other", 1, copy));
    assertThat(RollUp.of(both, Scope.COMPLETE).leafLines()).isEqualTo(2);
    Assembly unlike = rig("straps", line("hardware", 1, weighed("ring", "2.5", 0.1)));
    Assembly mixedUp = rig("mixed up", line("suspension", 1, straps), line("other", 1, unlike));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> RollUp.of(mixedUp, Scope.COMPLETE))
        .withMessageContaining("straps");
  }

  @Test
  void sharingAtEveryLevelCostsNoMoreThanItsLines() {
    Assembly rig = rig("0", line("body", 1, weighed("bead", "0.000000001", 0)));
    for (int level = 1; level <= 60; level++) {
      rig =
          new Assembly(
              "" + level,
              "" + level,
              "",
              List.of(new Line("x", "body", 1, rig), new Line("y", "body", 1, rig)));
    }
    RollUp rollUp = RollUp.of(rig, Scope.COMPLETE);
    assertThat(rollUp.estimate().value()).isEqualTo(new Mass(1L << 60)); // 2⁶⁰ beads of 1 ng
    assertThat(rollUp.leafLines()).isEqualTo(1);
    assertThat(rollUp.lines().get(0).estimate()).isEqualTo(Estimate.exact(new Mass(1L << 59)));
    assertThat(rollUp.lines().get(0).unweighedLines()).isZero();
    // Entries: e(0) = 1 and e(n) = 2 + 2 e(n − 1), so e(60) = 3 × 2⁶⁰ − 2.
    assertThat(rollUp.unfoldedLines()).isEqualTo(3 * (1L << 60) - 2);
    assertThat(Multiplicity.of("bead", rig, Scope.COMPLETE)).isEqualTo(1L << 60);
  }

  @Test
  void theNumberOfUnfoldedLinesStopsAtTheGreatestLong() {
    // Nothing is counted too often here: each level holds two unlike rigs that share what is below.
    Assembly rig = rig("0", line("body", 1, unknown("x")));
    for (int level = 1; level <= 61; level++) {
      rig =
          new Assembly(
              "" + level,
              "" + level,
              "",
              List.of(new Line("x", "body", 1, rig), new Line("y", "body", 1, rig)));
    }
    // e(61) = 3 × 2⁶¹ − 2 still fits; e(62) would be 3 × 2⁶² − 2 > 2⁶³ − 1.
    assertThat(RollUp.of(rig, Scope.COMPLETE).unfoldedLines()).isEqualTo(3 * (1L << 61) - 2);
    Assembly over = rig("over", line("body", 1, rig), line("tarp", 1, rig));
    assertThat(RollUp.of(over, Scope.COMPLETE).unfoldedLines()).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void aThousandRigsOneInAnotherAreRolledUp() {
    Assembly rig = straps;
    for (int level = 0; level < 1_000; level++) {
      rig = rig("level " + level, line("suspension", 1, rig));
    }
    RollUp rollUp = RollUp.of(rig, Scope.COMPLETE);
    Estimate expected = RollUp.of(straps, Scope.COMPLETE).estimate();
    assertThat(rollUp.estimate()).isEqualTo(expected);
    assertThat(rollUp.lines().get(0).estimate()).isEqualTo(expected);
  }

  @Test
  void tooMuchAndTooManyAreErrorsThatNameTheLine() {
    Piece most = new Piece("m", "M-1", "", Estimate.exact(new Mass(1L << 62)), Basis.ESTIMATED);
    assertThatExceptionOfType(ArithmeticException.class)
        .isThrownBy(() -> RollUp.of(rig("r", line("body", 2, most)), Scope.COMPLETE))
        .withMessageContaining("2 of M-1");
    Assembly rig = rig("0", line("body", 1, unknown("x")));
    for (int level = 1; level <= 3; level++) {
      rig = rig("" + level, line("body", Integer.MAX_VALUE, rig));
    }
    Assembly many = rig;
    assertThatExceptionOfType(ArithmeticException.class)
        .isThrownBy(() -> RollUp.of(many, Scope.COMPLETE))
        .withMessageContaining("Too many to count")
        .withMessageContaining("of 0");
  }

  @Test
  void aMassWithoutABasisAndAMassBelowNothingAreRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Piece("p", "P", "p", Estimate.exact(Mass.ZERO), null));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Piece("p", "P", "p", null, Basis.WEIGHED));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Piece("p", "P", "p", Estimate.exact(new Mass(-1)), Basis.WEIGHED))
        .withMessageContaining("P cannot weigh less than nothing");
  }
}
