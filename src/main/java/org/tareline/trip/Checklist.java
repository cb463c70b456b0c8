package org.tareline.trip;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;

/**
 * What is to be packed for a trip, thing by thing, and how far each is. A rig is unfolded into its
 * parts, each once for the line, however many lines of the rig hold it.
 *
 * @param things in the order of the lines
 * @param checks how many checks there have been, so that whoever has seen as many has seen all
 */
public record Checklist(Trip trip, List<Thing> things, long checks) {

  /**
   * A thing to be packed.
   *
   * @param part the id of the part, where the line carries a rig; null where it is the line's thing
   * @param newest the check that says how far it is; null where there was none
   */
  public record Thing(
      Packing.Line line,
      @Nullable UUID part,
      Piece piece,
      long quantity,
      Packing.Kind kind,
      @Nullable Check newest) {

    /** The rig that the line carries; null where it carries the thing itself. */
    public @Nullable Assembly rig() {
      return rigOf(line);
    }

    /** What it is for: what its line says of all that it carries, else its own. */
    public GearSystem system() {
      return line.system() == null ? kind.system() : line.system();
    }

    /** How far it is. */
    public Packed state() {
      return newest == null ? Packed.OPEN : newest.state();
    }

    /** The code on its label; null of a free item, which has none. */
    public @Nullable String code() {
      return kind.owned() == null ? null : piece.code();
    }
  }

  /**
   * A check that was made.
   *
   * @param part null where it is of all that the line carries
   * @param at by the server's clock
   * @param byAccount who made it
   */
  public record Check(
      UUID line,
      @Nullable UUID part,
      Packed state,
      String key,
      Instant at,
      long byAccount,
      String by) {}

  public Checklist {
    things = List.copyOf(things);
  }

  /**
   * @param checks the newest last
   */
  static Checklist of(Trip trip, Packing packing, List<Check> checks) {
    Newest newest = new Newest(checks);
    List<Thing> things = new ArrayList<>();
    for (Packing.Line line : packing.lines()) {
      UUID id = UUID.fromString(line.id());
      for (Counted of : unfolded(line.content())) {
        UUID part = rigOf(line) == null ? null : UUID.fromString(of.piece().id());
        things.add(
            new Thing(
                line,
                part,
                of.piece(),
                Math.multiplyExact(of.count(), line.quantity()),
                packing.kind(of.piece()),
                newest.of(id, part)));
      }
    }
    return new Checklist(trip, things, checks.size());
  }

  private static @Nullable Assembly rigOf(Packing.Line line) {
    return line.content() instanceof Assembly rig ? rig : null;
  }

  private record Counted(Piece piece, long count) {}

  private static List<Counted> unfolded(Content content) {
    if (content instanceof Piece piece) {
      return List.of(new Counted(piece, 1));
    }
    Map<String, Counted> byPiece = new LinkedHashMap<>();
    for (Leaf leaf : RollUp.of((Assembly) content, Scope.COMPLETE).leaves()) {
      byPiece.merge(
          leaf.piece().id(),
          new Counted(leaf.piece(), leaf.multiplicity()),
          (one, more) -> new Counted(one.piece(), Math.addExact(one.count(), more.count())));
    }
    return List.copyOf(byPiece.values());
  }

  /** The newest check of each thing; one of a whole line is one of each thing in it. */
  private static final class Newest {

    private record Subject(UUID line, @Nullable UUID part) {}

    private final Map<Subject, Integer> places = new HashMap<>();
    private final List<Check> checks;

    Newest(List<Check> checks) {
      this.checks = checks;
      for (int i = 0; i < checks.size(); i++) {
        places.put(new Subject(checks.get(i).line(), checks.get(i).part()), i);
      }
    }

    @Nullable Check of(UUID line, @Nullable UUID part) {
      int newest =
          Math.max(
              places.getOrDefault(new Subject(line, null), -1),
              places.getOrDefault(new Subject(line, part), -1));
      return newest < 0 ? null : checks.get(newest);
    }
  }

  /** How many things are so far. */
  public long count(Packed state) {
    return things.stream().filter(thing -> thing.state() == state).count();
  }
}
