package org.tareline.evidence;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
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

  // Term i is coefficients[i], never 0 nor infinite nor NaN, for the source sources[numbers[i]]; no
  // number stands twice. Estimates that are numbered together hold one array of sources.
  private final Mass value;
  private final Source[] sources;
  private final int[] numbers;
  private final double[] coefficients;

  /** Found when first asked for: the same for whoever asks at the same moment. */
  private @Nullable Mass expandedUncertainty;

  /** Keeps the arrays it is given. */
  Estimate(Mass value, Source[] sources, int[] numbers, double[] coefficients) {
    this.value = value;
    this.sources = sources;
    this.numbers = numbers;
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
    coefficientsInGrams.forEach(Estimate::requireFinite);
    List<Map.Entry<Source, Double>> terms =
        coefficientsInGrams.entrySet().stream().filter(term -> term.getValue() != 0).toList();
    return new Estimate(
        value,
        terms.stream().map(Map.Entry::getKey).toArray(Source[]::new),
        IntStream.range(0, terms.size()).toArray(),
        terms.stream().mapToDouble(Map.Entry::getValue).toArray());
  }

  private static void requireFinite(Source source, double grams) {
    if (!Double.isFinite(grams)) {
      throw new IllegalArgumentException(
          "The coefficient of " + source.id() + " must be a number of grams, not " + grams + ".");
    }
  }

  /** A value with no error at all, such as a count or a definition. */
  public static Estimate exact(Mass value) {
    return of(value, Map.of());
  }

  /** The sum of them all, in any order; of none, exactly nothing. */
  public static Estimate sum(Collection<Estimate> estimates) {
    Numbering numbering = Numbering.of(List.copyOf(estimates));
    Tally tally = new Tally(numbering);
    for (Estimate estimate : numbering.estimates()) {
      tally.add(estimate, 1);
    }
    return tally.take();
  }

  /** The mass itself. */
  public Mass value() {
    return value;
  }

  /** For each source, the grams for one standard deviation of it; never 0. */
  public Map<Source, Double> coefficients() {
    Map<Source, Double> map = new LinkedHashMap<>();
    for (int i = 0; i < numbers.length; i++) {
      map.put(source(i), coefficients[i]);
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
    return new Estimate(value.times(factor), sources, numbers, multiplied);
  }

  /**
   * One of so many alike that were weighed as one: the value half-even to the nanogram, and its
   * error divided as well.
   *
   * @param divisor 1 or more
   * @throws IllegalArgumentException if the divisor is below 1
   */
  public Estimate dividedBy(long divisor) {
    if (divisor < 1) {
      throw new IllegalArgumentException("Cannot be shared out over " + divisor + ".");
    }
    if (divisor == 1) {
      return this;
    }
    double[] divided = new double[coefficients.length];
    for (int i = 0; i < divided.length; i++) {
      divided[i] = coefficients[i] / divisor;
    }
    BigDecimal one =
        BigDecimal.valueOf(value.nanograms())
            .divide(BigDecimal.valueOf(divisor), 0, RoundingMode.HALF_EVEN);
    return new Estimate(new Mass(one.longValueExact()), sources, numbers, divided);
  }

  /**
   * More or less of the same stuff, its error in proportion: half of what was stated within 5 % is
   * known within 5 % as well.
   *
   * @param other how much of it; nothing is exact
   * @throws IllegalArgumentException if this is nothing and the other is not
   */
  public Estimate inProportion(Mass other) {
    if (value.signum() == 0 && other.signum() != 0) {
      throw new IllegalArgumentException("There is no proportion of nothing to " + other + ".");
    }
    if (other.signum() == 0) {
      return exact(Mass.ZERO);
    }
    double ratio = other.nanograms() / (double) value.nanograms();
    double[] scaled = new double[coefficients.length];
    for (int i = 0; i < scaled.length; i++) {
      scaled[i] = coefficients[i] * ratio;
    }
    return new Estimate(other, sources, numbers, scaled);
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
    Numbering numbering = Numbering.of(List.of(this, other));
    Tally tally = new Tally(numbering);
    tally.add(numbering.estimates().get(0), 1);
    return tally.covariance(numbering.estimates().get(1));
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
    for (int i = 0; i < numbers.length; i++) {
      Source source = source(i);
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
    Mass known = expandedUncertainty;
    if (known == null) {
      known = Mass.fromGrams(expandedUncertaintyInGrams());
      expandedUncertainty = known;
    }
    return known;
  }

  int terms() {
    return numbers.length;
  }

  Source source(int term) {
    return sources[numbers[term]];
  }

  Estimate renumbered(Source[] numbering, int[] itsNumbers) {
    return new Estimate(value, numbering, itsNumbers, coefficients);
  }

  /** The numbers of its terms, not to be written to; refused if they are of another numbering. */
  int[] numbersIn(Source[] numbering) {
    if (sources != numbering && numbers.length > 0) {
      throw new IllegalArgumentException("Not numbered with the others: " + this + ".");
    }
    return numbers;
  }

  /** Not to be written to. */
  double[] coefficientsByNumber() {
    return coefficients;
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
    return value.hashCode();
  }

  /** The value and its standard uncertainty, exactly, as {@code 381.5 g (u = 0.2 g)}. */
  @Override
  public String toString() {
    return value + " (u = " + standardUncertainty() + ")";
  }
}
