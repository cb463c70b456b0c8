package org.tareline.provisions;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Outside of what a formula was made for there is no figure, and at its edge there is. */
class RangesTest {

  private static Reckoning fuel(double kilograms, double start, double end, double altitude) {
    return Water.fuel(
        kilograms, Water.From.SNOW, start, end, Water.boilingPoint(altitude), 45, 0.4);
  }

  static Stream<Arguments> edges() {
    return Stream.of(
        Arguments.of(
            Walk.pandolf(70, 10, 1, 25, 1, Double.NaN),
            Walk.pandolf(70, 10, 1, 25.1, 1, Double.NaN)),
        Arguments.of(
            Walk.pandolf(70, 10, 1, 0, 1, Double.NaN),
            Walk.pandolf(70, 10, 1, -0.1, 1, Double.NaN)),
        Arguments.of(
            Walk.pandolf(70, 10, 2.5, 0, 1, Double.NaN),
            Walk.pandolf(70, 10, 2.6, 0, 1, Double.NaN)),
        Arguments.of(
            Walk.pandolf(70, 70, 1, 0, 1, Double.NaN), Walk.pandolf(70, 71, 1, 0, 1, Double.NaN)),
        Arguments.of(Walk.lcda(70, 1.5, 10, Double.NaN), Walk.lcda(70, 1.6, 10, Double.NaN)),
        Arguments.of(Walk.lcda(70, 1, -10, Double.NaN), Walk.lcda(70, 1, -11, Double.NaN)),
        Arguments.of(Walk.tobler(-0.5), Walk.tobler(-0.51)),
        Arguments.of(Walk.naismith(120_000, 0, 0, 0), Walk.naismith(121_000, 0, 0, 0)),
        Arguments.of(Walk.naismith(1000, 200, 150, 150), Walk.naismith(1000, 200, 150, 151)),
        Arguments.of(Walk.naismithOf1892(1000, 500), Walk.naismithOf1892(1000, 501)),
        Arguments.of(fuel(1, -30, 80, 4500), fuel(1, -31, 80, 4500)),
        Arguments.of(fuel(1, 0, 85, 4500), fuel(1, 0, 85.1, 4500)),
        Arguments.of(fuel(1, 0, 60, 4500), fuel(1, 0, 60, 4501)),
        Arguments.of(fuel(Water.density(40), 0, 60, 0), fuel(Water.density(41), 0, 60, 0)),
        Arguments.of(Food.byMass(100, 37.656, 1, 1), Food.byMass(100, 40, 1, 1)),
        Arguments.of(
            Food.atwater(100, Map.of(Nutrient.FAT, 100.0), 1, 1),
            Food.atwater(100, Map.of(Nutrient.FAT, 100.1), 1, 1)),
        Arguments.of(
            Food.label(100, Map.of(Nutrient.FAT, 100.0), 1, 1),
            Food.label(100, Map.of(Nutrient.FAT, 100.1), 1, 1)));
  }

  @ParameterizedTest
  @MethodSource("edges")
  void outside_there_is_no_figure(Reckoning within, Reckoning outside) {
    assertThat(within.outside()).isNull();
    assertThat(within.results())
        .isNotEmpty()
        .allSatisfy(each -> assertThat(each.value()).isFinite());
    assertThat(outside.results()).isEmpty();
    assertThat(outside.steps()).isEmpty();
    assertThat(outside.outside()).startsWith("Outside what the formula was made for: ");
    assertThat(outside.formula().name()).isEqualTo(within.formula().name());
  }

  @Test
  void a_downhill_stroll_that_saves_more_than_it_takes_has_no_figure() {
    assertThat(Walk.naismith(1000, 0, 500, 0).results()).isEmpty();
  }

  @Test
  void every_step_of_a_sum_stands_there_with_its_figures() {
    assertThat(fuel(2, -10, 100, 0).steps())
        .extracting(step -> step.what() + ": " + step.sum())
        .containsExactly(
            "to warm the snow: 2 kg × 2.108 kJ/(kg K) × 10 K",
            "to melt it: 2 kg × 333.55 kJ/kg",
            "to heat the water: 2 kg × 4.19 kJ/(kg K) × 100 K",
            "heat into the water: all of it",
            "heat to be burned: 1547.3 kJ ÷ 0.4",
            "fuel: 3868.2 kJ ÷ 45 kJ/g");
  }
}
