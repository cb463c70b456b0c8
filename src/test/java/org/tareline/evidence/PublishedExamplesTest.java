package org.tareline.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.tareline.units.Mass;

/** Worked examples of the guides. Their units are not grams; the algebra does not mind. */
class PublishedExamplesTest {

  private static Source source(String id, double degreesOfFreedom) {
    return new Source(id, id, degreesOfFreedom, id);
  }

  private static Estimate of(Map<Source, Double> coefficients) {
    return Estimate.of(Mass.ZERO, coefficients);
  }

  /** JCGM 100:2008, H.1: the end gauge. Standard uncertainties in nanometres. */
  @Test
  void endGauge() {
    Estimate length =
        of(
            Map.of(
                source("standard", 18), 25.0, // H.1.3.1, H.1.6
                source("difference", 25.6), 9.7, // H.1.3.2, H.1.6
                source("expansion", 50), 2.9, // H.1.3.5, H.1.6
                source("temperature", 2), 16.6)); // H.1.3.6, H.1.6
    // Printed u_c = 32 nm and ν_eff = 16.7, which is cut to 16; from the printed parts they are
    // 31.671 nm and 16.765.
    assertThat(length.standardUncertaintyInGrams()).isCloseTo(32, within(0.5));
    assertThat(length.standardUncertaintyInGrams()).isCloseTo(31.671, within(5e-4));
    assertThat(length.effectiveDegreesOfFreedom()).isCloseTo(16.7, within(0.1));
    assertThat(length.effectiveDegreesOfFreedom()).isCloseTo(16.765, within(5e-4));
    // t95(16) = 2.12: JCGM 100:2008, Table G.2.
    assertThat(length.coverageFactor()).isCloseTo(2.12, within(0.005));
  }

  /**
   * JCGM 100:2008, G.4.1, example: relative uncertainties in per cent, from 10, 5 and 15 values.
   */
  @Test
  void productOfThree() {
    Estimate product =
        of(Map.of(source("x1", 9), 0.25, source("x2", 4), 0.57, source("x3", 14), 0.82));
    // Printed u_c = 1.03 % and ν_eff = 19.0; from the same inputs 1.0295 % and 18.999.
    assertThat(product.standardUncertaintyInGrams()).isCloseTo(1.03, within(0.005));
    assertThat(product.effectiveDegreesOfFreedom()).isCloseTo(19.0, within(0.05));
    assertThat(product.effectiveDegreesOfFreedom()).isCloseTo(18.999, within(5e-4));
    // The guide goes on with t95(19) = 2.09 of the rounded number. We cut 18.999 down, as G.4.1
    // says for tables: t95(18) = 2.10, Table G.2.
    assertThat(product.coverageFactor()).isCloseTo(2.10, within(0.005));
  }

  /** JCGM 100:2008, 5.2.2, example: ten resistors calibrated against one standard, in series. */
  @Test
  void tenResistorsOfOneStandard() {
    Source standard = Source.of("standard", "the standard resistor");
    List<Estimate> resistors = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      resistors.add(Estimate.of(Mass.ofGrams("1000"), Map.of(standard, 0.1))); // 100 mΩ each
    }
    Estimate series = Estimate.sum(resistors);
    assertThat(series.value()).isEqualTo(Mass.ofGrams("10000")); // R_ref = 10 kΩ
    // Printed: u_c = 1 Ω.
    assertThat(series.standardUncertaintyInGrams()).isCloseTo(1, within(1e-12));
  }

  /** The same example's wrong answer: what comes out if the ten are thought independent. */
  @Test
  void tenResistorsAsIfOfTenStandards() {
    List<Estimate> resistors = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      resistors.add(of(Map.of(Source.of("standard " + i, "a standard resistor"), 0.1)));
    }
    // Printed: 0.32 Ω, and that it is incorrect.
    assertThat(Estimate.sum(resistors).standardUncertaintyInGrams()).isCloseTo(0.32, within(0.005));
  }

  /** JCGM 100:2008, 4.4.3 and Table 1: twenty temperatures, read here as grams. */
  @Test
  void twentyReadings() {
    List<Mass> readings =
        DoubleStream.of(
                96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33,
                100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72)
            .mapToObj(Mass::fromGrams)
            .toList();
    Instrument plain =
        new Instrument("i", "i", Mass.ofGrams("0.01"), null, Double.POSITIVE_INFINITY, 0);
    WeighingEvidence weighing = WeighingEvidence.from("w", readings, Mass.ZERO, 1, plain);
    // Printed: mean 100.145 °C, s = 1.489 °C, s of the mean 0.333 °C; s recomputed 1.4888, 0.3329.
    assertThat(weighing.mean()).isEqualTo(Mass.ofGrams("100.145"));
    assertThat(weighing.spreadInGrams().orElseThrow()).isCloseTo(1.489, within(5e-4));
    WeighingEvidence.Term term = weighing.terms().get(0);
    assertThat(term.standardUncertaintyInGrams()).isCloseTo(0.333, within(5e-4));
    assertThat(term.source().degreesOfFreedom()).isEqualTo(19); // 4.2.3: n − 1
  }

  /** EURACHEM/CITAC, QUAM, example A1: a calibration standard, c = 1000 m P / V. */
  @Test
  void calibrationStandard() {
    double volume = // triangular, repeatability and temperature, in mL: A1.4, 0.07 printed
        of(Map.of(
                Source.of("flask", ""), 0.1 / Math.sqrt(6),
                Source.of("filling", ""), 0.02,
                Source.of("temperature", ""), 0.084 / Math.sqrt(3)))
            .standardUncertaintyInGrams();
    assertThat(volume).isCloseTo(0.07, within(0.005));
    double concentration = 1000 * 100.28 * 0.9999 / 100.0;
    assertThat(concentration).isCloseTo(1002.7, within(0.05)); // printed, mg/L
    Map<Source, Double> relative = new LinkedHashMap<>();
    relative.put(Source.of("purity", ""), 0.000058 / 0.9999);
    relative.put(Source.of("mass", ""), 0.05 / 100.28);
    relative.put(Source.of("volume", ""), 0.07 / 100.0);
    double uncertainty = concentration * of(relative).standardUncertaintyInGrams();
    assertThat(uncertainty).isCloseTo(0.9, within(0.05)); // printed, mg/L
    assertThat(uncertainty).isCloseTo(0.8637, within(5e-4)); // recomputed from unrounded relatives
  }

  /** JCGM 100:2008, 4.4.5: limits of ±4 °C about 100 °C and nothing more known. */
  @Test
  void limitsAlone() {
    Stated stated = Stated.of("t", "limits", Mass.ofGrams("100"), Mass.ofGrams("4"));
    assertThat(stated.estimate().standardUncertaintyInGrams())
        .isCloseTo(2.3, within(0.05)); // printed
  }
}
