package org.tareline.exchange;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.tareline.exchange.Sheet.Row;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** The order in which rigs can be taken in: each after those that it holds. */
final class HeldFirst {

  private final RowsWithLines rigs;
  private final Rejects rejects;
  private final Map<String, Row> waiting = new LinkedHashMap<>();

  private HeldFirst(RowsWithLines rigs, Rejects rejects) {
    this.rigs = rigs;
    this.rejects = rejects;
  }

  /** The rigs in that order; a rig that would hold itself, and what holds it, is left out. */
  static List<Row> order(RowsWithLines rigs, Rejects rejects) {
    return new HeldFirst(rigs, rejects).order();
  }

  private List<Row> order() {
    List<Row> rest = new ArrayList<>(rigs.rows());
    rest.forEach(rig -> waiting.put(code(rig), rig));
    List<Row> ordered = new ArrayList<>();
    List<Row> ready = ready(rest);
    while (!ready.isEmpty()) {
      ordered.addAll(ready);
      ready.forEach(rig -> waiting.remove(code(rig)));
      rest.removeAll(new HashSet<>(ready));
      ready = ready(rest);
    }
    noteCircles();
    waiting.values().forEach(rejects::reject);
    return ordered;
  }

  private List<Row> ready(List<Row> rest) {
    return rest.stream().filter(rig -> lineToWaiting(rig).isEmpty()).toList();
  }

  /** The first line that holds a rig which has not been ordered yet. */
  private Optional<Row> lineToWaiting(Row rig) {
    return rigs.linesOf(rig).stream()
        .filter(line -> waiting.containsKey(Codes.key(line.cell("nested-rig"))))
        .findFirst();
  }

  /** Whatever still waits leads, line by line, into a circle. */
  private void noteCircles() {
    Set<Row> seen = new HashSet<>();
    for (Row start : waiting.values()) {
      Map<Row, Row> lineOut = new LinkedHashMap<>();
      Row rig = start;
      while (seen.add(rig)) {
        Row line = lineToWaiting(rig).orElseThrow();
        lineOut.put(rig, line);
        rig = waiting.getOrDefault(Codes.key(line.cell("nested-rig")), rig);
      }
      if (lineOut.containsKey(rig)) {
        noteCircle(rig, lineOut);
      }
    }
  }

  /**
   * Notes a circle at the line that closes it.
   *
   * @param lineOut how a walk that came back to the rig went on from each rig
   */
  private void noteCircle(Row rig, Map<Row, Row> lineOut) {
    List<Row> circle =
        lineOut.entrySet().stream()
            .dropWhile(step -> !step.getKey().equals(rig))
            .map(Map.Entry::getValue)
            .toList();
    String code = Faults.shortened(rig.cell("code"));
    rejects.note(
        circle.get(circle.size() - 1),
        "nested-rig",
        code
            + " would hold itself: "
            + code
            + circle.stream()
                .map(line -> " → " + Faults.shortened(line.cell("nested-rig")))
                .collect(Collectors.joining())
            + ". Take this line out, or one further up.");
  }

  private static String code(Row rig) {
    return Codes.key(rig.cell("code"));
  }
}
