package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is refused, where, and in which words. */
class RefusalsTest extends InEveryLocale {

  @ParameterizedTest
  @MethodSource("refusals")
  void refusesWithItsPlace(List<String> row) {
    Kind kind = Published.kind(row.get(1));
    Unit defaultUnit = row.get(2).isEmpty() ? null : Unit.named(row.get(2));

    UnreadableQuantity refusal = refusal(row.get(0), kind, defaultUnit);

    assertThat(refusal.text()).isEqualTo(row.get(0));
    assertThat(refusal.position()).isEqualTo(Integer.parseInt(row.get(3)));
    assertThat(refusal.reason()).contains(row.get(4));
    assertThat(refusal.getMessage())
        .contains(refusal.reason(), refusal.example())
        .doesNotContainIgnoringCase("invalid", "please", "oops", "error")
        .doesNotContain("\u0000", "\n");
    assertThatCode(() -> Quantity.read(refusal.example(), kind, null)).doesNotThrowAnyException();
  }

  @Test
  void saysWhatWasReadAndWhereItStopped() {
    assertThat(refusal("13 1/4 ozz", Kind.MASS, null))
        .hasMessage(
            "Read “13 1/4” and stopped at “ozz”: “ozz” is not a unit known here."
                + " One that reads: 13 1/4 oz.");
    assertThat(refusal("1,234 g", Kind.MASS, null))
        .hasMessage(
            "Read “1” and stopped at “,234 g”: the comma may part thousands or decimals;"
                + " write 1234 or 1.234. One that reads: 13 1/4 oz.");
    assertThat(refusal("4'6", Kind.LENGTH, Unit.METRE))
        .hasMessage("Read “4'6” to its end: a unit is expected here. One that reads: 4 ft 6 in.");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "\u00a0", "\n\n", "\t \u2009"})
  void saysThatNothingWasWritten(String text) {
    assertThat(refusal(text, Kind.MASS, Unit.GRAM))
        .hasMessageStartingWith("Nothing was written: a number is expected here.");
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void readsTheExampleThatEachKindGives(Kind kind) {
    assertThat(Quantity.read(kind.example()).kind()).isEqualTo(kind);
  }

  @Test
  void refusesWhatIsNotWantedOnlyWhenItIsAskedTo() {
    Quantity negative = Quantity.read("-5 g");
    Quantity nothing = Quantity.read("0 g");

    assertThat(negative.mass()).isEqualTo(Mass.ofGrams("-5"));
    assertThatCode(nothing::notNegative).doesNotThrowAnyException();
    assertThat(catchThrowableOfType(UnreadableQuantity.class, negative::notNegative))
        .hasMessage(
            "Read “-5 g” to its end: a mass of zero or more is wanted. One that reads: 13 1/4 oz.");
    assertThat(catchThrowableOfType(UnreadableQuantity.class, nothing::positive).reason())
        .isEqualTo("a mass of more than zero is wanted");
  }

  @Test
  void aMassThatRoundsToNothingIsNotPositive() {
    // Half a nanogram rounds to even, which is none; a little more rounds to one.
    Quantity half = Quantity.read("0.0000000005 g");

    assertThat(half.signum()).isEqualTo(1);
    assertThat(half.mass()).isEqualTo(Mass.ZERO);
    assertThat(catchThrowableOfType(UnreadableQuantity.class, half::positive)).isNotNull();
    assertThat(Quantity.read("0.00000000051 g").positive().mass()).isEqualTo(new Mass(1));
  }

  @Test
  void namesBothKindsWhenAsksAcrossThem() {
    Quantity mass = Quantity.read("5 oz");

    assertThat(catchThrowableOfType(UnreadableQuantity.class, () -> mass.in(Unit.METRE)).reason())
        .isEqualTo("a mass cannot be given in m, a unit of length");
    assertThat(catchThrowableOfType(UnreadableQuantity.class, mass::length).reason())
        .isEqualTo("a length is wanted, and this is a mass");
  }

  static List<List<String>> refusals() {
    return Published.rows("refusals.txt");
  }

  private static UnreadableQuantity refusal(String text, Kind kind, @Nullable Unit defaultUnit) {
    UnreadableQuantity refusal =
        catchThrowableOfType(
            UnreadableQuantity.class, () -> Quantity.read(text, kind, defaultUnit));
    assertThat(refusal).as("%s is refused", text).isNotNull();
    return refusal;
  }
}
