package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.tareline.units.Mass;

class PooledTest {

  private static final Source SPAN = Source.of("scale/span", "span");

  private static Estimate found(String id, double grams, double u) {
    return Estimate.of(Mass.fromGrams(grams), Map.of(Source.of(id, id), u));
  }

  private static Estimate found(String id, double grams, double u, double span) {
    return Estimate.of(Mass.fromGrams(grams), Map.of(Source.of(id, id), u, SPAN, span));
  }

  /** Weights 1/u² are 4 and 1: mean (4 × 10 + 11)/5, u² = 1/(4 + 1); by hand. */
  @Test
  void the_surer_finding_counts_for_more() {
    Pooled pooled = Pooled.of("m", "scatter", List.of(found("a", 10, 0.5), found("b", 11, 1)));

    assertThat(pooled.estimate().value()).isEqualTo(Mass.parse("10.2 g"));
    assertThat(pooled.estimate().standardUncertaintyInGrams())
        .isCloseTo(1 / Math.sqrt(5), within(1e-12));
    assertThat(pooled.agree()).isTrue();
  }

  /** JCGM 100:2008, 5.2.2: what all share goes through a mean whole, however many there are. */
  @Test
  void what_all_share_is_not_averaged_away() {
    List<Estimate> hundred = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      hundred.add(found("own " + i, 48, 1, 0.3));
    }

    Pooled pooled = Pooled.of("m", "scatter", hundred);

    assertThat(pooled.estimate().coefficients().get(SPAN)).isCloseTo(0.3, within(1e-12));
    assertThat(pooled.estimate().standardUncertaintyInGrams())
        .isCloseTo(Math.hypot(0.3, 0.1), within(1e-12));
  }

  /**
   * Two findings alike but for their distance D: χ² = (D/u)²/2, and the 95 % point of χ² for one
   * degree of freedom is 3.841 (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4), so
   * that they part at D = 2.7717 u.
   */
  @Test
  void two_findings_disagree_beyond_the_95_per_cent_point() {
    assertThat(Pooled.of("m", "s", List.of(found("a", 10, 1), found("b", 12.77, 1))).agree())
        .isTrue();
    assertThat(Pooled.of("m", "s", List.of(found("a", 10, 1), found("b", 12.78, 1))).agree())
        .isFalse();
  }

  /** The point for two degrees of freedom is 5.991 (same table): for 0, 0, D it is 2 D²/3. */
  @Test
  void three_findings_disagree_beyond_theirs() {
    List<Estimate> inside = List.of(found("a", 9, 1), found("b", 9, 1), found("c", 11.99, 1));
    List<Estimate> outside = List.of(found("a", 9, 1), found("b", 9, 1), found("c", 12.0, 1));

    assertThat(Pooled.of("m", "s", inside).agree()).isTrue();
    assertThat(Pooled.of("m", "s", outside).agree()).isFalse();
  }

  @Test
  void what_is_shared_explains_no_distance() {
    List<Estimate> apart = List.of(found("a", 10, 0.1, 5), found("b", 11, 0.1, 5));

    Pooled pooled = Pooled.of("m", "s", apart);

    assertThat(pooled.agree()).isFalse();
    assertThat(pooled.estimate().coefficients().get(SPAN)).isCloseTo(5, within(1e-12));
  }

  /** Alike weights: Σ w d²/((n − 1) Σ w) is s²/n, the variance of a mean (JCGM 100:2008, 4.2.3). */
  @Test
  void findings_that_disagree_are_as_unsure_as_they_are_scattered() {
    Pooled pooled =
        Pooled.of("m", "s", List.of(found("a", 46, 0.1), found("b", 48, 0.1), found("c", 50, 0.1)));

    assertThat(pooled.estimate().value()).isEqualTo(Mass.parse("48 g"));
    assertThat(pooled.estimate().standardUncertaintyInGrams())
        .isCloseTo(2 / Math.sqrt(3), within(1e-12));
    // nearly all of it rests on three findings: t(2) = 4.30 (JCGM 100:2008, table G.2)
    assertThat(pooled.estimate().coverageFactor()).isCloseTo(4.30, within(5e-3));
  }

  @Test
  void an_error_that_two_readings_found_counts_by_its_interval() {
    // t(1) = 12.71 (JCGM 100:2008, table G.2): an error of 1 that rests on ν = 1 may be 6.5
    Source twice = new Source("b", "b", 1, "b");
    Estimate unsure = Estimate.of(Mass.parse("20 g"), Map.of(twice, 1.0));

    assertThat(Pooled.of("m", "s", List.of(found("a", 10, 1), unsure)).agree()).isTrue();
    assertThat(Pooled.of("m", "s", List.of(found("a", 10, 1), found("b", 20, 1))).agree())
        .isFalse();
  }

  @Test
  void one_finding_is_itself_and_none_is_refused() {
    Estimate only = found("a", 10, 1);

    assertThat(Pooled.of("m", "s", List.of(only)).estimate()).isSameAs(only);
    assertThatThrownBy(() -> Pooled.of("m", "s", List.of()))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void findings_that_are_sure_agree_only_where_they_are_equal() {
    Estimate ten = Estimate.exact(Mass.parse("10 g"));

    assertThat(Pooled.of("m", "s", List.of(ten, ten)).agree()).isTrue();
    assertThat(Pooled.of("m", "s", List.of(ten, ten)).estimate().value()).isEqualTo(ten.value());
    assertThat(Pooled.of("m", "s", List.of(ten, Estimate.exact(Mass.parse("11 g")))).agree())
        .isFalse();
  }

  /**
   * The ± must hold the truth of 95 in 100, whether the cloth is even or its pieces differ by more
   * than the scale can: five swatches of a scale whose span is off once for all of them, drawn 4000
   * times. Half a per cent is four standard deviations of a count of 4000 near 97 in 100.
   */
  @Test
  void the_interval_holds_the_truth_of_even_cloth_and_is_not_far_short_of_uneven() {
    assertThat(coverage(0)).isBetween(0.94, 0.99);
    // where scatter is seen only now and then, it is often not counted; where it is plain, it is
    assertThat(coverage(10)).isBetween(0.93, 0.97);
  }

  private static double coverage(double scatter) {
    Random random = new Random(20270411);
    int held = 0;
    int trials = 4000;
    for (int trial = 0; trial < trials; trial++) {
      double span = 0.3 * random.nextGaussian();
      List<Estimate> swatches = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        double grams = 48 + scatter * random.nextGaussian() + random.nextGaussian() + span;
        Map<Source, Double> terms = new HashMap<>(Map.of(SPAN, 0.3));
        terms.put(Source.of("own " + i, "own"), 1.0);
        swatches.add(Estimate.of(Mass.fromGrams(grams), terms));
      }
      Estimate mean = Pooled.of("m", "s", swatches).estimate();
      held += Math.abs(mean.value().inGrams() - 48) <= mean.expandedUncertaintyInGrams() ? 1 : 0;
    }
    return (double) held / trials;
  }
}
