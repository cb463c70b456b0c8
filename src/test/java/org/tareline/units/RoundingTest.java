package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Half-even, once, from the exact value. */
class RoundingTest extends InEveryLocale {

  @ParameterizedTest
  @MethodSource("rows")
  void roundsAsPublished(List<String> row) {
    BigDecimal value = new BigDecimal(row.get(0));
    int decimals = Integer.parseInt(row.get(1));
    BigDecimal halfUp = value.setScale(decimals, RoundingMode.HALF_UP);

    assertThat(Rational.of(value).rounded(decimals)).isEqualTo(row.get(2));
    assertThat(MassStyle.GRAMS.number(Mass.fromGrams(value), decimals))
        .isEqualTo(row.get(2).replace('-', '−'));
    // The premise: where the table gives another figure for half up, half up does give it.
    assertThat(halfUp).isEqualTo(row.get(3).isEmpty() ? row.get(2) : row.get(3));
  }

  @Test
  void aTextKeepsTheHalfThatADoubleLoses() {
    // The double nearest 2.675 is 2.674999999999999822... and rounds to 2.67 under any half rule.
    assertThat(MassStyle.GRAMS.number(Mass.parse("2.675 g"), 2)).isEqualTo("2.68");
    assertThat(MassStyle.GRAMS.number(Mass.fromGrams(new BigDecimal(2.675)), 2))
        .as("to a nanogram first, on the way into a mass")
        .isEqualTo("2.68");
    assertThat(new BigDecimal(2.675).setScale(2, RoundingMode.HALF_EVEN)).isEqualTo("2.67");
  }

  @Test
  void roundsRightWhereTheLastDigitCarriesPastALong() {
    // By hand: 2⁶³ - 1/2 is a tie between an odd and an even number, and 2⁶³ is the even one.
    assertThat(Rational.of("9223372036854775807.5").rounded(0)).isEqualTo("9223372036854775808");
    assertThat(Rational.of("-9223372036854775807.5").rounded(0)).isEqualTo("-9223372036854775808");
    assertThat(Rational.of("9223372036854775806.5").rounded(0)).isEqualTo("9223372036854775806");
  }

  @Test
  void aTotalIsRoundedOnceAndNotTheSumOfItsRoundedRows() {
    // By hand: 3 × 12.4 g is 37.2 g, and 12.4 g shows as 12; 16 × 1 oz is 453.59237 g (HB 44).
    Mass row = Mass.parse("12.4 g");
    Mass ounce = Mass.parse("1 oz");

    assertThat(MassStyle.GRAMS.number(row, 0)).isEqualTo("12");
    assertThat(MassStyle.GRAMS.number(row.times(3), 0)).isEqualTo("37");
    assertThat(MassStyle.GRAMS.number(ounce, 2)).isEqualTo("28.35");
    assertThat(MassStyle.GRAMS.number(ounce.times(16), 2)).isEqualTo("453.59");
  }

  @Test
  void aQuantityBecomesAStoredValueByOneRounding() {
    // By hand: 1/3 mg is 333 333.33.. ng; 1/128 in is 198 437.5 nm, and the tie goes to even.
    assertThat(Mass.parse("1/3 mg")).isEqualTo(new Mass(333_333));
    assertThat(Length.parse("1/128 in")).isEqualTo(new Length(198_438));
    assertThat(Length.parse("3/128 in")).isEqualTo(new Length(595_312));
    // 1/9000 g/m is 0.000 111 111 1.. (ISO 1144); 1.3 oz/yd² is 44.077 471 717 347 g/m².
    assertThat(LineDensity.parse("1 den").gramsPerMetre()).isEqualTo("0.0001111111");
    assertThat(AreaDensity.parse("1.3 osy").gramsPerSquareMetre()).isEqualTo("44.0774717173");
  }

  static Stream<List<String>> rows() {
    return Published.rows("rounding.txt").stream();
  }
}
