package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import org.tareline.evidence.Estimate;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * How one total becomes another: from the first a step for each difference, begun where the one
 * before ended, and last the whole way at once. Nothing on the axis is the first total, so that
 * small differences between large totals are still seen in proportion. Downward steps are hollow
 * and upward ones filled, and each has its sign, so that nothing hangs on colour.
 *
 * @param startX where the first total is
 */
record Steps(int width, String height, String startX, List<Step> steps, List<Link> links) {

  private static final int WIDTH = 380;
  private static final int STEP = 42;

  static final String WHOLE = "chart__total";
  static final String UP = "chart__bar";
  static final String DOWN = "chart__bar chart__bar--down";

  /** A difference with its name. */
  record Row(String label, Estimate difference) {}

  /**
   * A bar with its name above and its figure behind it.
   *
   * @param look classes of the stylesheet
   */
  record Step(
      String label,
      String figure,
      String look,
      String labelY,
      String x,
      String y,
      String length,
      String from,
      String to,
      String whiskerY,
      String capTop,
      String capBottom,
      String figureX,
      String figureY) {}

  /** A line from where one step ends to where the next begins. */
  record Link(String x, String from, String to) {}

  /**
   * Draws the way from one total to the other.
   *
   * @param rows differences that add up to the whole
   * @param wholeLabel names the second total
   * @param whole second − first
   * @param decimals of the figures, as in the table
   * @throws IllegalArgumentException if the rows do not add up to it
   */
  static Steps of(
      List<Row> rows, String wholeLabel, Estimate whole, MassStyle style, int decimals) {
    Axis axis = new Axis();
    Mass sum = Mass.ZERO;
    for (Row row : rows) {
      sum = sum.plus(row.difference().value());
      axis.reach(sum, row.difference());
    }
    if (!sum.equals(whole.value())) {
      throw new IllegalArgumentException(
          "The steps lead to " + sum + " and not to " + whole.value() + ".");
    }
    axis.reach(sum, whole);

    List<Step> steps = new ArrayList<>();
    List<Link> links = new ArrayList<>();
    Mass at = Mass.ZERO;
    for (Row row : rows) {
      Mass next = at.plus(row.difference().value());
      String look = next.compareTo(at) < 0 ? DOWN : UP;
      links.add(axis.link(steps.size(), next));
      steps.add(axis.step(steps.size(), row.label(), look, at, row.difference(), style, decimals));
      at = next;
    }
    steps.add(axis.step(steps.size(), wholeLabel, WHOLE, Mass.ZERO, whole, style, decimals));
    return new Steps(WIDTH, Bars.text(steps.size() * STEP), Bars.text(axis.x(0)), steps, links);
  }

  /** From grams to places, once everything that has to fit has been reached. */
  private static final class Axis {
    private double least;
    private double most;

    void reach(Mass end, Estimate figure) {
      double whisker = figure.expandedUncertaintyInGrams();
      least = Math.min(least, end.inGrams() - whisker);
      most = Math.max(most, end.inGrams() + whisker);
    }

    double x(double grams) {
      return most == least ? 0 : (grams - least) * Bars.PLOT / (most - least);
    }

    Link link(int index, Mass at) {
      int top = index * STEP;
      return new Link(Bars.text(x(at.inGrams())), Bars.text(top + 34), Bars.text(top + STEP + 20));
    }

    Step step(
        int index,
        String label,
        String look,
        Mass begin,
        Estimate difference,
        MassStyle style,
        int decimals) {
      int top = index * STEP;
      double start = begin.inGrams();
      double end = start + difference.value().inGrams();
      double whisker = difference.expandedUncertaintyInGrams();
      double left = x(Math.min(start, end));
      double right = x(Math.max(start, end));
      return new Step(
          label,
          (difference.value().signum() > 0 ? "+" : "") + style.number(difference.value(), decimals),
          look,
          Bars.text(top + 14),
          Bars.text(left),
          Bars.text(top + 20),
          Bars.text(right - left),
          Bars.text(x(end - whisker)),
          Bars.text(x(end + whisker)),
          Bars.text(top + 27),
          Bars.text(top + 23),
          Bars.text(top + 31),
          Bars.text(Math.max(right, x(end + whisker)) + 6),
          Bars.text(top + 32));
    }
  }
}
