package org.tareline.rollup;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.tareline.rollup.Tree.Node;
import org.tareline.rollup.Tree.Row;

/** What of a tree a scope counts, and how many of each thing the whole holds. */
final class Count {

  private final Tree tree;
  private final Scope scope;
  private final long[] byNode;
  private final long[] byRow; // 0: not counted
  private final List<Node> nodes = new ArrayList<>();
  private final List<Row> leaves = new ArrayList<>();

  /**
   * @throws ArithmeticException naming the line, if there are more of something than a long can
   *     count
   */
  Count(Tree tree, Scope scope) {
    this.tree = tree;
    this.scope = scope;
    this.byNode = new long[tree.nodes().size()];
    this.byRow = new long[tree.rowCount()];
    byNode[tree.whole().number] = 1;
    for (int i = byNode.length - 1; i >= 0; i--) { // every holder before what it holds
      if (byNode[i] > 0) {
        handDown(tree.nodes().get(i));
      }
    }
  }

  private void handDown(Node node) {
    nodes.add(node);
    for (Row row : node.rows) {
      if (scope.counts(row.line)) {
        long times = times(byNode[node.number], row.line);
        byRow[row.number] = times;
        if (row.nested == null) {
          leaves.add(row);
        } else {
          byNode[row.nested.number] = Math.addExact(byNode[row.nested.number], times);
        }
      }
    }
  }

  /**
   * So many times the quantity of a line.
   *
   * @throws ArithmeticException naming the line, if that is more than a long can count
   */
  static long times(long holders, Line line) {
    try {
      return Math.multiplyExact(holders, line.quantity());
    } catch (ArithmeticException overflow) {
      throw new ArithmeticException(
          "Too many to count, at "
              + holders
              + " times "
              + line.quantity()
              + " of "
              + line.content().code()
              + ".");
    }
  }

  /** The distinct assemblies counted, holders first and otherwise in the order of the lines. */
  List<Node> nodes() {
    return nodes;
  }

  /** The distinct leaves counted, in that order. */
  List<Row> leaves() {
    return leaves;
  }

  boolean counts(Row row) {
    return byRow[row.number] > 0;
  }

  /** How many of it the whole holds, over all ways that lead to it. */
  long of(Node node) {
    return byNode[node.number];
  }

  /** How many of its content the whole holds by way of this row; 0 if that is not counted. */
  long of(Row row) {
    return byRow[row.number];
  }

  /** The distinct leaves counted within a node. */
  List<Row> leavesWithin(Node node) {
    List<Row> within = new ArrayList<>();
    Set<Node> met = new LinkedHashSet<>(List.of(node));
    Deque<Node> toDo = new ArrayDeque<>(met);
    while (!toDo.isEmpty()) {
      for (Row row : toDo.pop().rows) {
        if (counts(row)) {
          if (row.nested == null) {
            within.add(row);
          } else if (met.add(row.nested)) {
            toDo.push(row.nested);
          }
        }
      }
    }
    return within;
  }

  /**
   * How many entries the breakdown would have with everything unfolded; stops at the greatest long.
   */
  long unfoldedLines() {
    long[] entries = new long[byNode.length];
    for (int i = nodes.size() - 1; i >= 0; i--) {
      Node node = nodes.get(i);
      for (Row row : node.rows) {
        if (counts(row)) {
          long sum = entries[node.number] + 1;
          sum += row.nested == null ? 0 : entries[row.nested.number];
          entries[node.number] = sum < 0 ? Long.MAX_VALUE : sum;
        }
      }
    }
    return entries[tree.whole().number];
  }

  /** What the scope leaves out of what it counts. */
  List<Omission> omitted() {
    Node[] holders = new Node[byNode.length]; // where a node was met first
    List<Omission> omissions = new ArrayList<>();
    for (Node node : nodes) {
      for (Row row : node.rows) {
        if (!counts(row)) {
          omissions.add(new Omission(path(node, holders), row.line, times(of(node), row.line)));
        } else if (row.nested != null && holders[row.nested.number] == null) {
          holders[row.nested.number] = node;
        }
      }
    }
    return omissions;
  }

  private static List<String> path(Node node, Node[] holders) {
    Deque<String> path = new ArrayDeque<>();
    for (Node at = node; at != null; at = holders[at.number]) {
      path.push(at.assembly.code());
    }
    return List.copyOf(path);
  }
}
