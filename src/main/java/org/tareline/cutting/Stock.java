package org.tareline.cutting;

import java.util.Map;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;
import org.tareline.units.Mass;

/**
 * What a material weighs. All that is cut from it shares its one source of error.
 *
 * @param id of the material
 * @param code for labels and messages
 * @param per what {@code grams} are for
 * @param grams per m², per m or for one; above 0
 * @param standardUncertainty of the grams, in the same unit; 0 or more
 * @param degreesOfFreedom ν of that; infinite where it rests on a stated tolerance
 */
public record Stock(
    String id,
    String code,
    Per per,
    double grams,
    double standardUncertainty,
    double degreesOfFreedom) {

  /** What a mass is for. */
  public enum Per {
    SQUARE_METRE,
    METRE,
    PIECE
  }

  /**
   * @throws IllegalArgumentException if a figure is outside its range
   */
  public Stock {
    if (!(grams > 0 && grams < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(code + " has to weigh more than nothing.");
    }
    if (!(standardUncertainty >= 0 && standardUncertainty < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(code + ": an uncertainty is 0 or more.");
    }
  }

  /** The mass of so many square metres, metres or pieces, rounded half-even to the nanogram. */
  public Estimate estimate(int units) {
    return Estimate.of(
        Mass.fromGrams(grams * units), Map.of(source(), standardUncertainty * units));
  }

  /** What it weighs is off in one way for all that is cut from it. */
  Source source() {
    String source = "material:" + id;
    return new Source(source, "mass of " + code + " as taken", degreesOfFreedom, source);
  }

  /** u as a fraction of the mass. */
  double relativeUncertainty() {
    return standardUncertainty / grams;
  }
}
