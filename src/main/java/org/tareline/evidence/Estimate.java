package org.tareline.evidence;

import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.units.Mass;

/**
 * A mass and how sure it is: an exact value, and for each {@link Source} of error the grams by
 * which one standard deviation of that source moves it. Sums, differences and whole multiples act
 * on value and coefficients alike, which is the law of propagation of uncertainty with correlated
 * inputs (JCGM 100:2008, 5.2.2 eq. 13) in its simplest shape: what two estimates share cancels in
 * their difference and adds up straight, not in quadrature, in their sum.
 *
 * <p>Immutable. Values are exact and refuse to overflow with {@link ArithmeticException};
 * coefficients are doubles. A coefficient that has cancelled to exactly 0 is dropped with its
 * source.
 */
public final class Estimate {

  private static final Source[] NO_SOURCES = {};
  private static final double[] NO_COEFFICIENTS = {};

  // Parallel arrays: a source stands once, and its coefficient is neither 0 nor NaN nor infinite.
  private final Mass value;
  private final Source[] sources;
  private final double[] coefficients;

  /** Keeps the arrays it is given. */
  Estimate(Mass value, Source[] sources, double[] coefficients) {
    this.value = value;
    this.sources = sources;
    this.coefficients = coefficients;
  }

  /**
   * A value with its coefficients.
   *
   * @param coefficientsInGrams for each source, the grams for one standard deviation of it; of
   *     either sign
   * @throws IllegalArgumentException if a coefficient is infinite or not a number
   */
  public static Estimate of(Mass value, Map<Source, Double> coefficientsInGrams) {
    Source[] sources = new Source[coefficientsInGrams.size()];
    double[] coefficients = new double[sources.length];
    int size = 0;
    for (Map.Entry<Source, Double> term : coefficientsInGrams.entrySet()) {
      double grams = term.getValue();
      if (!Double.isFinite(grams)) {
        throw new IllegalArgumentException(
            "The coefficient of "
                + term.getKey().id()
                + " must be a number of grams, not "
                + grams);
      }
      if (grams != 0) {
        sources[size] = term.getKey();
        coefficients[size++] = grams;
      }
    }
    return new Estimate(value, Arrays.copyOf(sources, size), Arrays.copyOf(coefficients, size));
  }

  /** A value with no error at all, such as a count or a definition. */
  public static Estimate exact(Mass value) {
    return new Estimate(value, NO_SOURCES, NO_COEFFICIENTS);
  }

  /** The sum of them all, in any order; of none, exactly nothing. */
  public static Estimate sum(Collection<Estimate> estimates) {
    Tally tally = new Tally();
    for (Estimate estimate : estimates) {
      tally.add(tally.item(estimate), 1);
    }
    return tally.take().estimate();
  }

  /** The mass itself. */
  public Mass value() {
    return value;
  }

  /** For each source, the grams for one standard deviation of it; never 0. */
  public Map<Source, Double> coefficients() {
    Map<Source, Double> map = new LinkedHashMap<>();
    for (int i = 0; i < sources.length; i++) {
      map.put(sources[i], coefficients[i]);
    }
    return Collections.unmodifiableMap(map);
  }

  public Estimate plus(Estimate other) {
    return sum(List.of(this, other));
  }

  public Estimate minus(Estimate other) {
    return plus(other.times(-1));
  }

  /** So many of the same thing: twice the same part has twice its error, not √2 of it. */
  public Estimate times(long factor) {
    if (factor == 1) {
      return this;
    }
    if (factor == 0) {
      return exact(Mass.ZERO);
    }
    double[] multiplied = new double[coefficients.length];
    for (int i = 0; i < multiplied.length; i++) {
      multiplied[i] = coefficients[i] * factor;
    }
    return new Estimate(value.times(factor), sources, multiplied);
  }

  /** u², in g² (JCGM 100:2008, 5.2.2 eq. 13). */
  public double variance() {
    double sum = 0;
    for (double coefficient : coefficients) {
      sum += coefficient * coefficient;
    }
    return sum;
  }

  /** Covariance with another estimate, in g²: what the sources they share contribute (F.1.2.3). */
  public double covariance(Estimate other) {
    Tally tally = new Tally();
    tally.add(tally.item(this), 1);
    return tally.covariance(tally.item(other));
  }

  /** u in grams, not rounded. */
  public double standardUncertaintyInGrams() {
    return Math.sqrt(variance());
  }

  /** u, half-even to the nanogram. */
  public Mass standardUncertainty() {
    return Mass.fromGrams(standardUncertaintyInGrams());
  }

  /**
   * ν_eff = u⁴ / Σ u_g⁴/ν_g by Welch and Satterthwaite (JCGM 100:2008, G.4.1 eq. G.2b), over
   * variance groups g with u_g² = Σ c². The formula wants independent findings of standard
   * deviations; sources of one group have one finding between them, so their variances are added
   * before ν is counted. Should sources of one group name different ν, the least counts.
   *
   * @return as computed, not truncated; infinite where no source with a finite ν contributes
   */
  public double effectiveDegreesOfFreedom() {
    Map<String, Finding> findings = new HashMap<>();
    for (int i = 0; i < sources.length; i++) {
      Source source = sources[i];
      if (source.degreesOfFreedom() != Double.POSITIVE_INFINITY) {
        Finding finding = findings.computeIfAbsent(source.varianceGroup(), group -> new Finding());
        finding.variance += coefficients[i] * coefficients[i];
        finding.degreesOfFreedom = Math.min(finding.degreesOfFreedom, source.degreesOfFreedom());
      }
    }
    double variance = variance();
    double sum = 0; // of (u_g²/u²)²/ν_g: as shares, no fourth power can vanish or overflow
    for (Finding finding : findings.values()) {
      double share = finding.variance / variance;
      sum += share * share / finding.degreesOfFreedom;
    }
    return sum > 0 ? 1 / sum : Double.POSITIVE_INFINITY;
  }

  /** One finding of a standard deviation, and all the variance that rests on it. */
  private static final class Finding {
    double variance;
    double degreesOfFreedom = Double.POSITIVE_INFINITY;
  }

  /**
   * k for 95 %, two-sided: Student's t at {@link #effectiveDegreesOfFreedom()}, truncated down to a
   * whole number and at least 1; 1.959964 where that is infinite.
   */
  public double coverageFactor() {
    return Coverage.factor(effectiveDegreesOfFreedom());
  }

  /** U = k u in grams, not rounded (JCGM 100:2008, 6.2.1). */
  public double expandedUncertaintyInGrams() {
    return coverageFactor() * standardUncertaintyInGrams();
  }

  /** U = k u, half-even to the nanogram. */
  public Mass expandedUncertainty() {
    return Mass.fromGrams(expandedUncertaintyInGrams());
  }

  int size() {
    return sources.length;
  }

  Source source(int index) {
    return sources[index];
  }

  double coefficient(int index) {
    return coefficients[index];
  }

  /** By value and coefficients, to the last bit. */
  @Override
  public boolean equals(Object other) {
    return this == other
        || other instanceof Estimate estimate
            && value.equals(estimate.value)
            && coefficients().equals(estimate.coefficients());
  }

  @Override
  public int hashCode() {
    return 31 * value.hashCode() + coefficients().hashCode();
  }

  /** The value and its standard uncertainty, exactly, as {@code 381.5 g (u = 0.2 g)}. */
  @Override
  public String toString() {
    return value + " (u = " + standardUncertainty() + ")";
  }
}
