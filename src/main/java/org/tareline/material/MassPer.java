package org.tareline.material;

import java.math.BigDecimal;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.SizedPiece;

/**
 * A mass per area, per length or of one, and how sure it is.
 *
 * @param estimate the mass of {@link SizedPiece#UNITS} square metres, metres or pieces
 */
public record MassPer(Per per, Estimate estimate) {

  /** In g for one square metre, metre or piece. */
  public BigDecimal grams() {
    return estimate.value().grams().divide(BigDecimal.valueOf(SizedPiece.UNITS));
  }

  /** u of the same. */
  public double standardUncertainty() {
    return estimate.standardUncertaintyInGrams() / SizedPiece.UNITS;
  }

  /** U of the same, for 95 %. */
  public double expandedUncertainty() {
    return estimate.expandedUncertaintyInGrams() / SizedPiece.UNITS;
  }

  /** As computed; may be infinite. */
  public double degreesOfFreedom() {
    return estimate.effectiveDegreesOfFreedom();
  }
}
