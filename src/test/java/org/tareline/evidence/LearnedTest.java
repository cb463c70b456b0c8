package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.units.Mass;

class LearnedTest {

  private static final Source CLOTH = Source.of("cloth", "mass of the cloth");
  private static final Source CORD = Source.of("cord", "mass of the cord");

  /** 40 g/m² to 5 % at one standard deviation. */
  private static final Estimate FIGURE = estimate("40000", Map.of(CLOTH, 2000.0));

  @Test
  void what_the_figure_itself_is_unsure_of_drops_out_of_a_thing_made_wholly_by_it() {
    Learned learned =
        learned(
            made(
                estimate("100", Map.of(CLOTH, 5.0, own("cut"), 1.0)),
                estimate("105", Map.of(own("scale"), 0.21))));

    assertThat(learned.value().value()).isEqualTo(Mass.ofGrams("42000"));
    assertThat(learned.ratio(learned.value())).isEqualTo(1.05);
    // Relative uncertainties in quadrature (JCGM 100:2008, 5.1.6): 1 % of cutting, 0.2 % of
    // weighing.
    assertThat(learned.value().standardUncertaintyInGrams())
        .isCloseTo(42000 * Math.hypot(0.01, 0.002), within(1e-8));
    assertThat(learned.standardUncertainty(learned.value()))
        .isCloseTo(1.05 * Math.hypot(0.01, 0.002), within(1e-12));
  }

  @Test
  void what_else_was_in_it_leaves_its_errors_in_by_its_share() {
    Learned learned =
        learned(
            made(
                estimate("100", Map.of(CLOTH, 4.0, CORD, 2.0)),
                estimate("100", Map.of(own("scale"), 0.5))));

    // The cloth is 80 % of it: 20 % of its 5 % stays in, and 2 g of 100 g of the cord.
    assertThat(learned.value().standardUncertaintyInGrams())
        .isCloseTo(40000 * Math.sqrt(0.01 * 0.01 + 0.02 * 0.02 + 0.005 * 0.005), within(1e-8));
  }

  @Test
  void things_are_taken_together_by_their_weights() {
    Learned learned =
        learned(
            made(estimate("100", Map.of(CLOTH, 5.0)), estimate("104", Map.of(own("a"), 1.04))),
            made(estimate("200", Map.of(CLOTH, 10.0)), estimate("212", Map.of(own("b"), 4.24))));

    // x = Σ wx / Σ w and u² = 1/Σ w with w = 1/u² (NIST/SEMATECH e-Handbook, 2.5; from memory).
    double first = 1 / Math.pow(0.0104, 2);
    double second = 1 / Math.pow(0.0212, 2);
    assertThat(learned.agree()).isTrue();
    assertThat(learned.ratio(learned.value()))
        .isCloseTo((1.04 * first + 1.06 * second) / (first + second), within(1e-10));
    assertThat(learned.standardUncertainty(learned.value()))
        .isCloseTo(1 / Math.sqrt(first + second), within(1e-10));
  }

  @Test
  void things_that_contradict_each_other_are_said_to_and_make_it_unsure() {
    Learned learned =
        learned(
            made(estimate("100", Map.of(CLOTH, 5.0)), estimate("100", Map.of(own("a"), 0.1))),
            made(estimate("100", Map.of(CLOTH, 5.0)), estimate("110", Map.of(own("b"), 0.11))));

    assertThat(learned.agree()).isFalse();
    // Two values 0.1 apart: the standard deviation of their mean is half of that.
    assertThat(learned.standardUncertainty(learned.value())).isCloseTo(0.05, within(0.001));
  }

  private static Learned learned(Learned.Made... made) {
    return new Learned("cloth/learned", "scatter of the parts", FIGURE, List.of(made));
  }

  private static Learned.Made made(Estimate calculated, Estimate weighed) {
    return new Learned.Made(calculated, weighed);
  }

  private static Source own(String id) {
    return Source.of(id, id);
  }

  private static Estimate estimate(String grams, Map<Source, Double> coefficients) {
    return Estimate.of(Mass.ofGrams(grams), coefficients);
  }
}
