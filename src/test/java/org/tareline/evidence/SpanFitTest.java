package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.evidence.SpanFit.Point;
import org.tareline.units.Mass;

class SpanFitTest {

  private static final Mass TENTH = g("0.1");
  private static final double RESOLUTION = 0.1 / Math.sqrt(6); // at the load and at the zero

  private static Mass g(String grams) {
    return Mass.ofGrams(grams);
  }

  private static Point point(String nominal, String halfWidth, String indication) {
    return new Point(g(nominal), g(halfWidth), g(indication));
  }

  private static SpanFit fit(Point... points) {
    return SpanFit.of(List.of(points), TENTH, null);
  }

  /**
   * NIST Statistical Reference Datasets, linear regression, NoInt1: certified slope, its standard
   * deviation and ν. Its x are read here as nominal grams and its y as shown grams, all equally
   * sure.
   */
  @Test
  void aLineThroughTheOriginIsTheCertifiedOne() {
    List<Point> points =
        IntStream.rangeClosed(60, 70).mapToObj(x -> point("" + x, "0", "" + (x + 70))).toList();
    SpanFit fit = SpanFit.of(points, TENTH, null);
    assertThat(fit.slope()).isCloseTo(2.07438016528926, within(1e-13));
    assertThat(fit.standardUncertainty()).isCloseTo(0.0165289256198347, within(1e-14));
    assertThat(fit.degreesOfFreedom()).isEqualTo(10);
    assertThat(fit.fromScatter()).isTrue();
    // Certified residual standard deviation.
    double sumOfSquares =
        fit.residuals().stream().mapToDouble(r -> r.inGrams() * r.inGrams()).sum();
    assertThat(Math.sqrt(sumOfSquares / 10)).isCloseTo(3.56753034006338, within(1e-8));
  }

  /** The same, NoInt2: three points. */
  @Test
  void andSoIsTheOneThroughThreePoints() {
    SpanFit fit =
        SpanFit.of(
            List.of(point("4", "0", "3"), point("5", "0", "4"), point("6", "0", "4")),
            g("0.01"),
            null);
    assertThat(fit.slope()).isCloseTo(0.727272727272727, within(1e-14));
    assertThat(fit.standardUncertainty()).isCloseTo(0.0420827318078432, within(1e-14));
    assertThat(fit.degreesOfFreedom()).isEqualTo(2);
  }

  @Test
  void oneWeightSaysAllItCanByItsToleranceAndTheStepsOfTheScale() {
    SpanFit fit = fit(point("500", "0.025", "500.2"));
    assertThat(fit.slope()).isCloseTo(1.0004, within(1e-15));
    // u of 500.2/500 by quotient: (d/√6)/500 and 1.0004 × (0.025/√3)/500, root sum of squares.
    double byHand = Math.hypot(0.0408248290 / 500, 1.0004 * 0.0144337567 / 500); // 0.1/√6, 0.025/√3
    assertThat(fit.standardUncertainty()).isCloseTo(byHand, within(1e-12));
    assertThat(fit.degreesOfFreedom()).isInfinite();
    assertThat(fit.fromScatter()).isFalse();
    assertThat(fit.expandedUncertainty()).isCloseTo(1.959964 * byHand, within(1e-11));
    assertThat(fit.residuals()).containsExactly(Mass.ZERO);
  }

  @Test
  void aPointCountsByHowSureItIs() {
    // By hand: w = 1/u² with u² = d²/6 and d²/6 + 1²/3; b = Σ w N I / Σ w N².
    double sure = 6 / 0.01;
    double unsure = 1 / (0.01 / 6 + 1.0 / 3);
    SpanFit fit = fit(point("100", "0", "100.1"), point("200", "1", "201.0"));
    assertThat(fit.slope())
        .isCloseTo(
            (sure * 100 * 100.1 + unsure * 200 * 201) / (sure * 100 * 100 + unsure * 200 * 200),
            within(1e-12));
    assertThat(fit.deviations().get(0).standardUncertaintyInGrams())
        .isCloseTo(RESOLUTION, within(1e-12));
    assertThat(fit.deviations().get(1).standardUncertaintyInGrams())
        .isCloseTo(1 / Math.sqrt(unsure), within(1e-12));
  }

  @Test
  void theSameWeightPutOnAgainIsNotAnotherWeight() {
    double once = fit(point("500", "1", "500.2")).standardUncertainty();
    double twice =
        fit(point("500", "1", "500.2"), point("500", "1", "500.2")).standardUncertainty();
    // Of two readings the resolution is averaged, the weight's own error (1/√3)/500 is not.
    assertThat(once).isCloseTo(Math.hypot(RESOLUTION, 1.0004 / Math.sqrt(3)) / 500, within(1e-9));
    assertThat(twice)
        .isCloseTo(
            Math.hypot(RESOLUTION / Math.sqrt(2), 1.0004 / Math.sqrt(3)) / 500, within(1e-9));
    // Two weights, told apart by what they are said to be good for, do average.
    assertThat(
            fit(point("500", "1", "500.2"), point("500", "1.000001", "500.2"))
                .standardUncertainty())
        .isCloseTo(once / Math.sqrt(2), within(1e-8));
  }

  @Test
  void aRecordedRepeatabilityCountsWithItsDegreesOfFreedom() {
    Repeatability recorded = new Repeatability("r", g("0.3"), 9);
    SpanFit fit = SpanFit.of(List.of(point("500", "0.5", "500.2")), TENTH, recorded);
    double repeating = 0.3 / 500;
    double rest = Math.hypot(RESOLUTION, 1.0004 * 0.5 / Math.sqrt(3)) / 500;
    double u = Math.hypot(repeating, rest);
    assertThat(fit.standardUncertainty()).isCloseTo(u, within(1e-12));
    // Welch–Satterthwaite (JCGM 100:2008, G.4.1): u⁴ / (u_r⁴/9).
    assertThat(fit.degreesOfFreedom())
        .isCloseTo(9 * Math.pow(u, 4) / Math.pow(repeating, 4), within(1e-6));
  }

  /**
   * One load twice, ± so much: Σ w (I − b N)² = 2 off²/(d²/6) = 1200 off². The 95 % point of χ²
   * with ν = 1 is 3.841 (NIST/SEMATECH e-Handbook, 1.3.6.7.4), which is reached at 0.056575 g.
   */
  @ParameterizedTest
  @CsvSource({"0.0565, false", "0.0567, true"})
  void scatterCountsOnceItIsMoreThanTheRestExplains(String off, boolean fromScatter) {
    Point above = new Point(g("500"), Mass.ZERO, g("500").plus(g(off)));
    Point below = new Point(g("500"), Mass.ZERO, g("500").minus(g(off)));
    SpanFit fit = fit(above, below);
    assertThat(fit.fromScatter()).isEqualTo(fromScatter);
    if (fromScatter) {
      // s/√ΣN² with s = √2 off, and one degree of freedom.
      assertThat(fit.standardUncertainty())
          .isCloseTo(Math.sqrt(2) * 0.0567 / Math.sqrt(2 * 500 * 500), within(1e-12));
      assertThat(fit.degreesOfFreedom()).isEqualTo(1);
    } else {
      assertThat(fit.standardUncertainty())
          .isCloseTo(RESOLUTION / Math.sqrt(2 * 500 * 500), within(1e-12));
      assertThat(fit.degreesOfFreedom()).isInfinite();
    }
  }

  @Test
  void aStraightScaleIsFoundStraight() {
    Random random = new Random(3);
    for (int round = 0; round < 200; round++) {
      // Shown is exactly 1.25 times what is on: a whole number of nanograms of any multiple of 4.
      List<Point> points =
          Stream.generate(() -> 4L * (1 + random.nextInt(1_000_000_000)))
              .limit(1 + random.nextInt(6))
              .map(n -> new Point(new Mass(n), new Mass(random.nextInt(1000)), new Mass(n / 4 * 5)))
              .toList();
      SpanFit fit = SpanFit.of(points, TENTH, null);
      assertThat(fit.slope()).isCloseTo(1.25, within(1e-12));
      assertThat(fit.fromScatter()).isFalse();
      assertThat(fit.residuals()).allMatch(residual -> Math.abs(residual.nanograms()) <= 1);
    }
  }

  @Test
  void whatCannotBeACheckIsRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> SpanFit.of(List.of(), TENTH, null))
        .withMessage("A check needs at least one weight.");
    assertThatIllegalArgumentException().isThrownBy(() -> point("0", "0", "1"));
    assertThatIllegalArgumentException().isThrownBy(() -> point("1", "-0.1", "1"));
    assertThatIllegalArgumentException().isThrownBy(() -> fit(point("500", "0.1", "-500")));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> SpanFit.of(List.of(point("1", "0", "1")), Mass.ZERO, null));
  }
}
