package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.evidence.OutlierScreen.Test.GRUBBS;
import static org.tareline.evidence.OutlierScreen.Test.MODIFIED_Z;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.evidence.OutlierScreen.Flag;
import org.tareline.units.Mass;

class OutlierScreenTest {

  /** Invented; what comes of them was recomputed by a program apart, to six places. */
  private static final List<Mass> WORKED =
      readings("412.1", "412.3", "412.2", "412.4", "412.2", "415.0");

  private static List<Mass> readings(String... grams) {
    return Stream.of(grams).map(Mass::ofGrams).toList();
  }

  /**
   * Two-sided 5 %. Printed: the table of critical values, two-sided 0.05, in use for Grubbs (1969),
   * where 2.202 for seven readings is a misprint of 2.020 and left out here. Recomputed by the
   * formula of the e-Handbook, 1.3.5.17.1, with scipy. The printed table rounds n = 8 and 15 in
   * another way, so that two in its last digit are allowed.
   */
  @ParameterizedTest
  @CsvSource({
    "3, 1.155, 1.1543",
    "4, 1.481, 1.4813",
    "5, 1.715, 1.7150",
    "6, 1.887, 1.8871",
    "7, 2.020, 2.0200",
    "8, 2.126, 2.1266",
    "9, 2.215, 2.2150",
    "10, 2.290, 2.2900",
    "11, 2.355, 2.3547",
    "12, 2.412, 2.4116",
    "13, 2.462, 2.4620",
    "14, 2.507, 2.5073",
    "15, 2.549, 2.5483",
    "20, , 2.7082",
    "30, , 2.9085"
  })
  void theCriticalValuesAreThePublishedOnes(int n, Double printed, double recomputed) {
    double critical = OutlierScreen.criticalGrubbs(n);
    if (printed != null) {
      assertThat(critical).isCloseTo(printed, within(0.002));
    }
    assertThat(critical).isCloseTo(recomputed, within(5e-5)); // four decimals are given
  }

  @Test
  void theWorkedReadingIsFlaggedByBoth() {
    assertThat(OutlierScreen.grubbs(WORKED)).isCloseTo(2.032932, within(5e-7));
    assertThat(OutlierScreen.of(WORKED))
        .containsExactly(new Flag(5, Mass.ofGrams("415.0"), List.of(GRUBBS, MODIFIED_Z)));
  }

  /**
   * Median 412.25, MAD 0.1: the limit 3.5 is reached at 412.25 + 0.1 × 3.5/0.6745 = 412.7689028….
   */
  @ParameterizedTest
  @CsvSource({"412.768902, false", "412.768903, true"})
  void theModifiedZScoreFlagsBeyondItsLimit(String last, boolean flagged) {
    List<Mass> readings = new ArrayList<>(WORKED);
    readings.set(5, Mass.ofGrams(last));
    assertThat(OutlierScreen.of(readings).stream().anyMatch(f -> f.tests().contains(MODIFIED_Z)))
        .isEqualTo(flagged);
  }

  /** At 0.6745 d/MAD = 3.5 exactly nothing is beyond: d = 7000 and MAD = 1349 nanograms. */
  @Test
  void atTheLimitItselfNothingIsFlagged() {
    List<Mass> at =
        IntStream.of(-7000, -1349, -1349, 0, 1349, 1349, 7000).mapToObj(Mass::new).toList();
    assertThat(OutlierScreen.of(at)).isEmpty();
    List<Mass> beyond =
        IntStream.of(-7001, -1349, -1349, 0, 1349, 1349, 7001).mapToObj(Mass::new).toList();
    assertThat(OutlierScreen.of(beyond))
        .extracting(Flag::index, Flag::tests)
        .containsExactly(tuple(0, List.of(MODIFIED_Z)), tuple(6, List.of(MODIFIED_Z)));
  }

  @Test
  void whereMoreThanHalfAreAlikeGrubbsAloneSpeaks() {
    assertThat(OutlierScreen.of(readings("381", "381", "381", "381", "385")))
        .containsExactly(new Flag(4, Mass.ofGrams("385"), List.of(GRUBBS)));
  }

  /** The most G can be among three is 2/√3 = 1.154701, and among four 3/2. */
  @Test
  void allAlikeButOneIsTheMostThatGrubbsCanSee() {
    assertThat(OutlierScreen.grubbs(readings("381", "381", "382")))
        .isCloseTo(1.154701, within(5e-7));
    assertThat(OutlierScreen.of(readings("381", "381", "382"))).hasSize(1);
    assertThat(OutlierScreen.grubbs(readings("381", "381", "382", "381"))).isEqualTo(1.5);
    assertThat(OutlierScreen.of(readings("381", "381", "382", "381")))
        .containsExactly(new Flag(2, Mass.ofGrams("382"), List.of(GRUBBS)));
  }

  @Test
  void ofTwoThatAreEquallyFarBothAreFlagged() {
    // 30 readings alike and one on either side: G = 1/√(2/31) = 3.937, critical 2.94 or so.
    List<Mass> readings = new ArrayList<>(Collections.nCopies(30, Mass.ofGrams("100")));
    readings.add(0, Mass.ofGrams("100.1"));
    readings.add(Mass.ofGrams("99.9"));
    assertThat(OutlierScreen.of(readings)).extracting(Flag::index).containsExactly(0, 31);
    // One nanogram nearer, and it is not the farthest any more.
    readings.set(31, Mass.ofGrams("99.900000001"));
    assertThat(OutlierScreen.of(readings)).extracting(Flag::index).containsExactly(0);
  }

  @Test
  void fewerThanThreeAreNeverFlagged() {
    assertThat(OutlierScreen.of(List.of())).isEmpty();
    assertThat(OutlierScreen.of(readings("1"))).isEmpty();
    assertThat(OutlierScreen.of(readings("1", "1000"))).isEmpty();
  }

  @Test
  void readingsAllAlikeAreNeverFlagged() {
    assertThat(OutlierScreen.grubbs(readings("0.1", "0.1", "0.1"))).isZero();
    assertThat(OutlierScreen.of(readings("0.1", "0.1", "0.1"))).isEmpty();
  }

  @Test
  void theHeaviestLoadsAreLookedAtToTheNanogram() {
    long heavy = Long.MAX_VALUE;
    List<Mass> readings = Stream.of(heavy, heavy, heavy, heavy, heavy - 1).map(Mass::new).toList();
    assertThat(OutlierScreen.of(readings)).extracting(Flag::index).containsExactly(4);
  }

  /**
   * Neither another zero, nor another unit, nor another order, nor a mirror changes what is seen.
   */
  @Test
  void whatIsFlaggedDependsOnlyOnHowTheReadingsLie() {
    Random random = new Random(7);
    int seen = 0;
    for (int round = 0; round < 2_000; round++) {
      List<Mass> readings = some(random);
      List<Flag> flags = OutlierScreen.of(readings);
      seen += flags.isEmpty() ? 0 : 1;
      Mass offset = new Mass(random.nextLong(1L << 50));
      assertThat(whichAndWhy(readings.stream().map(offset::plus).toList()))
          .isEqualTo(whichAndWhy(readings));
      assertThat(whichAndWhy(readings.stream().map(each -> each.times(28)).toList()))
          .isEqualTo(whichAndWhy(readings));
      assertThat(whichAndWhy(readings.stream().map(Mass::negated).toList()))
          .isEqualTo(whichAndWhy(readings));
      List<Mass> shuffled = new ArrayList<>(readings);
      Collections.shuffle(shuffled, random);
      assertThat(OutlierScreen.of(shuffled).stream().map(Flag::reading).sorted().toList())
          .isEqualTo(flags.stream().map(Flag::reading).sorted().toList());
      for (Flag flag : flags) {
        assertThat(flag.reading()).isEqualTo(readings.get(flag.index()));
        assertThat(flag.tests()).isNotEmpty();
      }
    }
    assertThat(seen).isBetween(200, 1_800); // or the above compares nothing with nothing
  }

  private static List<Object> whichAndWhy(List<Mass> readings) {
    return OutlierScreen.of(readings).stream()
        .<Object>map(flag -> List.of(flag.index(), flag.tests()))
        .toList();
  }

  private static List<Mass> some(Random random) {
    int steps = 1 + random.nextInt(1_000);
    return IntStream.range(0, 3 + random.nextInt(10))
        .mapToObj(i -> new Mass(Math.round(random.nextGaussian() * steps)))
        .toList();
  }

  /** Of normal readings the test flags one in twenty sets: that is what 5 % means. */
  @Test
  void fivePerCentOfSoundWeighingsAreFlaggedByGrubbs() {
    Random random = new Random(11);
    int flagged = 0;
    int rounds = 20_000;
    for (int round = 0; round < rounds; round++) {
      List<Mass> readings =
          IntStream.range(0, 6).mapToObj(i -> Mass.fromGrams(random.nextGaussian())).toList();
      if (OutlierScreen.of(readings).stream().anyMatch(flag -> flag.tests().contains(GRUBBS))) {
        flagged++;
      }
    }
    // The standard deviation of the share is √(0.05 × 0.95/20 000) = 0.0015; four of it.
    assertThat((double) flagged / rounds).isCloseTo(0.05, within(0.006));
  }
}
