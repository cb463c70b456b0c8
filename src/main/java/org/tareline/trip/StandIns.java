package org.tareline.trip;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Line;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;

/**
 * Which parts of the rigs of a trip are not carried because something else on the trip serves for
 * them. A line of two things may serve for two pieces, of one part or of two; what of it is left
 * over serves for nothing.
 */
final class StandIns {

  /** A line that carries a rig, so many of it. */
  record Holder(String line, Assembly rig, int quantity) {}

  /** A part of a rig, by their ids. */
  record Place(String rig, String part) {}

  /** A line of so many things that serve for parts. */
  record Stand(String line, int quantity, List<Place> places) {}

  /** Why one place of a line comes to nothing. */
  enum Why {
    /** No such rig with such a part is on the trip. */
    NOT_ON_TRIP,
    /** Other things serve for every piece of it. */
    SERVED_ALREADY,
    /** The line has too few things to serve for so many parts. */
    TOO_FEW
  }

  /**
   * A place that comes to nothing.
   *
   * @param index of the place in its line
   */
  record Idle(String line, int index, Why why) {}

  /** So many of a leaf line's pieces are served for by another line of the trip. */
  record Served(Leaf leaf, long count, String by) {}

  private final List<Holder> holders;
  private final Map<String, Assembly> rigs = new HashMap<>();
  private final Map<String, List<Leaf>> leaves = new HashMap<>();
  private final Map<String, Map<String, Long>> servedByLeaf = new HashMap<>();
  private final Map<String, List<Served>> served = new HashMap<>();
  private final List<Idle> idle = new ArrayList<>();

  private StandIns(List<Holder> holders) {
    this.holders = holders;
    holders.forEach(holder -> collect(holder.rig()));
  }

  private void collect(Assembly rig) {
    if (rigs.putIfAbsent(rig.id(), rig) == null) {
      for (Line line : rig.lines()) {
        if (line.content() instanceof Assembly nested) {
          collect(nested);
        }
      }
    }
  }

  static StandIns of(List<Holder> holders, List<Stand> stands) {
    StandIns of = new StandIns(holders);
    stands.forEach(of::serve);
    return of;
  }

  /** What of the rig of a line is served for. */
  List<Served> served(String line) {
    return served.getOrDefault(line, List.of());
  }

  List<Idle> idle() {
    return idle;
  }

  /** One piece for each place first; what is left over goes to whichever has more pieces. */
  private void serve(Stand stand) {
    Map<Integer, Long> wanted = new LinkedHashMap<>();
    long left = stand.quantity();
    for (int i = 0; i < stand.places().size(); i++) {
      if (pieces(stand.places().get(i)) == 0) {
        idle.add(new Idle(stand.line(), i, Why.NOT_ON_TRIP));
      } else if (left == 0) {
        idle.add(new Idle(stand.line(), i, Why.TOO_FEW));
      } else {
        wanted.put(i, 1L);
        left--;
      }
    }
    for (Map.Entry<Integer, Long> each : wanted.entrySet()) {
      Place place = stand.places().get(each.getKey());
      long already =
          wanted.entrySet().stream()
              .filter(other -> stand.places().get(other.getKey()).equals(place))
              .mapToLong(Map.Entry::getValue)
              .sum();
      long more = Math.max(0, Math.min(left, pieces(place) - already));
      each.setValue(each.getValue() + more);
      left -= more;
    }
    wanted.forEach((index, count) -> serve(stand, index, count));
  }

  private void serve(Stand stand, int index, long count) {
    Place place = stand.places().get(index);
    long left = count;
    for (Holder holder : holders) {
      long rigsOfIt = holder.quantity() * occurrences(holder.rig(), place.rig(), new HashMap<>());
      Map<String, Long> gone = servedByLeaf.computeIfAbsent(holder.line(), any -> new HashMap<>());
      for (Leaf leaf : rigsOfIt == 0 ? List.<Leaf>of() : leaves(place)) {
        long there = leaf.multiplicity() * rigsOfIt - gone.getOrDefault(leaf.line().id(), 0L);
        long now = Math.min(left, there);
        if (now > 0) {
          gone.merge(leaf.line().id(), now, Long::sum);
          served
              .computeIfAbsent(holder.line(), any -> new ArrayList<>())
              .add(new Served(leaf, now, stand.line()));
          left -= now;
        }
      }
    }
    if (left > 0) {
      idle.add(new Idle(stand.line(), index, Why.SERVED_ALREADY));
    }
  }

  /** How many pieces of a part of a rig go along, before anything serves for them. */
  private long pieces(Place place) {
    long inOne = leaves(place).stream().mapToLong(Leaf::multiplicity).sum();
    return inOne == 0
        ? 0
        : holders.stream()
            .mapToLong(
                holder ->
                    inOne
                        * holder.quantity()
                        * occurrences(holder.rig(), place.rig(), new HashMap<>()))
            .sum();
  }

  private List<Leaf> leaves(Place place) {
    Assembly rig = rigs.get(place.rig());
    return rig == null
        ? List.of()
        : leaves.computeIfAbsent(rig.id(), any -> RollUp.of(rig, Scope.COMPLETE).leaves()).stream()
            .filter(leaf -> leaf.piece().id().equals(place.part()))
            .toList();
  }

  /** How many of a rig there are in what a line holds, itself included. */
  private static long occurrences(Content in, String rig, Map<String, Long> known) {
    if (in.id().equals(rig)) {
      return 1;
    }
    if (!(in instanceof Assembly assembly)) {
      return 0;
    }
    Long before = known.get(in.id());
    if (before != null) {
      return before;
    }
    long count = 0;
    for (Line line : assembly.lines()) {
      count += line.quantity() * occurrences(line.content(), rig, known);
    }
    known.put(in.id(), count);
    return count;
  }
}
