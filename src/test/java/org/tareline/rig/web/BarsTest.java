package org.tareline.rig.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

class BarsTest {

  private static final double K = 1.959964;

  private static Estimate mass(String source, String grams, double u) {
    return Estimate.of(Mass.ofGrams(grams), Map.of(Source.of(source, source), u));
  }

  private static double number(String coordinate) {
    return Double.parseDouble(coordinate);
  }

  @Test
  void lengths_are_in_proportion_to_the_masses_of_the_table() {
    Bars bars =
        Bars.of(
            List.of(
                new Bars.Row("body", mass("a", "300", 2)),
                new Bars.Row("bug net", mass("b", "150", 1)),
                new Bars.Row("hardware", mass("c", "75", 1))),
            MassStyle.GRAMS,
            0);

    double body = number(bars.bars().get(0).length());
    assertThat(number(bars.bars().get(1).length())).isCloseTo(body / 2, within(0.01));
    assertThat(number(bars.bars().get(2).length())).isCloseTo(body / 4, within(0.01));
    assertThat(bars.bars()).extracting(Bars.Bar::figure).containsExactly("300", "150", "75");
  }

  @Test
  void a_whisker_reaches_as_far_as_the_expanded_uncertainty_and_the_longest_fills_the_plot() {
    Bars bars =
        Bars.of(
            List.of(
                new Bars.Row("body", mass("a", "200", 10)),
                new Bars.Row("tarp", mass("b", "5", 4))),
            MassStyle.GRAMS,
            0);

    Bars.Bar body = bars.bars().get(0);
    double perGram = Bars.PLOT / (200 + 10 * K);
    assertThat(number(body.to())).isEqualTo(Bars.PLOT);
    assertThat(number(body.from())).isCloseTo((200 - 10 * K) * perGram, within(0.01));
    assertThat(number(body.length())).isCloseTo(200 * perGram, within(0.01));
    assertThat(number(bars.bars().get(1).from())).as("never below nothing").isZero();
  }

  @Test
  void masses_of_nothing_are_drawn_as_nothing() {
    Bars bars =
        Bars.of(List.of(new Bars.Row("body", Estimate.exact(Mass.ZERO))), MassStyle.GRAMS, 0);

    assertThat(number(bars.bars().get(0).length())).isZero();
  }

  @Test
  void coordinates_have_a_point_under_a_german_and_a_turkish_locale() {
    Locale before = Locale.getDefault();
    try {
      for (String tag : List.of("de", "tr")) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        assertThat(Bars.text(1.5)).isEqualTo("1.50");
      }
    } finally {
      Locale.setDefault(before);
    }
  }
}
