package org.tareline.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.IntSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.evidence.Instrument;
import org.tareline.evidence.WeighingEvidence;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Line;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.Piece;
import org.tareline.rollup.Provenance;
import org.tareline.rollup.Reconciliation;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.units.Mass;
import org.tareline.units.Unit;

/**
 * What it costs to look for the cause of a residual, and for what to weigh next, in a rig of 2 000
 * leaf lines ten levels deep, beside the roll-up of the same rig from its bare assembly; and of one
 * of twice the size, to show how it grows. Times are of the thread alone; they are one machine's.
 */
@Tag("benchmark")
class ReconciliationBenchmark {

  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static final int LEVELS = 10;

  private final Random random = new Random(20270411);
  private final Instrument scale =
      new Instrument("scale", "scale", Mass.ofGrams("0.1"), Mass.ofGrams("0.08"), 9, 0.001);
  private final NextWeighings.Scale bench =
      new NextWeighings.Scale(scale, Mass.ofGrams("5000"), piece -> Estimate.exact(Mass.ZERO));
  private final Map<String, Provenance> provenances = new HashMap<>();

  @Test
  void reconcilingAndWhatToWeighNext() {
    for (int leaves : List.of(2_000, 4_000)) {
      provenances.clear();
      Assembly assembly = assembly("r", 1, 0, leaves);
      RollUp rollUp = RollUp.of(assembly, Scope.COMPLETE);
      Provenance.Weighed weighed =
          weighed("whole", rollUp.estimate().value().minus(Mass.ofGrams("250")));
      Estimate whole = estimate(weighed);
      Provenance ofWhole = new Provenance(List.of(weighed), null, List.of());
      IntSupplier plain = () -> RollUp.of(assembly, Scope.COMPLETE).leafLines();
      Reconciliation found = reconcile(rollUp, whole, ofWhole);
      assertThat(found.agreement()).isEqualTo(Reconciliation.Agreement.DISAGREES);
      assertThat(found.explanations()).isNotEmpty();
      report(
          leaves + " lines: reconciling",
          plain,
          () -> reconcile(rollUp, whole, ofWhole).explanations().size());
      report(
          leaves + " lines: what to weigh next",
          plain,
          () -> NextWeighings.of(rollUp, bench, NextWeighings.Which.ALL).candidates().size());
    }
  }

  private Reconciliation reconcile(RollUp rollUp, Estimate whole, Provenance ofWhole) {
    return Reconciliation.of(
        rollUp, whole, ofWhole, piece -> provenances.getOrDefault(piece.id(), Provenance.UNKNOWN));
  }

  private Assembly assembly(String id, int level, int from, int to) {
    List<Line> lines = new ArrayList<>();
    if (level == LEVELS) {
      for (int leaf = from; leaf < to; leaf++) {
        Provenance.Weighed weighed =
            weighed("w" + leaf, Mass.fromGrams((1_000 + random.nextInt(9_000)) / 10.0));
        provenances.put("p" + leaf, new Provenance(List.of(weighed), Fibre.NYLON, List.of()));
        Piece piece = new Piece("p" + leaf, "P" + leaf, "part", estimate(weighed), Basis.WEIGHED);
        lines.add(new Line("l" + leaf, Roles.HARDWARE, 1 + leaf % 2, piece));
      }
    } else {
      int middle = (from + to) / 2;
      lines.add(new Line(id + "0", Roles.BODY, 1, assembly(id + "0", level + 1, from, middle)));
      lines.add(new Line(id + "1", Roles.BODY, 1, assembly(id + "1", level + 1, middle, to)));
    }
    return new Assembly(id, id, "rig", lines);
  }

  private Provenance.Weighed weighed(String id, Mass mass) {
    return new Provenance.Weighed(
        id,
        List.of(new Provenance.Reading(mass.toString(), mass)),
        Unit.GRAM,
        Mass.ZERO,
        1,
        scale,
        true,
        Instant.EPOCH);
  }

  private Estimate estimate(Provenance.Weighed weighed) {
    return WeighingEvidence.from(
            weighed.id(), List.of(weighed.readings().get(0).mass()), Mass.ZERO, 1, scale)
        .estimate();
  }

  private static void report(String what, IntSupplier rollUp, IntSupplier work) {
    double rollUpMicros = Double.POSITIVE_INFINITY;
    double workMicros = Double.POSITIVE_INFINITY;
    for (int round = 0; round < 8; round++) { // turn by turn, so that both see the same machine
      rollUpMicros = Math.min(rollUpMicros, medianMicros(rollUp));
      workMicros = Math.min(workMicros, medianMicros(work));
    }
    System.out.println(
        String.format(
            Locale.ROOT,
            "%s %.0f µs, roll-up %.0f µs, ratio %.2f",
            what,
            workMicros,
            rollUpMicros,
            workMicros / rollUpMicros));
  }

  private static double medianMicros(IntSupplier work) {
    double[] micros = new double[31];
    int sink = 0;
    for (int i = 0; i < micros.length; i++) {
      long start = CLOCK.getCurrentThreadCpuTime();
      sink += work.getAsInt();
      micros[i] = (CLOCK.getCurrentThreadCpuTime() - start) / 1e3;
    }
    assertThat(sink).isPositive();
    Arrays.sort(micros);
    return micros[micros.length / 2];
  }
}
