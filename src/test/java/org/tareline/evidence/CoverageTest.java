package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.units.Mass;

class CoverageTest {

  private static Estimate withDegreesOfFreedom(double degreesOfFreedom) {
    return Estimate.of(Mass.ZERO, Map.of(new Source("s", "s", degreesOfFreedom, "s"), 1.0));
  }

  @ParameterizedTest
  @CsvFileSource(resources = "student-t-95.csv")
  void everyRowOfThePublishedTableComesOut(String nu, String printed, double recomputed) {
    double factor =
        withDegreesOfFreedom(nu.equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(nu))
            .coverageFactor();
    // Half a unit of the last place that is printed: some rows have two places, some three.
    double halfDigit = 0.5 * Math.pow(10, -(printed.length() - printed.indexOf('.') - 1));
    assertThat(factor).isCloseTo(Double.parseDouble(printed), within(halfDigit));
    assertThat(factor).isCloseTo(recomputed, within(5e-7)); // six decimals are given
  }

  @Test
  void theFactorOfAnInfiniteNumberIsTheOneTheApiPromises() {
    assertThat(withDegreesOfFreedom(Double.POSITIVE_INFINITY).coverageFactor())
        .isEqualTo(1.959964); // NIST TN 1297, Table B.1, last row, to seven digits
  }

  @Test
  void degreesOfFreedomAreTruncatedDownAndNotRounded() {
    // t(3) = 3.182446: NIST TN 1297, Table B.1, recomputed.
    assertThat(withDegreesOfFreedom(3.999).coverageFactor()).isCloseTo(3.182446, within(5e-7));
  }

  @Test
  void aWholeNumberThatRoundingHasNudgedDownStaysWhole() {
    // t(4) = 2.776445: NIST TN 1297, Table B.1, recomputed. 1e-9 is the slack the design gives.
    assertThat(withDegreesOfFreedom(4 - 0.5e-9).coverageFactor()).isCloseTo(2.776445, within(5e-7));
    assertThat(withDegreesOfFreedom(4 - 2e-9).coverageFactor()).isCloseTo(3.182446, within(5e-7));
  }

  @Test
  void belowOneDegreeOfFreedomTheLastRowOfTheTableHolds() {
    // t(1) = 12.706205: NIST TN 1297, Table B.1, recomputed.
    assertThat(withDegreesOfFreedom(0.4).coverageFactor()).isCloseTo(12.706205, within(5e-7));
  }

  @Test
  void manyDegreesOfFreedomComeDownToTheNormalDistribution() {
    assertThat(withDegreesOfFreedom(1e12).coverageFactor()).isCloseTo(1.959964, within(5e-7));
  }

  /** The series leaves out terms of the order of 1/ν⁴ and so of 1e-12. */
  @ParameterizedTest
  @ValueSource(doubles = {1_000, 1_001, 2_500, 40_000, 1e7})
  void beyondAThousandTheSeriesIsTheDistribution(double degreesOfFreedom) {
    assertThat(withDegreesOfFreedom(degreesOfFreedom).coverageFactor())
        .isCloseTo(
            TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(0.025), within(1e-11));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, Double.NEGATIVE_INFINITY})
  void noTIsMadeUpForWhatIsNoNumberOfDegrees(double degreesOfFreedom) {
    assertThatIllegalArgumentException().isThrownBy(() -> Coverage.factor(degreesOfFreedom));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Source("s", "s", degreesOfFreedom, "s"))
        .withMessageContaining("above 0");
  }
}
