package org.tareline.evidence;

import org.tareline.units.Mass;

/**
 * What is known of how the readings of a scale go with the load while one calibration is in force.
 * It is one source of error, which all that is weighed meanwhile shares.
 */
public sealed interface Span {

  /** Of the scale and the calibration in force. */
  String id();

  /** The source of error that it is, on the scale of that name. */
  Source source(String scale);

  /**
   * What it contributes to the standard uncertainty of one piece, in grams.
   *
   * @param value of one piece
   * @param load mean of the readings, the tare still on
   * @param count of alike pieces on the pan
   * @throws IllegalArgumentException if nothing is known of so large a load
   */
  double uncertaintyInGrams(Mass value, Mass load, int count);

  /**
   * A limit in proportion to the load, stated by somebody: rectangular, a/√3 (JCGM 100:2008,
   * 4.3.7). It does not correct what is read.
   *
   * @param halfWidth a, as 0.001 for ±0.1 %; 0 where nothing is stated; below 1
   */
  record Stated(String id, double halfWidth) implements Span {

    /**
     * @throws IllegalArgumentException if the half-width is outside its range
     */
    public Stated {
      if (!(halfWidth >= 0 && halfWidth < 1)) {
        throw new IllegalArgumentException(
            "A span tolerance must be at least 0 and below 1, and is " + halfWidth + ".");
      }
    }

    @Override
    public Source source(String scale) {
      return Source.of(id, "span of " + scale);
    }

    @Override
    public double uncertaintyInGrams(Mass value, Mass load, int count) {
      return value.inGrams() * halfWidth / Math.sqrt(3);
    }
  }

  /**
   * A limit by steps of the load, which the accuracy class of the scale permits it in service (OIML
   * R 76-1:2006, 3.5.2): rectangular, MPE/√3. It does not correct what is read. The error is
   * thought to have one sign whatever the load, so that things weighed on the scale share it.
   *
   * @param interval e, above 0
   */
  record Permitted(String id, AccuracyClass accuracyClass, Mass interval) implements Span {

    /**
     * @throws IllegalArgumentException if the interval is not above 0
     */
    public Permitted {
      if (interval.signum() <= 0) {
        throw new IllegalArgumentException(
            "A verification interval must be above 0, and is " + interval + ".");
      }
    }

    @Override
    public Source source(String scale) {
      return Source.of(id, "error that class " + accuracyClass.name() + " permits " + scale);
    }

    @Override
    public double uncertaintyInGrams(Mass value, Mass load, int count) {
      return accuracyClass.inService(interval, load).inGrams() / Math.sqrt(3) / count;
    }
  }

  /**
   * What check weights showed: readings are divided by it (JCGM 100:2008, 3.2.4).
   *
   * @param slope what is read for each gram on the scale, above 0
   * @param standardUncertainty of the slope, never negative
   * @param degreesOfFreedom ν of that, above 0
   * @see SpanFit
   */
  record Found(String id, double slope, double standardUncertainty, double degreesOfFreedom)
      implements Span {

    /**
     * @throws IllegalArgumentException if a figure is outside its range
     */
    public Found {
      if (!(slope > 0 && Double.isFinite(slope))) {
        throw new IllegalArgumentException("A slope must be above 0, and is " + slope + ".");
      }
      if (!(standardUncertainty >= 0 && degreesOfFreedom > 0)) {
        throw new IllegalArgumentException(
            "A slope cannot be uncertain by "
                + standardUncertainty
                + " with "
                + degreesOfFreedom
                + " degrees of freedom.");
      }
    }

    @Override
    public Source source(String scale) {
      return new Source(id, "span of " + scale + " by its check", degreesOfFreedom, id);
    }

    @Override
    public double uncertaintyInGrams(Mass value, Mass load, int count) {
      return value.inGrams() * standardUncertainty / slope;
    }
  }
}
