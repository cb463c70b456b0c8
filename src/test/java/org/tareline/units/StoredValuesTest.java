package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.function.DoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What masses, lengths and the rest hold, and what they refuse rather than answer wrongly. */
class StoredValuesTest extends InEveryLocale {

  @Test
  void anOunceAPoundAndAGrainAreWholeNanograms() {
    // NIST HB 44, App. C
    assertThat(Mass.parse("1 oz")).isEqualTo(new Mass(28_349_523_125L));
    assertThat(Mass.parse("1 lb")).isEqualTo(new Mass(453_592_370_000L));
    assertThat(Mass.parse("1 gr")).isEqualTo(new Mass(64_798_910L));
  }

  @Test
  void anInchAndItsSixtyFourthAreWholeNanometres() {
    // NIST HB 44, App. C: 1 in = 25.4 mm
    assertThat(Length.parse("1 in")).isEqualTo(new Length(25_400_000L));
    assertThat(Length.parse("1/64 in")).isEqualTo(new Length(396_875L));
  }

  @Test
  void sumsAreExactAndNeverWrap() {
    Mass most = new Mass(Long.MAX_VALUE);
    Length longest = new Length(Long.MAX_VALUE);

    assertThat(Mass.parse("1 lb").minus(Mass.parse("1 oz").times(16))).isEqualTo(Mass.ZERO);
    assertThat(Length.parse("1 yd").minus(Length.parse("1 in").times(36))).isEqualTo(Length.ZERO);
    assertThatThrownBy(() -> most.plus(new Mass(1))).isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> most.times(2)).isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> longest.plus(new Length(1))).isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> new Length(Long.MIN_VALUE).negated())
        .isInstanceOf(ArithmeticException.class);
  }

  @Test
  void ofIsExactAndFromRounds() {
    assertThatThrownBy(() -> Mass.ofGrams("0.0000000001")).isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> Length.ofMetres("0.0000000001"))
        .isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> new AreaDensity(new BigDecimal("0.00000000001")))
        .isInstanceOf(ArithmeticException.class);
    // By hand: half of the last step goes to even.
    assertThat(Length.fromMetres(new BigDecimal("0.0000000015"))).isEqualTo(new Length(2));
    assertThat(Length.fromMetres(0.25)).isEqualTo(new Length(250_000_000L));
    assertThat(AreaDensity.from(new BigDecimal("0.00000000005"))).isEqualTo(AreaDensity.from(0));
    assertThat(LineDensity.from(new BigDecimal("0.00000000015")).gramsPerMetre())
        .isEqualTo("0.0000000002");
  }

  @Test
  void aDensityEqualsItselfHoweverManyZerosItCameWith() {
    assertThat(new AreaDensity(new BigDecimal("54")))
        .isEqualTo(new AreaDensity(new BigDecimal("54.000")))
        .hasToString("54 g/m²");
    assertThat(new LineDensity(new BigDecimal("3.10")))
        .isEqualTo(LineDensity.parse("3.1 g/m"))
        .hasToString("3.1 g/m");
  }

  @Test
  void aDensityFitsItsColumn() {
    // numeric(20,10): ten digits before the point
    assertThat(new AreaDensity(new BigDecimal("9999999999.9999999999")).signum()).isEqualTo(1);
    assertThatThrownBy(() -> new AreaDensity(new BigDecimal("10000000000")))
        .isInstanceOf(ArithmeticException.class);
    assertThatThrownBy(() -> new LineDensity(new BigDecimal("-10000000000")))
        .isInstanceOf(ArithmeticException.class);
  }

  @ParameterizedTest
  @MethodSource("doubles")
  void aDoubleThatIsNoNumberIsRefused(DoubleFunction<?> of) {
    for (double none : new double[] {Double.NaN, Double.POSITIVE_INFINITY, -1 / 0.0}) {
      assertThatThrownBy(() -> of.apply(none))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining(String.valueOf(none));
    }
    assertThat(of.apply(-0.0)).isEqualTo(of.apply(0.0));
  }

  @Test
  void nothingIsColderThanAbsoluteZero() {
    // SI Brochure, 9th ed., 2.3.1: 0 K = -273.15 °C
    assertThat(Temperature.parse("0 K")).isEqualTo(new Temperature(-273.15));
    assertThatThrownBy(() -> new Temperature(-273.16)).isInstanceOf(IllegalArgumentException.class);
  }

  static Stream<DoubleFunction<?>> doubles() {
    return Stream.of(Force::new, Angle::new, Volume::new, Energy::new, Temperature::new);
  }
}
