package org.tareline.part.web;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.part.LifeEvent;
import org.tareline.part.LifeEvents;
import org.tareline.part.PartEvidence;
import org.tareline.site.Figure;
import org.tareline.site.Moments;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;
import org.tareline.units.Quantity;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * The mass of a part over time, each weighing with its ± at 95 %, and what happened in between;
 * every attribute is ready for a template. Marks differ by shape and word: a dot for what may say
 * the mass, a drop for what was damp or wet, hollow for what was struck out. The scale is that of
 * what may say the mass and does not begin at nothing; what is off it is an arrow at the edge with
 * its figure.
 *
 * @param width of the drawing, and so the unit of all other numbers
 * @param top where the drawing begins, above which nothing is
 * @param unit of the axis of masses
 * @param left where the plot begins
 * @param right where it ends
 * @param bottom where its lower edge is
 * @param dayY where the days are written
 * @param described what there is to see, for whoever does not
 */
record HistoryChart(
    int width,
    String top,
    String height,
    String unit,
    String left,
    String right,
    String bottom,
    String dayY,
    String firstDay,
    String lastDay,
    List<Tick> ticks,
    List<Link> links,
    List<Point> points,
    List<Happening> happenings,
    String described) {

  private static final int WIDTH = 400;
  private static final int TOP = 12;
  private static final int PLOT = 170;
  private static final int BOTTOM = TOP + PLOT;
  private static final int MARGIN = 16;
  private static final int ROW = 15;
  private static final int MOST_ROWS = 8;

  /** About as wide as a letter of 12 units is. */
  private static final double LETTER = 6.6;

  private static final int MOST_TICKS = 5;

  /** A line of the axis of masses, with its figure. */
  record Tick(String y, String label, String labelX, String labelY) {}

  /**
   * From one usable weighing to the next.
   *
   * @param look of a change that can be told, or of none
   */
  record Link(String look, String path) {}

  /**
   * A weighing.
   *
   * @param whisker null where it has no room
   * @param label condition, piece, and the figure of what is off the scale; empty where there is
   *     nothing to say
   * @param anchor which end of the label is at its place
   */
  record Point(
      String look,
      String mark,
      @Nullable String whisker,
      String label,
      String labelX,
      String labelY,
      String anchor) {}

  /**
   * What happened.
   *
   * @param word empty where there is no room for it
   */
  record Happening(String x, String to, String word, String wordX, String wordY, String anchor) {}

  /**
   * Draws what stood on the pan by itself.
   *
   * @return null where there are not two weighings to draw
   */
  static @Nullable HistoryChart of(
      PartEvidence known,
      Map<UUID, PartEvidence.Change> changes,
      MassStyle style,
      Moments moments) {
    List<Weighings.Logged> drawn =
        known.weighings().stream()
            .filter(logged -> !logged.together())
            .sorted(Comparator.comparing(logged -> logged.weighing().weighedAt()))
            .toList();
    if (drawn.size() < 2) {
      return null;
    }
    List<LifeEvent> happened =
        known.events().stream()
            .filter(logged -> logged.voidReason() == null)
            .map(LifeEvents.Logged::event)
            .sorted(Comparator.comparing(LifeEvent::happenedAt))
            .toList();
    return new Drawing(known, drawn, happened, style.alone()).draw(changes, moments);
  }

  /** From masses and times to places. */
  private static final class Drawing {
    private final PartEvidence known;
    private final List<Weighings.Logged> drawn;
    private final List<LifeEvent> happened;
    private final MassStyle style;
    private final Instant first;
    private final Instant last;
    private final double least;
    private final double most;
    private final List<Tick> ticks;
    private final double left;
    private final Rows over = new Rows();
    private final Rows under = new Rows();

    Drawing(
        PartEvidence known,
        List<Weighings.Logged> drawn,
        List<LifeEvent> happened,
        MassStyle style) {
      this.known = known;
      this.drawn = drawn;
      this.happened = happened;
      this.style = style;
      List<Instant> times = new ArrayList<>();
      drawn.forEach(logged -> times.add(logged.weighing().weighedAt()));
      happened.forEach(event -> times.add(event.happenedAt()));
      times.sort(Comparator.naturalOrder());
      this.first = times.get(0);
      this.last = times.get(times.size() - 1);

      // What was struck out or wet may be far off; it does not set the scale unless it is alone.
      List<Weighings.Logged> usable = drawn.stream().filter(PartEvidence::usable).toList();
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (Weighings.Logged logged : usable.isEmpty() ? drawn : usable) {
        Estimate estimate = known.estimate(logged);
        double whisker = estimate.expandedUncertaintyInGrams();
        low = Math.min(low, estimate.value().inGrams() - whisker);
        high = Math.max(high, estimate.value().inGrams() + whisker);
      }
      double room = high > low ? (high - low) * 0.12 : Math.max(high * 0.01, 0.001);
      this.least = low - room;
      this.most = high + room;

      List<String> labels = new ArrayList<>();
      List<Mass> masses = new ArrayList<>();
      double unit = Quantity.of("1", style.unit()).mass().inGrams();
      double step = step((most - least) / unit);
      int decimals = Math.max(0, BigDecimal.valueOf(step).stripTrailingZeros().scale());
      for (long i = (long) Math.ceil(least / unit / step); i * step * unit <= most; i++) {
        Mass mass = Mass.fromGrams(i * step * unit);
        masses.add(mass);
        labels.add(style.number(mass, decimals));
      }
      this.left = 10 + LETTER * labels.stream().mapToInt(String::length).max().orElse(0);
      this.ticks = new ArrayList<>();
      for (int i = 0; i < masses.size(); i++) {
        double y = y(masses.get(i).inGrams());
        ticks.add(new Tick(text(y), labels.get(i), text(left - 6), text(y + 4)));
      }
    }

    /** The smallest of 1, 2 and 5 times a power of ten that gives few enough lines. */
    private static double step(double range) {
      double power = Math.pow(10, Math.floor(Math.log10(range / MOST_TICKS)));
      for (double factor : new double[] {1, 2, 5}) {
        if (range / (factor * power) <= MOST_TICKS) {
          return factor * power;
        }
      }
      return 10 * power;
    }

    private double x(Instant at) {
      double span = last.toEpochMilli() - (double) first.toEpochMilli();
      double begin = left + MARGIN;
      double end = WIDTH - MARGIN;
      return span == 0
          ? (begin + end) / 2
          : begin + (end - begin) * (at.toEpochMilli() - first.toEpochMilli()) / span;
    }

    private double y(double grams) {
      return BOTTOM - (grams - least) * PLOT / (most - least);
    }

    HistoryChart draw(Map<UUID, PartEvidence.Change> changes, Moments moments) {
      List<Happening> happenings = happenings();
      double lowest =
          happenings.stream().mapToDouble(each -> Double.parseDouble(each.to())).max().orElse(0);
      List<Point> points = drawn.stream().map(this::point).toList();
      double top = -over.count() * ROW;
      return new HistoryChart(
          WIDTH,
          text(top),
          text(Math.max(BOTTOM + 24, lowest + 6) - top),
          style.heading(),
          text(left),
          text(WIDTH),
          text(BOTTOM),
          text(BOTTOM + 16),
          moments.day(first),
          moments.day(last),
          ticks,
          links(changes),
          points,
          happenings,
          described(changes, moments));
    }

    private List<Link> links(Map<UUID, PartEvidence.Change> changes) {
      List<Link> links = new ArrayList<>();
      Map<UUID, Weighings.Logged> byId = new HashMap<>();
      drawn.forEach(logged -> byId.put(logged.weighing().uuid(), logged));
      for (Weighings.Logged to : drawn) {
        PartEvidence.Change change = changes.get(to.weighing().uuid());
        Weighings.Logged from = change == null ? null : byId.get(change.since().uuid());
        if (change != null && from != null) {
          links.add(
              new Link(
                  change.told() ? "chart__change" : "chart__link",
                  "M" + place(from) + "L" + place(to)));
        }
      }
      return links;
    }

    private String place(Weighings.Logged logged) {
      return text(x(logged.weighing().weighedAt()))
          + " "
          + text(y(known.estimate(logged).value().inGrams()));
    }

    private Point point(Weighings.Logged logged) {
      Weighing weighing = logged.weighing();
      Estimate estimate = known.estimate(logged);
      double grams = estimate.value().inGrams();
      double whisker = estimate.expandedUncertaintyInGrams();
      boolean struckOut = logged.voidReason() != null;
      boolean above = grams > most;
      boolean off = above || grams < least;
      double x = x(weighing.weighedAt());
      double y = off ? (above ? TOP : BOTTOM) : y(grams);
      List<String> words = new ArrayList<>();
      if (!weighing.condition().saysTheMass()) {
        words.add(weighing.condition().word());
      }
      if (logged.placed().piece() != null) {
        words.add(logged.placed().piece());
      }
      if (off) {
        words.add(Figure.of(estimate, style).number());
      }
      String label = String.join(" ", words);
      double wide = 8 + LETTER * label.length();
      boolean atTheRight = x + wide > WIDTH;
      double labelY = y - 4;
      if (off) {
        int row = (above ? over : under).place(atTheRight ? x - wide : x, wide);
        labelY = (above ? TOP - 5 : BOTTOM - 3) - row * ROW;
      }
      return new Point(
          struckOut ? "chart__mark chart__mark--hollow" : "chart__mark",
          off ? arrow(x, y, above) : weighing.condition().saysTheMass() ? dot(x, y) : drop(x, y),
          off || whisker == 0 ? null : whisker(x, y(grams + whisker), y(grams - whisker)),
          label,
          text(atTheRight ? x - 8 : x + 8),
          text(labelY),
          atTheRight ? "end" : "start");
    }

    private static String dot(double x, double y) {
      return "M" + text(x - 4) + " " + text(y) + "a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z";
    }

    private static String drop(double x, double y) {
      return "M" + text(x) + " " + text(y - 8) + "c7 8 6 13 0 13c-6 0 -7 -5 0 -13z";
    }

    private static String arrow(double x, double y, boolean up) {
      return "M" + text(x) + " " + text(y) + (up ? "l5 8h-10z" : "l5 -8h-10z");
    }

    private static String whisker(double x, double top, double bottom) {
      double from = Math.max(top, TOP);
      double to = Math.min(bottom, BOTTOM);
      String caps = text(x - 4);
      return "M"
          + text(x)
          + " "
          + text(from)
          + "V"
          + text(to)
          + (top < TOP ? "" : "M" + caps + " " + text(from) + "h8")
          + (bottom > BOTTOM ? "" : "M" + caps + " " + text(to) + "h8");
    }

    private List<Happening> happenings() {
      Rows rows = new Rows();
      List<Happening> happenings = new ArrayList<>();
      for (LifeEvent event : happened) {
        double x = x(event.happenedAt());
        String word = event.kind().word();
        double wide = 3 + LETTER * word.length();
        boolean toTheLeft = x + wide > WIDTH;
        int row = rows.place(toTheLeft ? x - wide : x, wide);
        boolean room = row < MOST_ROWS;
        double baseline = BOTTOM + 34 + (room ? row : 0) * ROW;
        happenings.add(
            new Happening(
                text(x),
                text(baseline),
                room ? word : "",
                text(toTheLeft ? x - 3 : x + 3),
                text(baseline),
                toTheLeft ? "end" : "start"));
      }
      return happenings;
    }

    private String described(Map<UUID, PartEvidence.Change> changes, Moments moments) {
      long told = changes.values().stream().filter(PartEvidence.Change::told).count();
      long struckOut = drawn.stream().filter(logged -> logged.voidReason() != null).count();
      return drawn.size()
          + " weighings from "
          + moments.day(drawn.get(0).weighing().weighedAt())
          + " to "
          + moments.day(drawn.get(drawn.size() - 1).weighing().weighedAt())
          + (struckOut == 0 ? "" : ", " + struckOut + " of them struck out")
          + "; "
          + (told == 0 ? "no change" : told == 1 ? "1 change" : told + " changes")
          + " that can be told from one to the next. The list has every figure.";
    }
  }

  /** Words in as many rows as they need to keep clear of each other; from left to right. */
  private static final class Rows {
    private final List<Double> ends = new ArrayList<>();

    int count() {
      return ends.size();
    }

    /** The first row, counted from 0, that is free from here on; taken from now on. */
    int place(double begin, double wide) {
      int row = 0;
      while (row < ends.size() && ends.get(row) > begin) {
        row++;
      }
      if (row == ends.size()) {
        ends.add(0.0);
      }
      ends.set(row, begin + wide + 6);
      return row;
    }
  }

  /** A coordinate: the same in every locale. */
  private static String text(double coordinate) {
    return String.format(Locale.ROOT, "%.2f", coordinate);
  }
}
