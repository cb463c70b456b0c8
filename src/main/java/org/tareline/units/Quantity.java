package org.tareline.units;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What a person wrote, and exactly what it means. Reading and unit conversion are exact rational
 * arithmetic; a quantity becomes a {@link Mass} or another stored value by one half-even rounding.
 *
 * <p>One grammar serves forms, API and files, in every locale alike:
 *
 * <ul>
 *   <li>A number is {@code 381}, {@code 381.5}, {@code .5}, {@code 5/8}, {@code 13 1/4}, {@code
 *       13¼}; a minus, if any, comes first and holds for the whole. Powers of ten, plus signs and
 *       marks or spaces between thousands are not read, nor is a hyphen before a fraction.
 *   <li>A point is the decimal mark. A comma is, where it can be nothing else: {@code 1,5} and
 *       {@code 0,125} are read; {@code 1,234} is refused, as the comma may part thousands. Where
 *       somebody said that the comma is the mark, it is the other way round ({@link DecimalMark}).
 *   <li>A unit is a UCUM code or a friendly spelling ({@link Unit#named(String)}), with or without
 *       a space before it. Case is as people type it, save where it could tell milli from mega.
 *   <li>Masses, lengths and volumes may come in parts, from larger to smaller units, each once:
 *       {@code 1 lb 2.5 oz}, {@code 4'6"}. A number without a unit takes the default, if there is
 *       one and it stands alone.
 * </ul>
 *
 * <p>Range: ±2⁶³ thousand-millionths of the kind's {@linkplain Kind#base() base unit}, that is some
 * 9 × 10⁹ g, m, N, ...; temperatures from absolute zero up.
 */
public final class Quantity {

  /** Decimals of the base unit that are kept: nanograms, nanometres. */
  private static final int DECIMALS = 9;

  private static final Rational ABSOLUTE_ZERO = Rational.of("-273.15");

  private static final Pattern DECIMAL = Pattern.compile("-?[0-9]++(?:\\.[0-9]++)?+");

  private final String text;
  private final Unit unit;
  private final Rational base;
  private final BigInteger nanos;
  private final List<String> notes;

  /** A quantity so typed, of an exact value in the base unit of the unit's kind. */
  Quantity(String text, Unit unit, Rational base, List<String> notes) {
    this.text = text;
    this.unit = unit;
    this.base = base;
    this.nanos = base.rounded(DECIMALS).unscaledValue();
    this.notes = List.copyOf(notes);
    if (nanos.bitLength() >= Long.SIZE) {
      throw refuse("it is more than can be kept, some 9223372036 " + kind().base().symbol());
    }
    if (kind() == Kind.TEMPERATURE && base.compareTo(ABSOLUTE_ZERO) < 0) {
      throw refuse("it is below absolute zero, -273.15 °C");
    }
  }

  /**
   * Reads one quantity of a kind.
   *
   * @param text at most 200 characters
   * @param kind what is wanted
   * @param defaultUnit the unit of a bare number; null where a unit must be written
   * @throws UnreadableQuantity if the text is anything else
   */
  public static Quantity read(String text, Kind kind, @Nullable Unit defaultUnit) {
    return read(text, kind, defaultUnit, DecimalMark.POINT);
  }

  /**
   * As {@link #read(String, Kind, Unit)}, of a text of which something is known about its decimal
   * mark. It reads other texts, and no text as another value.
   *
   * @throws UnreadableQuantity if the text is anything else; so too if it has a mark that may part
   *     thousands and is not the known one, or marks between thousands as in {@code 1.234,5}
   */
  public static Quantity read(
      String text, Kind kind, @Nullable Unit defaultUnit, DecimalMark mark) {
    return new QuantityReader(text, kind, defaultUnit).marked(mark).one();
  }

  /**
   * Reads one quantity of whatever kind its unit says.
   *
   * @param text at most 200 characters
   * @throws UnreadableQuantity if the text is anything else
   */
  public static Quantity read(String text) {
    return new QuantityReader(text, null, null).one();
  }

  /**
   * Reads quantities one after another. A semicolon or the end of a line always parts two; a comma
   * does after a unit or before a space, so that {@code 118, 118, 119} is three, {@code 118,5} is
   * one and {@code 118,118,119} is refused. Spaces alone do not: {@code 13 1/4} is one number. The
   * unit stands on all of them or on none.
   *
   * @param text at most 10 000 characters
   * @param kind what is wanted
   * @param defaultUnit the unit of bare numbers; null where units must be written
   * @return at least one, in the order written
   * @throws UnreadableQuantity if the text is anything else
   */
  public static List<Quantity> readMany(String text, Kind kind, @Nullable Unit defaultUnit) {
    return new QuantityReader(text, kind, defaultUnit).many();
  }

  /**
   * A number with its unit apart, as in JSON. Stricter than {@link #read(String)}: digits, one
   * point, one leading {@code -}.
   *
   * @throws UnreadableQuantity if the value is not such a decimal, or out of range
   */
  public static Quantity of(String value, Unit unit) {
    String example = "381.5";
    if (value.length() > QuantityReader.LONGEST) {
      throw new UnreadableQuantity(
          value,
          QuantityReader.LONGEST,
          "no more than " + QuantityReader.LONGEST + " characters are read",
          example);
    }
    Matcher decimal = DECIMAL.matcher(value);
    int end = decimal.lookingAt() ? decimal.end() : 0;
    if (end == 0 || end < value.length()) {
      throw new UnreadableQuantity(
          value, end, "a decimal is wanted, in plain digits with a point", example);
    }
    Rational number = Rational.of(new BigDecimal(value));
    return new Quantity(value + " " + unit.symbol(), unit, unit.toBase(number), List.of());
  }

  /** A mass, exactly. */
  public static Quantity of(Mass mass) {
    return of(mass.toString(), Unit.GRAM, mass.grams());
  }

  /** A length, exactly. */
  public static Quantity of(Length length) {
    return of(length.toString(), Unit.METRE, length.metres());
  }

  /** A mass per area, exactly. */
  public static Quantity of(AreaDensity density) {
    return of(density.toString(), Unit.GRAM_PER_SQUARE_METRE, density.gramsPerSquareMetre());
  }

  /** A mass per length, exactly. */
  public static Quantity of(LineDensity density) {
    return of(density.toString(), Unit.GRAM_PER_METRE, density.gramsPerMetre());
  }

  /** A force, as its shortest decimal; refused past some 9 × 10⁹ N. */
  public static Quantity of(Force force) {
    return of(force.toString(), Unit.NEWTON, BigDecimal.valueOf(force.newtons()));
  }

  /** An angle, as its shortest decimal; refused past some 9 × 10⁹ degrees. */
  public static Quantity of(Angle angle) {
    return of(angle.toString(), Unit.DEGREE, BigDecimal.valueOf(angle.degrees()));
  }

  /** A volume, as its shortest decimal; refused past some 9 × 10⁹ mL. */
  public static Quantity of(Volume volume) {
    return of(volume.toString(), Unit.MILLILITRE, BigDecimal.valueOf(volume.millilitres()));
  }

  /** A temperature, as its shortest decimal. */
  public static Quantity of(Temperature temperature) {
    return of(
        temperature.toString(), Unit.CELSIUS, BigDecimal.valueOf(temperature.degreesCelsius()));
  }

  /** An energy, as its shortest decimal; refused past some 9 × 10⁹ kJ. */
  public static Quantity of(Energy energy) {
    return of(energy.toString(), Unit.KILOJOULE, BigDecimal.valueOf(energy.kilojoules()));
  }

  private static Quantity of(String text, Unit base, BigDecimal value) {
    return new Quantity(text, base, Rational.of(value), List.of());
  }

  /** What it measures. */
  public Kind kind() {
    return unit.kind();
  }

  /** What was typed, without the white space around it. */
  public String text() {
    return text;
  }

  /** The unit that was typed, the last of several, or the default that stood in. */
  public Unit unit() {
    return unit;
  }

  /** What the person should know of how it was read, in plain words; most often nothing. */
  public List<String> notes() {
    return notes;
  }

  /** -1, 0 or 1 as the exact value is below, at or above zero of its base unit. */
  public int signum() {
    return base.signum();
  }

  /**
   * This, if it is zero or more.
   *
   * @throws UnreadableQuantity if it is less
   */
  public Quantity notNegative() {
    if (base.signum() < 0) {
      throw refuse(kind().one() + " of zero or more is wanted");
    }
    return this;
  }

  /**
   * This, if it is more than zero and stays so when it is rounded to be stored.
   *
   * @throws UnreadableQuantity if not
   */
  public Quantity positive() {
    if (nanos.signum() <= 0) {
      throw refuse(kind().one() + " of more than zero is wanted");
    }
    return this;
  }

  /**
   * The mass, half-even to a whole nanogram.
   *
   * @throws UnreadableQuantity if this is of another kind; the same holds for its siblings below
   */
  public Mass mass() {
    require(Kind.MASS);
    return new Mass(nanos.longValueExact());
  }

  /** The length, half-even to a whole nanometre. */
  public Length length() {
    require(Kind.LENGTH);
    return new Length(nanos.longValueExact());
  }

  /** The mass per area, half-even to ten decimals of g/m². */
  public AreaDensity areaDensity() {
    require(Kind.AREA_DENSITY);
    return new AreaDensity(base.rounded(AreaDensity.DECIMALS));
  }

  /** The mass per length, half-even to ten decimals of g/m. */
  public LineDensity lineDensity() {
    require(Kind.LINE_DENSITY);
    return new LineDensity(base.rounded(LineDensity.DECIMALS));
  }

  /** The force, as the nearest double. */
  public Force force() {
    require(Kind.FORCE);
    return new Force(base.toDouble());
  }

  /** The angle, as the nearest double. */
  public Angle angle() {
    require(Kind.ANGLE);
    return new Angle(base.toDouble());
  }

  /** The volume, as the nearest double. */
  public Volume volume() {
    require(Kind.VOLUME);
    return new Volume(base.toDouble());
  }

  /** The temperature, as the nearest double. */
  public Temperature temperature() {
    require(Kind.TEMPERATURE);
    return new Temperature(base.toDouble());
  }

  /** The energy, as the nearest double. */
  public Energy energy() {
    require(Kind.ENERGY);
    return new Energy(base.toDouble());
  }

  /**
   * The mass per area of cloth that has this mass per running length at a width (ISO 3801:1977,
   * methods 1 to 4), exactly.
   *
   * @param width above 0
   * @throws UnreadableQuantity if this is no mass per length or the width no length above 0
   */
  public Quantity atWidth(Quantity width) {
    require(Kind.LINE_DENSITY);
    Rational over = width.require(Kind.LENGTH).positive().base;
    return new Quantity(
        text + " at " + width.text, Unit.GRAM_PER_SQUARE_METRE, base.over(over), notes);
  }

  /**
   * The mass of so much of what has this mass per volume, exactly.
   *
   * @param density above 0
   * @throws UnreadableQuantity if this is no volume or the density no mass per volume above 0
   */
  public Quantity atDensity(Quantity density) {
    require(Kind.VOLUME);
    Rational grams = base.times(density.require(Kind.DENSITY).positive().base);
    return new Quantity(text + " at " + density.text, Unit.GRAM, grams, notes);
  }

  /**
   * The exact value in another unit of its kind, before any rounding to a stored step.
   *
   * @throws UnreadableQuantity if the unit is of another kind; it names both
   */
  public Conversion in(Unit other) {
    if (other.kind() != kind()) {
      throw refuse(
          kind().one()
              + " cannot be given in "
              + other.symbol()
              + ", a unit of "
              + other.kind().word());
    }
    Rational value = other.fromBase(base);
    boolean exact = other == unit || other.isExact() && unit.isExact();
    BigDecimal decimal = value.decimal();
    return decimal != null && exact
        ? new Conversion(kind(), decimal.toPlainString(), other, true)
        : new Conversion(kind(), value.toDigits(17).toPlainString(), other, false);
  }

  /** The exact value in the base unit. */
  Rational base() {
    return base;
  }

  /** What was typed. */
  @Override
  public String toString() {
    return text;
  }

  /** This, if it is of that kind. */
  Quantity require(Kind kind) {
    if (kind() != kind) {
      throw refuse(kind.one() + " is wanted, and this is " + kind().one());
    }
    return this;
  }

  private UnreadableQuantity refuse(String reason) {
    return new UnreadableQuantity(text, text.length(), reason, kind().example());
  }
}
