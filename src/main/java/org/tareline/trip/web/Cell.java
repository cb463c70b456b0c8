package org.tareline.trip.web;

import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.site.Figure;
import org.tareline.trip.Total;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;

/**
 * A mass in a column, with what is to be said of it.
 *
 * @param words {@code at least}, {@code not weighed}, a dash where there is nothing to weigh; null
 *     where the figure says it all
 * @param figure null where nothing is known
 */
record Cell(@Nullable String words, @Nullable Figure figure) {

  /** More than can be added up. */
  static final Cell TOO_MUCH = new Cell("too much to add up", null);

  private static final Cell NOTHING = new Cell("–", null);
  private static final Cell NOT_WEIGHED = new Cell("not weighed", null);

  static Cell of(Total total, MassStyle style, int decimals) {
    if (total.lines() == 0) {
      return NOTHING;
    }
    return total.basis() == null
        ? NOT_WEIGHED
        : new Cell(
            total.atLeast() ? "at least" : null, Figure.of(total.estimate(), style, decimals));
  }

  static Cell of(Weights.OfLine line, MassStyle style, int decimals) {
    return of(line.estimate(), line.atLeast(), style, decimals);
  }

  static Cell of(@Nullable Estimate estimate, boolean atLeast, MassStyle style, int decimals) {
    return estimate == null
        ? NOT_WEIGHED
        : new Cell(atLeast ? "at least" : null, Figure.of(estimate, style, decimals));
  }
}
