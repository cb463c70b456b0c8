package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.units.Mass;

class PiecesTest {

  private static final Pieces THREE = pieces(10, 11, 12);

  @Test
  void their_mean_and_spread_are_those_of_any_sample() {
    // JCGM 100:2008, 4.2.1 and 4.2.2.
    assertThat(THREE.mean()).isEqualTo(Mass.ofGrams("11"));
    assertThat(THREE.spreadInGrams().orElseThrow()).isCloseTo(1, within(1e-15));
    assertThat(THREE.weighed()).isEqualTo(3);
  }

  @ParameterizedTest(name = "{0} of them: variance {1} g²")
  @CsvSource({
    // q (N − q)/N of sampling without replacement (Cochran, Sampling Techniques, 2.5; from memory)
    "1, 0.6666666667",
    "2, 0.6666666667",
    // all that were weighed and no more: nothing is left to chance
    "3, 0",
    // (q − N) + (q − N)²/N: one each, and the mean they are taken by
    "4, 1.3333333333",
    "5, 3.3333333333",
    "8, 13.3333333333"
  })
  void a_total_is_off_by_the_pieces_nobody_weighed(int quantity, double variance) {
    Estimate total = THREE.each(quantity).times(quantity);

    assertThat(total.value()).isEqualTo(Mass.ofGrams("11").times(quantity));
    assertThat(total.variance()).isCloseTo(variance, within(1e-9));
  }

  @Test
  void the_same_pieces_twice_have_twice_the_error_and_cancel_in_a_difference() {
    Estimate five = THREE.each(5).times(5);
    Estimate four = THREE.each(4).times(4);

    assertThat(five.times(2).variance()).isCloseTo(4 * five.variance(), within(1e-9));
    // One more of an own error, 1 g², and a third of it more by the mean.
    assertThat(five.minus(four).variance()).isCloseTo(1 + 1 / 3.0, within(1e-9));
  }

  @Test
  void a_spread_found_once_is_worth_its_degrees_of_freedom_once() {
    Estimate many = THREE.each(20).times(20);

    assertThat(many.effectiveDegreesOfFreedom()).isCloseTo(2, within(1e-9));
  }

  @Test
  void one_piece_says_nothing_of_the_spread() {
    Pieces one = pieces(10);

    assertThat(one.spreadInGrams()).isEmpty();
    assertThat(one.each(4)).isEqualTo(Estimate.exact(Mass.ofGrams("10")));
  }

  @Test
  void a_great_many_share_a_source_beyond_two_hundred_and_come_to_the_same() {
    Estimate total = THREE.each(1_003).times(1_003);

    assertThat(total.variance()).isCloseTo(1_000 + 1_000 * 1_000 / 3.0, within(1e-6));
    assertThat(total.coefficients()).hasSizeLessThan(210);
  }

  @Test
  void what_the_weighings_share_is_common_to_all_pieces() {
    Source span = Source.of("span", "span");
    List<Estimate> weighed =
        List.of(
            Estimate.of(Mass.ofGrams("10"), Map.of(span, 0.1)),
            Estimate.of(Mass.ofGrams("10"), Map.of(span, 0.1)));

    Estimate eight = Pieces.of("stake", "STAKE", weighed).each(8).times(8);

    assertThat(eight.standardUncertaintyInGrams()).isCloseTo(0.8, within(1e-12));
  }

  @Test
  void no_pieces_and_no_quantity_are_refused() {
    assertThatThrownBy(() -> Pieces.of("id", "STAKE", List.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("STAKE");
    assertThatThrownBy(() -> THREE.each(0)).isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest(name = "{0} weighed, {1} in the rig")
  @CsvSource({"4, 2", "4, 4", "4, 9", "10, 12"})
  void drawn_at_random_totals_miss_by_as_much_as_is_said(int weighed, int quantity) {
    Random random = new Random(20270411L + weighed * 100L + quantity);
    int runs = 20_000;
    double missed = 0;
    double said = 0;
    for (int run = 0; run < runs; run++) {
      double[] masses =
          random.doubles(Math.max(weighed, quantity), 0, 1).map(x -> 10 + x).toArray();
      Pieces pieces = pieces(Arrays.copyOf(masses, weighed));
      // Below N, any of those that were weighed may be the ones in the rig: the first of them are
      // as good as any.
      double truth = IntStream.range(0, quantity).mapToDouble(i -> masses[i]).sum();
      Estimate total = pieces.each(quantity).times(quantity);
      missed += Math.pow(total.value().inGrams() - truth, 2);
      said += total.variance();
    }
    if (weighed == quantity) {
      assertThat(missed / runs).isCloseTo(0, within(1e-12));
      assertThat(said).isZero();
    } else {
      // Both are means over 20 000 runs of a variance; 5 % is some four standard deviations.
      assertThat(missed / said).isCloseTo(1, within(0.05));
    }
  }

  private static Pieces pieces(double... grams) {
    return Pieces.of(
        "stake",
        "STAKE",
        Arrays.stream(grams).mapToObj(each -> Estimate.exact(Mass.fromGrams(each))).toList());
  }
}
