package org.tareline.evidence;

import java.util.ArrayList;
import java.util.LinkedHashMap;
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
  private final List<Estimate> deviations = new ArrayList<>();
  private final double slope;
  private final double standardUncertainty;
  private final double degreesOfFreedom;
  private final boolean fromScatter;

  private SpanFit(List<Point> points, Mass readability, @Nullable Repeatability repeatability) {
    this.points = List.copyOf(points);
    double sumOfSquares = 0; // Σ w N²
    double sumOfDeviations = 0; // Σ w N (I − N): small and exact where N I is large
    for (int i = 0; i < points.size(); i++) {
      Point point = points.get(i);
      Estimate deviation =
          Estimate.of(point.deviation(), errors(i, point, 1, readability, repeatability));
      deviations.add(deviation);
      double nominal = point.nominal().inGrams();
      sumOfSquares += nominal * nominal / deviation.variance();
      sumOfDeviations += nominal * point.deviation().inGrams() / deviation.variance();
    }
    slope = 1 + sumOfDeviations / sumOfSquares;

    double scatter = 0; // Σ w (I − b N)²
    Map<Source, Double> ofSlope =
        new LinkedHashMap<>(); // as if it were grams; the algebra does not mind
    for (int i = 0; i < points.size(); i++) {
      Point point = points.get(i);
      double variance = deviations.get(i).variance();
      double residual = residualInGrams(point);
      scatter += residual * residual / variance;
      double pull =
          point.nominal().inGrams() / variance / sumOfSquares; // ∂b/∂I, and ∂b/∂N is −b of it
      errors(i, point, slope, readability, repeatability)
          .forEach((source, grams) -> ofSlope.merge(source, pull * grams, Double::sum));
    }
    Estimate sure = Estimate.of(Mass.ZERO, ofSlope);

    int free = points.size() - 1;
    fromScatter =
        free > 0
            && scatter > ChiSquaredDistribution.of(free).inverseSurvivalProbability(SIGNIFICANCE);
    standardUncertainty =
        Math.sqrt(fromScatter ? sure.variance() * scatter / free : sure.variance());
    degreesOfFreedom = fromScatter ? free : sure.effectiveDegreesOfFreedom();
  }

  /** What a point may be off by, in grams; the weight's own error times the slope. */
  private static Map<Source, Double> errors(
      int index,
      Point point,
      double slope,
      Mass readability,
      @Nullable Repeatability repeatability) {
    Map<Source, Double> errors = new LinkedHashMap<>();
    errors.put(
        Source.of("weight:" + point.nominal() + " ± " + point.halfWidth(), "the weight itself"),
        slope * point.halfWidth().inGrams() / Math.sqrt(3));
    double resolution = readability.inGrams() / Math.sqrt(12);
    errors.put(Source.of(index + "/load", "resolution, at the load"), resolution);
    errors.put(Source.of(index + "/zero", "resolution, at the zero"), resolution);
    if (repeatability != null) {
      errors.put(
          new Source(
              index + "/readings",
              "repeatability",
              repeatability.degreesOfFreedom(),
              repeatability.id()),
          repeatability.standardDeviation().inGrams());
    }
    return errors;
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

  /** I − N of each point and how sure that is, in the order of the points. */
  public List<Estimate> deviations() {
    return List.copyOf(deviations);
  }

  private double residualInGrams(Point point) {
    return point.deviation().inGrams() - (slope - 1) * point.nominal().inGrams();
  }
}
