package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tareline.units.Mass;

class RunningTotalTest {

  static List<Long> seeds() {
    return new Random(11).longs(100).boxed().toList();
  }

  private static Estimate any(Random random) {
    Map<Source, Double> terms = new HashMap<>();
    for (int i = 0; i < 4; i++) {
      int number = random.nextInt(12);
      // Sources 0 to 3 have no finite ν, the others one of 2 to 4 in three groups.
      terms.put(
          number < 4
              ? Source.of("s" + number, "s")
              : new Source("s" + number, "s", 2 + number % 3, "g" + number % 3),
          random.nextGaussian());
    }
    return Estimate.of(new Mass(random.nextInt()), terms);
  }

  /** Against sums made anew by {@link Estimate}, whatever was added, taken off or only tried. */
  @ParameterizedTest
  @MethodSource("seeds")
  void itStandsAsASumMadeAnewDoes(long seed) {
    Random random = new Random(seed);
    List<Estimate> estimates = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      estimates.add(any(random));
    }
    Numbering numbering = Numbering.of(estimates);
    RunningTotal total = new RunningTotal(numbering);
    Estimate anew = Estimate.exact(Mass.ZERO);
    for (int step = 0; step < 30; step++) {
      int at = random.nextInt(10);
      assertStands(total.with(numbering.estimates().get(at)), anew.plus(estimates.get(at)));
      assertStands(total.standing(), anew);
      int factor = random.nextInt(5) - 2;
      total.add(numbering.estimates().get(at), factor);
      anew = anew.plus(estimates.get(at).times(factor));
      assertStands(total.standing(), anew);
      assertThat(total.covariance(numbering.estimates().get(0)))
          .isCloseTo(anew.covariance(estimates.get(0)), within(1e-9));
    }
  }

  private static void assertStands(RunningTotal.Standing standing, Estimate anew) {
    assertThat(standing.grams()).isCloseTo(anew.value().inGrams(), within(1e-9));
    assertThat(standing.standardUncertaintyInGrams())
        .isCloseTo(anew.standardUncertaintyInGrams(), within(1e-7));
    double degreesOfFreedom = anew.effectiveDegreesOfFreedom();
    // Where ν is whole but for the last digits, t may be of either row of the table.
    if (Math.abs(degreesOfFreedom - Math.rint(degreesOfFreedom)) > 1e-6
        || Double.isInfinite(degreesOfFreedom)) {
      assertThat(standing.expandedUncertaintyInGrams())
          .isCloseTo(anew.expandedUncertaintyInGrams(), within(1e-6));
    }
  }
}
