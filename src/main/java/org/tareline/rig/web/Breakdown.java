package org.tareline.rig.web;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Entry;
import org.tareline.rollup.RollUp;
import org.tareline.site.CsvTable;

/** The breakdown of a rig as a file: a line for each row of its table, exactly. */
final class Breakdown {

  private static final MathContext DIGITS = new MathContext(9);

  private Breakdown() {}

  static CsvTable csv(RollUp rollUp) {
    CsvTable csv =
        new CsvTable(
            "path",
            "kind",
            "code",
            "name",
            "role",
            "quantity",
            "in all",
            "mass [g]",
            "expanded uncertainty [g]",
            "share of mass",
            "share of variance",
            "basis");
    List<String> path = new ArrayList<>(List.of(rollUp.assembly().code()));
    rollUp.lines().forEach(entry -> add(csv, path, entry));
    return csv;
  }

  private static void add(CsvTable csv, List<String> path, Entry entry) {
    Estimate estimate = entry.estimate();
    Basis basis = entry.basis();
    csv.line(
        String.join(" / ", path),
        entry.line().content() instanceof Assembly ? "rig" : "part",
        entry.line().content().code(),
        entry.line().content().name(),
        entry.line().role(),
        entry.line().quantity(),
        entry.count(),
        estimate == null ? null : estimate.value().grams(),
        estimate == null ? null : estimate.expandedUncertainty().grams(),
        estimate == null ? null : new BigDecimal(entry.shareOfMass()).round(DIGITS),
        estimate == null ? null : new BigDecimal(entry.shareOfVariance()).round(DIGITS),
        basis == null ? null : basis.word());
    path.add(entry.line().content().code());
    entry.children().forEach(child -> add(csv, path, child));
    path.remove(path.size() - 1);
  }
}
