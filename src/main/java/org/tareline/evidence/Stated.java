package org.tareline.evidence;

import java.util.Map;
import org.tareline.units.Mass;

/**
 * A mass that somebody states or guesses, or that an old notebook holds, with limits and nothing
 * more known: any value between them is as likely as any other, so u = a/√3 (JCGM 100:2008, 4.3.7).
 *
 * @param id of the statement; its source of error is its own
 * @param label what it is, in plain words for a page
 * @param mass what is stated; never negative
 * @param halfWidth a of ±a; never negative
 */
public record Stated(String id, String label, Mass mass, Mass halfWidth) {

  /**
   * @throws IllegalArgumentException if the mass or the half-width is negative
   */
  public Stated {
    if (mass.signum() < 0 || halfWidth.signum() < 0) {
      throw new IllegalArgumentException(
          label
              + ": neither a mass nor its tolerance can be negative, and they are "
              + mass
              + " and "
              + halfWidth
              + ".");
    }
  }

  /** As the constructor. */
  public static Stated of(String id, String label, Mass mass, Mass halfWidth) {
    return new Stated(id, label, mass, halfWidth);
  }

  /** The mass with its one source. */
  public Estimate estimate() {
    return Estimate.of(mass, Map.of(Source.of(id, label), halfWidth.inGrams() / Math.sqrt(3)));
  }
}
