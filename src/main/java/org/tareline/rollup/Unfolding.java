package org.tareline.rollup;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Tally;

/**
 * The distinct assemblies of a tree under a scope, each once however many ways lead to it, and how
 * often each stands in the whole. Its cost is the number of distinct lines and never that of the
 * unfolded tree, which doubles with every level at which an assembly is used twice.
 */
final class Unfolding {

  /** One distinct assembly with what the scope counts of it. */
  static final class Node {
    final Assembly assembly;
    final List<Row> rows = new ArrayList<>();
    final List<Line> omitted = new ArrayList<>();

    /** How many of it the whole holds, over all ways that lead to it. */
    long multiplicity;

    /** Where it was met first; null of the whole itself. */
    @Nullable Node holder;

    /** Entries in its breakdown with everything in it unfolded; stops at the greatest long. */
    long unfoldedLines;

    /** The figures of one of it, which the roll-up fills in. */
    final Figures figures = new Figures();

    private boolean open = true;

    private Node(Assembly assembly) {
      this.assembly = assembly;
    }
  }

  /** One counted line. */
  static final class Row {
    final Node holder;
    final Line line;

    /** What it holds, if that is an assembly; null of a leaf. */
    final @Nullable Node nested;

    /** The figures of one of what it holds. */
    final Figures figures;

    private Row(Node holder, Line line, @Nullable Node nested) {
      this.holder = holder;
      this.line = line;
      this.nested = nested;
      this.figures = nested == null ? new Figures() : nested.figures;
    }

    /** What a leaf holds. */
    Piece piece() {
      return (Piece) line.content();
    }

    /** How many of its content the whole holds by way of this line. */
    long multiplicity() {
      return count(holder.multiplicity, line);
    }
  }

  /** What the {@link RollUp} works out of one piece or one nested assembly. */
  static final class Figures {
    /** Whether anything in it has a mass. */
    boolean known;

    /** What is known of its mass. */
    long nanograms;

    /** With the total, in g². */
    double covariance;

    /** Its place in the roll-up's tally; null until it is needed, and where nothing is known. */
    Tally.@Nullable Item item;
  }

  private final Scope scope;
  private final Map<String, Node> byId = new HashMap<>();
  private final Deque<Node> way = new ArrayDeque<>();
  private final Deque<Node> found = new ArrayDeque<>();

  /** What is counted: holders before what they hold, otherwise in the order of the lines. */
  final List<Node> nodes = new ArrayList<>();

  /**
   * @throws Circle if an assembly holds itself, be it in a line that the scope leaves out
   * @throws IllegalArgumentException if two unlike assemblies have one id
   * @throws ArithmeticException if there are more of something than a long can count
   */
  Unfolding(Assembly whole, Scope scope) {
    this.scope = scope;
    visit(whole).multiplicity = 1;
    for (Node node : found) {
      if (node.multiplicity > 0) {
        nodes.add(node);
        handDown(node);
      }
    }
  }

  /** Depth first and last line first, so that a holder comes to stand before all that it holds. */
  private Node visit(Assembly assembly) {
    Node known = byId.get(assembly.id());
    if (known != null) {
      refuseCircle(known);
      refuseTwin(known.assembly, assembly);
      return known;
    }
    Node node = new Node(assembly);
    byId.put(assembly.id(), node);
    way.push(node);
    for (int i = assembly.lines().size() - 1; i >= 0; i--) {
      Line line = assembly.lines().get(i);
      Node nested = line.content() instanceof Assembly inner ? visit(inner) : null;
      if (scope.counts(line)) {
        node.rows.add(new Row(node, line, nested));
        long entries = node.unfoldedLines + 1 + (nested == null ? 0 : nested.unfoldedLines);
        node.unfoldedLines = entries < 0 ? Long.MAX_VALUE : entries;
      } else {
        node.omitted.add(line);
      }
    }
    Collections.reverse(node.rows);
    Collections.reverse(node.omitted);
    way.pop();
    node.open = false;
    found.push(node);
    return node;
  }

  private void refuseCircle(Node known) {
    if (!known.open) {
      return;
    }
    Deque<String> path = new ArrayDeque<>(List.of(known.assembly.code()));
    for (Node node : way) {
      path.push(node.assembly.code());
      if (node == known) {
        break;
      }
    }
    throw new Circle(List.copyOf(path));
  }

  private static void refuseTwin(Assembly known, Assembly other) {
    if (known != other && !known.lines().equals(other.lines())) {
      throw new IllegalArgumentException(
          "Two assemblies with unlike lines have one id: "
              + known.code()
              + " and "
              + other.code()
              + ".");
    }
  }

  private static void handDown(Node node) {
    for (Row row : node.rows) {
      Node nested = row.nested;
      if (nested != null) {
        nested.multiplicity = Math.addExact(nested.multiplicity, row.multiplicity());
        if (nested.holder == null) {
          nested.holder = node;
        }
      }
    }
  }

  /** The leaves in all of these together. */
  static List<Row> leaves(Collection<Node> nodes) {
    List<Row> leaves = new ArrayList<>();
    for (Node node : nodes) {
      for (Row row : node.rows) {
        if (row.nested == null) {
          leaves.add(row);
        }
      }
    }
    return leaves;
  }

  /** The node and all it holds, each once. */
  static Set<Node> within(Node node) {
    Set<Node> met = new LinkedHashSet<>(List.of(node));
    Deque<Node> toDo = new ArrayDeque<>(met);
    while (!toDo.isEmpty()) {
      for (Row row : toDo.pop().rows) {
        if (row.nested != null && met.add(row.nested)) {
          toDo.push(row.nested);
        }
      }
    }
    return met;
  }

  /**
   * So many times the quantity of a line.
   *
   * @throws ArithmeticException naming the line, if that is more than a long can count
   */
  static long count(long holders, Line line) {
    if (Math.multiplyHigh(holders, line.quantity()) != 0 || holders * line.quantity() < 0) {
      throw new ArithmeticException(
          "Too many to count: "
              + holders
              + " times "
              + line.quantity()
              + " of "
              + line.content().code()
              + ".");
    }
    return holders * line.quantity();
  }
}
