package org.tareline.rollup;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.units.Mass;

/**
 * The second of two roll-ups against the first, in total and by role. Differences are by the
 * algebra of {@link Estimate}: a part that is in both cancels, error and all, and so does the span
 * of a scale that weighed things in both, as far as they weigh the same.
 *
 * @param total everything counted; neither side is null
 * @param roles by the leaf lines' own roles, the first's before those that only the second has
 * @param surplusOfFirst what the first has more of than the second
 * @param surplusOfSecond what the second has more of than the first
 */
public record Comparison(
    Pair total,
    Map<String, Pair> roles,
    List<Surplus> surplusOfFirst,
    List<Surplus> surplusOfSecond) {

  /**
   * The two side by side.
   *
   * @param a of the first; null if it has no line of this role
   * @param b of the second; null if it has no line of this role
   * @param difference b − a, nothing standing in for a null
   * @param verdict of the second against the first; undecided also where what has no mass differs
   *     between the two, for then the difference may be anything
   */
  public record Pair(
      @Nullable Estimate a, @Nullable Estimate b, Estimate difference, Verdict verdict) {

    /** Compares some lines with others; null is none at all. */
    public static Pair of(@Nullable List<Leaf> first, @Nullable List<Leaf> second) {
      Estimate a = first == null ? null : Leaf.sum(first);
      Estimate b = second == null ? null : Leaf.sum(second);
      Estimate nothing = Estimate.exact(Mass.ZERO);
      Estimate difference = (b == null ? nothing : b).minus(a == null ? nothing : a);
      boolean comparable = missing(first).equals(missing(second));
      return new Pair(a, b, difference, comparable ? Verdict.of(difference) : Verdict.UNDECIDED);
    }

    private static Map<String, Long> missing(@Nullable List<Leaf> leaves) {
      return leaves == null
          ? Map.of()
          : counts(leaves.stream().filter(leaf -> leaf.estimate() == null).toList());
    }
  }

  /** So many of a piece more than the other side has. */
  public record Surplus(Piece piece, long count) {}

  /** Compares the second with the first. Both should be under one scope; that is for the caller. */
  public static Comparison of(RollUp first, RollUp second) {
    List<Leaf> a = first.leaves();
    List<Leaf> b = second.leaves();
    Map<String, List<Leaf>> rolesOfA = Leaf.byRole(a);
    Map<String, List<Leaf>> rolesOfB = Leaf.byRole(b);
    Set<String> names = new LinkedHashSet<>(rolesOfA.keySet());
    names.addAll(rolesOfB.keySet());
    Map<String, Pair> roles = new LinkedHashMap<>();
    for (String role : names) {
      roles.put(role, Pair.of(rolesOfA.get(role), rolesOfB.get(role)));
    }
    return new Comparison(Pair.of(a, b), roles, surplus(a, b), surplus(b, a));
  }

  /** Roles that the first has and the second has not. */
  public List<String> onlyInFirst() {
    return rolesWhere(pair -> pair.b() == null);
  }

  /** Roles that the second has and the first has not. */
  public List<String> onlyInSecond() {
    return rolesWhere(pair -> pair.a() == null);
  }

  private List<String> rolesWhere(Predicate<Pair> condition) {
    return roles.entrySet().stream()
        .filter(role -> condition.test(role.getValue()))
        .map(Map.Entry::getKey)
        .toList();
  }

  private static List<Surplus> surplus(List<Leaf> of, List<Leaf> over) {
    Map<String, Piece> pieces = new LinkedHashMap<>();
    of.forEach(leaf -> pieces.putIfAbsent(leaf.piece().id(), leaf.piece()));
    Map<String, Long> held = counts(of);
    Map<String, Long> others = counts(over);
    List<Surplus> surplus = new ArrayList<>();
    for (Piece piece : pieces.values()) {
      long more = held.getOrDefault(piece.id(), 0L) - others.getOrDefault(piece.id(), 0L);
      if (more > 0) {
        surplus.add(new Surplus(piece, more));
      }
    }
    return List.copyOf(surplus);
  }

  /** How many of each piece there are, by its id. */
  private static Map<String, Long> counts(List<Leaf> leaves) {
    Map<String, Long> counts = new HashMap<>();
    for (Leaf leaf : leaves) {
      counts.merge(leaf.piece().id(), leaf.multiplicity(), Math::addExact);
    }
    return counts;
  }
}
