package org.tareline.trip;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;

/**
 * The rig of a line without what of it does not go along, laid out flat: the same rig may go along
 * whole in another line, so its lines have ids of their own.
 *
 * @param content all of the line, however many of the rig it has
 * @param away what does not go along
 */
record PartOfRig(Assembly content, List<Packing.Away> away) {

  /**
   * Takes out what does not go along.
   *
   * @param atHome the pieces that are left at home, by id
   * @param served what of it others serve for
   */
  static PartOfRig of(
      String line, Assembly rig, int quantity, Set<String> atHome, List<StandIns.Served> served) {
    Map<String, Packing.Away> away = new LinkedHashMap<>();
    Map<String, Long> gone = new HashMap<>();
    for (StandIns.Served each : served) {
      Piece piece = each.leaf().piece();
      if (!atHome.contains(piece.id())) {
        gone.merge(each.leaf().line().id(), each.count(), Long::sum);
        add(away, new Packing.Away(piece, each.count(), each.by()));
      }
    }
    List<Line> lines = new ArrayList<>();
    for (Leaf leaf : RollUp.of(rig, Scope.COMPLETE).leaves()) {
      long count = Math.multiplyExact(leaf.multiplicity(), (long) quantity);
      if (atHome.contains(leaf.piece().id())) {
        add(away, new Packing.Away(leaf.piece(), count, null));
        continue;
      }
      long along = count - gone.getOrDefault(leaf.line().id(), 0L);
      if (along > 0) {
        lines.add(
            new Line(
                line + Packing.WITHIN + leaf.line().id(),
                leaf.line().role(),
                Math.toIntExact(along),
                leaf.piece()));
      }
    }
    return new PartOfRig(
        new Assembly(
            line + Packing.WITHIN,
            rig.code(),
            rig.name() + (quantity == 1 ? "" : ", " + quantity + " of it"),
            lines),
        List.copyOf(away.values()));
  }

  private static void add(Map<String, Packing.Away> away, Packing.Away more) {
    away.merge(
        more.piece().id() + " " + more.instead(),
        more,
        (one, other) -> new Packing.Away(one.piece(), one.count() + other.count(), one.instead()));
  }
}
