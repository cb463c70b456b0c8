package org.tareline.provisions;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.tareline.provisions.Reckoning.Coefficient;
import org.tareline.provisions.Reckoning.Formula;
import org.tareline.provisions.Reckoning.Sum;

/** The energy of food, for each person and day. */
public final class Food {

  /** Thermochemical, by definition: kilojoules to a kilocalorie. */
  static final double KILOCALORIE = 4.184;

  private static final String CONVERSION = "thermochemical, by definition (NIST SP 811)";

  private static final String PER_DAY_KCAL = "a person and day, in kcal";

  private static final String PER_DAY_KJ = "a person and day, in kJ";

  private static final Formula BY_MASS =
      new Formula(
          "Energy by mass",
          "energy = mass × energy per mass ÷ (people × days)",
          List.of(new Coefficient("kJ to a kcal", KILOCALORIE, "kJ", CONVERSION)),
          "Food of which the energy is known. Fat, at 9 kcal/g, is the most that food has.",
          "Multiplication");

  private static final Formula ATWATER =
      new Formula(
          "Atwater general factors",
          "kcal = 4 × protein + 9 × fat + 4 × carbohydrate + 7 × alcohol, in g",
          coefficients(Nutrient::atwater, "kcal/g", "USDA Handbook 74, Merrill and Watt"),
          "Mixed food as eaten; single foods are off by some per cent. Carbohydrate is with its fibre,"
              + " and there is no factor for polyols and organic acids, which count for nothing here.",
          "USDA Handbook 74 (Merrill and Watt); 21 CFR 101.9(c)(1)(i)(B); from memory");

  private static final Formula LABEL =
      new Formula(
          "EU label",
          "the sum of each constituent, in g, × its factor",
          coefficients(
              Nutrient::labelKilojoules,
              "kJ/g",
              "Regulation (EU) 1169/2011, Annex XIV, from memory"),
          "What a label in the EU has to say. Its kJ and its kcal are two sums by two sets of rounded"
              + " factors and differ by some per cent. Carbohydrate is without its fibre.",
          "Regulation (EU) No 1169/2011, Annex XIV; from memory");

  private Food() {}

  private static List<Coefficient> coefficients(
      ToDoubleFunction<Nutrient> factor, String unit, String source) {
    List<Coefficient> coefficients = new ArrayList<>();
    for (Nutrient nutrient : Nutrient.values()) {
      if (!Double.isNaN(factor.applyAsDouble(nutrient))) {
        coefficients.add(
            new Coefficient(nutrient.pageWords(), factor.applyAsDouble(nutrient), unit, source));
      }
    }
    return coefficients;
  }

  /**
   * By a known energy per mass.
   *
   * @param grams of all the food
   * @param perGram in kJ/g
   */
  public static Reckoning byMass(double grams, double perGram, int people, int days) {
    Sum sum = new Sum("by-mass", BY_MASS);
    double most = Nutrient.FAT.atwater() * KILOCALORIE;
    // A label may say 37 kJ of fat, and a kitchen scale is not that good either.
    if (perGram > 1.01 * most) {
      return sum.outside(
          "no food has more than fat, "
              + Reckoning.said(Nutrient.FAT.atwater())
              + " kcal/g; read "
              + Reckoning.said(perGram / KILOCALORIE)
              + " kcal/g.");
    }
    double all =
        sum.step(
            "all of it",
            Reckoning.said(grams) + " g × " + Reckoning.said(perGram) + " kJ/g",
            grams * perGram,
            "kJ");
    double perDay =
        sum.result(PER_DAY_KJ, shared(all, "kJ", people, days), all / people / days, "kJ");
    sum.result(
        PER_DAY_KCAL,
        Reckoning.said(perDay) + " kJ ÷ " + KILOCALORIE,
        perDay / KILOCALORIE,
        "kcal");
    sum.step(
        "food for that",
        Reckoning.said(grams) + " g ÷ (" + people + " × " + days + ")",
        grams / people / days,
        "g");
    return sum.done();
  }

  /**
   * By what a label says is in it, by Atwater's factors.
   *
   * @param grams of all the food
   * @param per100 grams of each in 100 g
   */
  public static Reckoning atwater(
      double grams, Map<Nutrient, Double> per100, int people, int days) {
    Sum sum = new Sum("atwater", ATWATER);
    if (total(per100) > 100) {
      return sum.outside(TOO_MUCH);
    }
    double perDay =
        sum.result(
            PER_DAY_KCAL,
            shared(sum(sum, grams, per100, Nutrient::atwater, "kcal"), "kcal", people, days),
            all(grams, per100, Nutrient::atwater) / people / days,
            "kcal");
    sum.result(
        PER_DAY_KJ, Reckoning.said(perDay) + " kcal × " + KILOCALORIE, perDay * KILOCALORIE, "kJ");
    return sum.done();
  }

  /** The same by the factors of an EU label. */
  public static Reckoning label(double grams, Map<Nutrient, Double> per100, int people, int days) {
    Sum sum = new Sum("eu-label", LABEL);
    if (total(per100) > 100) {
      return sum.outside(TOO_MUCH);
    }
    sum.result(
        PER_DAY_KJ,
        shared(sum(sum, grams, per100, Nutrient::labelKilojoules, "kJ"), "kJ", people, days),
        all(grams, per100, Nutrient::labelKilojoules) / people / days,
        "kJ");
    sum.result(
        PER_DAY_KCAL,
        shared(sum(sum, grams, per100, Nutrient::labelKilocalories, "kcal"), "kcal", people, days),
        all(grams, per100, Nutrient::labelKilocalories) / people / days,
        "kcal");
    return sum.done();
  }

  private static final String TOO_MUCH = "100 g of food hold no more than 100 g of all.";

  private static double total(Map<Nutrient, Double> per100) {
    return per100.values().stream().mapToDouble(Double::doubleValue).sum();
  }

  private static double all(
      double grams, Map<Nutrient, Double> per100, ToDoubleFunction<Nutrient> factor) {
    return per100.entrySet().stream()
        .filter(each -> !Double.isNaN(factor.applyAsDouble(each.getKey())))
        .mapToDouble(each -> factor.applyAsDouble(each.getKey()) * each.getValue() * grams / 100)
        .sum();
  }

  private static double sum(
      Sum sum,
      double grams,
      Map<Nutrient, Double> per100,
      ToDoubleFunction<Nutrient> factor,
      String unit) {
    per100.forEach(
        (nutrient, part) -> {
          double per = factor.applyAsDouble(nutrient);
          if (!Double.isNaN(per)) {
            sum.step(
                nutrient.pageWords(),
                Reckoning.said(grams * part / 100)
                    + " g × "
                    + Reckoning.said(per)
                    + " "
                    + unit
                    + "/g",
                grams * part / 100 * per,
                unit);
          }
        });
    return sum.step("all of it, in " + unit, "together", all(grams, per100, factor), unit);
  }

  private static String shared(double all, String unit, int people, int days) {
    return Reckoning.said(all) + " " + unit + " ÷ (" + people + " × " + days + ")";
  }
}
