package org.tareline.evidence;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.jspecify.annotations.Nullable;
import org.tareline.units.Mass;

/**
 * The slope of a scale, from check weights put on it at one time: the weighted straight line
 * through the origin of what was shown against what lay on it, b = Σ w N I / Σ w N², each point
 * weighted by w = 1/u².
 *
 * <p>u of a point is the root sum of squares of
 *
 * <ul>
 *   <li>its weight's tolerance ±a: a/√3 (JCGM 100:2008, 4.3.7);
 *   <li>resolution: d/√12 for the load and d/√12 for the zero (F.2.2.1);
 *   <li>the scale's repeatability, where that is recorded.
 * </ul>
 *
 * The standard uncertainty of the slope is what these make of it by the law of propagation (5.2.2).
 * Points of one nominal value and one tolerance are taken for one and the same weight put on again,
 * whose error is then shared and not averaged away. ν is that of the repeatability, as far as the
 * slope hangs on it (G.4.1).
 *
 * <p>Where the points scatter about the line more than all that explains, which is taken to be so
 * where Σ w (I − b N)² is beyond the 95 % point of χ² with n − 1 degrees of freedom, the scatter is
 * what counts: the uncertainty is then multiplied by √(Σ w (I − b N)² / (n − 1)), and ν = n − 1.
 * For points that are all equally sure that is the classical result s/√ΣN².
 */
public final class SpanFit {

  private static final double SIGNIFICANCE = 0.05;

  /**
   * A check weight on the scale.
   *
   * @param nominal what it is marked with, above 0
   * @param halfWidth a of ±a, how far off that it may be; never negative
   * @param indication what the scale showed
   */
  public record Point(Mass nominal, Mass halfWidth, Mass indication) {

    /**
     * @throws IllegalArgumentException if the nominal value is not above 0 or the half-width is
     *     negative
     */
    public Point {
      if (nominal.signum() <= 0 || halfWidth.signum() < 0) {
        throw new IllegalArgumentException(
            "A check weight cannot be " + nominal + " ± " + halfWidth + ".");
      }
    }

    /** By how much the scale showed more than the nominal value. */
    public Mass deviation() {
      return indication.minus(nominal);
    }
  }

  private final List<Point> points;
  private final double[] uncertainties;
  private final double slope;
  private final double standardUncertainty;
  private final double degreesOfFreedom;
  private final boolean fromScatter;

  private SpanFit(List<Point> points, Mass readability, @Nullable Repeatability repeatability) {
    this.points = List.copyOf(points);
    double resolution = square(readability.inGrams()) / 6; // d²/12 at the load and at the zero
    double repeating =
        repeatability == null ? 0 : square(repeatability.standardDeviation().inGrams());
    uncertainties = new double[points.size()];
    double sumOfSquares = 0; // Σ w N²
    double sumOfDeviations = 0; // Σ w N (I − N): small and exact where N I is large
    for (int i = 0; i < uncertainties.length; i++) {
      Point point = points.get(i);
      double variance = square(point.halfWidth().inGrams()) / 3 + resolution + repeating;
      double nominal = point.nominal().inGrams();
      uncertainties[i] = Math.sqrt(variance);
      sumOfSquares += nominal * nominal / variance;
      sumOfDeviations += nominal * point.deviation().inGrams() / variance;
    }
    slope = 1 + sumOfDeviations / sumOfSquares;

    double scatter = 0; // Σ w (I − b N)²
    double variance = 0;
    double repeatingShare = 0;
    Map<Point, Double> ofWeights = new HashMap<>();
    for (int i = 0; i < uncertainties.length; i++) {
      Point point = points.get(i);
      double pull = point.nominal().inGrams() / square(uncertainties[i]) / sumOfSquares; // ∂b/∂I
      variance += square(pull) * (resolution + repeating);
      repeatingShare += square(pull) * repeating;
      ofWeights.merge(
          new Point(point.nominal(), point.halfWidth(), Mass.ZERO),
          pull * slope * point.halfWidth().inGrams() / Math.sqrt(3),
          Double::sum);
      scatter += square(residualInGrams(point) / uncertainties[i]);
    }
    for (double ofWeight : ofWeights.values()) {
      variance += square(ofWeight);
    }

    int free = points.size() - 1;
    fromScatter =
        free > 0
            && scatter > ChiSquaredDistribution.of(free).inverseSurvivalProbability(SIGNIFICANCE);
    if (fromScatter) {
      standardUncertainty = Math.sqrt(variance * scatter / free);
      degreesOfFreedom = free;
    } else {
      standardUncertainty = Math.sqrt(variance);
      degreesOfFreedom =
          repeatability == null || repeatingShare == 0
              ? Double.POSITIVE_INFINITY
              : repeatability.degreesOfFreedom() * square(variance / repeatingShare);
    }
  }

  /**
   * Fits the line.
   *
   * @param readability the step d of the display, above 0
   * @param repeatability null where none is on record
   * @throws IllegalArgumentException if there is no point, the readability is not above 0, or the
   *     slope would not be above 0
   */
  public static SpanFit of(
      List<Point> points, Mass readability, @Nullable Repeatability repeatability) {
    if (points.isEmpty()) {
      throw new IllegalArgumentException("A check needs at least one weight.");
    }
    if (readability.signum() <= 0) {
      throw new IllegalArgumentException(
          "A readability must be above 0, and is " + readability + ".");
    }
    SpanFit fit = new SpanFit(points, readability, repeatability);
    if (!(fit.slope > 0)) {
      throw new IllegalArgumentException("A slope must be above 0, and is " + fit.slope + ".");
    }
    return fit;
  }

  private static double square(double number) {
    return number * number;
  }

  /** As it stands for the span of a scale. */
  public Span.Found span(String id) {
    return new Span.Found(id, slope, standardUncertainty, degreesOfFreedom);
  }

  public List<Point> points() {
    return points;
  }

  /** What is read for each gram on the scale. */
  public double slope() {
    return slope;
  }

  /** u of the slope. */
  public double standardUncertainty() {
    return standardUncertainty;
  }

  /** ν of that; infinite where it rests on tolerances and steps alone. */
  public double degreesOfFreedom() {
    return degreesOfFreedom;
  }

  /** U of the slope, at 95 %. */
  public double expandedUncertainty() {
    return Coverage.factor(degreesOfFreedom) * standardUncertainty;
  }

  /** Whether the points scatter more than their own uncertainties explain. */
  public boolean fromScatter() {
    return fromScatter;
  }

  /** I − b N of each point, in the order of the points, half-even to the nanogram. */
  public List<Mass> residuals() {
    return points.stream().map(point -> Mass.fromGrams(residualInGrams(point))).toList();
  }

  /** u of each point, in grams, in the order of the points. */
  public List<Double> uncertaintiesInGrams() {
    List<Double> list = new ArrayList<>();
    for (double uncertainty : uncertainties) {
      list.add(uncertainty);
    }
    return List.copyOf(list);
  }

  private double residualInGrams(Point point) {
    return point.deviation().inGrams() - (slope - 1) * point.nominal().inGrams();
  }
}
