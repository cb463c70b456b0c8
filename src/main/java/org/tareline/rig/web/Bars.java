package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.tareline.evidence.Estimate;
import org.tareline.units.MassStyle;

/**
 * Masses as horizontal bars with whiskers, from the rows of the table beside them. Every bar begins
 * at nothing, so that lengths can be compared; every attribute is ready for a template.
 *
 * @param width of the drawing, and so the unit of all other numbers
 */
record Bars(int width, String height, List<Bar> bars) {

  /** Room for the bars; what is right of it is for the figures. */
  static final int PLOT = 300;

  private static final int WIDTH = 380;
  private static final int STEP = 42;

  /** A mass with its name. */
  record Row(String label, Estimate mass) {}

  /**
   * A bar with its name above and its figure behind it.
   *
   * @param from where the whisker begins, to where it ends; both at the bar's end where there is no
   *     uncertainty
   */
  record Bar(
      String label,
      String figure,
      String labelY,
      String y,
      String length,
      String from,
      String to,
      String whiskerY,
      String capTop,
      String capBottom,
      String figureX,
      String figureY) {}

  /**
   * Draws rows in their order.
   *
   * @param decimals of the figures, as in the table
   */
  static Bars of(List<Row> rows, MassStyle style, int decimals) {
    double longest =
        rows.stream().mapToDouble(row -> grams(row) + uncertainty(row)).max().orElse(0);
    double scale = longest == 0 ? 0 : PLOT / longest;
    List<Bar> bars = new ArrayList<>();
    for (Row row : rows) {
      int top = bars.size() * STEP;
      double end = grams(row) * scale;
      double whisker = uncertainty(row) * scale;
      bars.add(
          new Bar(
              row.label(),
              style.number(row.mass().value(), decimals),
              text(top + 14),
              text(top + 20),
              text(end),
              text(Math.max(0, end - whisker)),
              text(end + whisker),
              text(top + 27),
              text(top + 23),
              text(top + 31),
              text(end + whisker + 6),
              text(top + 32)));
    }
    return new Bars(WIDTH, text(rows.size() * STEP), bars);
  }

  private static double grams(Row row) {
    return row.mass().value().inGrams();
  }

  private static double uncertainty(Row row) {
    return row.mass().expandedUncertaintyInGrams();
  }

  /** A coordinate: the same in every locale. */
  static String text(double coordinate) {
    return String.format(Locale.ROOT, "%.2f", coordinate);
  }
}
