package org.tareline.rig;

import java.util.List;
import java.util.Objects;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.tareline.statics.Catenary;
import org.tareline.statics.Hang;
import org.tareline.statics.RidgeLine;
import org.tareline.statics.ShallowLine;
import org.tareline.units.Kind;
import org.tareline.units.Range;

/**
 * By how much the two ends of a rig come in under its load, both together, in m; null where not
 * enough is said. Each is reckoned as if it were alone, at the angles as hung.
 *
 * @param body by taking its curve: along its long edge, or between a hanging chain and a load in
 *     its middle of the same angle at the ends
 * @param lines by the stretch of its suspension, straps and legs
 * @param trees by bending in
 * @param settling of knots and line
 * @param someLines whether a line is left out, for its stretch is not known
 * @param ridgeLineLonger by how much a ridge line stretches; null where that is not known
 */
public record ComingIn(
    @Nullable Range body,
    @Nullable Range lines,
    @Nullable Range trees,
    @Nullable Range settling,
    boolean someLines,
    @Nullable Range ridgeLineLonger) {

  /** What can be said of a rig that is hung. */
  public static ComingIn of(
      HangLoads.Entry hung, HangFigures figures, List<RigLoad.InPath> elements) {
    // What one metre along each of the two suspensions is on the level.
    Range level =
        Stream.of(figures.hang().first(), figures.hang().second())
            .map(end -> end.angle().map(degrees -> Math.cos(Math.toRadians(degrees))))
            .reduce(Range.of(0), Range::plus);
    List<RigLoad.InPath> inLine =
        elements.stream()
            .filter(
                one ->
                    one.place() != LoadPlace.BAR
                        && one.place() != LoadPlace.BODY_EDGE
                        && one.place() != LoadPlace.RIDGE_LINE)
            .toList();
    Range tree = read(hung.treeGives());
    Range end = read(hung.settles());
    double[] stretched = stretches(inLine.stream());
    double[] ridge =
        stretches(elements.stream().filter(one -> one.place() == LoadPlace.RIDGE_LINE));
    return new ComingIn(
        body(hung, figures),
        stretched.length == 0 ? null : level.times(DoubleStream.of(stretched).sum()),
        tree == null ? null : tree.times(2),
        end == null ? null : level.times(end),
        stretched.length < inLine.size(),
        ridge.length == 0 ? null : Range.of(DoubleStream.of(ridge).sum()));
  }

  private static double[] stretches(Stream<RigLoad.InPath> elements) {
    return elements
        .map(RigLoad.InPath::stretch)
        .filter(Objects::nonNull)
        .mapToDouble(Double::doubleValue)
        .toArray();
  }

  private static @Nullable Range body(HangLoads.Entry hung, HangFigures figures) {
    Range span = read(hung.edgeSpan());
    Range sag = read(hung.edgeSag());
    if (span != null && sag != null) {
      // What a parabola is longer than its span falls with the span and rises with the sag.
      return Range.spanning(
          longer(span.nominal(), sag.nominal()),
          longer(span.high(), sag.low()),
          longer(span.low(), sag.high()));
    }
    Range flat = read(hung.flatLength());
    if (flat == null) {
      return null;
    }
    Range first = shorter(figures.hang().first(), figures.loads().first());
    Range second = shorter(figures.hang().second(), figures.loads().second());
    return flat.times(first.plus(second).times(0.5));
  }

  private static double longer(double span, double sag) {
    return new ShallowLine(1, span, sag).length() - span;
  }

  /** The share of its flat length that a body loses by hanging at the angle of an end. */
  private static Range shorter(Hang.End end, Hang.EndLoads loads) {
    Range own = end.bodyAngle();
    // An end that does not say follows by its balance: its share of the load over its pull.
    double follows =
        Math.toDegrees(Math.asin(loads.vertical().nominal() / loads.bodyPull().nominal()));
    Range angle = own == null ? Range.of(follows) : own.max(end.angle());
    double chain = 1 - Catenary.spanOverLength(Math.toRadians(angle.low()));
    double middle = 1 - RidgeLine.shareOfFlatLength(Math.toRadians(angle.high()));
    return Range.spanning((chain + middle) / 2, chain, middle);
  }

  private static @Nullable Range read(@Nullable String typed) {
    return typed == null ? null : Range.read(typed, Kind.LENGTH, null);
  }

  private Stream<Range> known() {
    return Stream.of(body, lines, trees, settling).filter(Objects::nonNull);
  }

  /** The sum of what is known; null where nothing is. */
  public @Nullable Range total() {
    return known().reduce(Range::plus).orElse(null);
  }

  /** Whether the ends come in by more than the total, for something is not known. */
  public boolean atLeast() {
    return someLines || known().count() < 4;
  }
}
