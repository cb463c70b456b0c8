package org.tareline.evidence;

import org.jspecify.annotations.Nullable;
import org.tareline.units.Mass;

/**
 * What is known of a weighing instrument while one calibration is in force.
 *
 * @param id of the scale and the calibration in force: weighings with one id share its span error
 * @param name in plain words for a page
 * @param readability the step d of its display, above 0
 * @param repeatability standard deviation of repeated readings of one load, found once and
 *     recorded; null where none is on record; never negative
 * @param repeatabilityDegreesOfFreedom ν of that standard deviation, above 0; infinite where not
 *     known
 * @param spanHalfWidth stated limit of its relative error, as 0.001 for ±0.1 %; 0 where none is
 *     stated; below 1
 */
public record Instrument(
    String id,
    String name,
    Mass readability,
    @Nullable Mass repeatability,
    double repeatabilityDegreesOfFreedom,
    double spanHalfWidth) {

  /**
   * @throws IllegalArgumentException if a figure is outside its range
   */
  public Instrument {
    if (readability.signum() <= 0) {
      throw refusal(name, "readability must be above 0", readability);
    }
    if (repeatability != null && repeatability.signum() < 0) {
      throw refusal(name, "repeatability cannot be negative", repeatability);
    }
    if (!(repeatabilityDegreesOfFreedom > 0)) {
      throw refusal(name, "degrees of freedom must be above 0", repeatabilityDegreesOfFreedom);
    }
    if (!(spanHalfWidth >= 0 && spanHalfWidth < 1)) {
      throw refusal(name, "span tolerance must be at least 0 and below 1", spanHalfWidth);
    }
  }

  private static IllegalArgumentException refusal(String name, String rule, Object found) {
    return new IllegalArgumentException(name + ": " + rule + ", and is " + found + ".");
  }
}
