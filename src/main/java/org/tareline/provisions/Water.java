package org.tareline.provisions;

import java.util.List;
import org.tareline.provisions.Reckoning.Coefficient;
import org.tareline.provisions.Reckoning.Formula;
import org.tareline.provisions.Reckoning.Sum;

/** Water, what it weighs and what it takes to heat it. */
public final class Water {

  /** Where water comes from, and how cold it is there; common practice, no source. */
  public enum From {
    TAP("tap", 10),
    LAKE("lake", 5),
    SNOW("snow", 0);

    private final String word;
    private final double usual;

    From(String word, double usual) {
      this.word = word;
      this.usual = usual;
    }

    public String word() {
      return word;
    }

    /** In °C, where nobody measured it; common practice, no source. */
    public double usual() {
      return usual;
    }
  }

  /**
   * What it takes to warm and to melt.
   *
   * @param liquid specific heat, in kJ/(kg K)
   * @param ice specific heat, in kJ/(kg K)
   * @param fusion heat of melting, in kJ/kg
   */
  record Heats(double liquid, double ice, double fusion) {}

  /** CRC Handbook, mean of 0 to 100 °C; IAPWS; the ice from memory. */
  static final Heats HEATS = new Heats(4.19, 2.108, 333.55);

  /** Below this, in °C, ice takes markedly less to warm than it does near its melting point. */
  static final double COLDEST_SNOW = -30;

  /** In m; above, boiling falls by more than a straight line does. */
  static final double HIGHEST = 4500;

  private static final double METRES_PER_KELVIN = 300;

  private Water() {}

  /**
   * What a litre weighs at atmospheric pressure, in kg (Tanaka et al. 2001, Metrologia 38, 301 to
   * 309).
   *
   * @param celsius 0 to 40; not a number elsewhere
   */
  public static double density(double celsius) {
    if (!(celsius >= 0 && celsius <= 40)) {
      return Double.NaN;
    }
    double from = celsius - 3.983035;
    return 0.999974950
        * (1 - from * from * (celsius + 301.797) / (522528.9 * (celsius + 69.34881)));
  }

  /**
   * At what it boils, in °C: 1 K less for every 300 m (common practice, no source).
   *
   * @param altitude in m, up to 4500; not a number above
   */
  public static double boilingPoint(double altitude) {
    return altitude <= HIGHEST ? 100 - altitude / METRES_PER_KELVIN : Double.NaN;
  }

  /**
   * Fuel to heat water.
   *
   * @param kilograms of water, or of snow
   * @param start in °C; of snow 0 or less
   * @param end in °C
   * @param boils at what it boils there, in °C
   * @param heatOfFuel in kJ/g
   * @param efficiency part of the fuel's heat that ends in the water, above 0 and up to 1
   */
  public static Reckoning fuel(
      double kilograms,
      From from,
      double start,
      double end,
      double boils,
      double heatOfFuel,
      double efficiency) {
    return fuel(HEATS, kilograms, from, start, end, boils, heatOfFuel, efficiency);
  }

  static Reckoning fuel(
      Heats heats,
      double kilograms,
      From from,
      double start,
      double end,
      double boils,
      double heatOfFuel,
      double efficiency) {
    Sum sum = new Sum("fuel", formula(heats, heatOfFuel, efficiency));
    if (Double.isNaN(boils)) {
      return sum.outside("it holds up to " + Reckoning.said(HIGHEST) + " m above the sea.");
    }
    if (Double.isNaN(kilograms)) {
      return sum.outside("a volume of water is weighed from 0 °C to 40 °C.");
    }
    if (start < COLDEST_SNOW) {
      return sum.outside(
          "snow is warmed from " + Reckoning.said(COLDEST_SNOW) + " °C at the coldest.");
    }
    if (end > boils) {
      return sum.outside(
          "water boils at " + Reckoning.said(boils) + " °C there and gets no hotter.");
    }
    String mass = Reckoning.said(kilograms) + " kg × ";
    double heat = 0;
    if (from == From.SNOW) {
      if (start < 0) {
        heat +=
            sum.step(
                "to warm the snow",
                mass + heats.ice() + " kJ/(kg K) × " + Reckoning.said(-start) + " K",
                kilograms * heats.ice() * -start,
                "kJ");
      }
      heat +=
          sum.step(
              "to melt it", mass + heats.fusion() + " kJ/kg", kilograms * heats.fusion(), "kJ");
    }
    double warmedFrom = from == From.SNOW ? 0 : start;
    heat +=
        sum.step(
            "to heat the water",
            mass + heats.liquid() + " kJ/(kg K) × " + Reckoning.said(end - warmedFrom) + " K",
            kilograms * heats.liquid() * (end - warmedFrom),
            "kJ");
    sum.result("heat into the water", "all of it", heat, "kJ");
    double burned =
        sum.step(
            "heat to be burned",
            Reckoning.said(heat) + " kJ ÷ " + Reckoning.said(efficiency),
            heat / efficiency,
            "kJ");
    sum.result(
        "fuel",
        Reckoning.said(burned) + " kJ ÷ " + Reckoning.said(heatOfFuel) + " kJ/g",
        burned / heatOfFuel,
        "g");
    return sum.done();
  }

  private static Formula formula(Heats heats, double heatOfFuel, double efficiency) {
    return new Formula(
        "Heat of water over heat of fuel",
        "fuel = mass × (c × rise in temperature + heat of melting, of snow) ÷ (efficiency × heat of"
            + " combustion)",
        List.of(
            new Coefficient(
                "c, specific heat of water",
                heats.liquid(),
                "kJ/(kg K)",
                "mean of 0 to 100 °C; CRC Handbook, from memory"),
            new Coefficient("c of ice", heats.ice(), "kJ/(kg K)", "from memory"),
            new Coefficient(
                "heat of melting", heats.fusion(), "kJ/kg", "IAPWS, CRC Handbook, from memory"),
            new Coefficient("heat of combustion", heatOfFuel, "kJ/g", "net, or as you gave it"),
            new Coefficient("efficiency", efficiency, "1", "yours")),
        "Water from 0 °C to where it boils, snow from −30 °C, up to 4500 m. The pot, the wind, a cold"
            + " cartridge and what simmers on are in the efficiency, or nowhere. Stoves get 30 % to"
            + " 60 % of the heat into the water (common practice, no source).",
        "Physics of heating; boiling 1 K lower for every 300 m and the usual temperatures of tap and"
            + " lake are common practice without a source");
  }
}
