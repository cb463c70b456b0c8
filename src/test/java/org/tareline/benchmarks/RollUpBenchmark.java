package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Instrument;
import org.tareline.evidence.Source;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Entry;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.rollup.Tree;
import org.tareline.units.Mass;

/**
 * What a roll-up with its whole breakdown costs beside plain loops over the same numbers, for 2 000
 * leaf lines ten levels deep. Three loops, for "the same" can be meant in three ways:
 *
 * <ul>
 *   <li>arrays of values and coefficients whose sources are numbered already and whose tree is laid
 *       out flat already, from which come masses and shares alone;
 *   <li>the same arrays, with all that the breakdown has: for every line its own value,
 *       coefficients and standard uncertainty as well;
 *   <li>the assembly itself, walked with a map from source to coefficient, as one would write
 *       first.
 * </ul>
 *
 * The first two stand beside the roll-up of a tree that is laid out already, the third beside that
 * of a bare assembly. Times are of the thread alone, for machines are shared; they are one
 * machine's.
 */
@Tag("benchmark")
class RollUpBenchmark {

  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static final int LEAVES = 2_000;
  private static final int LEVELS = 10;
  private static final int SCALES = 3;

  private final Random random = new Random(20270411);
  private final Instrument[] scales = new Instrument[SCALES];
  private final List<Estimate> leafEstimates = new ArrayList<>();
  private final Assembly assembly;
  private final Tree laidOut;

  // The plain loop's numbers: leaves in the order of the tree, and for each assembly its range.
  private final long[] values = new long[LEAVES];
  private final int[][] places = new int[LEAVES][];
  private final double[][] coefficients = new double[LEAVES][];
  private final List<int[]> ranges = new ArrayList<>();
  private final int sourceCount;

  RollUpBenchmark() {
    for (int i = 0; i < SCALES; i++) {
      scales[i] =
          new Instrument(
              "scale-" + i, "scale " + i, Mass.ofGrams("0.1"), Mass.ofGrams("0.08"), 9, 0.001);
    }
    assembly = assembly("r", 1, 0, LEAVES);
    laidOut = Tree.of(assembly);
    Map<Source, Integer> numbers = new LinkedHashMap<>();
    for (int leaf = 0; leaf < LEAVES; leaf++) {
      Estimate estimate = leafEstimates.get(leaf);
      values[leaf] = estimate.value().nanograms();
      Map<Source, Double> terms = estimate.coefficients();
      places[leaf] =
          terms.keySet().stream()
              .mapToInt(source -> numbers.computeIfAbsent(source, each -> numbers.size()))
              .toArray();
      coefficients[leaf] = terms.values().stream().mapToDouble(Double::doubleValue).toArray();
    }
    sourceCount = numbers.size();
  }

  private Assembly assembly(String id, int level, int from, int to) {
    ranges.add(new int[] {from, to});
    List<Line> lines = new ArrayList<>();
    if (level == LEVELS) {
      for (int leaf = from; leaf < to; leaf++) {
        Estimate estimate =
            WeighingEvidence.from(
                    "w" + leaf,
                    List.of(new Mass(1_000_000_000L + random.nextInt(1_000_000_000))),
                    Mass.ZERO,
                    1,
                    scales[leaf % SCALES])
                .estimate();
        leafEstimates.add(estimate);
        Piece piece = new Piece("p" + leaf, "P" + leaf, "part", estimate, Basis.WEIGHED);
        lines.add(new Line("l" + leaf, Roles.HARDWARE, 1, piece));
      }
    } else {
      int middle = (from + to) / 2;
      lines.add(new Line(id + "0", Roles.BODY, 1, assembly(id + "0", level + 1, from, middle)));
      lines.add(new Line(id + "1", Roles.BODY, 1, assembly(id + "1", level + 1, middle, to)));
    }
    return new Assembly(id, id, "rig", lines);
  }

  /** Mass and both shares of every line at every level. */
  @Test
  void shares() {
    report("masses and shares of every line", this::plainShares, this::rollUpShares);
  }

  /** The same, and the value, coefficients and standard uncertainty of every line. */
  @Test
  void uncertainties() {
    report(
        "the whole breakdown of every line", this::plainUncertainties, this::rollUpUncertainties);
  }

  /** The same from an assembly that is not laid out yet, beside a loop that looks sources up. */
  @Test
  void fromScratch() {
    report(
        "the whole breakdown from a bare assembly, beside a loop with a map",
        this::mapUncertainties,
        this::coldUncertainties);
  }

  private double rollUpShares() {
    RollUp rollUp = RollUp.of(laidOut, Scope.COMPLETE);
    return rollUp.estimate().variance() + sumOfShares(rollUp.lines());
  }

  private static double sumOfShares(List<Entry> entries) {
    double sum = 0;
    for (Entry entry : entries) {
      sum += entry.shareOfMass() + entry.shareOfVariance() + sumOfShares(entry.children());
    }
    return sum;
  }

  private double rollUpUncertainties() {
    RollUp rollUp = RollUp.of(laidOut, Scope.COMPLETE);
    return rollUp.estimate().variance() + sumOfUncertainties(rollUp.lines());
  }

  private double coldUncertainties() {
    RollUp rollUp = RollUp.of(assembly, Scope.COMPLETE);
    return rollUp.estimate().variance() + sumOfUncertainties(rollUp.lines());
  }

  /** The loop one writes first: down the same tree, with a map from source to coefficient. */
  private double mapUncertainties() {
    Map<Source, Double> total = new HashMap<>();
    long mass = addUp(assembly, 1, total);
    double variance = 0;
    for (double coefficient : total.values()) {
      variance += coefficient * coefficient;
    }
    return variance + mapUncertainties(assembly, total, mass, variance);
  }

  private double mapUncertainties(
      Assembly holder, Map<Source, Double> total, long mass, double variance) {
    double answer = 0;
    for (Line line : holder.lines()) {
      Map<Source, Double> own = new HashMap<>();
      long itsMass;
      if (line.content() instanceof Assembly nested) {
        itsMass = addUp(nested, line.quantity(), own);
        answer += mapUncertainties(nested, total, mass, variance);
      } else {
        Estimate each = ((Piece) line.content()).each();
        itsMass = each.value().nanograms() * line.quantity();
        own.putAll(each.coefficients());
      }
      double itsVariance = 0;
      double covariance = 0;
      for (Map.Entry<Source, Double> term : own.entrySet()) {
        itsVariance += term.getValue() * term.getValue();
        covariance += term.getValue() * total.get(term.getKey());
      }
      answer += Math.sqrt(itsVariance) + itsMass / (double) mass + covariance / variance;
    }
    return answer;
  }

  private static long addUp(Assembly holder, long count, Map<Source, Double> sum) {
    long mass = 0;
    for (Line line : holder.lines()) {
      long times = count * line.quantity();
      if (line.content() instanceof Assembly nested) {
        mass = Math.addExact(mass, addUp(nested, times, sum));
      } else {
        Estimate each = ((Piece) line.content()).each();
        mass = Math.addExact(mass, Math.multiplyExact(each.value().nanograms(), times));
        each.coefficients()
            .forEach((source, grams) -> sum.merge(source, grams * times, Double::sum));
      }
    }
    return mass;
  }

  private static double sumOfUncertainties(List<Entry> entries) {
    double sum = 0;
    for (Entry entry : entries) {
      sum +=
          entry.estimate().standardUncertaintyInGrams()
              + entry.shareOfMass()
              + entry.shareOfVariance()
              + sumOfUncertainties(entry.children());
    }
    return sum;
  }

  private double plainShares() {
    double[] total = new double[sourceCount];
    long mass = 0;
    for (int leaf = 0; leaf < LEAVES; leaf++) {
      mass = Math.addExact(mass, values[leaf]);
      scatter(leaf, total);
    }
    double variance = variance(total);
    // Running sums, so that the share of any range is one difference.
    double[] massTo = new double[LEAVES + 1];
    double[] covarianceTo = new double[LEAVES + 1];
    double answer = variance;
    for (int leaf = 0; leaf < LEAVES; leaf++) {
      double covariance = gather(leaf, total);
      massTo[leaf + 1] = massTo[leaf] + values[leaf];
      covarianceTo[leaf + 1] = covarianceTo[leaf] + covariance;
      answer += values[leaf] / (double) mass + covariance / variance;
    }
    for (int[] range : ranges.subList(1, ranges.size())) {
      answer += (massTo[range[1]] - massTo[range[0]]) / mass;
      answer += (covarianceTo[range[1]] - covarianceTo[range[0]]) / variance;
    }
    return answer;
  }

  private double plainUncertainties() {
    double answer = plainShares();
    double[] sum = new double[sourceCount];
    for (int leaf = 0; leaf < LEAVES; leaf++) {
      answer += Math.sqrt(variance(coefficients[leaf]));
    }
    List<double[]> kept = new ArrayList<>();
    List<int[]> keptPlaces = new ArrayList<>();
    for (int[] range : ranges.subList(1, ranges.size())) {
      int terms = 0;
      for (int leaf = range[0]; leaf < range[1]; leaf++) {
        scatter(leaf, sum);
        terms += places[leaf].length;
      }
      int[] itsPlaces = new int[terms];
      double[] itsCoefficients = new double[terms];
      int size = 0;
      for (int leaf = range[0]; leaf < range[1]; leaf++) {
        for (int place : places[leaf]) {
          if (sum[place] != 0) {
            itsPlaces[size] = place;
            itsCoefficients[size++] = sum[place];
            sum[place] = 0;
          }
        }
      }
      keptPlaces.add(Arrays.copyOf(itsPlaces, size));
      kept.add(Arrays.copyOf(itsCoefficients, size));
      answer += Math.sqrt(variance(kept.get(kept.size() - 1)));
    }
    return answer + 0 * keptPlaces.size();
  }

  private void scatter(int leaf, double[] sum) {
    int[] itsPlaces = places[leaf];
    double[] itsCoefficients = coefficients[leaf];
    for (int i = 0; i < itsPlaces.length; i++) {
      sum[itsPlaces[i]] += itsCoefficients[i];
    }
  }

  private double gather(int leaf, double[] sum) {
    double covariance = 0;
    for (int i = 0; i < places[leaf].length; i++) {
      covariance += coefficients[leaf][i] * sum[places[leaf][i]];
    }
    return covariance;
  }

  private static double variance(double[] coefficients) {
    double variance = 0;
    for (double coefficient : coefficients) {
      variance += coefficient * coefficient;
    }
    return variance;
  }

  private static void report(String what, DoubleSupplier plain, DoubleSupplier rollUp) {
    assertThat(rollUp.getAsDouble()).isCloseTo(plain.getAsDouble(), within(1e-6));
    double plainMicros = Double.POSITIVE_INFINITY;
    double rollUpMicros = Double.POSITIVE_INFINITY;
    for (int round = 0; round < 8; round++) { // turn by turn, so that both see the same machine
      plainMicros = Math.min(plainMicros, medianMicros(plain));
      rollUpMicros = Math.min(rollUpMicros, medianMicros(rollUp));
    }
    System.out.println(
        String.format(
            Locale.ROOT,
            "%s: plain loop %.0f µs, roll-up %.0f µs, ratio %.2f",
            what,
            plainMicros,
            rollUpMicros,
            rollUpMicros / plainMicros));
  }

  private static double medianMicros(DoubleSupplier work) {
    double[] micros = new double[151];
    double sink = 0;
    for (int i = 0; i < micros.length; i++) {
      long start = CLOCK.getCurrentThreadCpuTime();
      sink += work.getAsDouble();
      micros[i] = (CLOCK.getCurrentThreadCpuTime() - start) / 1e3;
    }
    assertThat(sink).isFinite();
    Arrays.sort(micros);
    return micros[micros.length / 2];
  }
}
