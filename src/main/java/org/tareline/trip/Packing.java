package org.tareline.trip;

import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Piece;

/**
 * A trip and everything on it as plain records, for whatever computes.
 *
 * @param id of the trip
 * @param lines in their order
 * @param kinds what each piece is, beside what it weighs
 */
public record Packing(
    String id, String code, String name, List<Line> lines, Function<Piece, Kind> kinds) {

  /**
   * A line with what it carries.
   *
   * @param id survives edits of the line
   * @param content a rig with all that it holds, a part, or a free item
   * @param place the bag or pocket it travels in; null where none is named
   */
  public record Line(
      String id, Content content, int quantity, Carry carry, @Nullable String place) {}

  /**
   * What a piece is.
   *
   * @param owned how many of it are owned; null of a free item, which nobody counts
   */
  public record Kind(GearSystem system, @Nullable Integer owned) {}

  public Packing {
    lines = List.copyOf(lines);
  }

  public Kind kind(Piece piece) {
    return kinds.apply(piece);
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
