package org.tareline.rig.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

class StepsTest {

  private static Estimate mass(String grams) {
    return Estimate.exact(Mass.ofGrams(grams));
  }

  private static Steps steps() {
    return Steps.of(
        List.of(
            new Steps.Row("suspension", mass("-120")), new Steps.Row("spreader bar", mass("20"))),
        "NEWER",
        mass("-100"),
        MassStyle.GRAMS,
        0);
  }

  private static double number(String coordinate) {
    return Double.parseDouble(coordinate);
  }

  @Test
  void each_step_begins_where_the_one_before_ended_and_the_whole_way_ends_with_them() {
    Steps drawn = steps();
    List<Steps.Step> steps = drawn.steps();
    double perGram = Bars.PLOT / 120.0;

    assertThat(number(drawn.startX())).isEqualTo(Bars.PLOT);
    assertThat(steps)
        .extracting(Steps.Step::label)
        .containsExactly("suspension", "spreader bar", "NEWER");
    assertThat(number(steps.get(0).x())).isZero();
    assertThat(number(steps.get(0).length())).isCloseTo(120 * perGram, within(0.01));
    assertThat(number(steps.get(1).x())).isZero();
    assertThat(number(steps.get(1).length())).isCloseTo(20 * perGram, within(0.01));
    assertThat(number(steps.get(2).x())).isCloseTo(20 * perGram, within(0.01));
    assertThat(number(steps.get(2).length())).isCloseTo(100 * perGram, within(0.01));
    assertThat(drawn.links()).extracting(Steps.Link::x).containsExactly("0.00", "50.00");
  }

  @Test
  void every_step_says_by_sign_and_by_look_which_way_it_goes() {
    assertThat(steps().steps())
        .extracting(Steps.Step::figure)
        .containsExactly("\u2212120", "+20", "\u2212100");
    assertThat(steps().steps())
        .extracting(Steps.Step::look)
        .containsExactly(Steps.DOWN, Steps.UP, Steps.WHOLE);
  }

  @Test
  void the_whisker_of_a_step_is_that_of_the_difference_about_its_end() {
    Estimate unsure = Estimate.of(Mass.ofGrams("-100"), Map.of(Source.of("scale", "scale"), 10.0));
    Steps drawn = Steps.of(List.of(new Steps.Row("body", unsure)), "B", unsure, MassStyle.GRAMS, 0);

    double perGram = Bars.PLOT / 119.59964;
    Steps.Step step = drawn.steps().get(0);
    assertThat(number(step.from())).isZero();
    assertThat(number(step.x())).isCloseTo(19.59964 * perGram, within(0.01));
    assertThat(number(step.to())).isCloseTo(2 * 19.59964 * perGram, within(0.01));
  }

  @Test
  void steps_that_do_not_lead_to_the_second_total_are_refused() {
    assertThatThrownBy(
            () ->
                Steps.of(
                    List.of(new Steps.Row("body", mass("-100"))),
                    "B",
                    mass("-99"),
                    MassStyle.GRAMS,
                    0))
        .hasMessageContaining("100 g");
  }

  @Test
  void where_nothing_differs_there_is_only_the_whole_way_of_no_length() {
    Steps drawn = Steps.of(List.of(), "B", mass("0"), MassStyle.GRAMS, 0);

    assertThat(drawn.steps()).hasSize(1);
    assertThat(number(drawn.steps().get(0).length())).isZero();
  }
}
