package org.tareline.part.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Nesting;
import org.tareline.cutting.Shape;
import org.tareline.cutting.Shape.Point;
import org.tareline.part.CutLine;

/**
 * A panel drawn to scale: the edge that is cut, and within it the size without allowances.
 *
 * @param box of the drawing, for its viewBox
 * @param cut points of the cut edge
 * @param finished points of the outline without allowances; null where there are none
 */
record Drawing(
    String name,
    String box,
    String cut,
    @Nullable String finished,
    String alongX,
    String alongY,
    String along,
    String acrossX,
    String acrossY,
    String across) {

  /** So long is the longest panel of a list, in units of the drawing. */
  private static final double LONGEST = 300;

  private static final int MARGIN = 26;
  private static final int STEPS = 48;

  /** Units of the drawing for a metre, alike for all panels of a list. */
  static double scale(List<Shape> shapes) {
    return LONGEST / shapes.stream().mapToDouble(Drawing::extent).max().orElse(1);
  }

  private static double extent(Shape shape) {
    return Math.max(shape.length(), shape.width());
  }

  static Drawing of(String name, CutLine line, double scale) {
    Shape outline = line.outline();
    Shape bare = line.outlineWithoutAllowances();
    double length = outline.length() * scale;
    double width = outline.width() * scale;
    boolean allowances = bare.length() != outline.length() || bare.width() != outline.width();
    return new Drawing(
        name,
        "-2 -2 " + text(LONGEST + MARGIN + 40) + " " + text(width + MARGIN),
        points(outline, scale, 0, 0),
        allowances
            ? points(
                bare,
                scale,
                (outline.length() - bare.length()) / 2,
                (outline.width() - bare.width()) / 2)
            : null,
        text(length / 2),
        text(width + 18),
        metres(outline.length()),
        text(length + 6),
        text(width / 2 + 4),
        metres(outline.width()));
  }

  private static String points(Shape shape, double scale, double along, double across) {
    return shape.outline(STEPS).stream()
        .map(point -> at(point, scale, along, across))
        .collect(Collectors.joining(" "));
  }

  private static String at(Point point, double scale, double along, double across) {
    return text((point.along() + along) * scale) + "," + text((point.across() + across) * scale);
  }

  /** A size as a maker measures it: to the millimetre. */
  static String metres(double metres) {
    return new BigDecimal(metres).setScale(3, RoundingMode.HALF_EVEN).toPlainString() + "\u00a0m";
  }

  static String text(double number) {
    return new BigDecimal(number)
        .setScale(1, RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }

  /**
   * Panels on a roll, in their boxes.
   *
   * @param box for its viewBox
   */
  record Roll(String box, String length, String width, List<Box> boxes) {

    record Box(String name, String x, String y, String width, String height, String textY) {}

    static Roll of(Nesting nesting, double usableWidth) {
      double scale = 420 / Math.max(nesting.metres(), usableWidth);
      return new Roll(
          "-1 -1 " + text(nesting.metres() * scale + 2) + " " + text(usableWidth * scale + 2),
          text(nesting.metres() * scale),
          text(usableWidth * scale),
          nesting.places().stream()
              .map(
                  place ->
                      new Box(
                          place.piece().name(),
                          text(place.along() * scale),
                          text(place.across() * scale),
                          text(place.length() * scale),
                          text(place.width() * scale),
                          text((place.across() + place.width() / 2) * scale + 4)))
              .toList());
    }
  }
}
