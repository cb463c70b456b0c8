package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.units.Mass;

class EstimateTest {

  private final Random random = new Random(20270411);
  private final List<Source> sources = sources();

  private static List<Source> sources() {
    List<Source> sources = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      double degreesOfFreedom = i % 3 == 0 ? Double.POSITIVE_INFINITY : 2 + i;
      sources.add(new Source("s" + i, "source " + i, degreesOfFreedom, "s" + i));
    }
    // Three that lean on one finding, with ν = 5.
    for (int i = 0; i < 3; i++) {
      sources.add(new Source("r" + i, "weighing " + i, 5, "repeatability"));
    }
    return sources;
  }

  private Estimate any() {
    Map<Source, Double> coefficients = new HashMap<>();
    int terms = random.nextInt(6);
    for (int i = 0; i < terms; i++) {
      coefficients.put(sources.get(random.nextInt(sources.size())), random.nextGaussian());
    }
    return Estimate.of(new Mass(random.nextInt(1_000_000_000)), coefficients);
  }

  private List<Estimate> some() {
    List<Estimate> some = new ArrayList<>();
    for (int i = random.nextInt(20); i >= 0; i--) {
      some.add(any());
    }
    return some;
  }

  /** The second method: a sum by the book, in a sorted map by id, one coefficient at a time. */
  private static Map<String, Double> plainSum(List<Estimate> estimates, int[] factors) {
    Map<String, Double> sum = new TreeMap<>();
    for (int i = 0; i < factors.length; i++) {
      for (Map.Entry<Source, Double> term : estimates.get(i).coefficients().entrySet()) {
        sum.merge(term.getKey().id(), factors[i] * term.getValue(), Double::sum);
      }
    }
    return sum;
  }

  private static void assertSameForm(Estimate actual, Map<String, Double> expected) {
    Map<String, Double> found = new TreeMap<>();
    actual.coefficients().forEach((source, grams) -> found.put(source.id(), grams));
    for (String id : expected.keySet()) {
      assertThat(found.getOrDefault(id, 0.0)).isCloseTo(expected.get(id), within(1e-12));
    }
    assertThat(expected.keySet()).containsAll(found.keySet());
  }

  @Test
  void sumsDifferencesAndMultiplesAreThoseOfTheLinearForms() {
    for (int i = 0; i < 500; i++) {
      Estimate a = any();
      Estimate b = any();
      assertSameForm(a.plus(b), plainSum(List.of(a, b), new int[] {1, 1}));
      assertSameForm(a.minus(b), plainSum(List.of(a, b), new int[] {1, -1}));
      assertSameForm(a.times(-7), plainSum(List.of(a), new int[] {-7}));
      assertThat(a.minus(b).value()).isEqualTo(a.value().minus(b.value()));
      assertThat(a.times(-7).value()).isEqualTo(a.value().times(-7));
    }
  }

  @Test
  void aSumDoesNotDependOnItsOrder() {
    for (int i = 0; i < 200; i++) {
      List<Estimate> some = some();
      Estimate sum = Estimate.sum(some);
      Collections.shuffle(some, random);
      Estimate again = Estimate.sum(some);
      assertThat(again.value()).isEqualTo(sum.value());
      assertThat(again.variance()).isCloseTo(sum.variance(), within(1e-12));
      Estimate oneByOne = some.stream().reduce(Estimate.exact(Mass.ZERO), Estimate::plus);
      assertThat(oneByOne.value()).isEqualTo(sum.value());
      assertThat(oneByOne.variance()).isCloseTo(sum.variance(), within(1e-12));
    }
  }

  @Test
  void whatIsOnBothSidesCancelsErrorAndAll() {
    for (int i = 0; i < 200; i++) {
      Estimate shared = any();
      Estimate a = any();
      Estimate b = any();
      Estimate apart = a.minus(b);
      Estimate together = a.plus(shared).minus(b.plus(shared));
      assertThat(together.value()).isEqualTo(apart.value());
      assertThat(together.variance()).isCloseTo(apart.variance(), within(1e-12));
    }
    Estimate part = any();
    assertThat(part.minus(part)).isEqualTo(Estimate.exact(Mass.ZERO));
  }

  @Test
  void twiceTheSamePartHasTwiceItsError() {
    for (int i = 0; i < 200; i++) {
      Estimate part = any();
      double twice = 2 * part.standardUncertaintyInGrams();
      assertThat(part.plus(part).standardUncertaintyInGrams()).isCloseTo(twice, within(1e-12));
      assertThat(part.times(2).standardUncertaintyInGrams()).isCloseTo(twice, within(1e-12));
    }
  }

  @Test
  void twoPartsThatShareNothingAddInQuadrature() {
    // 3, 4, 5 by Pythagoras.
    Estimate a = Estimate.of(Mass.ZERO, Map.of(Source.of("a", "a"), 3.0));
    Estimate b = Estimate.of(Mass.ZERO, Map.of(Source.of("b", "b"), 4.0));
    assertThat(a.plus(b).standardUncertaintyInGrams()).isEqualTo(5);
    assertThat(a.minus(b).standardUncertaintyInGrams()).isEqualTo(5);
    assertThat(a.covariance(b)).isZero();
  }

  @Test
  void varianceOfASumIsVariancesAndTwiceTheCovariance() {
    for (int i = 0; i < 200; i++) {
      Estimate a = any();
      Estimate b = any();
      // JCGM 100:2008, 5.2.2 eq. 13, for two inputs.
      assertThat(a.plus(b).variance())
          .isCloseTo(a.variance() + b.variance() + 2 * a.covariance(b), within(1e-12));
      assertThat(a.covariance(b)).isCloseTo(b.covariance(a), within(1e-12));
      assertThat(a.covariance(a)).isCloseTo(a.variance(), within(1e-12));
    }
  }

  @Test
  void effectiveDegreesOfFreedomAreThoseOfWelchAndSatterthwaiteOverGroups() {
    for (int i = 0; i < 300; i++) {
      Estimate sum = Estimate.sum(some());
      // The second method: the formula as printed (JCGM 100:2008, G.2b), group by group.
      Map<String, Double> varianceOfGroup = new HashMap<>();
      Map<String, Double> degreesOfGroup = new HashMap<>();
      sum.coefficients()
          .forEach(
              (source, c) -> {
                varianceOfGroup.merge(source.varianceGroup(), c * c, Double::sum);
                degreesOfGroup.put(source.varianceGroup(), source.degreesOfFreedom());
              });
      double denominator = 0;
      for (Map.Entry<String, Double> group : varianceOfGroup.entrySet()) {
        denominator +=
            Math.pow(group.getValue(), 2) / degreesOfGroup.getOrDefault(group.getKey(), Double.NaN);
      }
      double expected =
          denominator == 0
              ? Double.POSITIVE_INFINITY
              : Math.pow(sum.standardUncertaintyInGrams(), 4) / denominator;
      if (Double.isInfinite(expected)) {
        assertThat(sum.effectiveDegreesOfFreedom()).isInfinite();
      } else {
        assertThat(sum.effectiveDegreesOfFreedom())
            .isCloseTo(expected, within(1e-9 * expected)); // to nine digits
      }
    }
  }

  @Test
  void anExactMassHasNoUncertaintyAndTheFactorOfTheNormalDistribution() {
    Estimate exact = Estimate.exact(Mass.ofGrams("28.349523125"));
    assertThat(exact.effectiveDegreesOfFreedom()).isInfinite();
    assertThat(exact.coverageFactor()).isEqualTo(1.959964); // as settled for u = 0
    assertThat(exact.expandedUncertainty()).isEqualTo(Mass.ZERO);
  }

  @Test
  void theExpandedUncertaintyIsTheFactorTimesTheStandardOne() {
    Source source = new Source("s", "s", 4, "s");
    Estimate estimate = Estimate.of(Mass.ZERO, Map.of(source, 0.5));
    // t95(4) = 2.776445 (NIST TN 1297, Table B.1, recomputed), halved.
    assertThat(estimate.expandedUncertaintyInGrams()).isCloseTo(1.3882225, within(5e-7));
    assertThat(estimate.expandedUncertainty().inGrams()).isCloseTo(1.3882225, within(5e-7));
    assertThat(estimate.standardUncertainty()).isEqualTo(Mass.ofGrams("0.5"));
  }

  @Test
  void tinyAndHugeErrorsKeepTheirDegreesOfFreedom() {
    for (double size : new double[] {1e-90, 1e90}) { // whose fourth powers no double holds
      Estimate estimate = Estimate.of(Mass.ZERO, Map.of(new Source("s", "s", 7, "s"), size));
      assertThat(estimate.effectiveDegreesOfFreedom()).isCloseTo(7, within(1e-9));
    }
  }

  @Test
  void aCoefficientOfNothingIsNoSource() {
    Source source = Source.of("s", "s");
    assertThat(Estimate.of(Mass.ZERO, Map.of(source, 0.0)).coefficients()).isEmpty();
    assertThat(Estimate.of(Mass.ZERO, Map.of(source, -0.0)).coefficients()).isEmpty();
    assertThat(any().times(0)).isEqualTo(Estimate.exact(Mass.ZERO));
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void aCoefficientThatIsNoNumberIsRefusedByName(double grams) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Estimate.of(Mass.ZERO, Map.of(Source.of("the span", "s"), grams)))
        .withMessageContaining("the span");
  }

  @Test
  void massesThatAreTooLargeAreAnErrorAndNeverWrap() {
    Estimate most = Estimate.exact(new Mass(Long.MAX_VALUE));
    Estimate little = Estimate.exact(new Mass(1));
    assertThatExceptionOfType(ArithmeticException.class).isThrownBy(() -> most.plus(little));
    assertThatExceptionOfType(ArithmeticException.class).isThrownBy(() -> most.times(2));
    assertThatExceptionOfType(ArithmeticException.class)
        .isThrownBy(() -> most.times(-1).minus(little).minus(little));
  }

  @Test
  void aSourceIsWhatItsIdSays() {
    Source once = Source.of("scale/span", "span of the kitchen scale");
    Source again = new Source("scale/span", "renamed since", 8, "another");
    assertThat(once).isEqualTo(again).hasSameHashCodeAs(again);
    Estimate difference =
        Estimate.of(Mass.ZERO, Map.of(once, 0.25))
            .minus(Estimate.of(Mass.ZERO, Map.of(again, 0.25)));
    assertThat(difference.coefficients()).isEmpty();
  }

  @Test
  void estimatesOfDifferentNumberingsAreNotAddedByMistake() {
    Numbering numbering = Numbering.of(List.of(estimateOf("a"), estimateOf("b")));
    Tally tally = new Tally(numbering);
    assertThatIllegalArgumentException().isThrownBy(() -> tally.add(estimateOf("a"), 1));
    tally.add(numbering.estimates().get(0), 3);
    assertThat(tally.take()).isEqualTo(estimateOf("a").times(3));
    assertThat(tally.take()).isEqualTo(Estimate.exact(Mass.ZERO));
  }

  private static Estimate estimateOf(String id) {
    return Estimate.of(Mass.ofGrams("1"), Map.of(Source.of(id, id), 0.5));
  }

  @Test
  void aDifferenceWithinItsUncertaintyIsUndecided() {
    // k = 1.959964 where ν is infinite, so u = 1 g makes U = 1.959964 g.
    Map<Source, Double> oneGram = Map.of(Source.of("s", "s"), 1.0);
    assertThat(Verdict.of(Estimate.of(Mass.ofGrams("1.959963"), oneGram)))
        .isEqualTo(Verdict.UNDECIDED);
    assertThat(Verdict.of(Estimate.of(Mass.ofGrams("-1.959963"), oneGram)))
        .isEqualTo(Verdict.UNDECIDED);
    assertThat(Verdict.of(Estimate.of(Mass.ofGrams("1.959965"), oneGram)))
        .isEqualTo(Verdict.HEAVIER);
    assertThat(Verdict.of(Estimate.of(Mass.ofGrams("-1.959965"), oneGram)))
        .isEqualTo(Verdict.LIGHTER);
    assertThat(Verdict.of(Estimate.exact(Mass.ZERO))).isEqualTo(Verdict.UNDECIDED);
    assertThat(Verdict.of(Estimate.exact(new Mass(1)))).isEqualTo(Verdict.HEAVIER);
  }

  @Test
  void twoOfOneBasisAreOfItAndTwoOfSeveralAreMixed() {
    assertThat(Basis.of(Basis.WEIGHED, Basis.WEIGHED)).isEqualTo(Basis.WEIGHED);
    assertThat(Basis.of(Basis.WEIGHED, Basis.ESTIMATED)).isEqualTo(Basis.MIXED);
    assertThat(Basis.of(Basis.MIXED, Basis.ESTIMATED)).isEqualTo(Basis.MIXED);
    assertThat(Basis.values())
        .extracting(Basis::word)
        .containsExactly("estimated", "calculated", "weighed", "mixed");
    assertThat(Basis.CALCULATED.pageWords()).isEqualTo("from the cut list");
  }

  @ParameterizedTest
  @ValueSource(strings = {"de-DE", "tr-TR", "ar-EG-u-nu-arab"})
  void nothingChangesWithTheLocaleOfTheMachine(String tag) {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag(tag));
      Estimate estimate = Estimate.of(Mass.ofGrams("381.5"), Map.of(Source.of("s", "s"), 0.25));
      assertThat(estimate).hasToString("381.5 g (u = 0.25 g)");
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Source("s", "s", -1.5, "s"))
          .withMessage("Degrees of freedom must be above 0; those of s are -1.5.");
    } finally {
      Locale.setDefault(before);
    }
  }
}
