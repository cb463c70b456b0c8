package org.tareline.site.json;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.tareline.units.Conversion;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * A quantity in an answer.
 *
 * @param value a decimal: exact where it is finite in this unit, else 17 significant digits
 * @param unit a UCUM code
 */
public record QuantityJson(String value, String unit) {

  /** More than the 9 that are promised of a computed figure, and no more than a double carries. */
  private static final MathContext COMPUTED = new MathContext(15, RoundingMode.HALF_EVEN);

  public static QuantityJson of(Mass mass, Unit unit) {
    Conversion converted = Quantity.of(mass).in(unit);
    return new QuantityJson(converted.value(), unit.ucum());
  }

  /** A computed number of grams, which has no exact value to keep. */
  public static QuantityJson ofComputedGrams(double grams, Unit unit) {
    BigDecimal inUnit =
        unit == Unit.GRAM
            ? new BigDecimal(grams)
            : new BigDecimal(grams)
                .divide(
                    new BigDecimal(Quantity.of("1", unit).mass().grams().toPlainString()),
                    MathContext.DECIMAL128);
    return new QuantityJson(plain(inUnit), unit.ucum());
  }

  /** An exact amount. */
  public static QuantityJson of(BigDecimal amount, String unit) {
    return new QuantityJson(
        amount.signum() == 0 ? "0" : amount.stripTrailingZeros().toPlainString(), unit);
  }

  /** A computed number in plain digits, at least nine of them significant. */
  public static String plain(double number) {
    return plain(new BigDecimal(number));
  }

  private static String plain(BigDecimal number) {
    BigDecimal rounded = number.round(COMPUTED);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }
}
