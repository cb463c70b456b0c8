package org.tareline.trip;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.provisions.Food;
import org.tareline.provisions.Fuel;
import org.tareline.provisions.Nutrient;
import org.tareline.provisions.Reckoning;
import org.tareline.provisions.Terrain;
import org.tareline.provisions.Walk;
import org.tareline.provisions.Water;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.json.TypedText;
import org.tareline.units.Kind;
import org.tareline.units.Percent;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/**
 * Reads what somebody typed of fuel, food and a day's way, and reckons with it. Keeps nothing. What
 * was typed is taken as it comes, from a form as from JSON, so that its dozens of figures are named
 * once.
 */
public final class Provisions {

  private static final int MOST_PEOPLE = 100;
  private static final int MOST_DAYS = 366;

  private Provisions() {}

  /**
   * Water to be boiled, as somebody typed it.
   *
   * @param water for each person and day: a mass, or a volume of it when it is water
   * @param people 1 when left out
   * @param days 1 when left out
   * @param from tap, lake or snow; lake when left out
   * @param temperature how cold it is there; what is usual when left out
   * @param to how hot it is to be; boiling when left out
   * @param altitude above the sea; 0 when left out
   * @param fuel one that is known here; or else
   * @param heat of combustion, net: an energy per mass
   * @param efficiency the part of the heat that ends in the water: a percentage
   */
  public record FuelEntry(
      @JsonDeserialize(using = TypedText.class) @Nullable String water,
      @JsonDeserialize(using = TypedText.class) @Nullable String people,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @Nullable String from,
      @JsonDeserialize(using = TypedText.class) @Nullable String temperature,
      @JsonDeserialize(using = TypedText.class) @Nullable String to,
      @JsonDeserialize(using = TypedText.class) @Nullable String altitude,
      @Nullable String fuel,
      @JsonDeserialize(using = TypedText.class) @Nullable String heat,
      @JsonDeserialize(using = TypedText.class) @Nullable String efficiency) {}

  /**
   * Food, as somebody typed it.
   *
   * @param mass of all of it
   * @param energyPerMass where that is known
   * @param protein in 100 g of it, in grams unless it says otherwise; so the nutrients after it
   */
  public record FoodEntry(
      @JsonDeserialize(using = TypedText.class) @Nullable String mass,
      @JsonDeserialize(using = TypedText.class) @Nullable String people,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @JsonDeserialize(using = TypedText.class) @Nullable String energyPerMass,
      @JsonDeserialize(using = TypedText.class) @Nullable String protein,
      @JsonDeserialize(using = TypedText.class) @Nullable String fat,
      @JsonDeserialize(using = TypedText.class) @Nullable String carbohydrate,
      @JsonDeserialize(using = TypedText.class) @Nullable String alcohol,
      @JsonDeserialize(using = TypedText.class) @Nullable String fibre,
      @JsonDeserialize(using = TypedText.class) @Nullable String polyols,
      @JsonDeserialize(using = TypedText.class) @Nullable String organicAcid) {

    /** What was typed of a nutrient, in 100 g. */
    public @Nullable String of(Nutrient nutrient) {
      return switch (nutrient) {
        case PROTEIN -> protein;
        case FAT -> fat;
        case CARBOHYDRATE -> carbohydrate;
        case ALCOHOL -> alcohol;
        case FIBRE -> fibre;
        case POLYOLS -> polyols;
        case ORGANIC_ACID -> organicAcid;
      };
    }
  }

  /**
   * A day's way, as somebody typed it.
   *
   * @param ascent all of it together; 0 when left out
   * @param gentleDescent on slopes of 5° to 12°; 0 when left out
   * @param steepDescent on slopes above 12°; 0 when left out
   * @param body mass of who walks; then it is said what that costs
   * @param load all that is worn and carried
   * @param terrain a word of {@link Terrain}; road when left out
   * @param speed the mean by Naismith's rule when left out
   * @param slope a percentage, below 0 downhill; ascent over distance when left out
   */
  public record PaceEntry(
      @JsonDeserialize(using = TypedText.class) @Nullable String distance,
      @JsonDeserialize(using = TypedText.class) @Nullable String ascent,
      @JsonDeserialize(using = TypedText.class) @Nullable String gentleDescent,
      @JsonDeserialize(using = TypedText.class) @Nullable String steepDescent,
      @JsonDeserialize(using = TypedText.class) @Nullable String body,
      @JsonDeserialize(using = TypedText.class) @Nullable String load,
      @Nullable String terrain,
      @JsonDeserialize(using = TypedText.class) @Nullable String speed,
      @JsonDeserialize(using = TypedText.class) @Nullable String slope) {}

  /**
   * Fuel for water.
   *
   * @throws org.tareline.site.Refusal if something cannot be read or is missing
   */
  public static List<Reckoning> fuel(FuelEntry typed) {
    Faults faults = new Faults();
    Water.From from =
        word(faults, "from", typed.from(), Water.From.LAKE, Water.From.values(), Water.From::word);
    double start =
        number(faults, "temperature", typed.temperature(), Kind.TEMPERATURE, from.usual());
    if (from == Water.From.SNOW ? start > 0 : start < 0) {
      faults.add(
          "temperature",
          from == Water.From.SNOW
              ? "Snow is at 0 °C or colder."
              : "Water is at 0 °C or warmer; say snow of what is frozen.");
    }
    double boils = Water.boilingPoint(number(faults, "altitude", typed.altitude(), Kind.LENGTH, 0));
    double end =
        number(faults, "to", typed.to(), Kind.TEMPERATURE, Double.isNaN(boils) ? 100 : boils);
    if (typed.to() != null && !typed.to().isBlank() && end <= Math.max(start, 0)) {
      faults.add("to", "Give a temperature above the one that it starts from.");
    }
    int people = people(faults, typed.people());
    int days = days(faults, typed.days());
    double kilograms = water(faults, typed.water(), start) * people * days;
    double heat = heat(faults, typed.fuel(), typed.heat());
    Percent efficiency = efficiency(faults, typed.efficiency());
    faults.refuseIfAny();
    return List.of(
        Water.fuel(
            kilograms,
            from,
            start,
            end,
            boils,
            heat,
            efficiency == null ? 1 : efficiency.fraction().doubleValue()));
  }

  /** In kg; not a number of a volume at a temperature at which nobody knows what it weighs. */
  private static double water(Faults faults, @Nullable String typed, double celsius) {
    String text = faults.text("water", typed, "the water for a person and day, such as 1.5 L", 200);
    Quantity read =
        text.isEmpty() ? null : faults.read("water", () -> Amount.read(text).positive());
    if (read == null) {
      return 1;
    }
    return read.kind() == Kind.VOLUME
        ? inBase(read) / 1000 * Water.density(Math.max(celsius, 0))
        : inBase(read) / 1000;
  }

  private static double heat(Faults faults, @Nullable String fuel, @Nullable String heat) {
    boolean named = fuel != null && !fuel.isBlank();
    boolean given = heat != null && !heat.isBlank();
    if (named == given) {
      faults.add(
          named ? "heat" : "fuel",
          named
              ? "Give the fuel or its heat of combustion, and not both."
              : "Name the fuel, or give its heat of combustion.");
      return 1;
    }
    return named
        ? word(faults, "fuel", fuel, Fuel.PROPANE, Fuel.values(), Fuel::word).net()
        : positive(faults, "heat", heat, "the heat", Kind.ENERGY_PER_MASS, null);
  }

  private static @Nullable Percent efficiency(Faults faults, @Nullable String typed) {
    String text =
        faults.text(
            "efficiency", typed, "the part of the heat that ends in the water, such as 45 %", 200);
    Percent read = text.isEmpty() ? null : faults.read("efficiency", () -> Percent.parse(text));
    if (read != null
        && (read.fraction().signum() == 0 || read.fraction().compareTo(BigDecimal.ONE) > 0)) {
      faults.add("efficiency", "Give a percentage above 0 % and up to 100 %.");
    }
    return read;
  }

  /**
   * The energy of food, for each person and day.
   *
   * @throws org.tareline.site.Refusal if something cannot be read or is missing
   */
  public static List<Reckoning> food(FoodEntry typed) {
    Faults faults = new Faults();
    double grams = positive(faults, "mass", typed.mass(), "the food", Kind.MASS, Unit.GRAM);
    int people = people(faults, typed.people());
    int days = days(faults, typed.days());
    Map<Nutrient, Double> per100 = new EnumMap<>(Nutrient.class);
    for (Nutrient nutrient : Nutrient.values()) {
      String text = typed.of(nutrient);
      if (text != null && !text.isBlank()) {
        Quantity read =
            faults.read(
                nutrient.word(), () -> Quantity.read(text, Kind.MASS, Unit.GRAM).notNegative());
        per100.put(nutrient, read == null ? 0 : inBase(read));
      }
    }
    String perMass = typed.energyPerMass();
    boolean known = perMass != null && !perMass.isBlank();
    double perGram =
        known
            ? positive(faults, "energyPerMass", perMass, "the energy", Kind.ENERGY_PER_MASS, null)
            : 0;
    if (!known && per100.isEmpty()) {
      faults.add("energyPerMass", "Give the energy of the food, or what 100 g of it hold.");
    }
    faults.refuseIfAny();
    List<Reckoning> reckonings = new ArrayList<>();
    if (known) {
      reckonings.add(Food.byMass(grams, perGram, people, days));
    }
    if (!per100.isEmpty()) {
      reckonings.add(Food.label(grams, per100, people, days));
      reckonings.add(Food.atwater(grams, per100, people, days));
    }
    return reckonings;
  }

  /**
   * Hours of a day's way and, where the body's mass is given, what it costs.
   *
   * @throws org.tareline.site.Refusal if something cannot be read or is missing
   */
  public static List<Reckoning> pace(PaceEntry typed) {
    Faults faults = new Faults();
    double distance =
        positive(
            faults, "distance", typed.distance(), "the distance, such as 12 km", Kind.LENGTH, null);
    double ascent = length(faults, "ascent", typed.ascent());
    double gentle = length(faults, "gentleDescent", typed.gentleDescent());
    double steep = length(faults, "steepDescent", typed.steepDescent());
    Double slope = slope(faults, typed.slope());
    Terrain terrain =
        word(faults, "terrain", typed.terrain(), Terrain.ROAD, Terrain.values(), Terrain::word);
    boolean cost = typed.body() != null && !typed.body().isBlank();
    double body =
        cost
            ? positive(faults, "body", typed.body(), "the body mass", Kind.MASS, Unit.KILOGRAM)
            : 0;
    double load = 0;
    if (cost) {
      String text = faults.text("load", typed.load(), "the load; 0 kg is none", 200);
      Quantity read =
          text.isEmpty()
              ? null
              : faults.read(
                  "load", () -> Quantity.read(text, Kind.MASS, Unit.KILOGRAM).notNegative());
      load = read == null ? 0 : inBase(read);
    }
    boolean fast = typed.speed() != null && !typed.speed().isBlank();
    double speed =
        fast ? positive(faults, "speed", typed.speed(), "the speed", Kind.SPEED, null) : Double.NaN;
    faults.refuseIfAny();
    List<Reckoning> reckonings = new ArrayList<>();
    Reckoning naismith = Walk.naismith(distance, ascent, gentle, steep);
    reckonings.add(naismith);
    reckonings.add(Walk.naismithOf1892(distance, ascent));
    if (slope != null) {
      reckonings.add(Walk.tobler(slope));
    }
    if (cost) {
      if (!fast && naismith.outside() == null) {
        speed = naismith.value("mean speed") / 3.6;
      }
      double grade = 100 * (slope == null ? ascent / distance : slope);
      double hours = distance / speed / 3600;
      reckonings.add(Walk.pandolf(body / 1000, load / 1000, speed, grade, terrain.factor(), hours));
      reckonings.add(Walk.lcda(body / 1000, speed, grade, hours));
    }
    return reckonings;
  }

  /** Rise over way, below 0 downhill; null where it was not given. */
  private static @Nullable Double slope(Faults faults, @Nullable String typed) {
    String text = faults.optionalText("slope", typed, "the slope", 200);
    if (text == null) {
      return null;
    }
    boolean down = text.startsWith("-") || text.startsWith("−");
    Percent read =
        faults.read("slope", () -> Percent.parse(down ? text.substring(1).strip() : text));
    return read == null ? null : (down ? -1 : 1) * read.fraction().doubleValue();
  }

  private static int people(Faults faults, @Nullable String typed) {
    return faults.wholeNumber("people", typed, "the people", 1, MOST_PEOPLE, 1);
  }

  private static int days(Faults faults, @Nullable String typed) {
    return faults.wholeNumber("days", typed, "the days", 1, MOST_DAYS, 1);
  }

  private static double inBase(Quantity quantity) {
    return new BigDecimal(quantity.in(quantity.kind().base()).value()).doubleValue();
  }

  /** In the base unit of its kind; what is usual where nothing was typed. */
  private static double number(
      Faults faults, String field, @Nullable String typed, Kind kind, double usual) {
    String text = faults.optionalText(field, typed, "it", 200);
    Quantity read =
        text == null
            ? null
            : faults.read(
                field,
                () -> {
                  Quantity quantity = Quantity.read(text, kind, null);
                  return kind == Kind.TEMPERATURE ? quantity : quantity.notNegative();
                });
    return read == null ? usual : inBase(read);
  }

  private static double length(Faults faults, String field, @Nullable String typed) {
    return number(faults, field, typed, Kind.LENGTH, 0);
  }

  /** In the base unit of its kind. */
  private static double positive(
      Faults faults,
      String field,
      @Nullable String typed,
      String what,
      Kind kind,
      @Nullable Unit bare) {
    String text = faults.text(field, typed, what, 200);
    Quantity read =
        text.isEmpty()
            ? null
            : faults.read(field, () -> Quantity.read(text, kind, bare).positive());
    return read == null ? 1 : inBase(read);
  }

  private static <T> T word(
      Faults faults,
      String field,
      @Nullable String typed,
      T usual,
      T[] known,
      Function<T, String> words) {
    String text = faults.optionalText(field, typed, "it", 60);
    if (text == null) {
      return usual;
    }
    return Arrays.stream(known)
        .filter(one -> words.apply(one).equals(Codes.key(text)))
        .findFirst()
        .orElseGet(
            () -> {
              faults.add(
                  field,
                  "Say one of "
                      + Arrays.stream(known).map(words).collect(Collectors.joining("; "))
                      + "; read \""
                      + Faults.shortened(text)
                      + "\".");
              return usual;
            });
  }
}
