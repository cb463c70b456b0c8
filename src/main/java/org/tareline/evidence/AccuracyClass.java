package org.tareline.evidence;

import java.util.Optional;
import org.tareline.units.Mass;

/**
 * The accuracy classes of non-automatic weighing instruments (OIML R 76-1:2006): how far off one
 * may be at a load, in steps of its verification interval e.
 */
public enum AccuracyClass {
  /** Special accuracy. */
  I(50_000, 200_000, Long.MAX_VALUE),
  /** High accuracy. */
  II(5_000, 20_000, 100_000),
  /** Medium accuracy: most scales in shops. */
  III(500, 2_000, 10_000),
  /** Ordinary accuracy. */
  IIII(50, 200, 1_000);

  private static final Mass FINE = Mass.ofGrams("0.05");

  // Loads in intervals up to which 1/2, 1 and 3/2 of an interval hold, each included (table 6).
  private final long toHalf;
  private final long toWhole;
  private final long most;

  AccuracyClass(long toHalf, long toWhole, long most) {
    this.toHalf = toHalf;
    this.toWhole = toWhole;
    this.most = most;
  }

  /** The class so called, in any case. */
  public static Optional<AccuracyClass> of(String word) {
    for (AccuracyClass each : values()) {
      if (each.name().equalsIgnoreCase(word.strip())) {
        return Optional.of(each);
      }
    }
    return Optional.empty();
  }

  /**
   * Maximum permissible error on initial verification, in grams (3.5.1, table 6).
   *
   * @param interval e, above 0
   * @param load from nothing to {@link #reaches the end} of the class
   * @throws IllegalArgumentException if the load is beyond that
   */
  public double onVerificationInGrams(Mass interval, Mass load) {
    return inService(interval, load).inGrams() / 2;
  }

  /**
   * Maximum permissible error in service: twice that on initial verification (3.5.2), which makes
   * it whole intervals.
   *
   * @param interval e, above 0
   * @param load from nothing to {@link #reaches the end} of the class
   * @throws IllegalArgumentException if the load is beyond that
   */
  public Mass inService(Mass interval, Mass load) {
    if (load.signum() < 0 || !reaches(interval, load)) {
      throw new IllegalArgumentException(
          "Class "
              + name()
              + " with e = "
              + interval
              + " has no error for a load of "
              + load
              + ".");
    }
    return interval.times(
        within(load, interval, toHalf) ? 1 : within(load, interval, toWhole) ? 2 : 3);
  }

  /**
   * Whether the class has a permissible error for so large a load (table 3; class I has no end).
   */
  public boolean reaches(Mass interval, Mass load) {
    return within(load, interval, most);
  }

  /** Below this load the relative error may be excessive (table 3, Min). */
  public Mass least(Mass interval) {
    return interval.times(
        switch (this) {
          case I -> 100;
          case II -> interval.compareTo(FINE) <= 0 ? 20 : 50;
          case III -> 20;
          case IIII -> 10;
        });
  }

  private static boolean within(Mass load, Mass interval, long intervals) {
    return Math.floorDiv(load.nanograms() - 1, interval.nanograms()) < intervals; // no overflow
  }
}
