package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.units.Mass;

/** What the standards permit scales (OIML R 76-1:2006) and check weights (OIML R 111-1:2004). */
class InstrumentClassesTest {

  private static final Mass GRAM = Mass.ofGrams("1");

  private static Mass g(String grams) {
    return Mass.ofGrams(grams);
  }

  /** OIML R 76-1:2006, table 6: errors in e on initial verification, at the edges of its rows. */
  @ParameterizedTest
  @CsvSource({
    "I, 0, 0.5", "I, 50000, 0.5", "I, 50001, 1", "I, 200000, 1", "I, 200001, 1.5",
    "I, 9000000, 1.5", "II, 0, 0.5", "II, 5000, 0.5", "II, 5001, 1", "II, 20000, 1",
    "II, 20001, 1.5", "II, 100000, 1.5", "III, 0, 0.5", "III, 500, 0.5", "III, 500.1, 1",
    "III, 2000, 1", "III, 2001, 1.5", "III, 10000, 1.5", "IIII, 0, 0.5", "IIII, 50, 0.5",
    "IIII, 50.000000001, 1", "IIII, 200, 1", "IIII, 201, 1.5", "IIII, 1000, 1.5"
  })
  void theErrorsAreThoseOfTheTable(AccuracyClass accuracyClass, String load, double error) {
    assertThat(accuracyClass.onVerificationInGrams(GRAM, g(load))).isEqualTo(error);
    // 3.5.2: in service, twice.
    assertThat(accuracyClass.inService(GRAM, g(load))).isEqualTo(Mass.fromGrams(2 * error));
  }

  @ParameterizedTest
  @CsvSource({"0.1, 50, 0.05", "0.1, 50.1, 0.1", "5, 10000, 5", "0.5, 1000.1, 0.75"})
  void theErrorsGoWithTheInterval(String interval, String load, double error) {
    assertThat(AccuracyClass.III.onVerificationInGrams(g(interval), g(load)))
        .isCloseTo(error, within(1e-15));
  }

  /** Class III, e = 1 g, in service at 1500 g: ±2 g. */
  @Test
  void anErrorInServiceIsTwiceThatOnVerification() {
    assertThat(AccuracyClass.III.inService(GRAM, g("1500"))).isEqualTo(g("2"));
  }

  @ParameterizedTest
  @CsvSource({"II, 100000.000000001", "III, 10000.000000001", "IIII, 1001", "III, -1"})
  void beyondTheTableNothingIsMadeUp(AccuracyClass accuracyClass, String load) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> accuracyClass.inService(GRAM, g(load)))
        .withMessageContaining("Class " + accuracyClass);
  }

  @Test
  void theHeaviestLoadDoesNotOverflow() {
    assertThat(AccuracyClass.I.inService(new Mass(1), new Mass(Long.MAX_VALUE)))
        .isEqualTo(new Mass(3));
  }

  /** OIML R 76-1:2006, table 3, Min. */
  @ParameterizedTest
  @CsvSource({"II, 0.05, 1", "II, 0.1, 5", "III, 1, 20", "IIII, 5, 50", "I, 0.001, 0.1"})
  void theLeastLoadIsThatOfTheTable(AccuracyClass accuracyClass, String interval, String least) {
    assertThat(accuracyClass.least(g(interval))).isEqualTo(g(least));
  }

  /**
   * OIML R 111-1:2004, table 1, in milligrams, as reprinted in catalogues of check weights; in
   * class M1 at 5 mg, left out here, one such reprint has 0.02 for 0.20.
   */
  @ParameterizedTest
  @CsvSource({
    "0.001, 0.003, 0.006, 0.020, 0.06, 0.20, ,",
    "0.002, 0.003, 0.006, 0.020, 0.06, 0.20, ,",
    "0.010, 0.003, 0.008, 0.025, 0.08, 0.25, ,",
    "0.020, 0.003, 0.010, 0.03, 0.10, 0.3, ,",
    "0.050, 0.004, 0.012, 0.04, 0.12, 0.4, ,",
    "0.1, 0.005, 0.016, 0.05, 0.16, 0.5, 1.6,",
    "0.2, 0.006, 0.020, 0.06, 0.20, 0.6, 2.0,",
    "0.5, 0.008, 0.025, 0.08, 0.25, 0.8, 2.5,",
    "1, 0.010, 0.03, 0.10, 0.3, 1.0, 3.0, 10",
    "2, 0.012, 0.04, 0.12, 0.4, 1.2, 4.0, 12",
    "5, 0.016, 0.05, 0.16, 0.5, 1.6, 5.0, 16",
    "10, 0.020, 0.06, 0.20, 0.6, 2.0, 6.0, 20",
    "20, 0.025, 0.08, 0.25, 0.8, 2.5, 8.0, 25",
    "50, 0.03, 0.10, 0.3, 1.0, 3.0, 10, 30",
    "100, 0.05, 0.16, 0.5, 1.6, 5.0, 16, 50"
  })
  void aWeightIsAsGoodAsItsClass(
      String grams, String e1, String e2, String f1, String f2, String m1, String m2, String m3) {
    String[] errors = {e1, e2, f1, f2, m1, m2, m3};
    for (WeightClass weightClass : WeightClass.values()) {
      String error = errors[weightClass.ordinal()];
      assertThat(weightClass.maximumPermissibleError(g(grams)))
          .as(weightClass.name())
          .isEqualTo(
              Optional.ofNullable(error)
                  .map(milligrams -> new Mass(Math.round(Double.parseDouble(milligrams) * 1e6))));
    }
  }

  /**
   * From 100 g up the table is one rule: of its nominal value an E1 weight may be off by 0.5 mg/kg,
   * and every next class by some √10 more, but for 6 % that rounding to 1.6, 2.5, 3 and 8 takes.
   * From memory: 5 kg M1 250 mg, 20 kg M3 10 g, 50 kg F1 250 mg.
   */
  @ParameterizedTest
  @CsvSource({
    "200, E1, 0.0001",
    "500, M1, 0.025",
    "500, M3, 0.25",
    "1000, F2, 0.016",
    "2000, M2, 0.3",
    "5000, M1, 0.25",
    "10000, E2, 0.016",
    "20000, M3, 10",
    "50000, F1, 0.25"
  })
  void heavyWeightsGoByOneRule(String grams, WeightClass weightClass, String error) {
    assertThat(weightClass.maximumPermissibleError(g(grams))).contains(g(error));
    double relative = g(error).inGrams() / g(grams).inGrams();
    assertThat(relative / (5e-7 * Math.pow(10, weightClass.ordinal() / 2.0))).isBetween(0.94, 1.06);
  }

  @Test
  void betweenTheRowsOfTheTableNothingIsMadeUp() {
    assertThat(WeightClass.M1.maximumPermissibleError(g("300"))).isEmpty();
    assertThat(WeightClass.M1.maximumPermissibleError(g("500.000000001"))).isEmpty();
    assertThat(WeightClass.M3.maximumPermissibleError(g("0.5"))).isEmpty();
    assertThat(WeightClass.E1.maximumPermissibleError(g("100000"))).isEmpty();
  }

  @Test
  void classesAreKnownByTheirWords() {
    assertThat(AccuracyClass.of(" iii ")).contains(AccuracyClass.III);
    assertThat(AccuracyClass.of("3")).isEmpty();
    assertThat(WeightClass.of("m1")).contains(WeightClass.M1);
    assertThat(WeightClass.of("M1-2")).isEmpty();
  }
}
