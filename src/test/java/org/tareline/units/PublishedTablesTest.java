package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Unit conversion row by row against what standards print. */
class PublishedTablesTest extends InEveryLocale {

  @ParameterizedTest
  @MethodSource("factors")
  void convertsAsTheTableOfNistSp811Prints(List<String> row) {
    BigDecimal printed = new BigDecimal(row.get(3));
    Conversion ours = Quantity.read(row.get(6)).in(Unit.named(row.get(7)));
    BigDecimal value = new BigDecimal(ours.value()).scaleByPowerOfTen(Integer.parseInt(row.get(8)));

    if (row.get(4).equals("EXACT")) {
      assertThat(ours.exact()).isTrue();
      assertThat(value).isEqualByComparingTo(printed);
    } else {
      // The table prints seven digits; ours, rounded to as many, has to be the same to the last.
      assertThat(value.round(new MathContext(7, RoundingMode.HALF_EVEN)))
          .isEqualByComparingTo(printed);
    }
  }

  @Test
  void everyRowOfTheTableIsCoveredOrSaysWhyNot() {
    List<List<String>> rows = Published.rows("sp811-b8-factors.txt");

    assertThat(rows).hasSize(51); // the rows A1 to A51 that were gathered for this project
    assertThat(rows)
        .allSatisfy(row -> assertThat(row.get(6).isEmpty()).isNotEqualTo(row.get(9).isEmpty()));
  }

  @ParameterizedTest
  @MethodSource("values")
  void convertsToThePublishedValue(List<String> row) {
    BigDecimal published = new BigDecimal(row.get(2));
    Conversion ours = Quantity.read(row.get(0)).in(Unit.named(row.get(1)));

    if (row.size() > 3 && row.get(3).equals("EXACT")) {
      assertThat(ours.exact()).isTrue();
      assertThat(ours.value()).isEqualTo(published.toPlainString());
    } else {
      assertThat(new BigDecimal(ours.value()).setScale(published.scale(), RoundingMode.HALF_EVEN))
          .isEqualTo(published);
    }
  }

  @Test
  void aDegreeFahrenheitIsFiveNinthsOfADegreeCelsius() {
    // NIST SP 811, App. B.8: a difference of 1 °F is 5/9 K.
    Rational difference = Quantity.read("33 °F").base().minus(Quantity.read("32 °F").base());

    assertThat(difference).isEqualTo(Rational.of("5/9"));
  }

  static Stream<List<String>> factors() {
    return Published.rows("sp811-b8-factors.txt").stream().filter(row -> !row.get(6).isEmpty());
  }

  static Stream<List<String>> values() {
    return Stream.of(
            "hb44-appendix-c.txt", "textile-counts.txt", "cloth-weights.txt", "readings.txt")
        .flatMap(file -> Published.rows(file).stream());
  }
}
