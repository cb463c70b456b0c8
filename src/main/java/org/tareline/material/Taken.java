package org.tareline.material;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.Map;
import org.tareline.cutting.Stock.Per;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.SizedPiece;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

/**
 * A mass that was learned from parts of a material and taken, as it was then: it does not move when
 * more parts are weighed, until somebody takes what is learned then.
 *
 * @param grams for one square metre, metre or piece
 * @param standardUncertainty of the same
 * @param degreesOfFreedom of that; may be infinite
 * @param ratio weighed to calculated, from which it came
 * @param parts how many it rests on
 * @param against whether those were calculated by what is printed or by swatches
 */
public record Taken(
    BigDecimal grams,
    double standardUncertainty,
    double degreesOfFreedom,
    double ratio,
    int parts,
    MaterialMass.Use against,
    Instant at) {

  /** Decimals of the column; a metre of thread is a few milligrams. */
  private static final int DECIMALS = 12;

  static Taken of(Learning.Learned learned, Instant at) {
    MassPer mass = learned.mass();
    return new Taken(
        mass.grams().setScale(DECIMALS, RoundingMode.HALF_EVEN),
        mass.standardUncertainty(),
        mass.degreesOfFreedom(),
        learned.ratio(),
        learned.parts().size(),
        learned.against(),
        at);
  }

  MassPer mass(Material material, Per per) {
    String id = "material:" + material.uuid() + ":learned";
    Source source =
        new Source(id, "mass of " + material.code() + " as learned", degreesOfFreedom, id);
    return new MassPer(
        per,
        Estimate.of(
            Mass.fromGrams(grams.multiply(BigDecimal.valueOf(SizedPiece.UNITS))),
            Map.of(source, standardUncertainty * SizedPiece.UNITS)));
  }
}
