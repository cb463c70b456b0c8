package org.tareline.trip.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

class RankedBarsTest {

  private static RankedBars.Of of(String name, String grams, double standardUncertainty) {
    return new RankedBars.Of(
        name,
        grams + " g",
        Estimate.of(Mass.ofGrams(grams), Map.of(Source.of(name, name), standardUncertainty)));
  }

  private static double number(String attribute) {
    return Double.parseDouble(attribute);
  }

  @Test
  void bars_are_as_long_as_their_masses_from_one_axis() {
    List<RankedBars.Bar> bars =
        RankedBars.of(List.of(of("a", "900", 0), of("b", "300", 0), of("c", "45", 0))).bars();

    assertThat(number(bars.get(0).length())).isEqualTo(360);
    assertThat(number(bars.get(1).length())).isCloseTo(120, within(0.01));
    assertThat(number(bars.get(2).length())).isCloseTo(18, within(0.01));
    assertThat(bars.get(0).whisker()).isNull();
  }

  @Test
  void whiskers_reach_from_the_least_to_the_most_and_stay_within_the_picture() {
    RankedBars drawn = RankedBars.of(List.of(of("a", "100", 10), of("b", "50", 1000)));

    // U is 1.959964 u; the second reaches highest, and no further down than the axis.
    double perGram = 360 / (50 + 1959.964);
    assertThat(drawn.bars().get(0).whisker())
        .startsWith(String.format(Locale.ROOT, "M%.2f ", (100 - 19.59964) * perGram));
    assertThat(drawn.bars().get(1).whisker()).startsWith("M0.00 ").contains("H360.00");
  }

  @Test
  void a_picture_is_as_high_as_it_has_bars() {
    RankedBars two = RankedBars.of(List.of(of("a", "2", 0), of("b", "1", 0)));

    assertThat(two.viewBox()).isEqualTo("0 0 360.00 84.00");
    assertThat(number(two.bars().get(1).barY()) - number(two.bars().get(0).barY())).isEqualTo(42);
  }

  @Test
  void a_name_too_long_for_its_line_is_cut_short() {
    String name = "a name that nobody would write on a label or anywhere else";

    assertThat(RankedBars.of(List.of(of(name, "1", 0))).bars().get(0).name())
        .hasSize(34)
        .endsWith("…");
  }

  @Test
  void nothing_at_all_draws_nothing() {
    assertThat(RankedBars.of(List.of(of("a", "0", 0))).bars().get(0).length()).isEqualTo("0.00");
  }

  @Test
  void attributes_are_the_same_in_every_locale() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.GERMANY);
      assertThat(RankedBars.of(List.of(of("a", "3", 0.1))).viewBox()).isEqualTo("0 0 360.00 42.00");
    } finally {
      Locale.setDefault(before);
    }
  }
}
