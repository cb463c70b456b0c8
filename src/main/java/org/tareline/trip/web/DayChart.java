package org.tareline.trip.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.tareline.evidence.Estimate;
import org.tareline.trip.Days;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * The pack from morning to evening, day after day, from an axis at zero: a line that falls with
 * what is used and steps up where something is taken, with ± at 95 % at every morning where there
 * is room. Every number is ready for an attribute.
 *
 * @param line the pack, as a path
 * @param base what stays to the end, as the height of a line
 * @param whiskers as a path; empty where there is no room for them
 */
record DayChart(
    String viewBox,
    String left,
    String right,
    String bottom,
    String dayY,
    String line,
    String base,
    String whiskers,
    List<Tick> ticks,
    List<Tick> days) {

  /** A mark of an axis, with its figure. */
  record Tick(String at, String label) {}

  private static final double WIDTH = 460;
  private static final double LEFT = 52;
  private static final double RIGHT = WIDTH - 8;
  private static final double TOP = 10;
  private static final double BOTTOM = 190;
  private static final double DAY_Y = BOTTOM + 17;
  private static final double HEIGHT = DAY_Y + 8;
  private static final double SERIF = 3;
  private static final int MOST_TICKS = 5;
  private static final int MOST_DAY_LABELS = 12;
  private static final int MOST_WHISKERS = 31;

  static DayChart of(List<Days.Day> days, Estimate base, MassStyle style) {
    double most = days.stream().mapToDouble(day -> upper(day.start())).max().orElse(0);
    double perGram = most > 0 ? (BOTTOM - TOP) / most : 0;
    double perDay = (RIGHT - LEFT) / days.size();
    StringBuilder line = new StringBuilder();
    StringBuilder whiskers = new StringBuilder();
    List<Tick> labels = new ArrayList<>();
    int every = (days.size() + MOST_DAY_LABELS - 1) / MOST_DAY_LABELS;
    for (int i = 0; i < days.size(); i++) {
      Days.Day day = days.get(i);
      double x = LEFT + i * perDay;
      line.append(i == 0 ? "M" : "L").append(point(x, y(day.start(), perGram)));
      line.append("L").append(point(x + perDay, y(day.end(), perGram)));
      double reach = day.start().expandedUncertaintyInGrams() * perGram;
      if (reach > 0 && days.size() <= MOST_WHISKERS) {
        double y = y(day.start(), perGram);
        whiskers.append(
            String.format(
                Locale.ROOT,
                "M%1$.2f %3$.2fH%2$.2fM%1$.2f %4$.2fH%2$.2fM%5$.2f %3$.2fV%4$.2f",
                x - SERIF,
                x + SERIF,
                y - reach,
                y + reach,
                x));
      }
      if (i % every == 0) {
        labels.add(new Tick(number(x + perDay / 2), String.valueOf(day.day())));
      }
    }
    return new DayChart(
        "0 0 " + number(WIDTH) + " " + number(HEIGHT),
        number(LEFT),
        number(RIGHT),
        number(BOTTOM),
        number(DAY_Y),
        line.toString(),
        number(y(base, perGram)),
        whiskers.toString(),
        ticks(most, perGram, style.alone()),
        labels);
  }

  private static double upper(Estimate estimate) {
    return estimate.value().inGrams() + estimate.expandedUncertaintyInGrams();
  }

  private static double y(Estimate estimate, double perGram) {
    return BOTTOM - estimate.value().inGrams() * perGram;
  }

  /** Round figures of the reader's unit, a one, two or five with noughts apart. */
  private static List<Tick> ticks(double most, double perGram, MassStyle style) {
    double gramsOfUnit = Mass.parse("1 " + style.unit().symbol()).inGrams();
    double inUnits = most / gramsOfUnit;
    double step = Math.pow(10, Math.floor(Math.log10(Math.max(inUnits, 1e-9))));
    for (double finer : new double[] {0.2, 0.5, 1, 2, 5}) {
      if (inUnits / (step * finer) <= MOST_TICKS) {
        step *= finer;
        break;
      }
    }
    List<Tick> ticks = new ArrayList<>();
    for (int i = 0; i * step <= inUnits; i++) {
      ticks.add(
          new Tick(
              number(BOTTOM - i * step * gramsOfUnit * perGram),
              new BigDecimal(i * step)
                  .round(new MathContext(6))
                  .stripTrailingZeros()
                  .toPlainString()));
    }
    return ticks;
  }

  private static String point(double x, double y) {
    return number(x) + " " + number(y);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
