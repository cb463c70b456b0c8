package org.tareline.evidence;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.tareline.units.Mass;

/**
 * One quantity found several times, taken together: the mean of the findings, each weighted by
 * 1/u². Sources of error that findings share, such as the span of one scale, go through the mean
 * with their sign and are not averaged away (JCGM 100:2008, 5.2.2).
 *
 * <p>The findings agree where the sum of squares of their distances from each other, each over what
 * its own errors explain, is below the 95 % point of χ² with n − 1 degrees of freedom. What is
 * shared explains no distance and is left out of it; an error found from few readings counts by its
 * 95 % interval, k/1.96 times as wide. Where they do not agree, the mean is as unsure as their
 * scatter says, Σ w d²/((n − 1) Σ w), which is the external consistency of R. T. Birge, Physical
 * Review 40 (1932) 207 (from memory), and that scatter has n − 1 degrees of freedom.
 */
public final class Pooled {

  private final Estimate estimate;
  private final boolean agree;

  private Pooled(Estimate estimate, boolean agree) {
    this.estimate = estimate;
    this.agree = agree;
  }

  /**
   * The findings taken together.
   *
   * @param id of what was found; the scatter is a source of its own
   * @param label of the scatter, in plain words for a page
   * @throws IllegalArgumentException if there is none
   */
  public static Pooled of(String id, String label, List<Estimate> findings) {
    if (findings.isEmpty()) {
      throw new IllegalArgumentException("Nothing was found of " + id + ".");
    }
    double[] weights = weights(findings.stream().mapToDouble(Estimate::variance).toArray());
    Estimate mean = mean(findings, weights);
    if (findings.size() == 1) {
      return new Pooled(findings.get(0), true);
    }
    List<Estimate> own = own(findings);
    if (agree(own)) {
      return new Pooled(mean, true);
    }
    int freedom = findings.size() - 1;
    double external = 0;
    double explained = 0;
    for (int i = 0; i < weights.length; i++) {
      double distance = findings.get(i).value().minus(mean.value()).inGrams();
      external += weights[i] * distance * distance / freedom;
      explained += weights[i] * weights[i] * own.get(i).variance();
    }
    Source scatter = new Source(id + "/scatter", label, freedom, id + "/scatter");
    double added = Math.sqrt(Math.max(0, external - explained));
    return new Pooled(mean.plus(Estimate.of(Mass.ZERO, Map.of(scatter, added))), false);
  }

  /** The mean, widened by the scatter where the findings do not agree. */
  public Estimate estimate() {
    return estimate;
  }

  /** Whether what is known of their errors explains how far apart they are. */
  public boolean agree() {
    return agree;
  }

  /** 1/u² as shares of 1; alike for all where one of them is sure. */
  private static double[] weights(double[] variances) {
    double[] weights = new double[variances.length];
    double sum = 0;
    for (double variance : variances) {
      sum += 1 / variance;
    }
    for (int i = 0; i < weights.length; i++) {
      weights[i] = Double.isFinite(sum) ? 1 / variances[i] / sum : 1.0 / weights.length;
    }
    return weights;
  }

  private static Estimate mean(List<Estimate> findings, double[] weights) {
    // From the first, so that findings that are equal have that mean to the last digit.
    Mass first = findings.get(0).value();
    double beyond = 0;
    Map<Source, Double> terms = new LinkedHashMap<>();
    for (int i = 0; i < weights.length; i++) {
      double weight = weights[i];
      beyond += weight * findings.get(i).value().minus(first).inGrams();
      findings
          .get(i)
          .coefficients()
          .forEach((source, grams) -> terms.merge(source, weight * grams, Double::sum));
    }
    return Estimate.of(first.plus(Mass.fromGrams(beyond)), terms);
  }

  /** The findings with those sources of error alone that no other of them has. */
  private static List<Estimate> own(List<Estimate> findings) {
    Map<Source, Integer> times = new HashMap<>();
    findings.forEach(
        finding ->
            finding
                .coefficients()
                .keySet()
                .forEach(source -> times.merge(source, 1, Integer::sum)));
    return findings.stream()
        .map(
            finding -> {
              Map<Source, Double> terms = new LinkedHashMap<>(finding.coefficients());
              terms.keySet().removeIf(source -> times.getOrDefault(source, 0) > 1);
              return Estimate.of(finding.value(), terms);
            })
        .toList();
  }

  private static boolean agree(List<Estimate> own) {
    double[] squares = new double[own.size()];
    for (int i = 0; i < squares.length; i++) {
      double u = own.get(i).expandedUncertaintyInGrams() / Coverage.NORMAL;
      squares[i] = u * u;
    }
    Mass mean = mean(own, weights(squares)).value();
    double chiSquared = 0;
    for (int i = 0; i < squares.length; i++) {
      double distance = own.get(i).value().minus(mean).inGrams();
      chiSquared += distance == 0 ? 0 : distance * distance / squares[i];
    }
    return chiSquared <= ChiSquaredDistribution.of(own.size() - 1).inverseSurvivalProbability(0.05);
  }
}
