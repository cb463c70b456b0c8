package org.tareline.rollup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Tally;
import org.tareline.rollup.Tree.Node;
import org.tareline.rollup.Tree.Row;

/**
 * The total of an assembly under a scope, with its uncertainty and its breakdown.
 *
 * <p>Lines are counted as distinct lines: one in an assembly that is used twice is one line, of
 * which the whole holds twice as many. A piece with no mass is not nothing: the total over it is a
 * least one and names it. Figures of the whole are worked out at once, those of a nested assembly
 * when its {@link Entry} is first asked for them. Safe to share between threads.
 */
public final class RollUp {

  private final Tree tree;
  private final Scope scope;
  private final Count count;
  private final Estimate estimate;
  private final double variance;

  // Of one of each thing, what is known of its mass in nanograms, and its covariance with the total
  // in g²; of leaves by the number of the row, of nested assemblies by the number of the node.
  private final double[] leafCovariances;
  private final long[] nestedMasses;
  private final double[] nestedCovariances;
  private final boolean[] nestedKnown; // whether anything in it has a mass

  // Worked out when first asked for, under the tally's lock: only one sum can run in it.
  private final @Nullable Estimate[] nestedEstimates;
  private final Tally tally;

  private RollUp(Tree tree, Scope scope) {
    this.tree = tree;
    this.scope = scope;
    this.count = new Count(tree, scope);
    this.tally = new Tally(tree.numbering());
    int size = tree.nodes().size();
    this.leafCovariances = new double[tree.rowCount()];
    this.nestedMasses = new long[size];
    this.nestedCovariances = new double[size];
    this.nestedKnown = new boolean[size];
    this.nestedEstimates = new Estimate[size];
    count.leaves().forEach(this::add);
    for (int i = count.nodes().size() - 1; i >= 0; i--) { // what is held before its holders
      sumUp(count.nodes().get(i));
    }
    this.estimate = tally.take();
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
    return of(Tree.of(assembly), scope);
  }

  /**
   * Rolls up what is laid out already.
   *
   * @throws ArithmeticException if a count or a mass overflows, naming the piece
   */
  public static RollUp of(Tree tree, Scope scope) {
    return new RollUp(tree, scope);
  }

  private void add(Row leaf) {
    Estimate each = tree.mass(leaf);
    if (each == null) {
      return;
    }
    try {
      tally.add(each, count.of(leaf));
    } catch (ArithmeticException overflow) {
      throw new ArithmeticException(
          "Too heavy to add up, at " + count.of(leaf) + " of " + leaf.piece().code() + ".");
    }
  }

  /**
   * Masses and covariances of nested assemblies are sums over their lines and need no look at
   * single sources. Nothing overflows here: no piece is below 0, and the total has been added up.
   */
  private void sumUp(Node node) {
    long mass = 0;
    double covariance = 0;
    for (Row row : node.rows) {
      if (count.counts(row)) {
        Estimate each = tree.mass(row);
        if (each != null) {
          leafCovariances[row.number] = tally.covariance(each);
        }
        mass += mass(row) * row.line.quantity();
        covariance += covariance(row) * row.line.quantity();
        nestedKnown[node.number] |=
            row.nested == null ? each != null : nestedKnown[row.nested.number];
      }
    }
    nestedMasses[node.number] = mass;
    nestedCovariances[node.number] = covariance;
  }

  private long mass(Row row) {
    if (row.nested != null) {
      return nestedMasses[row.nested.number];
    }
    Estimate each = tree.mass(row);
    return each == null ? 0 : each.value().nanograms();
  }

  private double covariance(Row row) {
    return row.nested == null ? leafCovariances[row.number] : nestedCovariances[row.nested.number];
  }

  public Assembly assembly() {
    return tree.whole().assembly;
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
    return standing().missing();
  }

  /** Where the total comes from; null where nothing has a mass. */
  public @Nullable Basis basis() {
    return standing().basis();
  }

  /** How many distinct leaf lines there are of each basis; those with no mass are in none. */
  public Map<Basis, Integer> basisCounts() {
    return standing().basisCounts();
  }

  /** How many distinct leaf lines are not weighed, those with no mass included. */
  public int unweighedLines() {
    return standing().unweighedLines();
  }

  /** How many distinct leaf lines are counted. */
  public int leafLines() {
    return standing().leafLines();
  }

  /**
   * How many entries the whole breakdown would have with every assembly unfolded wherever it is
   * used; {@link Long#MAX_VALUE} where that is more than a long can count. To be looked at before
   * unfolding it.
   */
  public long unfoldedLines() {
    return count.unfoldedLines();
  }

  /** The breakdown: the lines of the assembly that are counted. */
  public List<Entry> lines() {
    return entries(tree.whole(), 1);
  }

  List<Entry> entries(Node node, long holders) {
    List<Entry> entries = new ArrayList<>(node.rows.size());
    for (Row row : node.rows) {
      if (count.counts(row)) {
        entries.add(new Entry(this, row, holders));
      }
    }
    return entries;
  }

  /** Every counted line that holds a piece, over all ways that lead to it. */
  public List<Leaf> leaves() {
    return count.leaves().stream().map(this::leaf).toList();
  }

  private Leaf leaf(Row row) {
    long multiplicity = count.of(row);
    Estimate each = tree.mass(row);
    return new Leaf(
        row.line,
        row.piece(),
        multiplicity,
        each == null ? null : each.times(multiplicity),
        shareOfVariance(row, multiplicity));
  }

  /** The distinct lines counted that hold an assembly. */
  List<Row> nestedRows() {
    return count.nodes().stream()
        .flatMap(node -> node.rows.stream())
        .filter(row -> row.nested != null && count.counts(row))
        .toList();
  }

  /** How many of its content the whole holds by way of a row. */
  long count(Row row) {
    return count.of(row);
  }

  /** What is known of the mass of one of what a row holds, in grams. */
  double grams(Row row) {
    return mass(row) / 1e9;
  }

  /** What the scope leaves out: the topmost lines, each of which takes along all it holds. */
  public List<Omission> omitted() {
    return count.omitted();
  }

  /** The total of each role, by the role of the line that holds the piece; in the order met. */
  public Map<String, RoleTotal> byRole() {
    Map<String, RoleTotal> totals = new LinkedHashMap<>();
    Leaf.byRole(leaves()).forEach((role, leaves) -> totals.put(role, RoleTotal.of(leaves)));
    return totals;
  }

  double shareOfMass(Row row, long times) {
    double total = estimate.value().nanograms();
    return total == 0 ? 0 : mass(row) * (double) times / total;
  }

  double shareOfVariance(Row row, long times) {
    return variance == 0 ? 0 : covariance(row) * times / variance;
  }

  private Standing standing() {
    return new Standing(count.leaves());
  }

  Standing standing(Row row) {
    return new Standing(row.nested == null ? List.of(row) : count.leavesWithin(row.nested));
  }

  /** The mass of one of what a row holds; null where nothing in it has a mass. */
  @Nullable Estimate each(Row row) {
    if (row.nested == null) {
      return tree.mass(row);
    }
    if (!nestedKnown[row.nested.number]) {
      return null;
    }
    synchronized (tally) {
      return each(row.nested);
    }
  }

  /** Deepest first: a nested assembly is added up once, and its holders add it as one thing. */
  private Estimate each(Node node) {
    Estimate known = nestedEstimates[node.number];
    if (known != null) {
      return known;
    }
    for (Row row : node.rows) {
      if (row.nested != null && count.counts(row)) {
        each(row.nested); // before this node's own sum begins
      }
    }
    for (Row row : node.rows) {
      Estimate each = row.nested == null ? tree.mass(row) : nestedEstimates[row.nested.number];
      if (each != null && count.counts(row)) {
        tally.add(each, row.line.quantity());
      }
    }
    Estimate sum = tally.take();
    nestedEstimates[node.number] = sum;
    return sum;
  }
}
