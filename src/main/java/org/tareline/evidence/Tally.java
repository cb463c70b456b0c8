package org.tareline.evidence;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.tareline.units.Mass;

/**
 * An adding machine for estimates that are numbered together: every source has its place in one
 * array, and a sum is a walk through it.
 *
 * <p>The sum that is running starts at nothing. {@link #add} adds to it, {@link #covariance} asks
 * about it, {@link #take} takes it out and starts the next. Takes estimates of its numbering and
 * those it gave out itself, and their multiples; throws {@link IllegalArgumentException} at any
 * other. For one thread at a time.
 */
public final class Tally {

  private final Source[] sources;

  // The running sum: its value, its coefficients by number, and whose numbers are in it.
  private long nanograms;
  private final double[] sum;
  private final List<int[]> added = new ArrayList<>();
  private int terms;

  public Tally(Numbering numbering) {
    sources = numbering.sources();
    sum = new double[sources.length];
  }

  /**
   * Adds so many of an estimate to the running sum.
   *
   * @throws ArithmeticException if the value overflows; the sum is then as it was before
   */
  public void add(Estimate estimate, long factor) {
    int[] numbers = estimate.numbersIn(sources);
    double[] coefficients = estimate.coefficientsByNumber();
    nanograms = Math.addExact(nanograms, Math.multiplyExact(estimate.value().nanograms(), factor));
    for (int i = 0; i < numbers.length; i++) {
      sum[numbers[i]] += coefficients[i] * factor;
    }
    added.add(numbers);
    terms += numbers.length;
  }

  /** Covariance of an estimate with the running sum, in g². */
  public double covariance(Estimate estimate) {
    int[] numbers = estimate.numbersIn(sources);
    double[] coefficients = estimate.coefficientsByNumber();
    double covariance = 0;
    for (int i = 0; i < numbers.length; i++) {
      covariance += coefficients[i] * sum[numbers[i]];
    }
    return covariance;
  }

  /** Takes the running sum out and starts the next at nothing. */
  public Estimate take() {
    int[] numbers = new int[terms];
    double[] coefficients = new double[terms];
    int size = 0;
    for (int[] itsNumbers : added) {
      for (int number : itsNumbers) {
        double coefficient = sum[number];
        if (coefficient != 0) { // not cancelled, nor taken with an estimate before
          numbers[size] = number;
          coefficients[size++] = coefficient;
          sum[number] = 0;
        }
      }
    }
    Estimate taken =
        new Estimate(
            new Mass(nanograms),
            sources,
            Arrays.copyOf(numbers, size),
            Arrays.copyOf(coefficients, size));
    nanograms = 0;
    added.clear();
    terms = 0;
    return taken;
  }
}
