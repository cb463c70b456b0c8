package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantityTest extends InEveryLocale {

  @Test
  void keepsWhatWasTypedAndItsUnit() {
    Quantity quantity = Quantity.read(" 1 lb 2.5 oz ", Kind.MASS, Unit.GRAM);

    assertThat(quantity.text()).isEqualTo("1 lb 2.5 oz");
    assertThat(quantity.unit()).isEqualTo(Unit.OUNCE);
    assertThat(quantity.in(Unit.OUNCE).value()).isEqualTo("18.5"); // 16 + 2.5, HB 44
    assertThat(quantity.notes()).isEmpty();
  }

  @Test
  void aBareNumberTakesTheFieldsUnit() {
    Quantity quantity = Quantity.read("13 1/4", Kind.MASS, Unit.OUNCE);

    assertThat(quantity.text()).isEqualTo("13 1/4");
    assertThat(quantity.unit()).isEqualTo(Unit.OUNCE);
    // 13.25 × 28.349523125 g, HB 44 App. C
    assertThat(quantity.in(Unit.GRAM))
        .isEqualTo(new Conversion(Kind.MASS, "375.63118140625", Unit.GRAM, true));
    assertThat(quantity.mass()).isEqualTo(new Mass(375_631_181_406L)); // .25 ng left over
  }

  @Test
  void aDefaultUnitOfAnotherKindIsAMistakeOfTheCaller() {
    assertThatThrownBy(() -> Quantity.read("5", Kind.MASS, Unit.METRE))
        .isExactlyInstanceOf(IllegalArgumentException.class)
        .hasMessage("m is a unit of length and cannot stand for a mass");
  }

  @Test
  void saysWhenDigitsDoNotEnd() {
    // 1/9 tex (ISO 1144): 17 digits, half-even.
    assertThat(Quantity.read("1 den").in(Unit.TEX))
        .isEqualTo(new Conversion(Kind.LINE_DENSITY, "0.11111111111111111", Unit.TEX, false));
  }

  @Test
  void aRadianIsNeverExactButIsItself() {
    assertThat(Quantity.read("1 rad").in(Unit.RADIAN).exact()).isTrue();
    // 180/π = 57.295779513082320876..., from memory, sure
    assertThat(Quantity.read("1 rad").in(Unit.DEGREE))
        .isEqualTo(new Conversion(Kind.ANGLE, "57.295779513082321", Unit.DEGREE, false));
  }

  @ParameterizedTest
  @CsvSource({
    "65 gr, gr was read as the grain",
    "65 GR, gr was read as the grain",
    "2 mil, mil was read as a thousandth of an inch",
    "2 mils, mils were read as thousandths of an inch"
  })
  void saysHowAUnitWasRead(String text, String words) {
    assertThat(Quantity.read(text).notes()).singleElement().asString().startsWith(words);
  }

  @ParameterizedTest
  @ValueSource(strings = {"65 grain", "65 [gr]", "65 g", "2 thou"})
  void saysNothingOfAUnitThatIsPlain(String text) {
    assertThat(Quantity.read(text).notes()).isEmpty();
  }

  @Test
  void takesAValueAndAUnitApart() {
    Quantity quantity = Quantity.of("381.5", Unit.GRAM);

    assertThat(quantity.text()).isEqualTo("381.5 g");
    assertThat(quantity.mass()).isEqualTo(new Mass(381_500_000_000L));
    assertThat(Quantity.of("-5", Unit.CELSIUS).temperature().degreesCelsius()).isEqualTo(-5);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "'' | 0",
        "' 5' | 0",
        "5 g | 1",
        "1,5 | 1",
        "1e3 | 1",
        ".5 | 0",
        "5. | 1",
        "+5 | 0",
        "1/2 | 1",
        "NaN | 0",
        "--5 | 0",
        "0x1 | 1",
        "١ | 0"
      })
  void aValueApartFromItsUnitIsAPlainDecimal(String value, int position) {
    UnreadableQuantity refusal =
        catchThrowableOfType(UnreadableQuantity.class, () -> Quantity.of(value, Unit.GRAM));

    assertThat(refusal.position()).isEqualTo(position);
    assertThat(refusal.example()).isEqualTo("381.5");
  }

  @Test
  void givesStoredValuesInAnyUnitExactly() {
    // HB 44, App. C; ISO 1144
    assertThat(Quantity.of(Mass.ofGrams("453.59237")).in(Unit.POUND).value()).isEqualTo("1");
    assertThat(Quantity.of(Length.ofMetres("1.3716")).in(Unit.FOOT).value()).isEqualTo("4.5");
    assertThat(Quantity.of(LineDensity.parse("44 dtex")).in(Unit.TEX).value()).isEqualTo("4.4");
    assertThat(Quantity.of(new AreaDensity(new BigDecimal("54"))).in(Unit.GRAM_PER_SQUARE_METRE))
        .isEqualTo(new Conversion(Kind.AREA_DENSITY, "54", Unit.GRAM_PER_SQUARE_METRE, true));
    assertThat(Quantity.of(new Force(9.80665)).in(Unit.KILOGRAM_FORCE).value()).isEqualTo("1");
    assertThat(Quantity.of(new Angle(30)).in(Unit.DEGREE).value()).isEqualTo("30");
    assertThat(Quantity.of(new Volume(16.387064)).in(Unit.CUBIC_INCH).value()).isEqualTo("1");
    assertThat(Quantity.of(new Temperature(-40)).in(Unit.FAHRENHEIT).value()).isEqualTo("-40");
    assertThat(Quantity.of(new Energy(4.184)).in(Unit.KILOCALORIE).value()).isEqualTo("1");
  }

  @ParameterizedTest
  @MethodSource("lists")
  void readsAListOrSaysWhereItStopped(List<String> row) {
    if (row.get(1).startsWith("!")) {
      UnreadableQuantity refusal =
          catchThrowableOfType(
              UnreadableQuantity.class, () -> Quantity.readMany(row.get(0), Kind.MASS, Unit.GRAM));
      assertThat(refusal.position()).isEqualTo(Integer.parseInt(row.get(1).substring(1)));
    } else {
      assertThat(Quantity.readMany(row.get(0), Kind.MASS, Unit.GRAM))
          .extracting(quantity -> quantity.in(Unit.GRAM).value())
          .isEqualTo(Arrays.asList(row.get(1).split(" ")));
    }
  }

  @Test
  void eachReadingOfAListKeepsItsOwnText() {
    assertThat(Quantity.readMany("1 lb 2 oz;  518.2 g", Kind.MASS, null))
        .extracting(Quantity::text)
        .containsExactly("1 lb 2 oz", "518.2 g");
  }

  static List<List<String>> lists() {
    return Published.rows("readings-many.txt");
  }
}
