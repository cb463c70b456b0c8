package org.tareline.weighing.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.SpanFit;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * How far a scale was off at each check weight, with whiskers, and the line fitted to that. A scale
 * that is right lies on the axis. Every attribute is ready for a template.
 *
 * @param unit of the figures at the side
 * @param axisY where nothing is off
 * @param line the fitted line, and
 * @param band the lines between which it lies, at 95 %, as paths
 */
record FitChart(
    int width,
    int height,
    String axisY,
    String left,
    String right,
    String line,
    String band,
    List<Point> points,
    List<Label> labels,
    String unit) {

  private static final int WIDTH = 400;
  private static final int HEIGHT = 250;
  private static final int LEFT = 70;
  private static final int RIGHT = WIDTH - 12;
  private static final int TOP = 24;
  private static final int BOTTOM = HEIGHT - 34;

  /** A weight. */
  record Point(String x, String y, String whisker) {}

  /**
   * A figure beside the drawing.
   *
   * @param anchor {@code start} or {@code end}
   */
  record Label(String text, String x, String y, String anchor) {}

  /**
   * Draws a fit.
   *
   * @param decimals of the figures at the side, as in the table
   */
  static FitChart of(SpanFit fit, MassStyle style, int decimals) {
    return drawn(fit, style.alone(), decimals);
  }

  private static FitChart drawn(SpanFit fit, MassStyle style, int decimals) {
    double heaviest = 0;
    double least = 0;
    double most = 0;
    for (int i = 0; i < fit.points().size(); i++) {
      Estimate deviation = fit.deviations().get(i);
      double whisker = deviation.expandedUncertaintyInGrams();
      heaviest = Math.max(heaviest, fit.points().get(i).nominal().inGrams());
      least = Math.min(least, deviation.value().inGrams() - whisker);
      most = Math.max(most, deviation.value().inGrams() + whisker);
    }
    double off = fit.slope() - 1;
    double unsure = fit.expandedUncertainty();
    least = Math.min(least, (off - unsure) * heaviest);
    most = Math.max(most, (off + unsure) * heaviest);
    Plane plane = new Plane(heaviest, least, most);

    List<Point> points = new ArrayList<>();
    for (int i = 0; i < fit.points().size(); i++) {
      Estimate deviation = fit.deviations().get(i);
      double load = fit.points().get(i).nominal().inGrams();
      double grams = deviation.value().inGrams();
      points.add(
          new Point(
              text(plane.x(load)),
              text(plane.y(grams)),
              plane.whisker(load, grams, deviation.expandedUncertaintyInGrams())));
    }
    List<Label> labels = new ArrayList<>();
    labels.add(side("0", plane.y(0)));
    if (plane.y(0) - plane.y(most) > 18) {
      labels.add(side(signed(most, style, decimals), plane.y(most)));
    }
    if (plane.y(least) - plane.y(0) > 18) {
      labels.add(side(signed(least, style, decimals), plane.y(least)));
    }
    Mass load = Mass.fromGrams(heaviest);
    labels.add(new Label("nothing on it", text(LEFT), text(HEIGHT - 8.0), "start"));
    labels.add(
        new Label(style.text(load, style.decimals(load)), text(RIGHT), text(HEIGHT - 8.0), "end"));
    return new FitChart(
        WIDTH,
        HEIGHT,
        text(plane.y(0)),
        text(LEFT),
        text(RIGHT),
        plane.ray(off),
        plane.ray(off - unsure) + plane.ray(off + unsure),
        points,
        labels,
        style.heading());
  }

  private static Label side(String figure, double y) {
    return new Label(figure, text(LEFT - 8.0), text(y + 4), "end");
  }

  private static String signed(double grams, MassStyle style, int decimals) {
    return (grams > 0 ? "+" : "") + style.number(Mass.fromGrams(grams), decimals);
  }

  private static String text(double coordinate) {
    return String.format(Locale.ROOT, "%.2f", coordinate);
  }

  /** From grams to places. */
  private record Plane(double heaviest, double least, double most) {

    double x(double load) {
      return LEFT + (RIGHT - LEFT - 10) * load / heaviest;
    }

    double y(double off) {
      return most == least ? BOTTOM : TOP + (BOTTOM - TOP) * (most - off) / (most - least);
    }

    String ray(double slope) {
      return "M"
          + text(x(0))
          + " "
          + text(y(0))
          + "L"
          + text(x(heaviest))
          + " "
          + text(y(slope * heaviest));
    }

    String whisker(double load, double off, double half) {
      String x = text(x(load));
      String from = text(x(load) - 4);
      String to = text(x(load) + 4);
      String top = text(y(off + half));
      String bottom = text(y(off - half));
      return "M" + x + " " + top + "V" + bottom + "M" + from + " " + top + "H" + to + "M" + from
          + " " + bottom + "H" + to;
    }
  }
}
