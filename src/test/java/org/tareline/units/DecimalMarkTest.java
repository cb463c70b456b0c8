package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The comma where it is known to be the decimal mark, beside the point. Figures are by hand. */
class DecimalMarkTest extends InEveryLocale {

  private static final int TEXTS = 20_000;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1,234 g | 1.234",
        "12,345 | 12.345",
        "999,999 kg | 999999",
        "-1,234 g | -1.234",
        "1,234g | 1.234",
        "1,2345 kg | 1234.5",
        "0,125 g | 0.125",
        "1234,567 g | 1234.567",
        ",5 g | 0.5",
        // 1 lb = 453.592 37 g, 1 oz = 28.349 523 125 g (HB 44, App. C); 453.59237 + 35.436… g
        "1 lb 1,250 oz | 489.02927390625",
        "1 1/4 kg | 1250",
        "1234 g | 1234",
        // A point that thousands cannot be meant by.
        "12.5 g | 12.5",
        "1.2345 kg | 1234.5",
        "0.125 g | 0.125",
        "1234.567 g | 1234.567",
        ".5 g | 0.5",
      })
  void theCommaIsReadWhereItWasSaid(String text, BigDecimal grams) {
    Quantity read = Quantity.read(text, Kind.MASS, Unit.GRAM, DecimalMark.COMMA);

    assertThat(new BigDecimal(read.in(Unit.GRAM).value())).isEqualByComparingTo(grams);
    assertThat(read.text()).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1.234 g | 1 | the point may part thousands or decimals; write 1234 or 1,234",
        "12.345 | 2 | the point may part thousands or decimals; write 12345 or 12,345",
        "1 kg 1.234 g | 6 | the point may part thousands or decimals",
        "1,234 kg 1.234 g | 10 | the point may part thousands or decimals",
        "1.234,5 g | 5 | a number has one decimal mark, and no marks between thousands",
        "1,234.5 g | 5 | a number has one decimal mark, and no marks between thousands",
        "1.234.567 g | 5 | a number has one decimal mark, and no marks between thousands",
        "1,234,567 g | 5 | a number has one decimal mark, and no marks between thousands",
        "1 234,5 g | 2 | one number follows another",
        "1, g | 1 | one quantity is wanted, and something follows it",
      })
  void whatCouldBeAThousandTimesAsMuchIsRefused(String text, int position, String reason) {
    UnreadableQuantity refusal = refusal(text, DecimalMark.COMMA);

    assertThat(refusal.reason()).contains(reason);
    assertThat(refusal.position()).isEqualTo(position);
  }

  @Test
  void aKeptTextReadsInTheOneMarkThatItHasThroughout() {
    assertThat(mass("1,234 kg", DecimalMark.EITHER)).isEqualTo(Mass.ofGrams("1234"));
    assertThat(mass("1.234 kg", DecimalMark.EITHER)).isEqualTo(Mass.ofGrams("1234"));
    assertThat(mass("1,234 kg 1,5 g", DecimalMark.EITHER)).isEqualTo(Mass.ofGrams("1235.5"));
    assertThat(refusal("1,234 kg 1.234 g", DecimalMark.EITHER).reason())
        .startsWith("the point may part");
    assertThat(refusal("1.234 kg 1,234 g", DecimalMark.EITHER).reason())
        .startsWith("the comma may part");
    assertThat(refusal("1.234,5 g", DecimalMark.EITHER).reason()).contains("one decimal mark");
  }

  @Test
  void aToleranceIsReadByItToo() {
    Mass nominal = Mass.ofGrams("200");
    assertThat(tolerance("± 1,250 g").ofMass(nominal)).isEqualTo(Mass.ofGrams("1.25"));
    assertThat(tolerance("1,250 %").ofMass(nominal)).isEqualTo(Mass.ofGrams("2.5"));
    assertThat(tolerance("± 1,250 g")).hasToString("± 1,250 g");
    assertThat(catchThrowableOfType(UnreadableQuantity.class, () -> tolerance("1.250 g")).reason())
        .startsWith("the point may part thousands");
    assertThat(catchThrowableOfType(UnreadableQuantity.class, () -> tolerance("1.250 %")).reason())
        .startsWith("the point may part thousands");
    assertThat(
            catchThrowableOfType(
                    UnreadableQuantity.class, () -> Tolerance.read("1,250 %", Kind.MASS, Unit.GRAM))
                .reason())
        .startsWith("the comma may part thousands");
  }

  /** Any decimal at all, written with the mark that is known, is exactly that decimal. */
  @ParameterizedTest
  @EnumSource(names = {"POINT", "COMMA"})
  void aDecimalInItsOwnMarkIsExactlyWhatItsDigitsSay(DecimalMark mark) {
    Random random = new Random(20260301);
    for (int i = 0; i < TEXTS; i++) {
      BigDecimal grams = new BigDecimal(new BigInteger(30, random), random.nextInt(10));
      String text = grams.toPlainString() + " g";
      String typed = mark == DecimalMark.COMMA ? text.replace('.', ',') : text;

      assertThat(mass(typed, mark)).as(typed).isEqualTo(Mass.ofGrams(grams));
      assertThat(mass(typed, DecimalMark.EITHER)).as(typed).isEqualTo(Mass.ofGrams(grams));
    }
  }

  /** Numbers with marks anywhere, many of them broken: what is known never says how much. */
  @Test
  void noTextIsReadAsTwoValues() {
    Random random = new Random(1948);
    int both = 0;
    int one = 0;
    for (int i = 0; i < TEXTS; i++) {
      String typed = random.nextInt(3) == 0 ? some(random) + " kg " + some(random) : some(random);
      Mass point = massOrNull(typed, DecimalMark.POINT);
      Mass comma = massOrNull(typed, DecimalMark.COMMA);
      if (point != null && comma != null) {
        both++;
        assertThat(comma).as(typed).isEqualTo(point);
      } else if (point != null || comma != null) {
        one++;
      }
      assertThat(massOrNull(typed, DecimalMark.EITHER))
          .as(typed)
          .isEqualTo(point == null ? comma : point);
      // With every mark turned into the other it is the same text for the other reader.
      assertThat(massOrNull(turned(typed), DecimalMark.COMMA)).as(typed).isEqualTo(point);
    }
    assertThat(both).as("read by both, or this shows nothing").isGreaterThan(1_000);
    assertThat(one).as("read by one alone, or this shows nothing").isGreaterThan(500);
  }

  /** Of up to four digits before and after up to two marks. */
  private static String some(Random random) {
    StringBuilder text = new StringBuilder(digits(random));
    for (int marks = random.nextInt(8); marks % 4 > 0; marks /= 4) {
      text.append(random.nextBoolean() ? '.' : ',').append(digits(random));
    }
    return text.append(random.nextBoolean() ? " g" : "oz").toString();
  }

  private static String digits(Random random) {
    int length = 1 + random.nextInt(4);
    return String.valueOf(10_000 + random.nextInt(10_000)).substring(1, 1 + length);
  }

  private static String turned(String text) {
    return text.replace('.', ';').replace(',', '.').replace(';', ',');
  }

  private static Mass mass(String text, DecimalMark mark) {
    return Quantity.read(text, Kind.MASS, Unit.GRAM, mark).mass();
  }

  private static @Nullable Mass massOrNull(String text, DecimalMark mark) {
    try {
      return mass(text, mark);
    } catch (UnreadableQuantity unreadable) {
      return null;
    }
  }

  private static Tolerance tolerance(String text) {
    return Tolerance.read(text, Kind.MASS, Unit.GRAM, DecimalMark.COMMA);
  }

  private static UnreadableQuantity refusal(String text, DecimalMark mark) {
    UnreadableQuantity refusal =
        catchThrowableOfType(UnreadableQuantity.class, () -> mass(text, mark));
    assertThat(refusal).as(text).isNotNull();
    return refusal;
  }
}
