package org.tareline.evidence;

/**
 * One independent cause of error, such as the span of one scale or the readings of one weighing.
 * Two sources with one id are one source: estimates that share it move together (JCGM 100:2008,
 * 5.2).
 *
 * <p>Sources of one variance group are different errors whose size comes from one and the same
 * standard deviation, found once. What that finding is worth is then counted once as well, however
 * many weighings lean on it: see {@link Estimate#effectiveDegreesOfFreedom()}.
 *
 * @param id what makes it this source and no other
 * @param label what it is, in plain words for a page
 * @param degreesOfFreedom ν of its standard deviation, above 0; {@link Double#POSITIVE_INFINITY}
 *     where that is taken as known, as of a resolution or a stated limit
 * @param varianceGroup names the finding of its standard deviation; its own id where nothing else
 *     leans on that
 */
public record Source(String id, String label, double degreesOfFreedom, String varianceGroup) {

  /**
   * @throws IllegalArgumentException if the degrees of freedom are zero, negative or not a number
   */
  public Source {
    if (!(degreesOfFreedom > 0)) { // written so that NaN is refused too
      throw new IllegalArgumentException(
          "Degrees of freedom must be above 0; those of " + id + " are " + degreesOfFreedom + ".");
    }
  }

  /** A source whose standard deviation is taken as known (ν infinite), in a group of its own. */
  public static Source of(String id, String label) {
    return new Source(id, label, Double.POSITIVE_INFINITY, id);
  }

  /** By id alone. */
  @Override
  public boolean equals(Object other) {
    return this == other || other instanceof Source source && id.equals(source.id);
  }

  /** Of the id, which keeps it: hashing a source twice costs nothing. */
  @Override
  public int hashCode() {
    return id.hashCode();
  }
}
