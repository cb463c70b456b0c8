package org.tareline.evidence;

import java.util.Arrays;
import java.util.List;
import org.tareline.units.Mass;

/**
 * How far readings of one load scatter on a scale, found once and recorded.
 *
 * @param id of the finding: all that leans on it is one variance group
 * @param standardDeviation never negative; 0 where the steps of the display hid all scatter
 * @param degreesOfFreedom ν, above 0; infinite where not known
 */
public record Repeatability(String id, Mass standardDeviation, double degreesOfFreedom) {

  /**
   * @throws IllegalArgumentException if a figure is outside its range
   */
  public Repeatability {
    if (standardDeviation.signum() < 0) {
      throw new IllegalArgumentException(
          "A repeatability cannot be negative, and is " + standardDeviation + ".");
    }
    if (!(degreesOfFreedom > 0)) {
      throw new IllegalArgumentException(
          "Degrees of freedom must be above 0, and are " + degreesOfFreedom + ".");
    }
  }

  /**
   * From readings of one load, taken off and put on again: s, half-even to the nanogram, and ν = n
   * − 1 (JCGM 100:2008, 4.2.2).
   *
   * @throws IllegalArgumentException if there are fewer than two
   */
  public static Repeatability of(String id, List<Mass> readings) {
    return new Repeatability(id, Mass.fromGrams(spreadInGrams(readings)), readings.size() - 1.0);
  }

  /**
   * s, the experimental standard deviation (4.2.2), from distances to the first reading, which are
   * exact and small where readings are large.
   *
   * @throws IllegalArgumentException if there are fewer than two readings
   */
  static double spreadInGrams(List<Mass> readings) {
    if (readings.size() < 2) {
      throw new IllegalArgumentException("Scatter shows in two readings or more.");
    }
    double[] distances =
        readings.stream().mapToDouble(each -> each.minus(readings.get(0)).inGrams()).toArray();
    double mean = Arrays.stream(distances).sum() / distances.length;
    double sumOfSquares = 0;
    for (double distance : distances) {
      sumOfSquares += (distance - mean) * (distance - mean);
    }
    return Math.sqrt(sumOfSquares / (distances.length - 1));
  }
}
