package org.tareline.units;

import static org.tareline.units.Kind.ANGLE;
import static org.tareline.units.Kind.AREA;
import static org.tareline.units.Kind.AREA_DENSITY;
import static org.tareline.units.Kind.DENSITY;
import static org.tareline.units.Kind.ENERGY;
import static org.tareline.units.Kind.ENERGY_PER_MASS;
import static org.tareline.units.Kind.FORCE;
import static org.tareline.units.Kind.FORCE_PER_LENGTH;
import static org.tareline.units.Kind.LENGTH;
import static org.tareline.units.Kind.LINE_DENSITY;
import static org.tareline.units.Kind.MASS;
import static org.tareline.units.Kind.MODULUS;
import static org.tareline.units.Kind.SPEED;
import static org.tareline.units.Kind.TEMPERATURE;
import static org.tareline.units.Kind.VOLUME;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The units that are read and written, each with its exact factor to the {@linkplain Kind#base()
 * base unit} of its kind. Factors are definitions, not the rounded ones of a table: NIST HB 44,
 * App. C (ounce, pound, grain, inch, US gallon of 231 cubic inches), NIST SP 811, App. B.8 (pound-
 * and kilogram-force, thermochemical calorie), ISO 1144 (tex). The ounce is the avoirdupois ounce
 * and the fluid ounce, cup and gallon are those of the US.
 *
 * <p>The radian alone is not exact, since π is not a ratio; it is held to 50 decimals.
 */
public enum Unit {
  GRAM(MASS, "g", "g", "1", "G", "gram", "grams", "gramme", "grammes"),
  KILOGRAM(MASS, "kg", "kg", "1000", "kgs", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
  MILLIGRAM(MASS, "mg", "mg", "0.001", "milligram", "milligrams"),
  OUNCE(MASS, "[oz_av]", "oz", "28.349523125", "ozs", "ounce", "ounces"),
  POUND(MASS, "[lb_av]", "lb", "453.59237", "lbs", "pound", "pounds"),
  GRAIN(MASS, "[gr]", "gr", "0.06479891", "grain", "grains"),

  METRE(LENGTH, "m", "m", "1", "metre", "metres", "meter", "meters"),
  CENTIMETRE(LENGTH, "cm", "cm", "0.01", "centimetre", "centimetres", "centimeter", "centimeters"),
  MILLIMETRE(LENGTH, "mm", "mm", "0.001", "millimetre", "millimetres", "millimeter", "millimeters"),
  MICROMETRE(LENGTH, "um", "µm", "0.000001", "micron", "microns", "micrometre", "micrometres"),
  KILOMETRE(LENGTH, "km", "km", "1000", "kilometre", "kilometres", "kilometer", "kilometers"),
  INCH(LENGTH, "[in_i]", "in", "0.0254", "inch", "inches", "\"", "''"),
  FOOT(LENGTH, "[ft_i]", "ft", "0.3048", "foot", "feet", "'"),
  YARD(LENGTH, "[yd_i]", "yd", "0.9144", "yds", "yard", "yards"),
  MILE(LENGTH, "[mi_i]", "mi", "1609.344", "mile", "miles"),
  MIL(LENGTH, "[mil_i]", "mil", "0.0000254", "mils", "thou"),

  SQUARE_METRE(AREA, "m2", "m²", "1", "sq m", "square metre", "square metres", "square meters"),
  SQUARE_CENTIMETRE(AREA, "cm2", "cm²", "0.0001", "sq cm", "square centimetres"),
  SQUARE_INCH(AREA, "[sin_i]", "in²", "0.00064516", "sq in", "square inches"),
  SQUARE_FOOT(AREA, "[sft_i]", "ft²", "0.09290304", "sq ft", "square feet"),
  SQUARE_YARD(AREA, "[syd_i]", "yd²", "0.83612736", "sq yd", "square yards"),

  GRAM_PER_SQUARE_METRE(AREA_DENSITY, "g/m2", "g/m²", "1", "gsm", "g/sq m"),
  KILOGRAM_PER_SQUARE_METRE(AREA_DENSITY, "kg/m2", "kg/m²", "1000", "kg/sq m"),
  OUNCE_PER_SQUARE_YARD(
      AREA_DENSITY,
      "[oz_av]/[yd_i]2",
      "oz/yd²",
      "28.349523125/0.83612736",
      "osy",
      "oz/sq yd",
      "oz per sq yd",
      "ounces per square yard"),
  OUNCE_PER_SQUARE_FOOT(
      AREA_DENSITY, "[oz_av]/[ft_i]2", "oz/ft²", "28.349523125/0.09290304", "oz/sq ft"),
  POUND_PER_SQUARE_FOOT(
      AREA_DENSITY, "[lb_av]/[ft_i]2", "lb/ft²", "453.59237/0.09290304", "lb/sq ft"),

  GRAM_PER_METRE(LINE_DENSITY, "g/m", "g/m", "1", "grams per metre", "grams per meter"),
  KILOGRAM_PER_METRE(LINE_DENSITY, "kg/m", "kg/m", "1000"),
  GRAM_PER_FOOT(LINE_DENSITY, "g/[ft_i]", "g/ft", "1/0.3048", "grams per foot"),
  GRAM_PER_YARD(LINE_DENSITY, "g/[yd_i]", "g/yd", "1/0.9144", "grams per yard"),
  OUNCE_PER_YARD(
      LINE_DENSITY,
      "[oz_av]/[yd_i]",
      "oz/yd",
      "28.349523125/0.9144",
      "oz per yard",
      "ounces per yard",
      "oz per running yard",
      "oz per linear yard",
      "ounces per running yard",
      "ounces per linear yard"),
  OUNCE_PER_FOOT(LINE_DENSITY, "[oz_av]/[ft_i]", "oz/ft", "28.349523125/0.3048", "ounces per foot"),
  POUND_PER_FOOT(LINE_DENSITY, "[lb_av]/[ft_i]", "lb/ft", "453.59237/0.3048", "lbs/ft"),
  POUND_PER_INCH(LINE_DENSITY, "[lb_av]/[in_i]", "lb/in", "453.59237/0.0254", "lbs/in"),
  POUND_PER_YARD(LINE_DENSITY, "[lb_av]/[yd_i]", "lb/yd", "453.59237/0.9144", "lbs/yd"),
  DENIER(LINE_DENSITY, "[den]", "den", "1/9000", "D", "denier"),
  TEX(LINE_DENSITY, "tex", "tex", "0.001", "g/km"),
  DECITEX(LINE_DENSITY, "dtex", "dtex", "0.0001", "decitex"),

  NEWTON(FORCE, "N", "N", "1", "newton", "newtons"),
  DECANEWTON(FORCE, "daN", "daN", "10"),
  KILONEWTON(FORCE, "kN", "kN", "1000", "kilonewton", "kilonewtons"),
  POUND_FORCE(FORCE, "[lbf_av]", "lbf", "4.4482216152605", "pound-force", "pounds-force"),
  KILOGRAM_FORCE(FORCE, "kgf", "kgf", "9.80665", "kilogram-force", "kp"),

  NEWTON_PER_METRE(FORCE_PER_LENGTH, "N/m", "N/m", "1", "newtons per metre"),
  KILONEWTON_PER_METRE(FORCE_PER_LENGTH, "kN/m", "kN/m", "1000"),
  POUND_FORCE_PER_FOOT(FORCE_PER_LENGTH, "[lbf_av]/[ft_i]", "lbf/ft", "4.4482216152605/0.3048"),
  POUND_FORCE_PER_INCH(FORCE_PER_LENGTH, "[lbf_av]/[in_i]", "lbf/in", "4.4482216152605/0.0254"),

  MEGAPASCAL(MODULUS, "MPa", "MPa", "1", "N/mm2"),
  GIGAPASCAL(MODULUS, "GPa", "GPa", "1000", "kN/mm2"),
  PASCAL(MODULUS, "Pa", "Pa", "0.000001", "N/m2"),
  POUND_PER_SQUARE_INCH(MODULUS, "[psi]", "psi", "4.4482216152605/645.16"),

  DEGREE(ANGLE, "deg", "°", "1", "degree", "degrees"),
  RADIAN(
      ANGLE,
      "rad",
      "rad",
      "180/3.14159265358979323846264338327950288419716939937511",
      "radian",
      "radians"),

  MILLILITRE(VOLUME, "mL", "mL", "1", "ml", "cc", "cm3", "millilitre", "millilitres"),
  LITRE(VOLUME, "L", "L", "1000", "l", "litre", "litres", "liter", "liters"),
  CUBIC_INCH(VOLUME, "[cin_i]", "cu in", "16.387064", "in3", "cubic inch", "cubic inches"),
  FLUID_OUNCE(
      VOLUME,
      "[foz_us]",
      "fl oz",
      "29.5735295625",
      "fl. oz",
      "floz",
      "fluid ounce",
      "fluid ounces"),
  TEASPOON(VOLUME, "[tsp_us]", "tsp", "4.92892159375", "teaspoon", "teaspoons"),
  TABLESPOON(VOLUME, "[tbs_us]", "tbsp", "14.78676478125", "tablespoon", "tablespoons"),
  CUP(VOLUME, "[cup_us]", "cup", "236.5882365", "cups"),
  PINT(VOLUME, "[pt_us]", "pt", "473.176473", "pint", "pints"),
  QUART(VOLUME, "[qt_us]", "qt", "946.352946", "qts", "quart", "quarts"),
  GALLON(VOLUME, "[gal_us]", "gal", "3785.411784", "gallon", "gallons"),

  GRAM_PER_MILLILITRE(DENSITY, "g/mL", "g/mL", "1", "g/ml", "g/cm3", "g/cc"),
  KILOGRAM_PER_LITRE(DENSITY, "kg/L", "kg/L", "1", "kg/l", "kg/dm3"),
  KILOGRAM_PER_CUBIC_METRE(DENSITY, "kg/m3", "kg/m³", "0.001", "g/L", "g/l"),
  POUND_PER_GALLON(DENSITY, "[lb_av]/[gal_us]", "lb/gal", "453.59237/3785.411784", "lbs/gal"),

  CELSIUS(TEMPERATURE, "Cel", "°C", "1", "C", "degC", "deg C"),
  FAHRENHEIT(TEMPERATURE, "[degF]", "°F", "5/9", Rational.of("-160/9"), "F", "degF", "deg F"),
  KELVIN(TEMPERATURE, "K", "K", "1", Rational.of("-273.15"), "kelvin"),

  KILOJOULE(ENERGY, "kJ", "kJ", "1", "kilojoule", "kilojoules"),
  JOULE(ENERGY, "J", "J", "0.001", "joule", "joules"),
  KILOCALORIE(ENERGY, "kcal", "kcal", "4.184", "[Cal]", "kilocalorie", "kilocalories"),

  KILOJOULE_PER_GRAM(ENERGY_PER_MASS, "kJ/g", "kJ/g", "1", "MJ/kg"),
  KILOJOULE_PER_KILOGRAM(ENERGY_PER_MASS, "kJ/kg", "kJ/kg", "0.001"),
  KILOCALORIE_PER_GRAM(ENERGY_PER_MASS, "kcal/g", "kcal/g", "4.184"),
  KILOCALORIE_PER_OUNCE(
      ENERGY_PER_MASS, "kcal/[oz_av]", "kcal/oz", "4.184/28.349523125", "kcal per oz"),

  METRE_PER_SECOND(SPEED, "m/s", "m/s", "1"),
  KILOMETRE_PER_HOUR(SPEED, "km/h", "km/h", "1/3.6", "kph"),
  MILE_PER_HOUR(SPEED, "[mi_i]/h", "mph", "1609.344/3600", "mi/h");

  /** Spellings that people read in two ways, with what to say of each; none is guessed at. */
  private static final Map<String, String> AMBIGUOUS = new HashMap<>();

  /** Spellings that are read, but that the reader of the answer should know how. */
  private static final Map<String, String> NOTES =
      Map.of(
          "gr", "gr was read as the grain (64.79891 mg), not as the gram (g)",
          "mil", "mil was read as a thousandth of an inch, not as the millimetre (mm)",
          "mils", "mils were read as thousandths of an inch, not as millimetres (mm)");

  private static final Map<String, Unit> BY_SPELLING = new HashMap<>();
  private static final Map<String, Unit> IN_ANY_CASE = new HashMap<>();

  /** Longer than the longest spelling with a few spaces to spare, in characters. */
  static final int LONGEST_SPELLING = 40;

  static {
    for (String spelling : List.of("M", "MM", "Mm", "MG", "Mg", "ML", "Ml")) {
      AMBIGUOUS.put(spelling, "with a capital M it may be milli, mega or something else");
    }
    AMBIGUOUS.put("mJ/kg", "by its letters a thousandth of a joule; a million of them is MJ/kg");
    AMBIGUOUS.put("mPa", "by its letters a thousandth of a pascal; a million of them is MPa");
    for (String spelling : List.of("cal", "Cal", "CAL", "calorie", "calories", "Calories")) {
      AMBIGUOUS.put(spelling, "it is used for the calorie and for a thousand of them (kcal)");
    }
    for (Unit unit : values()) {
      for (String spelling : unit.spellings) {
        BY_SPELLING.put(plain(spelling), unit);
        // One letter is not enough to go by when even its case is another.
        if (spelling.length() > 1) {
          IN_ANY_CASE.put(plain(spelling).toLowerCase(Locale.ROOT), unit);
        }
      }
    }
  }

  private final Kind kind;
  private final String ucum;
  private final String symbol;
  private final Rational factor;
  private final Rational offset;
  private final List<String> spellings;

  Unit(Kind kind, String ucum, String symbol, String factor, String... spellings) {
    this(kind, ucum, symbol, factor, Rational.ZERO, spellings);
  }

  Unit(Kind kind, String ucum, String symbol, String factor, Rational offset, String... spellings) {
    this.kind = kind;
    this.ucum = ucum;
    this.symbol = symbol;
    this.factor = Rational.of(factor);
    this.offset = offset;
    List<String> all = new ArrayList<>(List.of(spellings));
    all.add(ucum);
    all.add(symbol);
    this.spellings = List.copyOf(all);
  }

  /**
   * The unit of a UCUM code or of a friendly spelling: {@code [oz_av]}, {@code oz}, {@code ounces},
   * {@code OZ}, {@code oz/yd²}, {@code osy}, {@code "}.
   *
   * @throws UnreadableQuantity if there is none, or if the spelling is read in more than one way
   */
  public static Unit named(String name) {
    String stripped = name.strip();
    String why = ambiguity(stripped);
    Unit unit = why == null ? find(stripped) : null;
    if (unit == null) {
      String reason = why == null ? "it is not a unit known here" : why;
      throw new UnreadableQuantity(name, 0, reason, "oz");
    }
    return unit;
  }

  /** What the unit measures. */
  public Kind kind() {
    return kind;
  }

  /** The code in the Unified Code for Units of Measure, case-sensitive: {@code [oz_av]}. */
  public String ucum() {
    return ucum;
  }

  /** The unit as it is shown to people: {@code oz}, {@code g/m²}. */
  public String symbol() {
    return symbol;
  }

  /** Every spelling that is read, beside case and marks: the code, the symbol and the friendly. */
  public List<String> spellings() {
    return spellings;
  }

  /** The unit so spelled, or null. */
  static @Nullable Unit find(String spelling) {
    if (spelling.length() > LONGEST_SPELLING) {
      return null;
    }
    String plain = plain(spelling);
    Unit unit = BY_SPELLING.get(plain);
    return unit == null ? IN_ANY_CASE.get(plain.toLowerCase(Locale.ROOT)) : unit;
  }

  /** Why this spelling is not guessed at, or null where it has one meaning or none. */
  static @Nullable String ambiguity(String spelling) {
    return AMBIGUOUS.get(spelling);
  }

  /** What to say about a spelling that was read, or null where it needs no words. */
  static @Nullable String note(String spelling) {
    return NOTES.get(plain(spelling).toLowerCase(Locale.ROOT));
  }

  Rational toBase(Rational value) {
    return value.times(factor).plus(offset);
  }

  Rational fromBase(Rational value) {
    return value.minus(offset).over(factor);
  }

  boolean isLargerThan(Unit other) {
    return factor.compareTo(other.factor) > 0;
  }

  /** Whether conversions to and from this unit are exact. */
  boolean isExact() {
    return this != RADIAN;
  }

  /** One way to write what is typed in many: no raised digits, curly marks or stray spaces. */
  private static String plain(String spelling) {
    return spelling
        .replace('²', '2')
        .replace('³', '3')
        .replace("^", "")
        .replace('″', '"')
        .replace('”', '"')
        .replace('′', '\'')
        .replace('’', '\'')
        .replace('µ', 'u')
        .replace('μ', 'u')
        .replace('º', '°')
        .replaceAll("\\h+", " ")
        .replace(" /", "/")
        .replace("/ ", "/")
        .replaceAll("\\.$", "");
  }
}
