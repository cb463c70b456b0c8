package org.tareline.statics;

import org.jspecify.annotations.Nullable;
import org.tareline.units.Range;

/**
 * Something in the path of the load that has to hold.
 *
 * @param strength new and by itself, in N, above 0; null where it is not known
 * @param limit whether that is a working load limit, which holds its design factor already and so
 *     is compared with 1
 * @param termination what its ends leave of the strength, as a fraction of it
 */
public record Element(
    String name, Place place, @Nullable Range strength, boolean limit, Range termination) {

  /** Where in the path of the load something is. */
  public enum Place {
    /** Between body or bridle and the tree: carries the tension of an end. */
    LINE,
    /** From the apex to a tip of a bar. */
    LEG,
    RIDGE_LINE,
    /** Pressed together; a bar whose section is known bows out at Euler's load. */
    BAR,
    /** The long edge of a body between two bars. */
    BODY_EDGE
  }
}
