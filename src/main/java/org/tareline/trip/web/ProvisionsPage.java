package org.tareline.trip.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.provisions.Fuel;
import org.tareline.provisions.Nutrient;
import org.tareline.provisions.Reckoning;
import org.tareline.provisions.Terrain;
import org.tareline.provisions.Water;
import org.tareline.site.FormFields.Choice;
import org.tareline.trip.Trip;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * Fuel, food and pace of a trip.
 *
 * @param typed what stands in the fields, by their names
 * @param carried what each carrier has on the first morning, as sentences
 * @param foodHint what is to be said of the food that the trip has
 */
record ProvisionsPage(
    String code,
    String name,
    @Nullable String when,
    Map<String, String> typed,
    List<Result> fuel,
    List<Result> food,
    List<Result> pace,
    List<String> carried,
    String foodHint) {

  /** What comes of a formula. */
  record Result(
      String name,
      List<Line> figures,
      @Nullable String outside,
      String formula,
      List<Step> steps,
      List<Line> coefficients,
      String range,
      String source) {

    static Result of(Reckoning reckoning, MassStyle style) {
      Reckoning.Formula formula = reckoning.formula();
      return new Result(
          formula.name(),
          reckoning.results().stream()
              .map(each -> new Line(each.name(), figure(each.value(), each.unit(), style)))
              .toList(),
          reckoning.outside(),
          formula.text(),
          reckoning.steps().stream()
              .map(
                  each ->
                      new Step(
                          each.what(), each.sum(), digits(each.value(), 5) + " " + each.unit()))
              .toList(),
          formula.coefficients().stream()
              .map(
                  each ->
                      new Line(
                          each.name(),
                          digits(each.value(), 5)
                              + (each.unit().equals("1") ? "" : " " + each.unit())
                              + "; "
                              + each.source()))
              .toList(),
          formula.range(),
          formula.source());
    }
  }

  record Line(String name, String words) {}

  record Step(String what, String sum, String result) {}

  /** A nutrient's field. */
  record Field(String name, String label) {}

  public List<Field> nutrients() {
    return Arrays.stream(Nutrient.values())
        .map(each -> new Field("food." + each.word(), capital(each.pageWords()) + ", g"))
        .toList();
  }

  public List<Choice> sources() {
    return choices(Water.From.values(), Water.From::word).toList();
  }

  public List<Choice> fuels() {
    return Stream.concat(
            Stream.of(new Choice("", "another, by its heat")), choices(Fuel.values(), Fuel::word))
        .toList();
  }

  public List<Choice> terrains() {
    return choices(Terrain.values(), Terrain::word).toList();
  }

  private static <T> Stream<Choice> choices(T[] values, Function<T, String> word) {
    return Arrays.stream(values).map(each -> new Choice(word.apply(each), word.apply(each)));
  }

  private static String capital(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  public String at(String field) {
    return typed.getOrDefault(field, "");
  }

  /** As rough as it is: to three digits; of hours, to five minutes. */
  private static String figure(double value, String unit, MassStyle style) {
    if (unit.equals("h")) {
      long minutes = Math.round(value * 12) * 5;
      return "about " + minutes / 60 + " h " + minutes % 60 + " min";
    }
    if (unit.equals("g")) {
      Mass mass = Mass.fromGrams(new BigDecimal(digits(value, 3)));
      return "about " + style.text(mass, style.decimals(mass));
    }
    return "about " + digits(value, 3) + " " + unit;
  }

  private static String digits(double value, int most) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(most));
    String plain = rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    return plain.replace('-', '−');
  }

  static ProvisionsPage of(
      Trip trip,
      Map<String, String> typed,
      List<List<Reckoning>> reckonings,
      List<String> carried,
      String foodHint,
      MassStyle style) {
    return new ProvisionsPage(
        trip.code(),
        trip.name(),
        Words.when(trip),
        typed,
        results(reckonings.get(0), style),
        results(reckonings.get(1), style),
        results(reckonings.get(2), style),
        carried,
        foodHint);
  }

  private static List<Result> results(List<Reckoning> reckonings, MassStyle style) {
    return reckonings.stream().map(each -> Result.of(each, style)).toList();
  }
}
