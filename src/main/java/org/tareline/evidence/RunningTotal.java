package org.tareline.evidence;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * A total whose terms are exchanged one after another, with its uncertainty always at hand. Where
 * {@link Tally} walks through all sources for one answer, this keeps Σ C² and the sum of the
 * Welch–Satterthwaite formula as it goes, so that an answer costs as much as what was changed.
 *
 * <p>Takes estimates of one numbering. Sums are doubles and drift by their last digits with every
 * exchange; add what makes the total less sure rather than surer where there is a choice. For one
 * thread at a time.
 */
public final class RunningTotal {

  /** Of a source that has no finite ν, and so stands in no group. */
  private static final int NONE = -1;

  private final Source[] sources;
  private final double[] coefficients;
  private final int[] groups;
  private final double[] groupVariances;
  private final double[] groupDegreesOfFreedom;
  private double grams;
  private double variance;
  private double satterthwaite; // Σ (Σ C² of a group)² / ν of the group

  /** Nothing, to which estimates of this numbering may be added. */
  public RunningTotal(Numbering numbering) {
    sources = numbering.sources();
    coefficients = new double[sources.length];
    groups = new int[sources.length];
    Map<String, Integer> known = new HashMap<>();
    double[] leastDegreesOfFreedom = new double[sources.length];
    Arrays.fill(leastDegreesOfFreedom, Double.POSITIVE_INFINITY);
    for (int i = 0; i < sources.length && sources[i] != null; i++) {
      double degreesOfFreedom = sources[i].degreesOfFreedom();
      groups[i] = NONE;
      if (degreesOfFreedom != Double.POSITIVE_INFINITY) {
        groups[i] = known.computeIfAbsent(sources[i].varianceGroup(), group -> known.size());
        leastDegreesOfFreedom[groups[i]] =
            Math.min(leastDegreesOfFreedom[groups[i]], degreesOfFreedom);
      }
    }
    groupVariances = new double[known.size()];
    groupDegreesOfFreedom = Arrays.copyOf(leastDegreesOfFreedom, known.size());
  }

  /** Adds so many of an estimate. */
  public void add(Estimate estimate, long factor) {
    int[] numbers = estimate.numbersIn(sources);
    double[] terms = estimate.coefficientsByNumber();
    grams += estimate.value().inGrams() * factor;
    for (int i = 0; i < numbers.length; i++) {
      set(numbers[i], coefficients[numbers[i]] + terms[i] * factor);
    }
  }

  /** Covariance of an estimate with the total, in g². */
  public double covariance(Estimate estimate) {
    int[] numbers = estimate.numbersIn(sources);
    double[] terms = estimate.coefficientsByNumber();
    double covariance = 0;
    for (int i = 0; i < numbers.length; i++) {
      covariance += terms[i] * coefficients[numbers[i]];
    }
    return covariance;
  }

  private void set(int number, double coefficient) {
    double before = coefficients[number];
    double more = (coefficient - before) * (coefficient + before);
    coefficients[number] = coefficient;
    variance += more;
    int group = groups[number];
    if (group != NONE) {
      double was = groupVariances[group];
      groupVariances[group] = was + more;
      satterthwaite += more * (was + groupVariances[group]) / groupDegreesOfFreedom[group];
    }
  }

  /** How it would stand with an estimate added to it; to the last bit as it was, afterwards. */
  public Standing with(Estimate estimate) {
    int[] numbers = estimate.numbersIn(sources);
    double[] before = new double[numbers.length];
    double[] groupsBefore = new double[numbers.length];
    double gramsBefore = grams;
    double varianceBefore = variance;
    double satterthwaiteBefore = satterthwaite;
    for (int i = 0; i < numbers.length; i++) {
      before[i] = coefficients[numbers[i]];
      groupsBefore[i] = groups[numbers[i]] == NONE ? 0 : groupVariances[groups[numbers[i]]];
    }
    add(estimate, 1);
    Standing standing = standing();
    for (int i = 0; i < numbers.length; i++) {
      coefficients[numbers[i]] = before[i];
      if (groups[numbers[i]] != NONE) {
        groupVariances[groups[numbers[i]]] = groupsBefore[i];
      }
    }
    grams = gramsBefore;
    variance = varianceBefore;
    satterthwaite = satterthwaiteBefore;
    return standing;
  }

  /** How it stands now. */
  public Standing standing() {
    double sure = Math.max(0, variance); // a drift below nothing is nothing
    return new Standing(
        grams,
        Math.sqrt(sure),
        satterthwaite > 0 && sure > 0 ? sure * sure / satterthwaite : Double.POSITIVE_INFINITY);
  }

  /** A value and u in grams, not rounded, with ν. */
  public record Standing(
      double grams, double standardUncertaintyInGrams, double effectiveDegreesOfFreedom) {

    /** U in grams, as of {@link Estimate#expandedUncertaintyInGrams()}. */
    public double expandedUncertaintyInGrams() {
      return Coverage.factor(effectiveDegreesOfFreedom) * standardUncertaintyInGrams;
    }

    /** Whether the value is within its own U of nothing. */
    public boolean mayBeNothing() {
      return Math.abs(grams) <= expandedUncertaintyInGrams();
    }
  }
}
