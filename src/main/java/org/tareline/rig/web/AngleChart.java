package org.tareline.rig.web;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.HangFigures;
import org.tareline.units.Range;

/**
 * The least factor of a hang against the angle of its suspensions, with the rig's own point and
 * range on it. A working load limit, which is held against 1, stands as that many times the design
 * factor. Every attribute is ready for a template.
 *
 * @param line through the figures of the table
 * @param wantedY where the design factor is
 * @param own null where it lies beyond the drawing
 * @param rows every five degrees
 */
record AngleChart(
    String described,
    String line,
    String wantedY,
    String wanted,
    @Nullable Own own,
    List<Tick> across,
    List<Tick> up,
    List<Row> rows) {

  static final int WIDTH = 460;
  static final int HEIGHT = 260;
  static final int LEFT = 44;
  static final int RIGHT = WIDTH - 12;
  static final int TOP = 14;
  static final int BOTTOM = HEIGHT - 40;

  private static final int FIRST = 10;
  private static final int LAST = 60;

  /** The rig as it hangs: a point with whiskers. */
  record Own(String x, String y, String whiskers, String labelX, String labelY) {}

  record Tick(String at, String label) {}

  /** A row of the table that the line is drawn from. */
  record Row(String angle, String least) {}

  /** Draws it, or gives null where no strength is known. */
  static @Nullable AngleChart of(HangFigures figures) {
    double wanted = figures.designFactor();
    double most = figures.at(LAST).leastShare() * wanted;
    if (Double.isInfinite(most)) {
      return null;
    }
    Range first = figures.hang().first().angle();
    Range second = figures.hang().second().angle();
    Range angle =
        new Range(
            Math.min(first.low(), second.low()),
            (first.nominal() + second.nominal()) / 2,
            Math.max(first.high(), second.high()));
    double share = figures.assessment().leastShare() * wanted;
    double top = Math.max(Math.max(most, wanted), Math.min(share, 4 * most)) * 1.1;
    StringBuilder line = new StringBuilder();
    List<Row> rows = new ArrayList<>();
    for (int degrees = FIRST; degrees <= LAST; degrees++) {
      double least = figures.at(degrees).leastShare() * wanted;
      line.append(line.isEmpty() ? "M" : "L")
          .append(LoadWords.decimals(x(degrees), 1))
          .append(' ')
          .append(LoadWords.decimals(y(least, top), 1));
      if (degrees % 5 == 0) {
        rows.add(new Row(degrees + "°", LoadWords.decimals(Math.floor(least * 100) / 100, 2)));
      }
    }
    List<Tick> across = new ArrayList<>();
    for (int degrees = FIRST; degrees <= LAST; degrees += 10) {
      across.add(new Tick(LoadWords.decimals(x(degrees), 1), degrees + "°"));
    }
    List<Tick> up = new ArrayList<>();
    double step = top > 40 ? 20 : top > 16 ? 5 : top > 8 ? 2 : 1;
    for (double factor = 0; factor < top; factor += step) {
      up.add(new Tick(LoadWords.decimals(y(factor, top), 1), LoadWords.decimals(factor, 0)));
    }
    return new AngleChart(
        "From "
            + rows.get(0).least()
            + " times at 10° to "
            + rows.get(rows.size() - 1).least()
            + " times at 60°; wanted is "
            + LoadWords.decimals(wanted, 1)
            + "; as hung "
            + LoadWords.decimals(Math.floor(share * 100) / 100, 2)
            + " at "
            + LoadWords.decimals(angle.nominal(), 1)
            + "°.",
        line.toString(),
        LoadWords.decimals(y(wanted, top), 1),
        LoadWords.decimals(wanted, wanted == Math.rint(wanted) ? 0 : 1),
        angle.low() < FIRST || angle.high() > LAST || share > top
            ? null
            : own(angle, figures, wanted, share, top),
        across,
        up,
        rows);
  }

  private static Own own(
      Range angle, HangFigures figures, double wanted, double share, double top) {
    double x = x(angle.nominal());
    double y = y(share, top);
    double up = y(Math.min(figures.at(angle.high()).leastShare() * wanted, top), top);
    double down = y(figures.at(angle.low()).leastShare() * wanted, top);
    return new Own(
        LoadWords.decimals(x, 1),
        LoadWords.decimals(y, 1),
        angle.isWide()
            ? "M"
                + LoadWords.decimals(x(angle.low()), 1)
                + " "
                + LoadWords.decimals(y, 1)
                + "H"
                + LoadWords.decimals(x(angle.high()), 1)
                + "M"
                + LoadWords.decimals(x, 1)
                + " "
                + LoadWords.decimals(Math.max(down, y), 1)
                + "V"
                + LoadWords.decimals(Math.min(up, y), 1)
            : "",
        LoadWords.decimals(x + 8, 1),
        LoadWords.decimals(y + 18, 1));
  }

  private static double x(double degrees) {
    return LEFT + (RIGHT - LEFT) * (degrees - FIRST) / (LAST - FIRST);
  }

  private static double y(double factor, double top) {
    return BOTTOM - (BOTTOM - TOP) * Math.min(factor, top) / top;
  }

  public String viewBox() {
    return "0 0 " + WIDTH + " " + HEIGHT;
  }

  public int left() {
    return LEFT;
  }

  public int right() {
    return RIGHT;
  }

  public int bottom() {
    return BOTTOM;
  }

  public int labelY() {
    return BOTTOM + 18;
  }

  public int titleY() {
    return HEIGHT - 4;
  }
}
