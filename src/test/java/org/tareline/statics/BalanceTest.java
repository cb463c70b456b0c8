package org.tareline.statics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.units.Range;

/**
 * The formulas held against what they were derived from, over random inputs: free bodies that must
 * be in balance, and curves and struts integrated step by step.
 */
class BalanceTest {

  private static final int CASES = 2_000;

  private final Random random = new Random(20270411);

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private double angle() {
    return Math.toRadians(between(2, 88));
  }

  @Test
  void the_joint_of_two_lines_and_a_load_is_in_balance() {
    for (int i = 0; i < CASES; i++) {
      double load = between(1, 5000);
      double a = angle();
      double b = angle();
      Supports found = Supports.of(load, a, b);

      double scale = load + found.first() + found.second();
      assertThat(found.second() * Math.cos(b) - found.first() * Math.cos(a))
          .isCloseTo(0, within(1e-12 * scale));
      assertThat(found.first() * Math.sin(a) + found.second() * Math.sin(b) - load)
          .isCloseTo(0, within(1e-12 * scale));
      assertThat(found.firstVertical() + found.secondVertical())
          .isCloseTo(load, within(1e-12 * scale));
    }
  }

  @Test
  void the_joint_of_suspension_body_and_ridge_line_is_in_balance() {
    int slack = 0;
    for (int i = 0; i < CASES; i++) {
      double vertical = between(1, 3000);
      double theta = angle();
      double alpha = angle();
      RidgeLine end = RidgeLine.of(vertical, theta, alpha);
      double suspension = vertical / Math.sin(theta);
      // A slack ridge line lets the body fall in line with the suspension.
      double body = end.tension() > 0 ? alpha : theta;
      slack += end.tension() > 0 ? 0 : 1;

      assertThat(suspension * Math.cos(theta) - end.tension() - end.bodyPull() * Math.cos(body))
          .isCloseTo(0, within(1e-11 * suspension));
      assertThat(end.bodyPull() * Math.sin(body)).isCloseTo(vertical, within(1e-11 * suspension));
      assertThat(end.tension() > 0).isEqualTo(alpha > theta);
    }
    assertThat(slack).isBetween(CASES / 4, 3 * CASES / 4);
  }

  @Test
  void the_apex_and_the_tips_of_a_bar_are_in_balance() {
    for (int i = 0; i < CASES; i++) {
      double bar = between(0.2, 1.5);
      double leg = bar / 2 * between(1.01, 5);
      double pull = between(1, 5000);
      double psi = Math.toRadians(between(-30, 30));
      Bridle bridle = Bridle.ofLegs(bar, leg);

      // In coordinates: the apex at the origin, the tips half a bar to either side.
      double distance = Math.sqrt(leg * leg - bar * bar / 4);
      double along = bridle.legTension(pull) * distance / leg;
      double across = bridle.legTension(pull) * bar / 2 / leg;
      assertThat(2 * along).isCloseTo(pull, within(1e-10 * pull));
      double edge = along / Math.cos(psi);
      assertThat(bridle.compression(pull, psi))
          .isCloseTo(across + edge * Math.sin(psi), within(1e-10 * (pull + across)));
      assertThat(Bridle.ofApexDistance(bar, distance).halfAngle())
          .isCloseTo(bridle.halfAngle(), within(1e-9));
    }
  }

  @Test
  void a_shallow_line_follows_its_differential_equation_and_its_length_is_that_of_its_arc() {
    for (int i = 0; i < 200; i++) {
      double span = between(0.5, 20);
      ShallowLine line = new ShallowLine(between(0.1, 100), span, span * between(0.001, 0.4));
      double horizontal = line.horizontal();
      // y'' = w / H from the middle, where it is level.
      DoubleUnaryOperator slope = x -> line.perLength() * x / horizontal;

      assertThat(integral(slope, 0, span / 2)).isCloseTo(line.sag(), within(1e-9 * span));
      assertThat(2 * integral(x -> Math.hypot(1, slope.applyAsDouble(x)), 0, span / 2))
          .isCloseTo(line.length(), within(1e-9 * span));
      assertThat(Math.tan(line.slope())).isCloseTo(slope.applyAsDouble(span / 2), within(1e-12));
      assertThat(line.greatest() * Math.sin(line.slope()))
          .isCloseTo(line.perLength() * span / 2, within(1e-9 * line.greatest()));
      assertThat(ShallowLine.ofHorizontal(line.perLength(), span, horizontal).sag())
          .isCloseTo(line.sag(), within(1e-12 * span));
    }
  }

  @Test
  void a_catenary_follows_its_differential_equation() {
    for (int i = 0; i < 200; i++) {
      double span = between(0.5, 200);
      double sag = span * between(0.005, 1.2);
      Catenary line = Catenary.ofSag(between(0.1, 50), span, sag);
      // H y'' = w √(1 + y'²): in steps of the fourth order from the middle.
      double k = line.perLength() / line.horizontal();
      int steps = 4_000;
      double h = span / 2 / steps;
      double y = 0;
      double p = 0;
      double arc = 0;
      for (int step = 0; step < steps; step++) {
        double k1 = k * Math.hypot(1, p);
        double k2 = k * Math.hypot(1, p + h / 2 * k1);
        double k3 = k * Math.hypot(1, p + h / 2 * k2);
        double k4 = k * Math.hypot(1, p + h * k3);
        double middle = p + h / 2 * k2;
        double next = p + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
        y += h / 6 * (p + 4 * middle + next);
        arc += h / 6 * (Math.hypot(1, p) + 4 * Math.hypot(1, middle) + Math.hypot(1, next));
        p = next;
      }
      assertThat(y).isCloseTo(sag, within(1e-5 * sag));
      assertThat(2 * arc).isCloseTo(line.length(), within(1e-5 * line.length()));
      assertThat(line.sag()).isCloseTo(sag, within(1e-9 * sag));
      assertThat(Catenary.ofLength(line.perLength(), span, line.length()).parameter())
          .isCloseTo(line.parameter(), within(1e-5 * line.parameter()));
      assertThat(Catenary.ofLengthAndSag(line.perLength(), line.length(), sag).span())
          .isCloseTo(span, within(1e-7 * span));
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {1, 10, 30, 45, 60, 80})
  void a_chain_is_as_much_longer_than_its_span_as_its_pieces_add_up_to(double degrees) {
    // By numeric integration: each piece leans by the load below it over the pull sideways.
    double steepest = Math.tan(Math.toRadians(degrees));
    int pieces = 100_000;
    double span = 0;
    for (int i = 0; i < pieces; i++) {
      span += 1 / Math.hypot(1, steepest * (i + 0.5) / pieces) / pieces;
    }

    // The middle of each of so many pieces is off by less than that.
    assertThat(Catenary.spanOverLength(Math.toRadians(degrees))).isCloseTo(span, within(1e-9));
  }

  @Test
  void a_strut_pressed_by_eulers_load_and_no_other_bows_from_tip_to_tip() {
    for (int i = 0; i < 50; i++) {
      double outer = between(0.008, 0.03);
      Strut strut =
          i % 5 == 0
              ? Strut.rod(between(0.3, 1.5), outer, between(5e9, 2e11))
              : Strut.tube(
                  between(0.3, 1.5), outer, outer * between(0.02, 0.45), between(5e9, 2e11));
      assertThat(endOf(strut, strut.eulerLoad())).isCloseTo(0, within(1e-7));
      assertThat(endOf(strut, strut.eulerLoad() * 0.98)).isGreaterThan(1e-3);
      assertThat(endOf(strut, strut.eulerLoad() * 1.02)).isLessThan(-1e-3);
    }
  }

  /** E I y'' + P y = 0 from one tip: how far the other is from the axis, for a slope of 1/L. */
  private static double endOf(Strut strut, double load) {
    double k = load / (strut.modulus() * strut.secondMoment());
    int steps = 2_000;
    double h = strut.length() / steps;
    double y = 0;
    double p = 1 / strut.length();
    for (int step = 0; step < steps; step++) {
      double y2 = y + h / 2 * p;
      double p2 = p - h / 2 * k * y;
      double y3 = y + h / 2 * p2;
      double p3 = p - h / 2 * k * y2;
      double y4 = y + h * p3;
      double p4 = p - h * k * y3;
      double nextY = y + h / 6 * (p + 2 * p2 + 2 * p3 + p4);
      p += -h * k / 6 * (y + 2 * y2 + 2 * y3 + y4);
      y = nextY;
    }
    return y;
  }

  @Test
  void the_edges_of_a_body_bear_its_whole_load() {
    for (int i = 0; i < 200; i++) {
      double load = between(100, 2000);
      double span = between(1.5, 3);
      double sag = between(0.05, 0.6);
      ShallowLine edge = ShallowLine.edge(load, span, sag);

      assertThat(edge.horizontal()).isCloseTo(load * span / (16 * sag), within(1e-9 * load));
      assertThat(4 * edge.greatest() * Math.sin(edge.slope())).isCloseTo(load, within(1e-9 * load));
      assertThat(edge.greatest())
          .isCloseTo(
              edge.horizontal() * Math.sqrt(1 + 16 * Math.pow(sag / span, 2)), within(1e-9 * load));
    }
  }

  @Test
  void no_hang_within_its_ranges_pulls_more_or_less_than_they_say() {
    for (int i = 0; i < 300; i++) {
      Hang hang = wide();
      Hang.Loads found = hang.loads();
      for (int draw = 0; draw < 200; draw++) {
        Hang.Loads one = drawn(hang).loads();
        for (int end = 0; end < 2; end++) {
          Hang.EndLoads drawn = one.ends().get(end);
          Hang.EndLoads said = found.ends().get(end);
          holds(said.tension(), drawn.tension());
          holds(said.horizontal(), drawn.horizontal());
          holds(said.vertical(), drawn.vertical());
          holds(said.bodyPull(), drawn.bodyPull());
          holds(bar(said).legTension(), bar(drawn).legTension());
          holds(bar(said).compression(), bar(drawn).compression());
          holds(
              Objects.requireNonNull(bar(said).bucklingLoad()),
              Objects.requireNonNull(bar(drawn).bucklingLoad()));
        }
        holds(found.tension(), one.tension());
        holds(Objects.requireNonNull(found.ridge()), Objects.requireNonNull(one.ridge()));
      }
    }
  }

  private static Hang.BarLoads bar(Hang.EndLoads end) {
    return Objects.requireNonNull(end.bar());
  }

  private static void holds(Range said, Range drawn) {
    double hair = 1e-9 * said.high();
    assertThat(drawn.nominal()).isBetween(said.low() - hair, said.high() + hair);
  }

  private Range about(double nominal, double off) {
    return new Range(nominal - off, nominal, nominal + off);
  }

  private Hang wide() {
    return new Hang(about(between(600, 1200), between(0, 100)), wideEnd(), wideEnd());
  }

  private Hang.End wideEnd() {
    return new Hang.End(
        about(between(20, 70), between(0, 15)),
        about(between(25, 60), between(0, 4)),
        Hang.Bar.ofLegs(
            about(0.8, 0.01),
            about(0.7, 0.02),
            about(between(0, 8), 2),
            new Hang.Section(about(0.014, 1e-4), about(0.001, 5e-5), about(70e3, 5e3), null)));
  }

  /** One hang that the ranges allow. */
  private Hang drawn(Hang hang) {
    return new Hang(drawn(hang.load()), drawn(hang.first()), drawn(hang.second()));
  }

  private Hang.End drawn(Hang.End end) {
    Hang.Bar bar = Objects.requireNonNull(end.bar());
    Hang.Section section = Objects.requireNonNull(bar.section());
    return new Hang.End(
        drawn(end.angle()),
        drawn(Objects.requireNonNull(end.bodyAngle())),
        new Hang.Bar(
            drawn(bar.halfAngle()),
            drawn(bar.edgeAngle()),
            drawn(bar.length()),
            new Hang.Section(
                drawn(section.outerDiameter()),
                drawn(Objects.requireNonNull(section.wall())),
                drawn(section.modulus()),
                null)));
  }

  private Range drawn(Range range) {
    return Range.of(between(range.low(), range.high()));
  }

  /** Simpson's rule. */
  private static double integral(DoubleUnaryOperator of, double from, double to) {
    int halves = 2_000;
    double h = (to - from) / halves;
    double sum = of.applyAsDouble(from) + of.applyAsDouble(to);
    for (int i = 1; i < halves; i++) {
      sum += (i % 2 == 0 ? 2 : 4) * of.applyAsDouble(from + i * h);
    }
    return sum * h / 3;
  }
}
