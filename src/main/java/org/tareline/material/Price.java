package org.tareline.material;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What a material costs: {@code 12.50 EUR/m}, {@code 4 USD per 100 yd}.
 *
 * @param amount above or at 0, with up to six decimals
 * @param currency three letters
 * @param of how much of it that buys, above 0
 */
public record Price(BigDecimal amount, String currency, BigDecimal of, Unit unit) {

  /** What one pays for. */
  public enum Unit {
    SQUARE_METRE("m²", What.AREA, "1"),
    SQUARE_YARD("yd²", What.AREA, "0.83612736"),
    SQUARE_FOOT("ft²", What.AREA, "0.09290304"),
    METRE("m", What.LENGTH, "1"),
    YARD("yd", What.LENGTH, "0.9144"),
    FOOT("ft", What.LENGTH, "0.3048"),
    KILOGRAM("kg", What.MASS, "1000"),
    GRAM("g", What.MASS, "1"),
    OUNCE("oz", What.MASS, "28.349523125"),
    POUND("lb", What.MASS, "453.59237"),
    EACH("each", What.COUNT, "1");

    private final String symbol;
    private final What what;
    private final BigDecimal factor;

    Unit(String symbol, What what, String factor) {
      this.symbol = symbol;
      this.what = what;
      this.factor = new BigDecimal(factor);
    }

    public String symbol() {
      return symbol;
    }

    public What what() {
      return what;
    }

    /** m², m, g or pieces in one of it; exact. */
    public BigDecimal factor() {
      return factor;
    }
  }

  /** What a unit of a price measures. */
  public enum What {
    /** In m². */
    AREA,
    /** In m, along the roll. */
    LENGTH,
    /** In g. */
    MASS,
    /** In pieces. */
    COUNT
  }

  private static final Map<String, Unit> SPELLINGS =
      Map.ofEntries(
          Map.entry("m2", Unit.SQUARE_METRE),
          Map.entry("sq m", Unit.SQUARE_METRE),
          Map.entry("yd2", Unit.SQUARE_YARD),
          Map.entry("sq yd", Unit.SQUARE_YARD),
          Map.entry("ft2", Unit.SQUARE_FOOT),
          Map.entry("sq ft", Unit.SQUARE_FOOT),
          Map.entry("m", Unit.METRE),
          Map.entry("metre", Unit.METRE),
          Map.entry("meter", Unit.METRE),
          Map.entry("yd", Unit.YARD),
          Map.entry("yard", Unit.YARD),
          Map.entry("ft", Unit.FOOT),
          Map.entry("foot", Unit.FOOT),
          Map.entry("kg", Unit.KILOGRAM),
          Map.entry("g", Unit.GRAM),
          Map.entry("oz", Unit.OUNCE),
          Map.entry("lb", Unit.POUND),
          Map.entry("each", Unit.EACH),
          Map.entry("piece", Unit.EACH),
          Map.entry("pc", Unit.EACH));

  private static final Pattern FORM =
      Pattern.compile(
          "([0-9]{1,12}(?:\\.[0-9]{1,6})?)\\s*([A-Za-z]{3})\\s*(?:/|\\bper\\s|\\s(?=each$))\\s*"
              + "(?:([0-9]{1,9}(?:\\.[0-9]{1,6})?)\\s*)?(\\S.*)");

  /** The price of a text, where it is one. */
  public static Optional<Price> read(String text) {
    Matcher form = FORM.matcher(text.strip());
    if (!form.matches()) {
      return Optional.empty();
    }
    BigDecimal of = form.group(3) == null ? BigDecimal.ONE : new BigDecimal(form.group(3));
    @Nullable Unit unit =
        SPELLINGS.get(form.group(4).strip().toLowerCase(Locale.ROOT).replace('²', '2'));
    return unit == null || of.signum() == 0
        ? Optional.empty()
        : Optional.of(
            new Price(
                new BigDecimal(form.group(1)), form.group(2).toUpperCase(Locale.ROOT), of, unit));
  }
}
