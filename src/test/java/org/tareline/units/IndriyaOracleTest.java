package org.tareline.units;

import static org.assertj.core.api.Assertions.assertThat;
import static tech.units.indriya.unit.Units.CELSIUS;
import static tech.units.indriya.unit.Units.GRAM;
import static tech.units.indriya.unit.Units.HOUR;
import static tech.units.indriya.unit.Units.JOULE;
import static tech.units.indriya.unit.Units.KELVIN;
import static tech.units.indriya.unit.Units.KILOGRAM;
import static tech.units.indriya.unit.Units.LITRE;
import static tech.units.indriya.unit.Units.METRE;
import static tech.units.indriya.unit.Units.METRE_PER_SQUARE_SECOND;
import static tech.units.indriya.unit.Units.NEWTON;
import static tech.units.indriya.unit.Units.RADIAN;
import static tech.units.indriya.unit.Units.SECOND;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Random;
import java.util.stream.Stream;
import javax.measure.IncommensurableException;
import javax.measure.MetricPrefix;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import systems.uom.common.USCustomary;
import tech.units.indriya.function.RationalNumber;

/**
 * Conversions against an independent library, Indriya, over seeded values. Its quantities are built
 * from numbers and never from text, which it misreads under some locales.
 */
class IndriyaOracleTest extends InEveryLocale {

  private static final int VALUES = 200;

  /** Indriya rounds some quotients to 34 digits; two of those stay well inside this. */
  private static final BigDecimal TOLERANCE = new BigDecimal("1e-15");

  @ParameterizedTest(name = "{0} to {2}")
  @MethodSource("pairs")
  void agrees(Unit from, javax.measure.Unit<?> theirFrom, Unit to, javax.measure.Unit<?> theirTo)
      throws IncommensurableException {
    Random random = new Random(from.ordinal() * 1_000L + to.ordinal());
    for (int i = 0; i < VALUES; i++) {
      BigDecimal value = BigDecimal.valueOf(1 + random.nextInt(1_000_000), random.nextInt(10));

      BigDecimal theirs = decimal(theirFrom.getConverterToAny(theirTo).convert(value));
      Conversion ours = Quantity.of(value.toPlainString(), from).in(to);

      BigDecimal difference = new BigDecimal(ours.value()).subtract(theirs).abs();
      assertThat(difference)
          .as("%s %s in %s: %s and %s", value, from, to, ours.value(), theirs)
          .isLessThanOrEqualTo(
              theirs.abs().max(BigDecimal.ONE.movePointLeft(9)).multiply(TOLERANCE));
    }
  }

  static Stream<Arguments> pairs() {
    javax.measure.Unit<?> squareYard = USCustomary.YARD.pow(2);
    javax.measure.Unit<?> squareFoot = USCustomary.FOOT.pow(2);
    javax.measure.Unit<?> gramPerSquareMetre = GRAM.divide(METRE.pow(2));
    javax.measure.Unit<?> gramPerMetre = GRAM.divide(METRE);
    javax.measure.Unit<?> kilogramForce =
        KILOGRAM.multiply(METRE_PER_SQUARE_SECOND).multiply(new BigDecimal("9.80665"));
    javax.measure.Unit<?> poundForce =
        USCustomary.POUND.multiply(METRE_PER_SQUARE_SECOND).multiply(new BigDecimal("9.80665"));
    return Stream.of(
            Arguments.of(Unit.OUNCE, USCustomary.OUNCE, Unit.GRAM, GRAM),
            Arguments.of(Unit.POUND, USCustomary.POUND, Unit.GRAM, GRAM),
            Arguments.of(Unit.POUND, USCustomary.POUND, Unit.OUNCE, USCustomary.OUNCE),
            Arguments.of(Unit.KILOGRAM, KILOGRAM, Unit.POUND, USCustomary.POUND),
            Arguments.of(Unit.INCH, USCustomary.INCH, Unit.MILLIMETRE, MetricPrefix.MILLI(METRE)),
            Arguments.of(Unit.FOOT, USCustomary.FOOT, Unit.METRE, METRE),
            Arguments.of(Unit.YARD, USCustomary.YARD, Unit.INCH, USCustomary.INCH),
            Arguments.of(Unit.MILE, USCustomary.MILE, Unit.KILOMETRE, MetricPrefix.KILO(METRE)),
            Arguments.of(
                Unit.OUNCE_PER_SQUARE_YARD,
                USCustomary.OUNCE.divide(squareYard),
                Unit.GRAM_PER_SQUARE_METRE,
                gramPerSquareMetre),
            Arguments.of(
                Unit.OUNCE_PER_SQUARE_FOOT,
                USCustomary.OUNCE.divide(squareFoot),
                Unit.GRAM_PER_SQUARE_METRE,
                gramPerSquareMetre),
            Arguments.of(
                Unit.OUNCE_PER_YARD,
                USCustomary.OUNCE.divide(USCustomary.YARD),
                Unit.GRAM_PER_METRE,
                gramPerMetre),
            Arguments.of(
                Unit.POUND_PER_FOOT,
                USCustomary.POUND.divide(USCustomary.FOOT),
                Unit.GRAM_PER_METRE,
                gramPerMetre),
            Arguments.of(Unit.DENIER, gramPerMetre.divide(9000), Unit.GRAM_PER_METRE, gramPerMetre),
            Arguments.of(Unit.POUND_FORCE, poundForce, Unit.NEWTON, NEWTON),
            Arguments.of(Unit.KILOGRAM_FORCE, kilogramForce, Unit.POUND_FORCE, poundForce),
            Arguments.of(Unit.RADIAN, RADIAN, Unit.DEGREE, USCustomary.DEGREE_ANGLE),
            Arguments.of(
                Unit.CUBIC_INCH,
                USCustomary.CUBIC_INCH,
                Unit.MILLILITRE,
                MetricPrefix.MILLI(LITRE)),
            Arguments.of(
                Unit.FLUID_OUNCE,
                USCustomary.FLUID_OUNCE,
                Unit.MILLILITRE,
                MetricPrefix.MILLI(LITRE)),
            Arguments.of(Unit.GALLON, USCustomary.GALLON_LIQUID, Unit.LITRE, LITRE),
            Arguments.of(Unit.CUP, USCustomary.CUP, Unit.FLUID_OUNCE, USCustomary.FLUID_OUNCE),
            Arguments.of(Unit.KELVIN, KELVIN, Unit.CELSIUS, CELSIUS),
            Arguments.of(Unit.FAHRENHEIT, USCustomary.FAHRENHEIT, Unit.CELSIUS, CELSIUS),
            Arguments.of(Unit.KILOJOULE, MetricPrefix.KILO(JOULE), Unit.JOULE, JOULE),
            Arguments.of(
                Unit.KILOJOULE_PER_GRAM,
                MetricPrefix.KILO(JOULE).divide(GRAM),
                Unit.KILOJOULE_PER_KILOGRAM,
                MetricPrefix.KILO(JOULE).divide(KILOGRAM)),
            Arguments.of(
                Unit.KILOCALORIE_PER_GRAM,
                JOULE.multiply(4184).divide(GRAM),
                Unit.KILOCALORIE_PER_OUNCE,
                JOULE.multiply(4184).divide(USCustomary.OUNCE)),
            Arguments.of(
                Unit.KILOMETRE_PER_HOUR,
                MetricPrefix.KILO(METRE).divide(HOUR),
                Unit.METRE_PER_SECOND,
                METRE.divide(SECOND)),
            Arguments.of(
                Unit.MILE_PER_HOUR,
                USCustomary.MILE.divide(HOUR),
                Unit.METRE_PER_SECOND,
                METRE.divide(SECOND)))
        .flatMap(IndriyaOracleTest::bothWays);
  }

  private static Stream<Arguments> bothWays(Arguments pair) {
    Object[] of = pair.get();
    return Stream.of(pair, Arguments.of(of[2], of[3], of[0], of[1]));
  }

  private static BigDecimal decimal(Number number) {
    return number instanceof RationalNumber ratio
        ? new BigDecimal(ratio.getDividend())
            .divide(new BigDecimal(ratio.getDivisor()), MathContext.DECIMAL128)
        : new BigDecimal(number.toString());
  }
}
