package org.tareline.rollup;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Tally;
import org.tareline.rollup.Unfolding.Figures;
import org.tareline.rollup.Unfolding.Node;
import org.tareline.rollup.Unfolding.Row;

/**
 * The total of an assembly under a scope, with its uncertainty and its breakdown.
 *
 * <p>Lines are counted as distinct lines: one in an assembly that is used twice is one line, of
 * which the whole holds twice as many. A piece with no mass is not nothing: the total over it is a
 * least one and names it. Figures of the whole are worked out at once, those of a nested assembly
 * when its {@link Entry} is first asked for them. Safe to share between threads.
 */
public final class RollUp {

  private final Assembly assembly;
  private final Scope scope;
  private final List<Node> nodes;
  private final List<Row> leaves;
  private final Standing standing;
  private final Estimate estimate;
  private final double variance;

  // One sum runs in it at a time: after construction it is used, and items set, under its own lock.
  private final Tally tally = new Tally();

  private RollUp(Assembly assembly, Scope scope) {
    this.assembly = assembly;
    this.scope = scope;
    this.nodes = new Unfolding(assembly, scope).nodes;
    this.leaves = Unfolding.leaves(nodes);
    this.standing = new Standing(leaves);
    for (Row leaf : leaves) {
      Estimate each = leaf.piece().each();
      if (each != null) {
        add(leaf, each);
      }
    }
    for (int i = nodes.size() - 1; i >= 0; i--) { // what is held before its holder
      sumUp(nodes.get(i));
    }
    Tally.Item total = tally.take();
    nodes.get(0).figures.item = total;
    this.estimate = total.estimate();
    this.variance = estimate.variance();
  }

  /**
   * Rolls an assembly up.
   *
   * @throws Circle if the assembly holds itself, directly or through others
   * @throws IllegalArgumentException if two unlike assemblies in it have one id
   * @throws ArithmeticException if a count or a mass overflows, naming the piece
   */
  public static RollUp of(Assembly assembly, Scope scope) {
    return new RollUp(assembly, scope);
  }

  private void add(Row leaf, Estimate each) {
    Tally.Item item = tally.item(each);
    try {
      tally.add(item, leaf.multiplicity());
    } catch (ArithmeticException overflow) {
      throw new ArithmeticException(
          "Too heavy to add up, at " + leaf.multiplicity() + " of " + leaf.piece().code() + ".");
    }
    leaf.figures.known = true;
    leaf.figures.item = item;
    leaf.figures.nanograms = each.value().nanograms();
  }

  /**
   * Values and covariances of nested assemblies are sums over their lines and need no look at
   * single sources. Nothing overflows here: no piece is below 0, and the total has been added up.
   */
  private void sumUp(Node node) {
    for (Row row : node.rows) {
      Figures one = row.figures;
      node.figures.known |= one.known;
      if (row.nested == null && one.item != null) {
        one.covariance = tally.covariance(one.item);
      }
      node.figures.nanograms += one.nanograms * row.line.quantity();
      node.figures.covariance += one.covariance * row.line.quantity();
    }
  }

  public Assembly assembly() {
    return assembly;
  }

  public Scope scope() {
    return scope;
  }

  /** The sum of what is known. */
  public Estimate estimate() {
    return estimate;
  }

  /** Whether something counted has no mass, so that the total is a least one. */
  public boolean atLeast() {
    return !missing().isEmpty();
  }

  /** The distinct pieces counted that have no mass. */
  public List<Piece> missing() {
    return standing.missing();
  }

  /** Where the total comes from; null where nothing has a mass. */
  public @Nullable Basis basis() {
    return standing.basis();
  }

  /** How many distinct leaf lines there are of each basis; those with no mass are in none. */
  public Map<Basis, Integer> basisCounts() {
    return standing.basisCounts();
  }

  /** How many distinct leaf lines are not weighed, those with no mass included. */
  public int unweighedLines() {
    return standing.unweighedLines();
  }

  /** How many distinct leaf lines are counted. */
  public int leafLines() {
    return standing.leafLines();
  }

  /**
   * How many entries the whole breakdown would have with every assembly unfolded wherever it is
   * used; {@link Long#MAX_VALUE} where that is more than a long can count. To be looked at before
   * unfolding it.
   */
  public long unfoldedLines() {
    return nodes.get(0).unfoldedLines;
  }

  /** The breakdown: the lines of the assembly that are counted. */
  public List<Entry> lines() {
    return entries(nodes.get(0), 1);
  }

  List<Entry> entries(Node node, long holders) {
    return node.rows.stream().map(row -> new Entry(this, row, holders)).toList();
  }

  /** Every counted line that holds a piece, over all ways that lead to it. */
  public List<Leaf> leaves() {
    return leaves.stream().map(this::leaf).toList();
  }

  private Leaf leaf(Row row) {
    long multiplicity = row.multiplicity();
    Estimate each = row.piece().each();
    return new Leaf(
        row.line,
        row.piece(),
        multiplicity,
        each == null ? null : each.times(multiplicity),
        shareOfVariance(row.figures, multiplicity));
  }

  /** What the scope leaves out: the topmost lines, each of which takes along all it holds. */
  public List<Omission> omitted() {
    List<Omission> omissions = new ArrayList<>();
    for (Node node : nodes) {
      for (Line line : node.omitted) {
        omissions.add(new Omission(path(node), line, Unfolding.count(node.multiplicity, line)));
      }
    }
    return omissions;
  }

  private static List<String> path(Node node) {
    Deque<String> path = new ArrayDeque<>();
    for (Node at = node; at != null; at = at.holder) {
      path.push(at.assembly.code());
    }
    return List.copyOf(path);
  }

  /** The total of each role, by the role of the line that holds the piece; in the order met. */
  public Map<String, RoleTotal> byRole() {
    Map<String, RoleTotal> totals = new LinkedHashMap<>();
    Leaf.byRole(leaves()).forEach((role, leaves) -> totals.put(role, RoleTotal.of(leaves)));
    return totals;
  }

  /** The mass of one of what a row holds; null where nothing in it has a mass. */
  @Nullable Estimate each(Row row) {
    if (row.nested == null) {
      return row.piece().each();
    }
    synchronized (tally) {
      Tally.Item item = item(row.nested);
      return item == null ? null : item.estimate();
    }
  }

  /**
   * Deepest first: a nested assembly is added up once, and then stands as one item in its holder.
   */
  private Tally.@Nullable Item item(Node node) {
    Figures one = node.figures;
    if (one.item == null && one.known) {
      for (Row row : node.rows) {
        if (row.nested != null) {
          item(row.nested); // before this one's sum begins, for the tally runs one at a time
        }
      }
      for (Row row : node.rows) {
        if (row.figures.item != null) {
          tally.add(row.figures.item, row.line.quantity());
        }
      }
      one.item = tally.take();
    }
    return one.item;
  }

  double shareOfMass(Figures one, long count) {
    double total = estimate.value().nanograms();
    return total == 0 ? 0 : one.nanograms * (double) count / total;
  }

  double shareOfVariance(Figures one, long count) {
    return variance == 0 ? 0 : one.covariance * count / variance;
  }
}
