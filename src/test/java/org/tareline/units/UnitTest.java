package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class UnitTest extends InEveryLocale {

  @ParameterizedTest
  @EnumSource(Unit.class)
  void isFoundByItsCodeAndBySymbol(Unit unit) {
    assertThat(Unit.named(unit.ucum())).isEqualTo(unit);
    assertThat(Unit.named(unit.symbol())).isEqualTo(unit);
  }

  @Test
  void codesAndSymbolsAreEachGivenOnce() {
    assertThat(Arrays.stream(Unit.values()).map(Unit::ucum)).doesNotHaveDuplicates();
    assertThat(Arrays.stream(Unit.values()).map(Unit::symbol)).doesNotHaveDuplicates();
  }

  @Test
  void noSpellingMeansTwoUnitsInAnyCase() {
    Map<String, Unit> seen = new HashMap<>();

    for (Unit unit : Unit.values()) {
      for (String spelling : unit.spellings()) {
        if (spelling.length() > 1) {
          Unit other = seen.put(spelling.toLowerCase(Locale.ROOT), unit);
          assertThat(other).as(spelling).isIn(null, unit);
        }
        assertThat(spelling).hasSizeLessThan(Unit.LONGEST_SPELLING);
        assertThat(Unit.find(spelling)).as(spelling).isEqualTo(unit);
        assertThat(Unit.ambiguity(spelling)).as(spelling).isNull();
      }
    }
    assertThat(seen).hasSizeGreaterThan(150); // so that the loop has looked at something
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void theBaseUnitOfAKindIsOne(Kind kind) {
    assertThat(kind.base().kind()).isEqualTo(kind);
    assertThat(kind.base().toBase(Rational.of("7"))).isEqualTo(Rational.of("7"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "osy | OUNCE_PER_SQUARE_YARD",
        "oz/yd² | OUNCE_PER_SQUARE_YARD",
        "oz/yd2 | OUNCE_PER_SQUARE_YARD",
        "oz / yd^2 | OUNCE_PER_SQUARE_YARD",
        "OZ/YD2 | OUNCE_PER_SQUARE_YARD",
        "gsm | GRAM_PER_SQUARE_METRE",
        "g/m² | GRAM_PER_SQUARE_METRE",
        "lbs | POUND",
        "inch | INCH",
        "INCHES | INCH",
        "in. | INCH",
        "″ | INCH",
        "\" | INCH",
        "' | FOOT",
        "FT | FOOT",
        "MI | MILE",
        "MIL | MIL",
        "Pint | PINT",
        "kn | KILONEWTON",
        "KCAL | KILOCALORIE",
        "[Cal] | KILOCALORIE"
      })
  void isFoundByWhatAMakerTypes(String spelling, Unit unit) {
    assertThat(Unit.named(spelling)).isEqualTo(unit);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "M", "Mm", "MM", "Mg", "ML", "cal", "Cal", "calories", "stone", "k", "n", "d"})
  void isNotGuessedAt(String spelling) {
    assertThatThrownBy(() -> Unit.named(spelling))
        .isInstanceOf(UnreadableQuantity.class)
        .hasMessageContaining("One that reads: oz.");
  }
}
