package org.tareline.evidence;

import org.jspecify.annotations.Nullable;
import org.tareline.units.Mass;

/**
 * What is known of a weighing instrument while one calibration is in force.
 *
 * @param name in plain words for a page
 * @param readability the step d of its display, above 0
 * @param repeatability null where none is on record
 * @param span how its readings go with the load
 */
public record Instrument(
    String name, Mass readability, @Nullable Repeatability repeatability, Span span) {

  /**
   * @throws IllegalArgumentException if the readability is not above 0
   */
  public Instrument {
    if (readability.signum() <= 0) {
      throw new IllegalArgumentException(
          name + ": readability must be above 0, and is " + readability + ".");
    }
  }

  /**
   * An instrument of which nothing is known but what is stated.
   *
   * @param id of the scale; its span and its repeatability take theirs from it
   * @param repeatability standard deviation of readings of one load, or null
   * @param degreesOfFreedom ν of that, above 0; infinite where not known
   * @param spanHalfWidth as {@link Span.Stated}
   * @throws IllegalArgumentException if a figure is outside its range
   */
  public Instrument(
      String id,
      String name,
      Mass readability,
      @Nullable Mass repeatability,
      double degreesOfFreedom,
      double spanHalfWidth) {
    this(
        name,
        readability,
        repeatability == null
            ? null
            : new Repeatability(id + "/repeatability", repeatability, degreesOfFreedom),
        new Span.Stated(id + "/span", spanHalfWidth));
  }
}
