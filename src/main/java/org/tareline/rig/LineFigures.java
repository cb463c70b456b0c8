package org.tareline.rig;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.tareline.statics.ShallowLine;
import org.tareline.units.Range;

/**
 * A shallow line worked out, as a parabola.
 *
 * @param horizontal pull at the lowest point, in N
 * @param greatest pull at the supports, in N
 * @param sag in m
 * @param length of the line, in m
 */
public record LineFigures(Range horizontal, Range greatest, Range sag, Range length) {

  /** By the sag or, where that is null, by the horizontal pull. */
  static LineFigures of(
      Range perLength, Range span, @Nullable Range sag, @Nullable Range horizontal) {
    boolean bySag = sag != null;
    Range third = sag != null ? sag : horizontal == null ? Range.ONE : horizontal;
    // Each figure only rises or only falls with each that is given, so its ends are at corners.
    List<ShallowLine> lines = new ArrayList<>();
    lines.add(line(perLength.nominal(), span.nominal(), third.nominal(), bySag));
    for (double w : new double[] {perLength.low(), perLength.high()}) {
      for (double l : new double[] {span.low(), span.high()}) {
        for (double x : new double[] {third.low(), third.high()}) {
          lines.add(line(w, l, x, bySag));
        }
      }
    }
    return new LineFigures(
        over(lines, ShallowLine::horizontal),
        over(lines, ShallowLine::greatest),
        over(lines, ShallowLine::sag),
        over(lines, ShallowLine::length));
  }

  private static ShallowLine line(double perLength, double span, double third, boolean bySag) {
    return bySag
        ? new ShallowLine(perLength, span, third)
        : ShallowLine.ofHorizontal(perLength, span, third);
  }

  private static Range over(List<ShallowLine> lines, ToDoubleFunction<ShallowLine> figure) {
    Range range = Range.of(figure.applyAsDouble(lines.get(0)));
    for (ShallowLine line : lines) {
      range = range.including(figure.applyAsDouble(line));
    }
    return range;
  }
}
