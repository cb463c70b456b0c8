package org.tareline.provisions;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A rough figure, with all that it was worked out from.
 *
 * @param of a word for it in the API
 * @param steps the sum, in its order
 * @param results what comes of it; none where the formula was not made for what was asked
 * @param outside why there is no result, as a sentence; null where there is one
 */
public record Reckoning(
    String of, Formula formula, List<Step> steps, List<Result> results, @Nullable String outside) {

  /**
   * A rule as it was published.
   *
   * @param name what it is called, with its year
   * @param text the formula itself
   * @param range what it was made for
   * @param source where it stands, or that it is common practice
   */
  public record Formula(
      String name, String text, List<Coefficient> coefficients, String range, String source) {

    public Formula {
      coefficients = List.copyOf(coefficients);
    }
  }

  /** A number of a formula, and whose it is. */
  public record Coefficient(String name, double value, String unit, String source) {}

  /**
   * A line of the sum.
   *
   * @param sum what is multiplied, divided and added, in figures
   */
  public record Step(String what, String sum, double value, String unit) {}

  public record Result(String name, double value, String unit) {}

  public Reckoning {
    steps = List.copyOf(steps);
    results = List.copyOf(results);
  }

  /** The result of this name, for whoever goes on from there. */
  public double value(String name) {
    return results.stream()
        .filter(result -> result.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }

  /** Writes a sum down line by line. */
  static final class Sum {

    private final String of;
    private final Formula formula;
    private final List<Step> steps = new ArrayList<>();
    private final List<Result> results = new ArrayList<>();

    Sum(String of, Formula formula) {
      this.of = of;
      this.formula = formula;
    }

    double step(String what, String sum, double value, String unit) {
      steps.add(new Step(what, sum, value, unit));
      return value;
    }

    /** A step that is a result. */
    double result(String what, String sum, double value, String unit) {
      results.add(new Result(what, value, unit));
      return step(what, sum, value, unit);
    }

    Reckoning done() {
      return new Reckoning(of, formula, steps, results, null);
    }

    Reckoning outside(String why) {
      return new Reckoning(
          of, formula, List.of(), List.of(), "Outside what the formula was made for: " + why);
    }
  }

  /** A number in a sum: five digits are enough to follow it. */
  static String said(double number) {
    BigDecimal rounded = new BigDecimal(number).round(new MathContext(5));
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }
}
