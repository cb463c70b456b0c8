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
import org.tareline.evidence.Verdict;
import org.tareline.units.Mass;

class ComparisonTest {

  private static Comparison compare(Assembly first, Assembly second) {
    return Comparison.of(RollUp.of(first, Scope.COMPLETE), RollUp.of(second, Scope.COMPLETE));
  }

  @Test
  void aPartInBothCancelsHoweverBadlyItIsKnown() {
    Line tarp = line("tarp", 1, weighed("tarp", "400", 50));
    Comparison comparison =
        compare(
            rig("a", tarp, line("body", 1, weighed("old", "300", 0.3))),
            rig("b", tarp, line("body", 1, weighed("new", "295", 0.4))));
    // By hand: 295 − 300 g; u = √(0.3² + 0.4²) = 0.5 g, U = 1.959964 × 0.5 g < 5 g.
    assertThat(comparison.total().difference().value()).isEqualTo(Mass.ofGrams("-5"));
    assertThat(comparison.total().difference().standardUncertaintyInGrams())
        .isCloseTo(0.5, within(1e-12));
    assertThat(comparison.total().verdict()).isEqualTo(Verdict.LIGHTER);
    Comparison.Pair tarps = requireNonNull(comparison.roles().get("tarp"));
    assertThat(tarps.verdict()).isEqualTo(Verdict.UNDECIDED); // one thing is not lighter than it
  }

  @Test
  void aSavingWithinItsUncertaintyCannotBeTold() {
    Comparison comparison =
        compare(
            rig("a", line("body", 1, weighed("old", "300", 1))),
            rig("b", line("body", 1, weighed("new", "298", 1)))); // U = 1.959964 × √2 g > 2 g
    assertThat(comparison.total().verdict()).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void whereOtherThingsAreMissingNothingCanBeTold() {
    Assembly one = rig("a", line("body", 1, weighed("x", "300", 0)), line("pad", 1, unknown("u")));
    Assembly two = rig("b", line("body", 1, weighed("y", "100", 0)), line("pad", 2, unknown("u")));
    Assembly likeOne =
        rig("c", line("body", 1, weighed("y", "100", 0)), line("other", 1, unknown("u")));
    assertThat(compare(one, two).total().verdict()).isEqualTo(Verdict.UNDECIDED);
    // The same thing missing from both cancels as it would if it were known.
    assertThat(compare(one, likeOne).total().verdict()).isEqualTo(Verdict.LIGHTER);
    Comparison.Pair pads = requireNonNull(compare(one, likeOne).roles().get("pad"));
    assertThat(pads.verdict()).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void rolesAndPartsThatOnlyOneSideHasAreNamed() {
    Comparison comparison =
        compare(
            rig("a", line("stake", 6, weighed("stake", "9", 0)), line("pad", 1, unknown("pad"))),
            rig("b", line("stake", 4, weighed("stake", "9", 0)), line("tarp", 1, unknown("tarp"))));
    assertThat(comparison.onlyInFirst()).containsExactly("pad");
    assertThat(comparison.onlyInSecond()).containsExactly("tarp");
    assertThat(comparison.surplusOfFirst())
        .extracting(surplus -> surplus.count() + " " + surplus.piece().id())
        .containsExactlyInAnyOrder("2 stake", "1 pad");
    assertThat(comparison.surplusOfSecond())
        .extracting(surplus -> surplus.count() + " " + surplus.piece().id())
        .containsExactly("1 tarp");
    Comparison.Pair pads = requireNonNull(comparison.roles().get("pad"));
    assertThat(pads.b()).isNull();
  }

  static List<Long> seeds() {
    return new Random(7).longs(200).boxed().toList();
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void aDifferenceIsThatOfTheUnfoldedTrees(long seed) {
    Random random = new Random(seed);
    Assembly first = Rigs.any(random);
    Assembly second = // one more line, so that much is shared
        new Assembly(
            "second",
            "second",
            "",
            List.of(
                new Line("m", "body", 1, first), new Line("n", "tarp", 1, weighed("n", "3", 1))));
    Scope scope = Rigs.anyScope(random);
    Comparison comparison = Comparison.of(RollUp.of(first, scope), RollUp.of(second, scope));
    Unfolded a = Unfolded.of(first, scope);
    Unfolded b = Unfolded.of(second, scope);
    assertThat(comparison.total().difference().value().nanograms())
        .isEqualTo(b.nanograms.subtract(a.nanograms).longValueExact());
    // Var(b − a) = Var b + Var a − 2 Cov: JCGM 100:2008, 5.2.2 eq. 13.
    double variance = a.variance() + b.variance() - 2 * a.covariance(b);
    assertThat(comparison.total().difference().variance())
        .isCloseTo(variance, within(1e-9 * (1 + a.variance() + b.variance())));
    assertThat(comparison.total().verdict() == Verdict.UNDECIDED)
        .isEqualTo(
            !a.missing.equals(b.missing)
                || Verdict.of(comparison.total().difference()) == Verdict.UNDECIDED);
    Map<String, Long> more = new HashMap<>(b.pieces);
    a.pieces.forEach((piece, count) -> more.merge(piece, -count, Long::sum));
    more.values().removeIf(count -> count <= 0);
    Map<String, Long> surplus = new HashMap<>();
    comparison.surplusOfSecond().forEach(s -> surplus.put(s.piece().id(), s.count()));
    assertThat(surplus).isEqualTo(more);
  }
}
