package org.tareline.rollup;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Numbering;

/**
 * An assembly laid out for rolling up: its distinct assemblies in order, each once however many
 * ways lead to it, and the sources of all its pieces numbered together. So the cost of a roll-up is
 * the number of distinct lines and never that of the unfolded tree, which doubles with every level
 * at which an assembly is used twice. Immutable: lay it out once, roll it up under many scopes.
 */
public final class Tree {

  /** One distinct assembly. */
  static final class Node {
    final Assembly assembly;
    final List<Row> rows;

    /** Its place in the tree, above those of all it holds. */
    final int number;

    private Node(Assembly assembly, List<Row> rows, int number) {
      this.assembly = assembly;
      this.rows = rows;
      this.number = number;
    }
  }

  /** One line of a distinct assembly. */
  static final class Row {
    final Line line;

    /** What it holds, if that is an assembly; null of a leaf. */
    final @Nullable Node nested;

    /** Its place among all rows of the tree. */
    final int number;

    private Row(Line line, @Nullable Node nested, int number) {
      this.line = line;
      this.nested = nested;
      this.number = number;
    }

    /** What a leaf holds. */
    Piece piece() {
      return (Piece) line.content();
    }
  }

  private final List<Node> nodes;
  private final int rowCount;
  private final Numbering numbering;
  private final @Nullable Estimate[] masses;

  private Tree(List<Node> nodes, int rowCount) {
    this.nodes = nodes;
    this.rowCount = rowCount;
    List<Row> known = new ArrayList<>();
    List<Estimate> estimates = new ArrayList<>();
    for (Node node : nodes) {
      for (Row row : node.rows) {
        if (row.nested == null && row.piece().each() != null) {
          known.add(row);
          estimates.add(row.piece().each());
        }
      }
    }
    this.numbering = Numbering.of(estimates);
    this.masses = new Estimate[rowCount];
    for (int i = 0; i < known.size(); i++) {
      masses[known.get(i).number] = numbering.estimates().get(i);
    }
  }

  /**
   * Lays an assembly out.
   *
   * @throws Circle if an assembly holds itself, directly or through others
   * @throws IllegalArgumentException if two assemblies with unlike lines have one id
   */
  public static Tree of(Assembly assembly) {
    Layout layout = new Layout();
    layout.visit(assembly);
    return new Tree(layout.nodes, layout.rowCount);
  }

  /**
   * Every distinct assembly; what is held comes before what holds it, and the whole is the last.
   */
  List<Node> nodes() {
    return nodes;
  }

  Node whole() {
    return nodes.get(nodes.size() - 1);
  }

  int rowCount() {
    return rowCount;
  }

  Numbering numbering() {
    return numbering;
  }

  /**
   * The mass of one of what a leaf holds, numbered with all the others; null if nobody knows it.
   */
  @Nullable Estimate mass(Row leaf) {
    return masses[leaf.number];
  }

  /** The work in progress of {@link Tree#of}. */
  private static final class Layout {
    final List<Node> nodes = new ArrayList<>();
    final Map<String, Node> done = new HashMap<>();
    final Map<String, Assembly> open = new LinkedHashMap<>(); // the way down to here, in order
    int rowCount;

    /** Last line first, so that the tree read backwards has the lines in their order. */
    Node visit(Assembly assembly) {
      Node known = done.get(assembly.id());
      if (known != null) {
        refuseTwin(known.assembly, assembly);
        return known;
      }
      if (open.put(assembly.id(), assembly) != null) {
        throw circle(assembly);
      }
      List<Line> lines = assembly.lines();
      List<Row> rows = new ArrayList<>(lines.size());
      for (int i = lines.size() - 1; i >= 0; i--) {
        Line line = lines.get(i);
        Node nested = line.content() instanceof Assembly inner ? visit(inner) : null;
        rows.add(new Row(line, nested, rowCount++));
      }
      Collections.reverse(rows);
      Node node = new Node(assembly, rows, nodes.size());
      nodes.add(node);
      open.remove(assembly.id());
      done.put(assembly.id(), node);
      return node;
    }

    private Circle circle(Assembly again) {
      List<String> path = new ArrayList<>();
      for (Assembly holder : open.values()) {
        if (!path.isEmpty() || holder.equals(again)) {
          path.add(holder.code());
        }
      }
      path.add(again.code());
      return new Circle(path);
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
  }
}
