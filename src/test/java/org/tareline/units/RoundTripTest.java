package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What is written reads back as what it was: seeded values of every size, and the edges. */
class RoundTripTest extends InEveryLocale {

  private static final int VALUES = 1_000;

  @ParameterizedTest(name = "{0}")
  @MethodSource("families")
  <T> void aStoredValueReadsBackAsItself(
      String name, Function<Random, T> some, Function<String, T> parse) {
    Random random = new Random(name.hashCode());
    for (int i = 0; i < VALUES; i++) {
      T value = some.apply(random);

      assertThat(parse.apply(value.toString())).isEqualTo(value);
    }
  }

  static Stream<Arguments> families() {
    return Stream.of(
        family("mass", r -> new Mass(someLong(r)), Mass::parse),
        family("length", r -> new Length(someLong(r)), Length::parse),
        family("area density", r -> new AreaDensity(someDecimal(r)), AreaDensity::parse),
        family("line density", r -> new LineDensity(someDecimal(r)), LineDensity::parse),
        family("force", r -> new Force(someDouble(r)), Force::parse),
        family("angle", r -> new Angle(someDouble(r)), Angle::parse),
        family("volume", r -> new Volume(someDouble(r)), Volume::parse),
        family("energy", r -> new Energy(someDouble(r)), Energy::parse),
        family(
            "temperature", r -> new Temperature(r.nextDouble() * 1e3 - 273.15), Temperature::parse),
        family(
            "percent",
            r -> new Percent(new BigDecimal(r.nextInt(1_000_001)).movePointLeft(5)),
            Percent::parse));
  }

  @Test
  void theEdgesReadBackToo() {
    for (long edge : new long[] {Long.MIN_VALUE, Long.MAX_VALUE, 0, 1, -1}) {
      assertThat(Mass.parse(new Mass(edge).toString())).isEqualTo(new Mass(edge));
      assertThat(Length.parse(new Length(edge).toString())).isEqualTo(new Length(edge));
    }
    assertThat(Force.parse(new Force(-0.0).toString())).isEqualTo(new Force(0));
    assertThat(Force.parse(new Force(1e-100).toString())).isEqualTo(new Force(1e-100));
    assertThat(Temperature.parse(new Temperature(-273.15).toString()).degreesCelsius())
        .isEqualTo(-273.15);
  }

  @ParameterizedTest
  @EnumSource(MassStyle.class)
  void aMassOfWholeStepsReadsBackFromItsStyle(MassStyle style) {
    Random random = new Random(style.ordinal());
    for (int i = 0; i < VALUES; i++) {
      // Thousandths of the style's unit are whole nanograms for g and kg, and for oz are not: the
      // mass read back is the one that was rounded to a nanogram when it was first read.
      int decimals = random.nextInt(4);
      long steps = random.nextLong() % 1_000_000;
      Mass mass =
          Quantity.of(BigDecimal.valueOf(steps, decimals).toPlainString(), style.unit()).mass();

      String text = style.text(mass, decimals).replaceAll(" \\(.*", "");

      assertThat(Quantity.read(text, Kind.MASS, null).mass()).as(text).isEqualTo(mass);
    }
  }

  @ParameterizedTest
  @EnumSource(Unit.class)
  void aNumberInAnyUnitComesBackFromAnyOtherOfItsKind(Unit unit) {
    Random random = new Random(unit.ordinal());
    for (int i = 0; i < 50; i++) {
      String value =
          BigDecimal.valueOf(random.nextInt(1_000_000), 3).stripTrailingZeros().toPlainString();
      Quantity quantity = Quantity.of(value, unit);

      assertThat(quantity.in(unit)).isEqualTo(new Conversion(unit.kind(), value, unit, true));
      for (Unit other : Unit.values()) {
        if (other.kind() == unit.kind()) {
          Conversion there = quantity.in(other);
          BigDecimal back = new BigDecimal(Quantity.of(there.value(), other).in(unit).value());
          if (there.exact()) {
            assertThat(back).isEqualByComparingTo(value);
          } else {
            assertThat(back.doubleValue())
                .isCloseTo(
                    quantity.base().equals(Rational.ZERO) ? 0 : new BigDecimal(value).doubleValue(),
                    org.assertj.core.data.Offset.offset(1e-9));
          }
        }
      }
    }
  }

  private static <T> Arguments family(
      String name, Function<Random, T> some, Function<String, T> parse) {
    return Arguments.of(name, some, parse);
  }

  /** Of any length in digits, either sign. */
  private static long someLong(Random random) {
    return random.nextLong() >> random.nextInt(64);
  }

  private static BigDecimal someDecimal(Random random) {
    // 63 bits of whole part and decimals stay inside numeric(20,10).
    return new BigDecimal(BigInteger.valueOf(someLong(random)), AreaDensity.DECIMALS);
  }

  private static double someDouble(Random random) {
    double size = Math.pow(10, random.nextInt(19) - 9);
    return (random.nextDouble() - 0.5) * size;
  }
}
