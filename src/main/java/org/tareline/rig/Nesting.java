package org.tareline.rig;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Which rigs of a ledger hold which, as it would be after a save, and whether that can stand: no
 * circle, not too deep, not too large when unfolded.
 */
final class Nesting {

  /** Levels of rigs in rigs. */
  static final int DEEPEST = 50;

  /** Lines of a rig with everything in it unfolded wherever it is used. */
  static final int MOST_UNFOLDED = 20_000;

  private final Map<Long, List<Long>> held = new HashMap<>();
  private final Map<Long, Set<Long>> holders = new HashMap<>();
  private final Map<Long, Long> lineCounts = new HashMap<>();
  private final Map<Long, Integer> levels = new HashMap<>();
  private final Map<Long, Long> unfolded = new HashMap<>();

  /** What a rig holds, once for each line, and how many lines it has in all. */
  void put(long rig, Collection<Long> rigsHeld, long lines) {
    held.put(rig, List.copyOf(rigsHeld));
    rigsHeld.forEach(inner -> holders.computeIfAbsent(inner, any -> new HashSet<>()).add(rig));
    lineCounts.put(rig, lines);
  }

  /** The way from a rig round to itself, with it at both ends; nothing if there is none. */
  Optional<List<Long>> circle(long rig) {
    Map<Long, Long> cameFrom = new HashMap<>();
    Deque<Long> toDo = new ArrayDeque<>(List.of(rig));
    while (!toDo.isEmpty()) {
      long at = toDo.poll(); // breadth first: the shortest way is the easiest to understand
      for (long inner : held.getOrDefault(at, List.of())) {
        if (inner == rig) {
          Deque<Long> path = new ArrayDeque<>(List.of(rig));
          for (long step = at; step != rig; step = cameFrom.getOrDefault(step, rig)) {
            path.push(step);
          }
          path.push(rig);
          return Optional.of(List.copyOf(path));
        }
        if (cameFrom.putIfAbsent(inner, at) == null) {
          toDo.add(inner);
        }
      }
    }
    return Optional.empty();
  }

  /**
   * Of those rigs that hold themselves, one of each circle.
   *
   * @param preferred those that are named rather than others of the circle
   */
  Set<Long> inCircles(Collection<Long> preferred) {
    Set<Long> all = new LinkedHashSet<>(preferred);
    all.addAll(held.keySet());
    Set<Long> met = new HashSet<>();
    Set<Long> first = new HashSet<>();
    for (long rig : all) {
      List<Long> circle = met.contains(rig) ? List.of() : circle(rig).orElse(List.of());
      if (met.addAll(circle)) {
        first.add(rig);
      }
    }
    return first;
  }

  /**
   * The rig and all that hold it, directly or through others: those that a change in it changes.
   */
  Collection<Long> changedWith(long rig) {
    Set<Long> met = new HashSet<>(Set.of(rig));
    Deque<Long> toDo = new ArrayDeque<>(met);
    while (!toDo.isEmpty()) {
      for (long holder : holders.getOrDefault(toDo.poll(), Set.of())) {
        if (met.add(holder)) {
          toDo.add(holder);
        }
      }
    }
    return new ArrayList<>(met);
  }

  /**
   * How many levels of rigs stand in each other: 1 for a rig of parts alone. Not in a circle. Where
   * there are more than are allowed, they are not counted to the end.
   */
  int levels(long rig) {
    return levels(rig, 1);
  }

  private int levels(long rig, int depth) {
    Integer known = levels.get(rig);
    if (known == null) {
      if (depth > DEEPEST) {
        return 1;
      }
      known = 1;
      for (long inner : held.getOrDefault(rig, List.of())) {
        known = Math.max(known, 1 + levels(inner, depth + 1));
      }
      levels.put(rig, known);
    }
    return known;
  }

  /** Lines of a rig with everything in it unfolded. Not in a circle. */
  long unfoldedLines(long rig) {
    Long known = unfolded.get(rig);
    if (known == null) {
      long lines = lineCounts.getOrDefault(rig, 0L);
      for (long inner : held.getOrDefault(rig, List.of())) {
        // Far beyond any limit already; adding on could only overflow.
        lines = Math.min(Integer.MAX_VALUE, lines + unfoldedLines(inner));
      }
      known = lines;
      unfolded.put(rig, known);
    }
    return known;
  }
}
