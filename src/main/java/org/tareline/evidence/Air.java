package org.tareline.evidence;

import java.time.LocalDate;
import java.util.Map;
import org.tareline.units.Mass;

/**
 * What the air of a day does to things on the scale: fibres take up water from it, and one day's
 * air is the same for all that was weighed in it. So there is one source of error for a fibre and a
 * day, which all things of that fibre weighed on that day share: what they took up cancels where
 * one is held against another. A thing that was conditioned, by being aired in the atmosphere of
 * ISO 139 or near it, has none of it.
 */
public final class Air {

  private Air() {}

  /**
   * The error of a mass, and no mass: a limit taken as rectangular (JCGM 100:2008, 4.3.7), so that
   * its standard uncertainty is mass × a/√3.
   *
   * @param mass of what is of the fibre, as weighed
   * @param halfWidth a, as a fraction of the mass; 0 or more
   * @throws IllegalArgumentException if the half-width is negative or not a number
   */
  public static Estimate of(Fibre fibre, LocalDate day, Mass mass, double halfWidth) {
    if (!(halfWidth >= 0)) {
      throw new IllegalArgumentException(
          "What the air does to " + fibre.word() + " cannot be ±" + halfWidth + ".");
    }
    Source source =
        Source.of("air:" + fibre.word() + "/" + day, "air of " + day + " on " + fibre.word());
    return Estimate.of(Mass.ZERO, Map.of(source, mass.inGrams() * halfWidth / Math.sqrt(3)));
  }
}
