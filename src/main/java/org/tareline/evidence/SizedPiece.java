package org.tareline.evidence;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.units.Length;
import org.tareline.units.Mass;

/**
 * A piece of known size that was weighed, and what it says of the stuff it was cut from: mass per
 * area m/(L W) of a cut piece (ISO 3801:1977, method 5), mass per length m/L, or the mass of one.
 * Relative uncertainties add in squares (JCGM 100:2008, 5.1.6), and the errors of the two sides are
 * independent.
 *
 * @param id of the piece; the errors of its sides are its own
 * @param mass of one piece, in g
 * @param sides none, its length, or its length and width
 */
public record SizedPiece(String id, Estimate mass, List<Side> sides) {

  /**
   * So many units are weighed out in thought, because a metre of thread is a few milligrams and
   * would keep few digits of a whole number of nanograms.
   */
  public static final int UNITS = 1000;

  /**
   * A side.
   *
   * @param name in plain words for a page
   * @param length above 0
   * @param halfWidth a of ±a, of the side as a whole and so of both its ends together; rectangular,
   *     so that u = a/√3 (JCGM 100:2008, 4.3.7); at least 0 and below the length
   */
  public record Side(String name, Length length, Length halfWidth) {

    /**
     * @throws IllegalArgumentException if a figure is outside its range
     */
    public Side {
      if (length.signum() <= 0 || halfWidth.signum() < 0 || halfWidth.compareTo(length) >= 0) {
        throw new IllegalArgumentException(
            "A " + name + " cannot be " + length + " ± " + halfWidth + ".");
      }
    }

    private double relativeUncertainty() {
      return halfWidth.inMetres() / length.inMetres() / Math.sqrt(3);
    }
  }

  /**
   * @throws IllegalArgumentException if there are more than two sides
   */
  public SizedPiece {
    sides = List.copyOf(sides);
    if (sides.size() > 2) {
      throw new IllegalArgumentException("A piece has a length and a width, and no more sides.");
    }
  }

  /**
   * The mass of {@link #UNITS} square metres, metres or pieces, by the number of sides; rounded
   * half-even to the nanogram, once.
   */
  public Estimate units() {
    BigDecimal size = BigDecimal.ONE;
    for (Side side : sides) {
      size = size.multiply(side.length().metres());
    }
    Mass value =
        Mass.fromGrams(
            mass.value()
                .grams()
                .multiply(BigDecimal.valueOf(UNITS))
                .divide(size, 9, RoundingMode.HALF_EVEN));
    double factor = UNITS / size.doubleValue();
    Map<Source, Double> terms = new LinkedHashMap<>();
    mass.coefficients().forEach((source, grams) -> terms.put(source, grams * factor));
    for (Side side : sides) {
      terms.put(
          Source.of(id + "/" + side.name(), side.name() + " of the swatch"),
          -value.inGrams() * side.relativeUncertainty());
    }
    return Estimate.of(value, terms);
  }
}
