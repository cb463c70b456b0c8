package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Percentages, and half-widths stated in either way. Figures are by hand. */
class ToleranceTest extends InEveryLocale {

  @ParameterizedTest
  @CsvSource({
    "0.1 %, 0.001",
    "5%, 0.05",
    "20 %, 0.2",
    "'2,5 %', 0.025",
    "1/2 %, 0.005",
    "½ %, 0.005",
    "0 %, 0",
    "100 %, 1",
    "1000 %, 10",
    "5\u00a0%, 0.05"
  })
  void readsAPercentageExactly(String text, BigDecimal fraction) {
    assertThat(Percent.parse(text).fraction()).isEqualTo(fraction);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "5 | 1 | a per cent sign is expected",
        "% | 0 | a number is expected",
        "-5 % | 4 | from 0 % to 1000 % is wanted",
        "1000.1 % | 8 | from 0 % to 1000 % is wanted",
        "1/3 % | 5 | never end",
        "5 %% | 3 | something follows",
        "1e2 % | 1 | powers of ten",
        "5 g | 2 | a per cent sign is expected"
      })
  void refusesWhatIsNoPercentage(String text, int position, String words) {
    UnreadableQuantity refusal =
        catchThrowableOfType(UnreadableQuantity.class, () -> Percent.parse(text));

    assertThat(refusal.position()).isEqualTo(position);
    assertThat(refusal.reason()).contains(words);
    assertThat(refusal.example()).isEqualTo("5 %");
  }

  @ParameterizedTest
  @CsvSource({
    "5 %, 612, 30.6",
    "0.1 %, 381.5, 0.3815",
    "± 5 %, 612, 30.6",
    "5 %, -612, 30.6",
    "2 g, 612, 2",
    "±2 g, 612, 2",
    "2, 612, 2",
    "0, 612, 0",
    "0.1 oz, 612, 2.834952312"
  })
  void isAHalfWidthAboutANominalMass(String text, String nominal, String halfWidth) {
    // The last row is 2.8349523125 g (HB 44, App. C), half-even to a nanogram.
    assertThat(Tolerance.read(text, Kind.MASS, Unit.GRAM).ofMass(Mass.ofGrams(nominal)))
        .isEqualTo(Mass.ofGrams(halfWidth));
  }

  @Test
  void isAHalfWidthOfAnyKind() {
    Quantity cloth = Quantity.read("1.3 osy");

    assertThat(Tolerance.read("10 %", Kind.AREA_DENSITY, null).of(cloth).areaDensity())
        .isEqualTo(AreaDensity.parse("0.13 osy"));
    assertThat(Tolerance.read("2 gsm", Kind.AREA_DENSITY, null).of(cloth).areaDensity())
        .isEqualTo(AreaDensity.parse("2 gsm"));
  }

  @Test
  void keepsWhatWasTypedAndReadsItAgain() {
    Tolerance share = Tolerance.read(" 5 % ", Kind.MASS, null);

    assertThat(share).hasToString("5 %");
    assertThat(share.percent()).isEqualTo(new Percent(new BigDecimal("0.05")));
    assertThat(Tolerance.read(share.toString(), Kind.MASS, null).percent())
        .isEqualTo(share.percent());
    assertThat(Tolerance.read("2 g", Kind.MASS, null).percent()).isNull();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "-2 g | 4 | zero or more",
        "±-2 g | 4 | zero or more",
        "2 mm | 2 | a mass is wanted",
        "±5 | 2 | a unit is expected",
        "±± 5 % | 1 | a number is expected"
      })
  void refusesWhatIsNoTolerance(String text, int position, String words) {
    UnreadableQuantity refusal =
        catchThrowableOfType(UnreadableQuantity.class, () -> Tolerance.read(text, Kind.MASS, null));

    assertThat(refusal.position()).isEqualTo(position);
    assertThat(refusal.reason()).contains(words);
  }

  @Test
  void aShareBelowNothingOrBeyondTenfoldIsAMistakeOfTheCaller() {
    assertThatThrownBy(() -> new Percent(new BigDecimal("-0.01")))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Percent(new BigDecimal("10.01")))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
