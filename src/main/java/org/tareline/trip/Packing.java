package org.tareline.trip;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.part.Comfort;
import org.tareline.part.GearSystem;
import org.tareline.part.PackedSize;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;

/**
 * A trip and everything on it as plain records, for whatever computes.
 *
 * @param id of the trip
 * @param days how many; 0 where nobody has said
 * @param carriers in their order; none where one person carries all
 * @param lines in their order
 * @param idle what is to serve for something that is not there to be served for
 * @param kinds what each piece is, beside what it weighs
 */
public record Packing(
    String id,
    String code,
    String name,
    int days,
    List<Bearer> carriers,
    List<Line> lines,
    List<Idle> idle,
    Function<Piece, Kind> kinds) {

  /**
   * Somebody who carries a share.
   *
   * @param body what the person weighs; null where it is not given
   * @param pack what goes into the pack
   */
  public record Bearer(String code, String name, @Nullable Amount body, PackedSize pack) {}

  /**
   * A line with what it carries: so many of its content, and nothing that stays at home.
   *
   * @param id survives edits of the line
   * @param content a rig with all of it that goes along, a part, or a free item
   * @param place the bag or pocket it travels in; null where none is named
   * @param carrier the code of who carries it; null where nobody is named on the trip
   * @param system that all of it counts for; null where each thing counts for its own
   * @param supply how it is used up, of a consumable
   * @param supplied a mass above nothing of what is taken by days, with its error; null where all
   *     of it is in the content
   * @param away parts of the rig that are not in the content
   */
  public record Line(
      String id,
      Content content,
      int quantity,
      Carry carry,
      @Nullable String place,
      @Nullable String carrier,
      @Nullable GearSystem system,
      Supply supply,
      @Nullable Estimate supplied,
      List<Away> away) {

    public Line {
      away = List.copyOf(away);
    }

    /** A line that says no more than what it is and where. */
    Line(String id, Content content, int quantity, Carry carry, @Nullable String place) {
      this(id, content, quantity, carry, place, null, null, Supply.EVEN, null, List.of());
    }
  }

  /**
   * So many of a part of a rig that are not carried.
   *
   * @param instead the id of the line that serves for them; null where they are left at home
   */
  public record Away(Piece piece, long count, @Nullable String instead) {}

  /**
   * A part for which a line is to serve in vain.
   *
   * @param line id of the line
   * @param rig code of the rig
   * @param part code of the part
   * @param served whether other things serve for it already; else it is not on the trip
   */
  public record Idle(String line, String rig, String part, boolean served) {}

  /**
   * What a piece is.
   *
   * @param owned how many of it are owned; null of a free item, which nobody counts
   * @param lent how many of those are lent
   * @param retired whether one of it was retired
   * @param comfort how cold a night it is stated for; null where nothing is stated
   * @param packed the room that one of it takes
   */
  public record Kind(
      GearSystem system,
      @Nullable Integer owned,
      int lent,
      boolean retired,
      @Nullable Comfort comfort,
      PackedSize packed) {

    /** Of a thing to which nothing happened. */
    Kind(GearSystem system, @Nullable Integer owned) {
      this(system, owned, 0, false, null, PackedSize.UNKNOWN);
    }
  }

  /** What the id of a free item begins with. */
  public static final String ITEM = "item:";

  /** Between the id of a line of the trip and that of a line of the rig it carries a part of. */
  static final String WITHIN = "/";

  public Packing {
    carriers = List.copyOf(carriers);
    lines = List.copyOf(lines);
    idle = List.copyOf(idle);
  }

  public Kind kind(Piece piece) {
    return kinds.apply(piece);
  }

  /** What each leaf of the trip counts for: its line's system, else its own. */
  public Function<Leaf, GearSystem> systems() {
    Map<String, GearSystem> named = new HashMap<>();
    for (Line line : lines) {
      if (line.system() != null) {
        named.put(line.id(), line.system());
      }
    }
    return leaf -> {
      String id = leaf.line().id();
      int within = id.indexOf(WITHIN);
      GearSystem system = named.get(within < 0 ? id : id.substring(0, within));
      return system == null ? kind(leaf.piece()).system() : system;
    };
  }

  /** The whole trip as one assembly; what a line does in it is how it travels. */
  Assembly assembly() {
    return new Assembly(
        id,
        code,
        name,
        lines.stream()
            .map(
                line ->
                    new org.tareline.rollup.Line(
                        line.id(), line.carry().word(), line.quantity(), line.content()))
            .toList());
  }
}
