package org.tareline.trip.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;

/**
 * A bar for each of some masses, heaviest first, from an axis at zero, with its name above it and a
 * whisker over ±. Every number is ready for an attribute.
 */
record RankedBars(String viewBox, String width, String axisEnd, List<Bar> bars) {

  /** One mass to draw. */
  record Of(String name, String figure, Estimate estimate) {}

  /**
   * One bar.
   *
   * @param whisker as a path; null where there is no uncertainty to draw
   */
  record Bar(
      String name,
      String figure,
      String textY,
      String barY,
      String length,
      @Nullable String whisker) {}

  /** Narrow, so that a telephone need not shrink the writing. */
  private static final double WIDTH = 360;

  private static final double STEP = 42;
  private static final double TEXT = 15;
  private static final double BAR = 22;
  static final double THICKNESS = 10;
  private static final double SERIF = 3;
  private static final int LONGEST_NAME = 34;

  static RankedBars of(List<Of> masses) {
    double most =
        masses.stream()
            .mapToDouble(
                mass ->
                    mass.estimate().value().inGrams()
                        + mass.estimate().expandedUncertaintyInGrams())
            .max()
            .orElse(0);
    double perGram = most > 0 ? WIDTH / most : 0;
    List<Bar> bars = new ArrayList<>();
    for (Of mass : masses) {
      bars.add(bar(mass, bars.size() * STEP, perGram));
    }
    double height = masses.size() * STEP;
    return new RankedBars(
        "0 0 " + number(WIDTH) + " " + number(height), number(WIDTH), number(height), bars);
  }

  private static Bar bar(Of mass, double top, double perGram) {
    double length = mass.estimate().value().inGrams() * perGram;
    double reach = mass.estimate().expandedUncertaintyInGrams() * perGram;
    return new Bar(
        mass.name().length() <= LONGEST_NAME
            ? mass.name()
            : mass.name().substring(0, LONGEST_NAME - 1) + "…",
        mass.figure(),
        number(top + TEXT),
        number(top + BAR),
        number(length),
        reach > 0
            ? whisker(Math.max(0, length - reach), length + reach, top + BAR + THICKNESS / 2)
            : null);
  }

  private static String whisker(double from, double to, double y) {
    return String.format(
        Locale.ROOT,
        "M%1$.2f %3$.2fV%4$.2fM%1$.2f %5$.2fH%2$.2fM%2$.2f %3$.2fV%4$.2f",
        from,
        to,
        y - SERIF,
        y + SERIF,
        y);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
