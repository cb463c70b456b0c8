package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.function.DoubleSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tareline.cutting.Cut;
import org.tareline.cutting.CutList;
import org.tareline.cutting.Shape;
import org.tareline.cutting.Stock;
import org.tareline.evidence.Estimate;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * What it costs to calculate the masses of 1 000 parts from cut lists of 30 lines each, of eight
 * materials: in the core, beside a plain loop over arrays that yields the same values and
 * uncertainties; and from the database with all that stands before the core. Times are one
 * machine's.
 */
@Tag("benchmark")
@FeatureTest
class CutListBenchmark {

  private static final int PARTS = 1_000;
  private static final int LINES = 30;
  private static final int MATERIALS = 8;
  private static final double TOLERANCE = 0.003;

  private final double[][] length = new double[PARTS][LINES];
  private final double[][] width = new double[PARTS][LINES];
  private final int[][] material = new int[PARTS][LINES];
  private final double[] grams = new double[MATERIALS];

  CutListBenchmark() {
    Random random = new Random(20270411);
    for (int i = 0; i < MATERIALS; i++) {
      grams[i] = 30 + 5 * i;
    }
    for (int part = 0; part < PARTS; part++) {
      for (int line = 0; line < LINES; line++) {
        length[part][line] = (200 + random.nextInt(3_000)) / 1e3;
        width[part][line] = (100 + random.nextInt(1_400)) / 1e3;
        material[part][line] = random.nextInt(MATERIALS);
      }
    }
  }

  @Test
  void calculatedMassOfManyParts(TestLedger ledger, TestServer server) {
    List<CutList> lists = lists();
    assertThat(core(lists)).isCloseTo(plain(), within(1e-3));
    double plain = median(this::plain, 31);
    System.out.printf(
        Locale.ROOT,
        "1 000 parts of 30 lines: plain loop %.2f ms; core %.2f ms, ratio %.1f%n",
        plain,
        median(() -> core(lists), 31),
        median(() -> core(lists), 31) / plain);

    List<Part> parts = kept(ledger, server);
    Parts service = server.bean(Parts.class);
    DoubleSupplier fromDatabase = () -> sum(service, ledger, parts);
    assertThat(fromDatabase.getAsDouble()).isCloseTo(plain(), within(1e-3));
    double core = median(() -> core(lists), 11);
    double database = median(fromDatabase, 11);
    System.out.printf(
        Locale.ROOT,
        "the same from the database %.0f ms, core %.2f ms, ratio %.0f%n",
        database,
        core,
        database / core);
  }

  private List<CutList> lists() {
    Stock[] stocks = new Stock[MATERIALS];
    for (int i = 0; i < MATERIALS; i++) {
      stocks[i] =
          new Stock(
              "m" + i,
              "M" + i,
              Stock.Per.SQUARE_METRE,
              grams[i],
              0.05 * grams[i] / Math.sqrt(3),
              Double.POSITIVE_INFINITY);
    }
    List<CutList> lists = new ArrayList<>();
    for (int part = 0; part < PARTS; part++) {
      List<Cut> cuts = new ArrayList<>();
      for (int line = 0; line < LINES; line++) {
        cuts.add(
            new Cut.Panel(
                stocks[material[part][line]],
                new Shape.Rectangle(length[part][line], width[part][line]),
                1,
                false));
      }
      lists.add(new CutList("p" + part, cuts, TOLERANCE));
    }
    return lists;
  }

  /** Grams of all parts, and the standard uncertainty of each on top: both have to be right. */
  private static double core(List<CutList> lists) {
    double sum = 0;
    for (CutList list : lists) {
      Estimate estimate = list.estimate();
      sum += estimate.value().grams().doubleValue() + estimate.standardUncertaintyInGrams();
    }
    return sum;
  }

  private double plain() {
    double sum = 0;
    double[] terms = new double[MATERIALS];
    for (int part = 0; part < PARTS; part++) {
      Arrays.fill(terms, 0);
      double mass = 0;
      double edge = 0;
      for (int line = 0; line < LINES; line++) {
        int of = material[part][line];
        double one = length[part][line] * width[part][line] * grams[of];
        mass += one;
        terms[of] += one * 0.05 / Math.sqrt(3);
        edge += 2 * (length[part][line] + width[part][line]) * grams[of];
      }
      double variance = Math.pow(edge * TOLERANCE / Math.sqrt(3), 2);
      for (double term : terms) {
        variance += term * term;
      }
      sum += mass + Math.sqrt(variance);
    }
    return sum;
  }

  private List<Part> kept(TestLedger ledger, TestServer server) {
    for (int i = 0; i < MATERIALS; i++) {
      ledger
          .api()
          .post(
              "/materials",
              "{\"code\":\"M%d\",\"name\":\"M\",\"kind\":\"fabric\",\"nominal\":\"%s g/m2\",\"tolerance\":\"5 %%\"}"
                  .formatted(i, grams[i]))
          .expect(201);
    }
    for (int part = 0; part < PARTS; part++) {
      StringBuilder lines = new StringBuilder();
      for (int line = 0; line < LINES; line++) {
        lines
            .append(line == 0 ? "" : ",")
            .append(
                String.format(
                    Locale.ROOT,
                    "{\"kind\":\"panel\",\"shape\":\"rectangle\",\"material\":\"M%d\",\"length\":\"%.3f m\",\"width\":\"%.3f m\"}",
                    material[part][line],
                    length[part][line],
                    width[part][line]));
      }
      ledger
          .api()
          .post(
              "/parts",
              "{\"code\":\"P%d\",\"name\":\"P\",\"buildSheet\":{\"lines\":[%s]}}"
                  .formatted(part, lines))
          .expect(201);
    }
    List<Part> parts = server.bean(Parts.class).all(ledger.member());
    assertThat(parts).hasSize(PARTS);
    return parts;
  }

  private static double sum(Parts service, TestLedger ledger, List<Part> parts) {
    return service.masses(ledger.member(), parts).values().stream()
        .map(mass -> Objects.requireNonNull(mass.estimate()))
        .mapToDouble(
            estimate ->
                estimate.value().grams().doubleValue() + estimate.standardUncertaintyInGrams())
        .sum();
  }

  private static double median(DoubleSupplier work, int times) {
    double[] millis = new double[times];
    double sink = 0;
    for (int i = 0; i < times; i++) {
      long start = System.nanoTime();
      sink += work.getAsDouble();
      millis[i] = (System.nanoTime() - start) / 1e6;
    }
    assertThat(sink).isPositive();
    Arrays.sort(millis);
    return millis[times / 2];
  }
}
