package org.tareline.site.json;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.units.Unit;

/**
 * An estimate in an answer.
 *
 * @param coverageFactor two-sided, 95 %
 * @param effectiveDegreesOfFreedom as computed, or {@code infinite}
 * @param basis {@code weighed}, {@code calculated}, {@code estimated} or {@code mixed}; left out
 *     where the figure has none
 * @param unweighedLines distinct lines beneath whose mass was not weighed; left out where the
 *     figure has none
 * @param atLeast true, or left out: something beneath has no mass yet, and this is the sum of the
 *     rest
 * @param missing the codes of what has no mass yet; left out where nothing is missing
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record EstimateJson(
    QuantityJson mass,
    QuantityJson standardUncertainty,
    QuantityJson expandedUncertainty,
    String coverageFactor,
    String effectiveDegreesOfFreedom,
    @Nullable String basis,
    @Nullable Integer unweighedLines,
    @Nullable Boolean atLeast,
    @Nullable List<String> missing) {

  /** A figure with no lines beneath it: a difference, a term. */
  public static EstimateJson of(Estimate estimate, Unit unit) {
    return of(estimate, null, null, List.of(), unit);
  }

  /**
   * A figure with its basis.
   *
   * @param missing the codes of what has no mass yet
   */
  public static EstimateJson of(
      Estimate estimate,
      @Nullable Basis basis,
      @Nullable Integer unweighedLines,
      List<String> missing,
      Unit unit) {
    double degreesOfFreedom = estimate.effectiveDegreesOfFreedom();
    return new EstimateJson(
        QuantityJson.of(estimate.value(), unit),
        QuantityJson.ofComputedGrams(estimate.standardUncertaintyInGrams(), unit),
        QuantityJson.ofComputedGrams(estimate.expandedUncertaintyInGrams(), unit),
        QuantityJson.plain(estimate.coverageFactor()),
        Double.isInfinite(degreesOfFreedom) ? "infinite" : QuantityJson.plain(degreesOfFreedom),
        basis == null ? null : basis.word(),
        unweighedLines,
        missing.isEmpty() ? null : true,
        missing.isEmpty() ? null : missing);
  }
}
