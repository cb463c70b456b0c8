package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Figures are by hand from 1 oz = 28.349523125 g and 1 lb = 16 oz (NIST HB 44, App. C) where no
 * other source stands beside them. 612 g is 21.587663 oz; 453.5 g is 15.996741 oz.
 */
class MassStyleTest extends InEveryLocale {

  private static final Mass MASS = Mass.ofGrams("612");
  private static final Mass TWO_GRAMS = Mass.ofGrams("2");

  @ParameterizedTest
  @CsvSource({
    "GRAMS, 612 g",
    "KILOGRAMS, 0.612 kg",
    "OUNCES, 21.59 oz",
    "POUNDS_AND_OUNCES, 1 lb 5.59 oz",
    "GRAMS_AND_OUNCES, 612 g (21.6 oz)",
    "KILOGRAMS_AND_POUNDS, 0.612 kg (1 lb 5.6 oz)"
  })
  void writesAMassInEachStyle(MassStyle style, String text) {
    int decimals = style.decimals(TWO_GRAMS, 1);

    assertThat(plain(style.text(MASS, decimals))).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({
    "GRAMS, g, 612",
    "KILOGRAMS, kg, 0.612",
    "OUNCES, oz, 21.59",
    "POUNDS_AND_OUNCES, lb + oz, 1 lb 5.59 oz",
    "GRAMS_AND_OUNCES, g (oz), 612 (21.6)",
    "KILOGRAMS_AND_POUNDS, kg (lb + oz), 0.612 (1 lb 5.6 oz)"
  })
  void writesACellUnderItsHeading(MassStyle style, String heading, String cell) {
    assertThat(style.heading()).isEqualTo(heading);
    assertThat(plain(style.number(MASS, style.decimals(TWO_GRAMS, 1)))).isEqualTo(cell);
  }

  @ParameterizedTest
  @CsvSource({
    "GRAMS, 612 g ± 2 g, 612.0 g ± 2.0 g",
    "KILOGRAMS, 0.612 kg ± 0.002 kg, 0.6120 kg ± 0.0020 kg",
    "OUNCES, 21.59 oz ± 0.07 oz, 21.588 oz ± 0.071 oz",
    "POUNDS_AND_OUNCES, 1 lb 5.59 oz ± 0.07 oz, 1 lb 5.588 oz ± 0.071 oz",
    "GRAMS_AND_OUNCES, 612 g ± 2 g (21.6 oz), 612.0 g ± 2.0 g (21.59 oz)",
    "KILOGRAMS_AND_POUNDS, 0.612 kg ± 0.002 kg (1 lb 5.6 oz), 0.6120 kg ± 0.0020 kg (1 lb 5.59 oz)"
  })
  void writesValueAndUncertaintyToTheSameDecimal(MassStyle style, String one, String two) {
    assertThat(plain(style.withUncertainty(MASS, TWO_GRAMS, 1))).isEqualTo(one);
    assertThat(plain(style.withUncertainty(MASS, TWO_GRAMS))).isEqualTo(two);
  }

  @Test
  void roundsAResultToItsUncertaintyAsTheGuideDoes() {
    // JCGM 100:2008, 7.2.6: 10.057 62 Ω with 27 mΩ is given as 10.058 Ω. Grams for ohms here.
    assertThat(
            plain(MassStyle.GRAMS.withUncertainty(Mass.ofGrams("10.05762"), Mass.ofGrams("0.027"))))
        .isEqualTo("10.058 g ± 0.027 g");
  }

  @ParameterizedTest
  @CsvSource({
    // By hand. 0.096 g to two decimals is 0.10 g, which is two figures, and to one is 0.1 g.
    "2, 1, 0",
    "2, 2, 1",
    "0.2, 1, 1",
    "0.096, 2, 3",
    "0.096, 1, 1",
    "0.0996, 2, 2",
    "0.94, 1, 1",
    "0.96, 1, 0",
    "9.96, 2, 0",
    "31, 1, 0",
    "612, 1, 0",
    "0.000000004, 1, 6"
  })
  void showsNoMoreFiguresOfTheUncertaintyThanAsked(String grams, int figures, int decimals) {
    assertThat(MassStyle.GRAMS.decimals(Mass.ofGrams(grams), figures)).isEqualTo(decimals);
  }

  @Test
  void withNoUncertaintyShowsAsManyDecimalsAsTheMassHas() {
    assertThat(plain(MassStyle.GRAMS.withUncertainty(Mass.ofGrams("381.5"), Mass.ZERO)))
        .isEqualTo("381.5 g ± 0.0 g");
    assertThat(MassStyle.GRAMS.decimals(Mass.ofGrams("381"))).isZero();
    assertThat(MassStyle.GRAMS.decimals(Mass.ofGrams("0.0624"))).isEqualTo(3);
    assertThat(MassStyle.OUNCES.decimals(Mass.ofGrams("1"))).isEqualTo(4);
    assertThat(MassStyle.GRAMS.decimals(Mass.ZERO, 2)).isEqualTo(3);
  }

  @ParameterizedTest
  @CsvSource({
    "453.5, 1, 1 lb 0.0 oz", // 15.997 oz, which would be 0 lb 16.0 oz if it were split first
    "453.5, 2, 1 lb 0.00 oz",
    "453.5, 3, 15.997 oz",
    "907.1, 0, 2 lb 0 oz", // 31.997 oz
    "-453.5, 1, −1 lb 0.0 oz",
    "-524.4661778125, 1, −1 lb 2.5 oz",
    "0, 1, 0.0 oz",
    "1.4, 1, 0.0 oz", // 0.049 oz
    "-1.4, 1, 0.0 oz", // and no minus before nothing
    "226.796185, 1, 8.0 oz"
  })
  void roundsInOuncesBeforeItSplitsOffPounds(String grams, int decimals, String text) {
    assertThat(plain(MassStyle.POUNDS_AND_OUNCES.text(Mass.parse(grams + " g"), decimals)))
        .isEqualTo(text);
  }

  @Test
  void neverShowsSixteenOunces() {
    Random random = new Random(16);
    for (int i = 0; i < 5_000; i++) {
      // Masses crowd a hundredth of an ounce about whole pounds, where the trouble would be.
      long pounds = 1 + random.nextInt(40);
      Mass mass =
          Mass.parse(pounds + " lb").plus(new Mass((long) (random.nextGaussian() * 283_495_231L)));
      for (int decimals = 0; decimals <= 4; decimals++) {
        assertThat(MassStyle.POUNDS_AND_OUNCES.text(mass, decimals))
            .doesNotContain("16" + (decimals == 0 ? "\u00a0oz" : "." + "0".repeat(decimals)));
      }
    }
  }

  @ParameterizedTest
  @EnumSource(MassStyle.class)
  void putsANoBreakSpaceBeforeEveryUnitAndARealMinusBeforeTheNumber(MassStyle style) {
    String text = style.text(Mass.ofGrams("-612"), 3);

    assertThat(text).startsWith("\u2212").doesNotContain("-").doesNotContainPattern("[0-9] [a-z]");
    assertThat(text).containsPattern("[0-9]\u00a0[a-z]");
  }

  @Test
  void leavesOutWhatStandsBesideItWhereThereIsNoRoom() {
    Mass mass = Mass.ofGrams("612");

    assertThat(plain(MassStyle.GRAMS_AND_OUNCES.alone().text(mass, 0))).isEqualTo("612 g");
    assertThat(MassStyle.KILOGRAMS_AND_POUNDS.alone()).isEqualTo(MassStyle.KILOGRAMS);
    assertThat(MassStyle.POUNDS_AND_OUNCES.alone()).isEqualTo(MassStyle.POUNDS_AND_OUNCES);
  }

  @Test
  void refusesAnUncertaintyBelowZero() {
    assertThatThrownBy(() -> MassStyle.GRAMS.decimals(Mass.ofGrams("-1"), 2))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("-1 g");
    assertThatThrownBy(() -> MassStyle.GRAMS.decimals(TWO_GRAMS, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** With plain spaces, so that the expected texts above can be read and typed. */
  private static String plain(String text) {
    return text.replace('\u00a0', ' ');
  }
}
