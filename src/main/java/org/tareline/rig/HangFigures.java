package org.tareline.rig;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.tareline.statics.Assessment;
import org.tareline.statics.Element;
import org.tareline.statics.Hang;
import org.tareline.units.Range;

/**
 * A hang with what it carries, and its elements held against that.
 *
 * @param loads forces in N
 * @param edge greatest pull in one edge of the body, in N; null where it was not asked about
 * @param edgeHorizontal what that is at the lowest point of the edge; null likewise
 */
public record HangFigures(
    Hang hang,
    Hang.Loads loads,
    @Nullable Range edge,
    @Nullable Range edgeHorizontal,
    double designFactor,
    Assessment assessment) {

  /** The lower bound of the range of design factors for fibre rope, Cordage Institute CI 1401. */
  public static final double LOWER_BOUND = 5;

  private static final double LEAST_ANGLE = 0.5;
  private static final double MOST_ANGLE = 89.5;

  /** The same elements, with both suspensions at one angle in degrees. */
  public Assessment at(double degrees) {
    return Assessment.of(hang.at(degrees).loads(), edge, elements(), designFactor);
  }

  private List<Element> elements() {
    return assessment.checked().stream().map(Assessment.Checked::element).toList();
  }

  /**
   * The least angle, in degrees, at which every element whose strength is known has what is wanted
   * of it, with both suspensions at that angle; nothing where none of them is known or no angle
   * will do.
   */
  public OptionalDouble angleThatMeets() {
    double low = LEAST_ANGLE;
    double high = MOST_ANGLE;
    double steepest = at(high).leastShare();
    if (Double.isInfinite(steepest) || steepest < 1) {
      return OptionalDouble.empty();
    }
    // The steeper it hangs the less everything in it carries.
    while (high - low > 1e-6) {
      double middle = (low + high) / 2;
      if (at(middle).leastShare() < 1) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return OptionalDouble.of(high);
  }

  /** What is to be known of these figures beyond the cautions that hold for all. */
  public List<String> notes() {
    List<String> notes = new ArrayList<>();
    if (designFactor < LOWER_BOUND) {
      notes.add(
          "The design factor is below 5, the lower bound of what Cordage Institute CI 1401 recommends for rope.");
    }
    if (loads.slack()) {
      notes.add(
          "The ridge line is slack: the body hangs no steeper than the suspension, so it carries nothing and sets nothing.");
    }
    for (int end = 0; end < 2; end++) {
      Hang.BarLoads bar = loads.ends().get(end).bar();
      if (bar == null) {
        continue;
      }
      String which = end == 0 ? "first" : "second";
      Range factor = bar.factor();
      if (bar.bucklingLoad() == null) {
        notes.add("Whether the bar of the " + which + " end bows out is not known.");
      } else if (factor != null && factor.low() < 1) {
        notes.add("The bar of the " + which + " end bows out under this load.");
      } else if (factor != null && factor.low() < designFactor) {
        notes.add(
            "The bar of the " + which + " end has less than the design factor against bowing out.");
      }
      if (bar.stocky()) {
        notes.add(
            "The bar of the "
                + which
                + " end is too stocky for Euler's formula to hold: it can give way below the buckling load shown.");
      }
    }
    return notes;
  }
}
