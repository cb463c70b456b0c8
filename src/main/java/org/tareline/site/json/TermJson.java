package org.tareline.site.json;

import java.util.List;
import org.tareline.evidence.Estimate;
import org.tareline.units.Unit;

/**
 * One source of error in an estimate.
 *
 * @param source what it is, in plain words
 * @param standardUncertainty what it contributes by itself
 * @param shareOfVariance its part of the whole variance, from 0 to 1
 */
public record TermJson(String source, QuantityJson standardUncertainty, String shareOfVariance) {

  /** All the sources of an estimate; their shares add up to 1. */
  public static List<TermJson> of(Estimate estimate, Unit unit) {
    double variance = estimate.variance();
    return estimate.coefficients().entrySet().stream()
        .map(
            term ->
                new TermJson(
                    term.getKey().label(),
                    QuantityJson.ofComputedGrams(Math.abs(term.getValue()), unit),
                    QuantityJson.plain(term.getValue() * term.getValue() / variance)))
        .toList();
  }
}
