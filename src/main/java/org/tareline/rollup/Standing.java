package org.tareline.rollup;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;

/** How distinct leaf lines stand: how many are weighed, and which pieces have no mass at all. */
final class Standing {

  private final Map<Basis, Integer> basisCounts = new EnumMap<>(Basis.class);
  private final Map<String, Piece> missing = new LinkedHashMap<>();
  private int leafLines;

  Standing(Iterable<Tree.Row> leaves) {
    for (Tree.Row leaf : leaves) {
      Piece piece = leaf.piece();
      leafLines++;
      if (piece.basis() == null) {
        missing.putIfAbsent(piece.id(), piece);
      } else {
        basisCounts.merge(piece.basis(), 1, Integer::sum);
      }
    }
  }

  int leafLines() {
    return leafLines;
  }

  Map<Basis, Integer> basisCounts() {
    return new EnumMap<>(basisCounts);
  }

  @Nullable Basis basis() {
    return basisCounts.keySet().stream().reduce(Basis::of).orElse(null);
  }

  int unweighedLines() {
    return leafLines - basisCounts.getOrDefault(Basis.WEIGHED, 0);
  }

  List<Piece> missing() {
    return List.copyOf(missing.values());
  }
}
