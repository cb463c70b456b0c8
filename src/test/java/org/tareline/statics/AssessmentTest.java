package org.tareline.statics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.tareline.statics.Assessment.Verdict;
import org.tareline.statics.Element.Place;
import org.tareline.units.Range;

class AssessmentTest {

  private static final double LOAD = 1000;

  @Test
  void an_element_meets_the_design_factor_only_if_its_low_end_does() {
    // At 30° a line carries the whole load.
    Element line = line(Range.of(5000), Range.ONE);

    assertThat(verdict(Range.of(30), line)).isEqualTo(Verdict.MEETS);
    assertThat(verdict(new Range(29.9, 30, 31), line)).isEqualTo(Verdict.BELOW);
    assertThat(verdict(Range.of(30), line(Range.of(10_000), new Range(0.5, 0.65, 0.8))))
        .isEqualTo(Verdict.MEETS);
    assertThat(verdict(Range.of(30), line(Range.of(10_000), new Range(0.49, 0.65, 0.8))))
        .isEqualTo(Verdict.BELOW);
  }

  @Test
  void a_working_load_limit_is_held_against_one() {
    Element limit = new Element("strap", Place.LINE, Range.of(1100), true, Range.ONE);
    Assessment found = assess(Range.of(30), null, limit);

    assertThat(found.checked().get(0).wanted()).isEqualTo(1);
    assertThat(found.verdict()).isEqualTo(Verdict.MEETS);
    assertThat(verdict(Range.of(25), limit)).isEqualTo(Verdict.BELOW);
  }

  @Test
  void one_unknown_strength_makes_the_whole_not_known_and_what_is_below_stays_said() {
    Element unknown = line(null, Range.ONE);
    Element weak = line(Range.of(1200), Range.ONE);
    Assessment found = assess(Range.of(30), null, unknown, weak);

    assertThat(found.verdict()).isEqualTo(Verdict.NOT_KNOWN);
    assertThat(found.checked())
        .extracting(Assessment.Checked::verdict)
        .containsExactly(Verdict.NOT_KNOWN, Verdict.BELOW);
    assertThat(Objects.requireNonNull(found.least()).element()).isSameAs(weak);
    assertThat(found.leastShare()).isCloseTo(1.2 / 5, within(1e-12));
    assertThat(assess(Range.of(30), null).verdict()).isEqualTo(Verdict.NOT_KNOWN);
  }

  @Test
  void a_bar_that_bows_out_under_its_load_fails_the_whole_even_unnamed() {
    // 12.7 mm tube of 0.9 m with legs of 0.7 m: 490 N, REFERENCES F15; some 420 N at 30° and 1000
    // N.
    Hang.Bar bar =
        Hang.Bar.ofLegs(
            Range.of(0.9),
            Range.of(0.7),
            Range.of(0),
            new Hang.Section(Range.of(0.0127), Range.of(0.0009), Range.of(68_900), null));
    Element line = line(Range.of(50_000), Range.ONE);

    assertThat(assess(Range.of(30), bar, line).verdict()).isEqualTo(Verdict.MEETS);
    assertThat(assess(Range.of(22), bar, line).verdict()).isEqualTo(Verdict.BELOW);
    Element named = new Element("bar", Place.BAR, null, false, Range.ONE);
    assertThat(assess(Range.of(30), bar, line, named).verdict()).isEqualTo(Verdict.BELOW);
    Hang.Bar unknown = Hang.Bar.ofLegs(Range.of(0.9), Range.of(0.7), Range.of(0), null);
    assertThat(assess(Range.of(30), unknown, line, named).verdict()).isEqualTo(Verdict.NOT_KNOWN);
  }

  @Test
  void what_carries_nothing_at_these_angles_has_a_factor_without_end() {
    Element ridge = new Element("ridge", Place.RIDGE_LINE, Range.of(900), false, Range.ONE);
    Hang.End end = new Hang.End(Range.of(40), Range.of(35), null);
    Assessment found =
        Assessment.of(new Hang(Range.of(LOAD), end, end).loads(), null, List.of(ridge), 5);

    assertThat(Objects.requireNonNull(found.checked().get(0).factor()).nominal())
        .isEqualTo(Double.POSITIVE_INFINITY);
    assertThat(found.least()).isNull();
    // Without any body angle the tension of a ridge line is not known, and so nor is its factor.
    assertThat(verdict(Range.of(40), ridge)).isEqualTo(Verdict.NOT_KNOWN);
  }

  private static Element line(@Nullable Range strength, Range termination) {
    return new Element("line", Place.LINE, strength, false, termination);
  }

  private static Verdict verdict(Range angle, Element element) {
    return assess(angle, null, element).verdict();
  }

  private static Assessment assess(Range angle, Hang.@Nullable Bar bar, Element... elements) {
    Hang.End end = new Hang.End(angle, null, bar);
    return Assessment.of(new Hang(Range.of(LOAD), end, end).loads(), null, List.of(elements), 5);
  }
}
