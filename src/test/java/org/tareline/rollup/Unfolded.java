package org.tareline.rollup;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Source;

/**
 * The second method that roll-ups are tried against: every way down walked one by one, every piece
 * added as many times as it is held, with maps and big integers and nothing kept for later.
 */
final class Unfolded {

  BigInteger nanograms = BigInteger.ZERO;
  final Map<Source, Double> form = new LinkedHashMap<>();
  final Map<String, Long> pieces = new HashMap<>();
  final Map<String, Long> missing = new HashMap<>();
  final Set<Line> leafLines = new HashSet<>();
  final List<Line> omitted = new ArrayList<>();
  long entries;

  static Unfolded of(Assembly whole, @Nullable Scope scope) {
    Unfolded unfolded = new Unfolded();
    unfolded.walk(whole, scope, 1);
    return unfolded;
  }

  void walk(Assembly assembly, @Nullable Scope scope, long holders) {
    for (Line line : assembly.lines()) {
      if (scope == null || scope.counts(line)) {
        take(line, scope, holders);
      } else {
        omitted.add(line);
      }
    }
  }

  /** What a line holds, whatever the scope says of the line itself. */
  void take(Line line, @Nullable Scope scope, long holders) {
    long times = holders * line.quantity();
    entries++;
    if (line.content() instanceof Assembly nested) {
      walk(nested, scope, times);
      return;
    }
    Piece piece = (Piece) line.content();
    Estimate each = piece.each();
    leafLines.add(line);
    pieces.merge(piece.id(), times, Long::sum);
    if (each == null) {
      missing.merge(piece.id(), times, Long::sum);
    } else {
      nanograms =
          nanograms.add(
              BigInteger.valueOf(each.value().nanograms()).multiply(BigInteger.valueOf(times)));
      each.coefficients()
          .forEach((source, grams) -> form.merge(source, grams * times, Double::sum));
    }
  }

  double variance() {
    return form.values().stream().mapToDouble(c -> c * c).sum();
  }

  double covariance(Unfolded other) {
    return form.entrySet().stream()
        .mapToDouble(c -> c.getValue() * other.form.getOrDefault(c.getKey(), 0.0))
        .sum();
  }
}
