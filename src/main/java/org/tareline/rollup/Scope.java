package org.tareline.rollup;

import static org.tareline.rollup.Roles.BODY;
import static org.tareline.rollup.Roles.BUG_NET;
import static org.tareline.rollup.Roles.CONTINUOUS_LOOP;
import static org.tareline.rollup.Roles.HARDWARE;
import static org.tareline.rollup.Roles.SPREADER_BAR;
import static org.tareline.rollup.Roles.STRUCTURAL_RIDGE_LINE;
import static org.tareline.rollup.Roles.SUSPENSION;
import static org.tareline.rollup.Roles.TREE_STRAP;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What is counted in a total. A line is left out by its own role or by its own id, and a nested rig
 * that is left out takes everything in it along; within a nested rig that stays, its own lines'
 * roles count. So where a scope names the roles it counts, a nested rig stays only if the line that
 * holds it has one of them, and then only those of its lines stay that have one of them too.
 *
 * @param roles the roles it counts or leaves out, as {@link Roles#normalise} writes them
 * @param leftOutLines ids of single lines that are left out whatever their role
 */
public record Scope(
    String code, String name, Mode mode, Set<String> roles, Set<String> leftOutLines) {

  /** Which way a scope names its roles; never both ways at once. */
  public enum Mode {
    /** It counts the roles it names and leaves out the rest. */
    COUNTS,
    /** It leaves out the roles it names and counts the rest. */
    LEAVES_OUT
  }

  public static final Scope COMPLETE =
      new Scope("complete", "Complete", Mode.LEAVES_OUT, Set.of(), Set.of());
  public static final Scope BARS_OUT =
      new Scope("bars-out", "Bars out", Mode.LEAVES_OUT, Set.of(SPREADER_BAR), Set.of());
  public static final Scope ANCHOR_TO_ANCHOR =
      counting(
          "anchor-to-anchor",
          "Anchor to anchor",
          BODY,
          SUSPENSION,
          TREE_STRAP,
          CONTINUOUS_LOOP,
          HARDWARE,
          STRUCTURAL_RIDGE_LINE,
          BUG_NET,
          SPREADER_BAR);
  public static final Scope ANCHOR_TO_ANCHOR_BARS_OUT =
      counting(
          "anchor-to-anchor-bars-out",
          "Anchor to anchor, bars out",
          BODY,
          SUSPENSION,
          TREE_STRAP,
          CONTINUOUS_LOOP,
          HARDWARE,
          STRUCTURAL_RIDGE_LINE,
          BUG_NET);
  public static final Scope HAMMOCK_ONLY = counting("hammock-only", "Hammock only", BODY);

  /** The scopes that exist from the start. */
  public static final List<Scope> BUILT_IN =
      List.of(COMPLETE, BARS_OUT, ANCHOR_TO_ANCHOR, ANCHOR_TO_ANCHOR_BARS_OUT, HAMMOCK_ONLY);

  public Scope {
    roles = copy(roles.stream().map(Roles::normalise).toList());
    leftOutLines = Set.copyOf(leftOutLines);
  }

  private static Scope counting(String code, String name, String... roles) {
    return new Scope(code, name, Mode.COUNTS, copy(List.of(roles)), Set.of());
  }

  /** A copy that keeps the order, so that a page lists roles as they were named. */
  private static Set<String> copy(Collection<String> names) {
    return Collections.unmodifiableSet(new LinkedHashSet<>(names));
  }

  /** The scope of that code among those that exist from the start. */
  public static Optional<Scope> builtIn(String code) {
    return BUILT_IN.stream().filter(scope -> scope.code.equals(code)).findFirst();
  }

  /**
   * Whether the line itself is counted. Whether the rig it stands in is, is for that rig's line.
   */
  public boolean counts(Line line) {
    return roles.contains(line.role()) == (mode == Mode.COUNTS)
        && !leftOutLines.contains(line.id());
  }

  /** What is counted and what is left out, in words, as {@code "spreader bar left out"}. */
  public String words() {
    String named = String.join(", ", roles);
    String words;
    if (mode == Mode.COUNTS) {
      words = "only " + named + " counted, the rest left out";
    } else {
      words = roles.isEmpty() ? "nothing left out" : named + " left out";
    }
    return switch (leftOutLines.size()) {
      case 0 -> words;
      case 1 -> words + "; one single line left out";
      default -> words + "; " + leftOutLines.size() + " single lines left out";
    };
  }
}
