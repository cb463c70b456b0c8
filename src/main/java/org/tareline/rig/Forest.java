package org.tareline.rig;

import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Meters;

/**
 * Some rigs with all that they hold, loaded at once, ready to be rolled up. An assembly's id is the
 * rig's UUID, a piece's the part's, a line's its own.
 */
public final class Forest {

  /** A rig as it was loaded. */
  record Tree(String uuid, String code, String name, int revision, List<Branch> branches) {}

  /** A line as it was loaded; it holds a part or a rig. */
  record Branch(
      String uuid, String role, int quantity, @Nullable Long partId, @Nullable Long rigId) {}

  /** So many of a part: how unlike its pieces are makes one of many surer than one of few. */
  private record Handful(long partId, int quantity) {}

  private final Map<Long, Tree> trees;
  private final Map<Long, Part> parts;
  private final Map<Long, PartMass> masses;
  private final Map<String, Part> partsByPiece = new HashMap<>();
  private final Map<Handful, Piece> pieces = new HashMap<>();
  private final Map<Long, Assembly> assemblies = new HashMap<>();

  Forest(Map<Long, Tree> trees, Map<Long, Part> parts, Map<Long, PartMass> masses) {
    this.trees = trees;
    this.parts = parts;
    this.masses = masses;
    parts.values().forEach(part -> partsByPiece.put(part.uuid().toString(), part));
  }

  /**
   * The rig with all that it holds. The same rig in several places is the same object.
   *
   * @throws IllegalArgumentException if it is not in this forest
   */
  public Assembly assembly(long rigId) {
    Assembly known = assemblies.get(rigId);
    if (known != null) {
      return known;
    }
    Tree tree = trees.get(rigId);
    if (tree == null) {
      throw new IllegalArgumentException("The rig with the id " + rigId + " was not loaded.");
    }
    List<Line> lines =
        tree.branches().stream()
            .map(
                branch ->
                    new Line(branch.uuid(), branch.role(), branch.quantity(), content(branch)))
            .toList();
    Assembly made = new Assembly(tree.uuid(), tree.code(), tree.name(), lines);
    assemblies.put(rigId, made);
    return made;
  }

  /**
   * The rig rolled up.
   *
   * @throws IllegalArgumentException if it is not in this forest
   */
  public RollUp rollUp(long rigId, Scope scope) {
    Assembly assembly = assembly(rigId);
    return Meters.rollingUp(() -> RollUp.of(assembly, scope));
  }

  private Content content(Branch branch) {
    return branch.partId() != null
        ? pieces.computeIfAbsent(new Handful(branch.partId(), branch.quantity()), this::piece)
        : assembly(Objects.requireNonNull(branch.rigId()));
  }

  private Piece piece(Handful of) {
    Part part = parts.get(of.partId());
    PartMass mass = masses.get(of.partId());
    if (part == null || mass == null) {
      throw new IllegalArgumentException(
          "The part with the id " + of.partId() + " was not loaded.");
    }
    return new Piece(
        part.uuid().toString(), part.code(), part.name(), mass.each(of.quantity()), mass.basis());
  }

  /** The revision that a rig of this forest has. */
  public int revision(long rigId) {
    Tree tree = trees.get(rigId);
    return tree == null ? 0 : tree.revision();
  }

  /** The ids of these rigs and of all that stand in them. */
  Set<Long> within(Collection<Long> rigIds) {
    Set<Long> found = new LinkedHashSet<>(rigIds);
    Deque<Long> open = new ArrayDeque<>(found);
    while (!open.isEmpty()) {
      for (Branch branch : Objects.requireNonNull(trees.get(open.pop())).branches()) {
        if (branch.rigId() != null && found.add(branch.rigId())) {
          open.push(branch.rigId());
        }
      }
    }
    return found;
  }

  /** The codes of all its rigs, by id. */
  Map<Long, String> codes() {
    Map<Long, String> codes = new HashMap<>();
    trees.forEach((id, tree) -> codes.put(id, tree.code()));
    return codes;
  }

  /** The ids of all its parts. */
  public Set<Long> partIds() {
    return parts.keySet();
  }

  /** The part that a piece stands for. */
  public Optional<Part> part(Piece piece) {
    return Optional.ofNullable(partsByPiece.get(piece.id()));
  }

  /** What one of the part that a piece stands for weighs, and where that comes from. */
  public Optional<PartMass> mass(Piece piece) {
    return part(piece).map(part -> masses.get(part.id()));
  }

  /** The same rigs, with other masses for some parts. */
  Forest with(Map<Long, PartMass> known) {
    Map<Long, PartMass> others = new HashMap<>(masses);
    others.putAll(known);
    return new Forest(trees, parts, others);
  }
}
