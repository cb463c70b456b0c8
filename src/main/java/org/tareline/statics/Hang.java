package org.tareline.statics;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.tareline.units.Range;

/**
 * A body hung by its two ends, with what is not quite known of it. Ranges are in the base units of
 * their kinds: N, deg, m, MPa. Every figure that it answers is a worst case over all of them, each
 * taken as free of the others.
 *
 * @param load what hangs, a dynamic allowance included, in N, above 0
 */
public record Hang(Range load, End first, End second) {

  /** Into how many steps a range of an angle is taken, besides where the extremes are known. */
  private static final int STEPS = 8;

  /**
   * The slenderness below which a bar of unknown yield is not taken as slender (common practice, no
   * source; hard aluminium tubes change over near 50 to 70, soft steel near 125).
   */
  private static final double SLENDER = 100;

  /**
   * One end.
   *
   * @param angle of the suspension above the horizontal, in deg, between 0 and 90
   * @param bodyAngle of the body's end as loaded, likewise, where a ridge line is tied at the apex;
   *     null where that is not known of this end or there is no ridge line
   */
  public record End(Range angle, @Nullable Range bodyAngle, @Nullable Bar bar) {}

  /**
   * A spreader bar with its two legs.
   *
   * @param halfAngle between a leg and the axis, in deg
   * @param edgeAngle by which the body's edge converges towards the axis, in deg
   * @param length in m
   * @param section null where it is not known
   */
  public record Bar(Range halfAngle, Range edgeAngle, Range length, @Nullable Section section) {

    /** By the length of the legs, of which the least is more than half of the longest bar. */
    public static Bar ofLegs(Range length, Range leg, Range edgeAngle, @Nullable Section section) {
      return of(
          length,
          edgeAngle,
          section,
          degrees(Bridle.ofLegs(length.nominal(), leg.nominal())),
          degrees(Bridle.ofLegs(length.low(), leg.high())),
          degrees(Bridle.ofLegs(length.high(), leg.low())));
    }

    /** By the distance from the apex to the bar. */
    public static Bar ofApexDistance(
        Range length, Range distance, Range edgeAngle, @Nullable Section section) {
      return of(
          length,
          edgeAngle,
          section,
          degrees(Bridle.ofApexDistance(length.nominal(), distance.nominal())),
          degrees(Bridle.ofApexDistance(length.low(), distance.high())),
          degrees(Bridle.ofApexDistance(length.high(), distance.low())));
    }

    private static Bar of(
        Range length,
        Range edgeAngle,
        @Nullable Section section,
        double nominal,
        double one,
        double other) {
      return new Bar(Range.spanning(nominal, one, other), edgeAngle, length, section);
    }

    private static double degrees(Bridle bridle) {
      return Math.toDegrees(bridle.halfAngle());
    }
  }

  /**
   * The section of a round bar and what it is made of.
   *
   * @param outerDiameter in m
   * @param wall in m; null where it is a rod
   * @param modulus of elasticity along the bar, in MPa
   * @param yield stress in MPa; null where it is not known
   */
  public record Section(
      Range outerDiameter, @Nullable Range wall, Range modulus, @Nullable Range yield) {}

  /**
   * What one end carries, in N.
   *
   * @param tension of the suspension
   * @param horizontal what it pulls sideways, and so does its tree
   * @param vertical what it carries of the load
   * @param bodyPull along the body, the legs and the bar
   * @param ridge what its own body angle asks of the ridge line; null where that is not known
   */
  public record EndLoads(
      Range tension,
      Range horizontal,
      Range vertical,
      Range bodyPull,
      @Nullable Range ridge,
      @Nullable BarLoads bar) {}

  /**
   * What a bar and its legs carry.
   *
   * @param legTension of each leg, in N
   * @param compression of the bar, in N; below 0 where it is pulled apart
   * @param strut at the nominal figures; null where the section is not known
   * @param bucklingLoad by Euler, in N; null where the section is not known
   * @param factor how many times the compression that is; null where there is none
   * @param stocky whether Euler's load is too much to ask of it
   */
  public record BarLoads(
      Range legTension,
      Range compression,
      @Nullable Strut strut,
      @Nullable Range bucklingLoad,
      @Nullable Range factor,
      boolean stocky) {}

  /**
   * What the whole carries.
   *
   * @param tension of the suspension of the end that pulls harder, in N
   * @param bodyPull likewise, along the body
   * @param ridge tension of the ridge line, in N; null where no body angle is known
   */
  public record Loads(
      EndLoads first, EndLoads second, Range tension, Range bodyPull, @Nullable Range ridge) {

    public List<EndLoads> ends() {
      return List.of(first, second);
    }

    /** Whether there is a ridge line that carries nothing at the nominal figures. */
    public boolean slack() {
      return ridge != null && ridge.nominal() == 0;
    }

    /** The tension of the legs of the end that pulls harder, in N; null where there is no bar. */
    public @Nullable Range legTension() {
      Range most = null;
      for (EndLoads end : ends()) {
        if (end.bar() != null) {
          Range leg = end.bar().legTension();
          most = most == null ? leg : most.max(leg);
        }
      }
      return most;
    }
  }

  /** Everything at one set of angles, per newton of load. */
  private record Moment(Supports supports, RidgeLine first, RidgeLine second) {}

  /**
   * The same hang with both suspensions at one angle.
   *
   * @param degrees between 0 and 90
   */
  public Hang at(double degrees) {
    return at(Range.of(degrees));
  }

  private Hang at(Range angle) {
    return new Hang(
        load,
        new End(angle, first.bodyAngle(), first.bar()),
        new End(angle, second.bodyAngle(), second.bar()));
  }

  /** What all of it carries. */
  public Loads loads() {
    Moment nominal =
        moment(
            first.angle().nominal(),
            second.angle().nominal(),
            nominal(first.bodyAngle()),
            nominal(second.bodyAngle()));
    List<Moment> all = new ArrayList<>(List.of(nominal));
    for (double a : angles(first, second)) {
      for (double b : angles(second, first)) {
        for (Double alpha : ends(first.bodyAngle())) {
          for (Double beta : ends(second.bodyAngle())) {
            all.add(moment(a, b, alpha, beta));
          }
        }
      }
    }
    Range firstTension = over(all, m -> m.supports().first());
    Range secondTension = over(all, m -> m.supports().second());
    Range firstRidge = first.bodyAngle() == null ? null : over(all, m -> m.first().tension());
    Range secondRidge = second.bodyAngle() == null ? null : over(all, m -> m.second().tension());
    Range firstPull = over(all, m -> m.first().bodyPull());
    Range secondPull = over(all, m -> m.second().bodyPull());
    return new Loads(
        new EndLoads(
            firstTension,
            over(all, m -> m.supports().horizontal()),
            over(all, m -> m.supports().firstVertical()),
            firstPull,
            firstRidge,
            bar(first.bar(), firstPull)),
        new EndLoads(
            secondTension,
            over(all, m -> m.supports().horizontal()),
            over(all, m -> m.supports().secondVertical()),
            secondPull,
            secondRidge,
            bar(second.bar(), secondPull)),
        firstTension.max(secondTension),
        firstPull.max(secondPull),
        firstRidge == null || secondRidge == null
            ? firstRidge == null ? secondRidge : firstRidge
            : firstRidge.max(secondRidge));
  }

  private static Moment moment(double a, double b, @Nullable Double alpha, @Nullable Double beta) {
    double theta = Math.toRadians(a);
    double other = Math.toRadians(b);
    Supports supports = Supports.of(1, theta, other);
    RidgeLine one = alpha == null ? null : ridge(supports.firstVertical(), theta, alpha);
    RidgeLine two = beta == null ? null : ridge(supports.secondVertical(), other, beta);
    double tension = Math.max(one == null ? 0 : one.tension(), two == null ? 0 : two.tension());
    return new Moment(
        supports,
        one != null
            ? one
            : RidgeLine.atTension(supports.firstVertical(), supports.horizontal(), tension),
        two != null
            ? two
            : RidgeLine.atTension(supports.secondVertical(), supports.horizontal(), tension));
  }

  private static RidgeLine ridge(double vertical, double theta, double alpha) {
    return RidgeLine.of(vertical, theta, Math.toRadians(alpha));
  }

  private static @Nullable Double nominal(@Nullable Range range) {
    return range == null ? null : range.nominal();
  }

  /** The one figure of a narrow range, both ends of a wide one, or null alone. */
  private static List<@Nullable Double> ends(@Nullable Range range) {
    List<@Nullable Double> ends = new ArrayList<>();
    ends.add(range == null ? null : range.low());
    if (range != null && range.isWide()) {
      ends.add(range.high());
    }
    return ends;
  }

  /**
   * Where the pulls of an end can be least or greatest: at the ends of its range, square to the
   * other line, where the tension is least, and where the ridge line goes slack.
   */
  private static TreeSet<Double> angles(End end, End other) {
    Range angle = end.angle();
    TreeSet<Double> found = new TreeSet<>();
    found.add(angle.low());
    found.add(angle.high());
    if (angle.isWide()) {
      for (int step = 1; step < STEPS; step++) {
        found.add(angle.low() + (angle.high() - angle.low()) * step / STEPS);
      }
      found.add(90 - other.angle().low());
      found.add(90 - other.angle().high());
      for (Double alpha : ends(end.bodyAngle())) {
        if (alpha != null) {
          found.add(alpha);
        }
      }
      found.removeIf(one -> one < angle.low() || one > angle.high());
    }
    return found;
  }

  private Range over(List<Moment> all, ToDoubleFunction<Moment> figure) {
    Range perNewton = Range.of(figure.applyAsDouble(all.get(0)));
    for (Moment moment : all) {
      perNewton = perNewton.including(figure.applyAsDouble(moment));
    }
    return perNewton.times(load);
  }

  private static @Nullable BarLoads bar(@Nullable Bar bar, Range pull) {
    if (bar == null) {
      return null;
    }
    Range phi = bar.halfAngle().map(Math::toRadians);
    Range legTension = pull.times(phi.map(at -> new Bridle(at).legTension(1)));
    // Both tangents rise with their angles, so that their sum is at its worst with both.
    Range compression =
        pull.times(
            phi.map(Math::tan)
                .plus(bar.edgeAngle().map(at -> Math.tan(Math.toRadians(at))))
                .times(0.5));
    Section section = bar.section();
    if (section == null) {
      return new BarLoads(legTension, compression, null, null, null, false);
    }
    Strut strut = strut(bar, section, Range::nominal);
    Range buckling =
        Range.spanning(
            strut.eulerLoad(),
            new Strut(
                    bar.length().high(),
                    strut.area(),
                    strut(bar, section, Range::low).secondMoment(),
                    section.modulus().low() * 1e6)
                .eulerLoad(),
            new Strut(
                    bar.length().low(),
                    strut.area(),
                    strut(bar, section, Range::high).secondMoment(),
                    section.modulus().high() * 1e6)
                .eulerLoad());
    return new BarLoads(
        legTension,
        compression,
        strut,
        buckling,
        compression.low() > 0 ? buckling.over(compression) : null,
        isStocky(strut, section.yield()));
  }

  private static Strut strut(Bar bar, Section section, ToDoubleFunction<Range> of) {
    double diameter = of.applyAsDouble(section.outerDiameter());
    double wall = section.wall() == null ? diameter / 2 : of.applyAsDouble(section.wall());
    return Strut.tube(
        bar.length().nominal(), diameter, wall, of.applyAsDouble(section.modulus()) * 1e6);
  }

  private static boolean isStocky(Strut strut, @Nullable Range yield) {
    return strut.slenderness() < (yield == null ? SLENDER : strut.transition(yield.low() * 1e6));
  }
}
