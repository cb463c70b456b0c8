package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RangeTest extends InEveryLocale {

  @Test
  void a_figure_alone_is_a_range_of_nothing_else() {
    Range read = Range.read("28 deg", Kind.ANGLE, null);

    assertThat(read).isEqualTo(Range.of(28));
    assertThat(read.isWide()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"28 deg ± 2 deg", "28 deg±2 deg", "28° ± 2", "28 deg +/- 2 deg", "28 deg +-2"})
  void how_far_off_it_may_be_stands_behind_a_plus_minus(String text) {
    assertThat(Range.read(text, Kind.ANGLE, null)).isEqualTo(new Range(26, 28, 30));
  }

  @Test
  void how_far_off_may_be_in_another_unit_or_a_share() {
    assertThat(Range.read("0.70 m ± 5 mm", Kind.LENGTH, null))
        .isEqualTo(new Range(0.695, 0.70, 0.705));
    assertThat(Range.read("7 kN ± 10 %", Kind.FORCE, null)).isEqualTo(new Range(6300, 7000, 7700));
    assertThat(Range.read("-3 deg ± 10 %", Kind.ANGLE, null)).isEqualTo(new Range(-3.3, -3, -2.7));
  }

  @ParameterizedTest
  @ValueSource(strings = {"28 ± 2 deg", "± 2 deg", "28 deg ±", "28 deg ± -2 deg", "28 deg ± 2 mm"})
  void what_says_less_or_more_is_refused(String text) {
    assertThatThrownBy(() -> Range.read(text, Kind.ANGLE, null))
        .isInstanceOf(UnreadableQuantity.class);
  }

  @Test
  void a_plain_number_has_no_unit() {
    assertThat(Range.readNumber("0.65 ± 0.15")).isEqualTo(new Range(0.5, 0.65, 0.8));
    assertThatThrownBy(() -> Range.readNumber("85 %")).isInstanceOf(UnreadableQuantity.class);
    assertThatThrownBy(() -> Range.readNumber("1e3")).isInstanceOf(UnreadableQuantity.class);
  }

  @Test
  void both_are_at_their_worst_in_a_product_and_a_quotient() {
    Range one = new Range(-1, 2, 3);
    Range other = new Range(2, 4, 5);

    assertThat(one.times(other)).isEqualTo(new Range(-5, 8, 15));
    assertThat(one.over(other)).isEqualTo(new Range(-0.5, 0.5, 1.5));
    assertThat(other.over(Range.of(0)).low()).isEqualTo(Double.POSITIVE_INFINITY);
    assertThat(one.plus(other)).isEqualTo(new Range(1, 6, 8));
    assertThat(one.max(other)).isEqualTo(new Range(2, 4, 5));
    assertThat(other.map(x -> 1 / x)).isEqualTo(new Range(0.2, 0.25, 0.5));
  }

  @Test
  void what_is_out_of_order_is_no_range() {
    assertThatThrownBy(() -> new Range(2, 1, 3)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Range.of(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
  }
}
