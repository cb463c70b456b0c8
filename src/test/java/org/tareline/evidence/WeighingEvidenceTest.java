package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.units.Mass;

class WeighingEvidenceTest {

  private static Mass g(String grams) {
    return Mass.ofGrams(grams);
  }

  private static List<Mass> readings(String... grams) {
    return Stream.of(grams).map(Mass::ofGrams).toList();
  }

  private static Instrument scale(String readability, @Nullable String repeatability, double span) {
    return new Instrument(
        "scale",
        "kitchen scale",
        g(readability),
        repeatability == null ? null : g(repeatability),
        9,
        span);
  }

  private static double term(WeighingEvidence weighing, String sourceId) {
    return weighing.terms().stream()
        .filter(term -> term.source().id().equals(sourceId))
        .mapToDouble(WeighingEvidence.Term::standardUncertaintyInGrams)
        .findFirst()
        .orElse(0);
  }

  /**
   * d/√12 for one reading and d/√6 for load and zero together (JCGM 100:2008, F.2.2.1), recomputed
   * to six places.
   */
  @ParameterizedTest
  @CsvSource({
    "0.01, 0.002887, 0.004082",
    "0.1, 0.028868, 0.040825",
    "0.5, 0.144338, 0.204124",
    "1, 0.288675, 0.408248",
    "5, 1.443376, 2.041241"
  })
  void resolutionCountsOnceForTheLoadAndOnceForTheZero(String d, double one, double both) {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("381"), Mass.ZERO, 1, scale(d, null, 0));
    assertThat(term(weighing, "w/load")).isCloseTo(one, within(5e-7));
    assertThat(term(weighing, "w/zero")).isCloseTo(one, within(5e-7));
    assertThat(weighing.estimate().standardUncertaintyInGrams()).isCloseTo(both, within(5e-7));
  }

  /** Eight alike on a 1 g scale: (d/√12)/8 = 0.036084 g each, recomputed to six places. */
  @Test
  void resolutionIsDividedAmongThePiecesOnThePan() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("9"), Mass.ZERO, 8, scale("1", null, 0));
    assertThat(term(weighing, "w/load")).isCloseTo(0.036084, within(5e-7));
    assertThat(weighing.estimate().value()).isEqualTo(g("1.125")); // 9 / 8
  }

  @Test
  void tenAlikeWeighedTogetherAreKnownTenTimesAsWell() {
    Instrument scale = scale("0.1", null, 0);
    Estimate one = WeighingEvidence.from("w", readings("1.2"), Mass.ZERO, 1, scale).estimate();
    Estimate ten = WeighingEvidence.from("w", readings("12"), Mass.ZERO, 10, scale).estimate();
    assertThat(ten.value()).isEqualTo(one.value());
    assertThat(ten.standardUncertaintyInGrams())
        .isCloseTo(one.standardUncertaintyInGrams() / 10, within(1e-15));
  }

  /** ±0.1 % of 850 g as limits: 0.85/√3 = 0.490748 g, recomputed to six places. */
  @Test
  void aSpanToleranceIsRectangularAndRelative() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("850"), Mass.ZERO, 1, scale("1", null, 0.001));
    assertThat(term(weighing, "scale/span")).isCloseTo(0.490748, within(5e-7));
  }

  @Test
  void spanIsNotHelpedByCountingNorByRepeating() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("850", "850"), Mass.ZERO, 10, scale("1", null, 0.001));
    assertThat(term(weighing, "scale/span")).isCloseTo(0.0490748, within(5e-8)); // of 85 g
  }

  @Test
  void allThatOneScaleWeighsSharesItsSpan() {
    Instrument scale = scale("0.0001", null, 0.01);
    Estimate a = WeighingEvidence.from("a", readings("300"), Mass.ZERO, 1, scale).estimate();
    Estimate b = WeighingEvidence.from("b", readings("100"), Mass.ZERO, 1, scale).estimate();
    // Linear, as JCGM 100:2008, 5.2.2 note 1: (300 + 100) × 0.01/√3, and (300 − 100) × 0.01/√3.
    assertThat(a.plus(b).standardUncertaintyInGrams())
        .isCloseTo(4 / Math.sqrt(3), within(1e-6)); // 1e-6: the resolution, 0.0001 g, adds its mite
    assertThat(a.minus(b).standardUncertaintyInGrams()).isCloseTo(2 / Math.sqrt(3), within(1e-6));
  }

  @Test
  void theMeanLessTheTareIsRoundedOnceAndHalfEven() {
    // (1 + 2)/2 = 1.5 ng → 2 ng; (2 + 3)/2 = 2.5 ng → 2 ng; by hand.
    assertThat(nanograms(List.of(new Mass(1), new Mass(2)), 0, 1)).isEqualTo(2);
    assertThat(nanograms(List.of(new Mass(2), new Mass(3)), 0, 1)).isEqualTo(2);
    // (10 + 11)/2 / 3 = 3.5 ng → 4 ng. Rounding the mean first, to 10, would give 3.
    assertThat(nanograms(List.of(new Mass(10), new Mass(11)), 0, 3)).isEqualTo(4);
    // ((10 + 11)/2 − 1) / 3 = 3.1666… ng → 3 ng.
    assertThat(nanograms(List.of(new Mass(10), new Mass(11)), 1, 3)).isEqualTo(3);
  }

  private static long nanograms(List<Mass> readings, long tare, int count) {
    return WeighingEvidence.from("w", readings, new Mass(tare), count, scale("1", null, 0))
        .estimate()
        .value()
        .nanograms();
  }

  @Test
  void theMeanOfTheLargestMassesDoesNotOverflow() {
    Mass most = new Mass(Long.MAX_VALUE);
    assertThat(nanograms(List.of(most, most, most), 0, 1)).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void twoReadingsSpeakForThemselvesWhereNothingIsOnRecord() {
    // s of 10.0 and 10.2 is 0.2/√2 = 0.141421 g (JCGM 100:2008, 4.2.2), its mean's 0.1 g.
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("10.0", "10.2"), Mass.ZERO, 1, scale("0.1", null, 0));
    assertThat(weighing.spreadInGrams().orElseThrow()).isCloseTo(0.141421, within(5e-7));
    assertThat(term(weighing, "w/readings")).isCloseTo(0.1, within(1e-12));
    Source source = weighing.terms().get(0).source();
    assertThat(source.degreesOfFreedom()).isEqualTo(1);
    assertThat(source.varianceGroup()).isEqualTo("w/readings");
    assertThat(weighing.repeatabilityKnown()).isTrue();
  }

  @Test
  void aRecordedRepeatabilityCountsWhereItIsTheLarger() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("10.0", "10.2"), Mass.ZERO, 1, scale("0.1", "0.3", 0));
    assertThat(term(weighing, "w/readings")).isCloseTo(0.3 / Math.sqrt(2), within(1e-12));
    Source source = weighing.terms().get(0).source();
    assertThat(source.degreesOfFreedom()).isEqualTo(9);
    assertThat(source.varianceGroup()).isEqualTo("scale/repeatability");
  }

  @Test
  void theSpreadCountsWhereItIsLargerThanWhatIsOnRecord() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("10.0", "10.2"), Mass.ZERO, 1, scale("0.1", "0.1", 0));
    assertThat(term(weighing, "w/readings")).isCloseTo(0.1, within(1e-12));
    assertThat(weighing.terms().get(0).source().degreesOfFreedom()).isEqualTo(1);
  }

  @Test
  void oneReadingWithNothingOnRecordSaysThatItsRepeatabilityIsNotKnown() {
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("10"), Mass.ZERO, 1, scale("0.1", null, 0));
    assertThat(weighing.repeatabilityKnown()).isFalse();
    assertThat(weighing.spreadInGrams()).isEmpty();
    assertThat(weighing.terms())
        .extracting(WeighingEvidence.Term::label)
        .containsExactly("resolution, at the load", "resolution, at the zero or tare");
    assertThat(weighing.estimate().effectiveDegreesOfFreedom()).isInfinite();
  }

  @Test
  void aRepeatabilityFoundOnceIsCountedOnceHoweverManyWeighingsLeanOnIt() {
    Instrument scale = scale("0.0001", "0.2", 0);
    Estimate both =
        WeighingEvidence.from("a", readings("30"), Mass.ZERO, 1, scale)
            .estimate()
            .plus(WeighingEvidence.from("b", readings("40"), Mass.ZERO, 1, scale).estimate());
    // Errors of two weighings are independent: 0.2 √2. Their size is one finding with ν = 9: were
    // each counted by itself, Welch–Satterthwaite would say 18.
    assertThat(both.standardUncertaintyInGrams()).isCloseTo(0.2 * Math.sqrt(2), within(1e-6));
    assertThat(both.effectiveDegreesOfFreedom()).isCloseTo(9, within(1e-4));
  }

  @Test
  void termsAccountForTheWholeVariance() {
    Random random = new Random(4);
    for (int i = 0; i < 100; i++) {
      List<Mass> readings =
          Stream.generate(() -> new Mass(1 + random.nextInt(1_000_000_000)))
              .limit(1 + random.nextInt(4))
              .toList();
      WeighingEvidence weighing =
          WeighingEvidence.from(
              "w", readings, Mass.ZERO, 1 + random.nextInt(9), scale("0.1", "0.07", 0.002));
      assertThat(weighing.terms().stream().mapToDouble(t -> t.shareOfVariance()).sum())
          .isCloseTo(1, within(1e-12));
      double sum = 0;
      for (WeighingEvidence.Term term : weighing.terms()) {
        sum += term.standardUncertaintyInGrams() * term.standardUncertaintyInGrams();
      }
      assertThat(Math.sqrt(sum))
          .isCloseTo(weighing.estimate().standardUncertaintyInGrams(), within(1e-12));
    }
  }

  @Test
  void theSpreadOfHeavyThingsKeepsItsSmallDigits() {
    // s of x, x + 1 ng, x + 2 ng is 1 ng whatever x is (4.2.2): the sum of squares of the readings
    // themselves would lose it.
    long heavy = 100_000_000_000_000L;
    WeighingEvidence weighing =
        WeighingEvidence.from(
            "w",
            List.of(new Mass(heavy), new Mass(heavy + 1), new Mass(heavy + 2)),
            Mass.ZERO,
            1,
            scale("1", null, 0));
    assertThat(weighing.spreadInGrams().orElseThrow()).isCloseTo(1e-9, within(1e-18));
  }

  /**
   * Class III, e = 1 g, as limits in service: 1, 2 and 3 g by the load, MPE/√3 recomputed to six
   * places (OIML R 76-1:2006, table 6 and 3.5.2).
   */
  @ParameterizedTest
  @CsvSource({"500, 0.577350", "500.1, 1.154701", "1500, 1.154701", "2001, 1.732051"})
  void aClassSaysHowFarOffTheScaleMayBeAtALoad(String grams, double expected) {
    Instrument scale =
        new Instrument("k", g("1"), null, new Span.Permitted("s", AccuracyClass.III, g("1")));
    WeighingEvidence weighing = WeighingEvidence.from("w", readings(grams), Mass.ZERO, 1, scale);
    assertThat(term(weighing, "s")).isCloseTo(expected, within(5e-7));
    assertThat(weighing.estimate().value()).isEqualTo(g(grams));
    assertThat(weighing.slope()).isEmpty();
  }

  @Test
  void whatAClassPermitsGoesByTheLoadWithTheTareOnAndIsSharedOutByTheCount() {
    Instrument scale =
        new Instrument("k", g("1"), null, new Span.Permitted("s", AccuracyClass.III, g("1")));
    // 600 g on the pan are permitted 2 g, though 200 g of them are the bowl.
    WeighingEvidence weighing = WeighingEvidence.from("w", readings("600"), g("200"), 10, scale);
    assertThat(term(weighing, "s")).isCloseTo(2 / Math.sqrt(3) / 10, within(1e-12));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> WeighingEvidence.from("w", readings("10001"), Mass.ZERO, 1, scale))
        .withMessageContaining("Class III");
  }

  @Test
  void aSlopeThatWasFoundCorrectsTheValue() {
    Span found = new Span.Found("check", 1.25, 0.001, 4);
    Instrument scale = new Instrument("k", g("0.1"), null, found);
    WeighingEvidence weighing =
        WeighingEvidence.from("w", readings("600", "600"), g("100"), 2, scale);
    // (600 − 100)/2 = 250 g were shown of one piece, 250/1.25 = 200 g are there (GUM 3.2.4).
    assertThat(weighing.uncorrected()).isEqualTo(g("250"));
    assertThat(weighing.slope()).hasValue(1.25);
    assertThat(weighing.estimate().value()).isEqualTo(g("200"));
    // 200 × 0.001/1.25; and what else there is, is shown in shown grams: 0.1/√12/2/1.25.
    assertThat(term(weighing, "check")).isCloseTo(0.16, within(1e-12));
    assertThat(term(weighing, "w/load")).isCloseTo(0.011547005, within(1e-9));
    Source source = weighing.terms().get(weighing.terms().size() - 1).source();
    assertThat(source.degreesOfFreedom()).isEqualTo(4);
    assertThat(source.varianceGroup()).isEqualTo("check");
  }

  @Test
  void aSlopeIsTakenOffOnceAndRoundedOnce() {
    // (4 + 5)/2/1.25 = 3.6 ng → 4. Rounding before, 4/1.25 = 3.2, would give 3.
    Instrument scale = new Instrument("k", g("0.1"), null, new Span.Found("check", 1.25, 0.001, 4));
    assertThat(
            WeighingEvidence.from("w", List.of(new Mass(4), new Mass(5)), Mass.ZERO, 1, scale)
                .estimate()
                .value())
        .isEqualTo(new Mass(4));
  }

  @Test
  void weighingsUnderTwoChecksShareNoSpan() {
    Instrument before =
        new Instrument("k", g("0.0001"), null, new Span.Found("check 1", 1, 0.001, 4));
    Instrument after =
        new Instrument("k", g("0.0001"), null, new Span.Found("check 2", 1, 0.001, 4));
    Estimate first = WeighingEvidence.from("a", readings("300"), Mass.ZERO, 1, before).estimate();
    Estimate second = WeighingEvidence.from("b", readings("300"), Mass.ZERO, 1, after).estimate();
    assertThat(first.minus(second).standardUncertaintyInGrams())
        .isCloseTo(0.3 * Math.sqrt(2), within(1e-6)); // 1e-6: the resolution, 0.0001 g
  }

  /**
   * GUM 4.2.2, of ten readings: by hand, Σ(x − 200.05)² is 8 × 0.05² + 2 × 0.15² = 0.065 g², s =
   * √(0.065/9) = 0.0849837 g.
   */
  @Test
  void repeatabilityIsFoundFromReadingsOfOneLoad() {
    Repeatability found =
        Repeatability.of(
            "r",
            readings(
                "200.0", "200.1", "200.0", "200.1", "200.0", "200.1", "200.0", "200.1", "200.2",
                "199.9"));
    assertThat(found.degreesOfFreedom()).isEqualTo(9);
    assertThat(found.standardDeviation().inGrams()).isCloseTo(0.0849837, within(5e-8));
    assertThat(Repeatability.of("r", readings("381", "381", "381")).standardDeviation())
        .isEqualTo(Mass.ZERO);
    assertThatIllegalArgumentException().isThrownBy(() -> Repeatability.of("r", readings("1")));
  }

  @Test
  void whatCannotBeAWeighingIsRefusedInPlainWords() {
    Instrument scale = scale("1", null, 0);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> WeighingEvidence.from("w", List.of(), Mass.ZERO, 1, scale))
        .withMessage("A weighing needs at least one reading.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> WeighingEvidence.from("w", readings("5"), Mass.ZERO, 0, scale))
        .withMessageContaining("1 or more, not 0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> WeighingEvidence.from("w", readings("5", "7"), g("6"), 1, scale))
        .withMessageContaining("6 g")
        .withMessageContaining("nothing is left on the pan");
  }

  @Test
  void anInstrumentThatCannotBeIsRefused() {
    assertThatIllegalArgumentException().isThrownBy(() -> scale("0", null, 0));
    assertThatIllegalArgumentException().isThrownBy(() -> scale("1", "-0.1", 0));
    assertThatIllegalArgumentException().isThrownBy(() -> scale("1", null, -0.001));
    assertThatIllegalArgumentException().isThrownBy(() -> scale("1", null, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> scale("1", null, Double.NaN));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Repeatability("i", g("1"), Double.NaN));
    assertThatIllegalArgumentException().isThrownBy(() -> new Span.Found("i", 0, 0.001, 1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Span.Found("i", Double.NaN, 0.001, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Span.Found("i", 1, -0.001, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Span.Found("i", 1, Double.NaN, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Span.Found("i", 1, 0.001, 0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Span.Permitted("i", AccuracyClass.III, Mass.ZERO));
  }

  @Test
  void aStatedMassHasOneSourceOfItsOwn() {
    // ±2 g as limits: 2/√3 = 1.154701 g (JCGM 100:2008, 4.3.7), recomputed to six places.
    Estimate stated = Stated.of("s", "maker", g("381"), g("2")).estimate();
    assertThat(stated.value()).isEqualTo(g("381"));
    assertThat(stated.coefficients()).containsOnlyKeys(Source.of("s", "maker"));
    assertThat(stated.standardUncertaintyInGrams()).isCloseTo(1.154701, within(5e-7));
    assertThat(Stated.of("s", "defined", g("381"), Mass.ZERO).estimate())
        .isEqualTo(Estimate.of(g("381"), Map.of()));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Stated.of("s", "maker", g("381"), g("-2")));
  }
}
