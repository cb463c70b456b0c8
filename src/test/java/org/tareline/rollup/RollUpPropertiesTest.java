package org.tareline.rollup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;

/** Roll-ups of rigs at random, against the walk down every way in {@link Unfolded}. */
class RollUpPropertiesTest {

  private static final double CLOSE = 1e-9; // g², of sums of some hundreds of terms of order 1

  static List<Long> seeds() {
    return new Random(20270411).longs(200).boxed().toList();
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void theTotalIsThatOfTheUnfoldedTree(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    Scope scope = Rigs.anyScope(random);
    RollUp rollUp = RollUp.of(whole, scope);
    Unfolded unfolded = Unfolded.of(whole, scope);
    assertThat(BigInteger.valueOf(rollUp.estimate().value().nanograms()))
        .isEqualTo(unfolded.nanograms);
    assertThat(rollUp.estimate().variance())
        .isCloseTo(unfolded.variance(), within(CLOSE * (1 + unfolded.variance())));
    assertThat(rollUp.estimate().coefficients().keySet()).isEqualTo(unfolded.form.keySet());
    assertThat(rollUp.leafLines()).isEqualTo(unfolded.leafLines.size());
    assertThat(rollUp.unfoldedLines()).isEqualTo(unfolded.entries);
    assertThat(rollUp.atLeast()).isEqualTo(!unfolded.missing.isEmpty());
    assertThat(rollUp.missing())
        .extracting(Piece::id)
        .containsExactlyInAnyOrderElementsOf(unfolded.missing.keySet());
    assertThat(countsOf(rollUp)).isEqualTo(unfolded.pieces);
    for (String piece : List.of("p0", "p1", "p2", "p3")) {
      assertThat(Multiplicity.of(piece, whole, scope))
          .isEqualTo(unfolded.pieces.getOrDefault(piece, 0L));
    }
  }

  private static Map<String, Long> countsOf(RollUp rollUp) {
    Map<String, Long> counts = new HashMap<>();
    rollUp
        .leaves()
        .forEach(leaf -> counts.merge(leaf.piece().id(), leaf.multiplicity(), Long::sum));
    return counts;
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everyEntryContributesWhatItsUnfoldedTreeDoes(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    Scope scope = Rigs.anyScope(random);
    RollUp rollUp = RollUp.of(whole, scope);
    assertEntries(rollUp.lines(), scope, 1, Unfolded.of(whole, scope));
  }

  private static void assertEntries(
      List<Entry> entries, Scope scope, long holders, Unfolded total) {
    for (Entry entry : entries) {
      Unfolded own = new Unfolded();
      own.take(entry.line(), scope, holders);
      Estimate estimate = entry.estimate();
      if (estimate == null) {
        assertThat(own.form).isEmpty();
      } else {
        assertThat(estimate.value().nanograms()).isEqualTo(own.nanograms.longValueExact());
        assertThat(estimate.variance())
            .isCloseTo(own.variance(), within(CLOSE * (1 + own.variance())));
      }
      if (total.variance() > 0) {
        assertThat(entry.shareOfVariance())
            .isCloseTo(own.covariance(total) / total.variance(), within(CLOSE));
        assertThat(entry.shareOfMass())
            .isCloseTo(own.nanograms.doubleValue() / total.nanograms.doubleValue(), within(CLOSE));
      }
      assertThat(entry.atLeast()).isEqualTo(!own.missing.isEmpty());
      assertThat(entry.unweighedLines()).isEqualTo(unweighed(own));
      assertEntries(entry.children(), scope, entry.count(), total);
    }
  }

  private static int unweighed(Unfolded unfolded) {
    return (int)
        unfolded.leafLines.stream()
            .filter(line -> ((Piece) line.content()).basis() != Basis.WEIGHED)
            .count();
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void sharesAddUpToOneAtTheTopAndToTheirHolderBelow(long seed) {
    Random random = new Random(seed);
    RollUp rollUp = RollUp.of(Rigs.any(random), Scope.COMPLETE);
    if (rollUp.estimate().variance() > 0) {
      assertThat(rollUp.lines().stream().mapToDouble(Entry::shareOfVariance).sum())
          .isCloseTo(1, within(CLOSE));
      assertThat(rollUp.leaves().stream().mapToDouble(Leaf::shareOfVariance).sum())
          .isCloseTo(1, within(CLOSE));
      assertThat(rollUp.lines().stream().mapToDouble(Entry::shareOfMass).sum())
          .isCloseTo(1, within(CLOSE));
      for (Entry entry : rollUp.lines()) {
        if (entry.line().content() instanceof Assembly) {
          assertThat(entry.children().stream().mapToDouble(Entry::shareOfVariance).sum())
              .isCloseTo(entry.shareOfVariance(), within(CLOSE));
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void whatIsCountedAndWhatIsLeftOutMakeTheWhole(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    RollUp counted = RollUp.of(whole, Rigs.anyScope(random));
    long sum = counted.estimate().value().nanograms();
    for (Omission omission : counted.omitted()) {
      Unfolded one = new Unfolded();
      one.take(omission.line(), null, omission.multiplicity() / omission.line().quantity());
      sum += one.nanograms.longValueExact();
    }
    assertThat(sum).isEqualTo(RollUp.of(whole, Scope.COMPLETE).estimate().value().nanograms());
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everythingLeftOutIsListedOnceWithAWayThatLeadsThere(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    Scope scope = Rigs.anyScope(random);
    List<Omission> omitted = RollUp.of(whole, scope).omitted();
    Set<Line> distinct = new HashSet<>(Unfolded.of(whole, scope).omitted);
    assertThat(omitted).extracting(Omission::line).containsExactlyInAnyOrderElementsOf(distinct);
    for (Omission omission : omitted) {
      Assembly at = whole;
      assertThat(omission.path().get(0)).isEqualTo(whole.code());
      for (String code : omission.path().subList(1, omission.path().size())) {
        at =
            at.lines().stream()
                .filter(scope::counts)
                .map(Line::content)
                .filter(content -> content.code().equals(code))
                .map(Assembly.class::cast)
                .findFirst()
                .orElseThrow();
      }
      assertThat(at.lines()).contains(omission.line());
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void theOrderOfLinesChangesNothing(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    List<Line> shuffled = new ArrayList<>(whole.lines());
    Collections.shuffle(shuffled, random);
    Estimate one = RollUp.of(whole, Scope.COMPLETE).estimate();
    Estimate other = RollUp.of(new Assembly("whole", "W", "", shuffled), Scope.COMPLETE).estimate();
    assertThat(other.value()).isEqualTo(one.value());
    assertThat(other.variance()).isCloseTo(one.variance(), within(CLOSE * (1 + one.variance())));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void rolesAddUpToTheTotal(long seed) {
    Random random = new Random(seed);
    RollUp rollUp = RollUp.of(Rigs.any(random), Rigs.anyScope(random));
    Estimate sum =
        Estimate.sum(rollUp.byRole().values().stream().map(RoleTotal::estimate).toList());
    assertThat(sum.value()).isEqualTo(rollUp.estimate().value());
    assertThat(sum.variance())
        .isCloseTo(
            rollUp.estimate().variance(), within(CLOSE * (1 + rollUp.estimate().variance())));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void oneTreeServesManyScopes(long seed) {
    Random random = new Random(seed);
    Assembly whole = Rigs.any(random);
    Tree tree = Tree.of(whole);
    for (Scope scope : Scope.BUILT_IN) {
      assertThat(RollUp.of(tree, scope).estimate()).isEqualTo(RollUp.of(whole, scope).estimate());
    }
  }
}
