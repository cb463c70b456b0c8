package org.tareline.trip;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.tareline.rig.Forest;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Faults;
import org.tareline.trip.Trips.LineRead;
import org.tareline.trip.Trips.Named;
import org.tareline.trip.Trips.PlaceRead;

/** Checks what lines say of the parts of rigs, once all that they name is known. */
final class RigsUnfolded {

  private final Faults faults;
  private final Forest forest;
  private final List<LineRead> lines;
  private final List<TripLine> standing;

  private RigsUnfolded(
      Faults faults, Forest forest, List<LineRead> lines, List<TripLine> standing) {
    this.faults = faults;
    this.forest = forest;
    this.lines = lines;
    this.standing = standing;
  }

  /**
   * Notes the faults of lines that have none by themselves.
   *
   * @param standing the lines that the trip has so far: a part that stayed at home before its rig
   *     lost it stays so
   */
  static void check(Faults faults, Things things, List<LineRead> lines, List<TripLine> standing) {
    Set<Long> rigIds = new HashSet<>();
    boolean unfolded = false;
    for (LineRead line : lines) {
      unfolded |= !line.leftAtHome().isEmpty() || !line.standsInFor().isEmpty();
      if (line.rigId() != null) {
        rigIds.add(line.rigId());
      }
      line.standsInFor().forEach(place -> rigIds.add(place.rig().id()));
    }
    if (unfolded) {
      RigsUnfolded check = new RigsUnfolded(faults, things.forest(rigIds), lines, standing);
      check.leftAtHome();
      check.standIns();
    }
  }

  private void leftAtHome() {
    for (int i = 0; i < lines.size(); i++) {
      LineRead line = lines.get(i);
      for (int j = 0; j < line.leftAtHome().size(); j++) {
        Named part = line.leftAtHome().get(j);
        String field = "lines[" + i + "].leftAtHome[" + j + "]";
        if (!pieces(Objects.requireNonNull(line.rigId())).contains(part.uuid().toString())
            && !stayedAtHome(line, part)) {
          faults.add(field, "There is no " + part.code() + " in the rig " + line.code() + ".");
        }
      }
    }
  }

  private Set<String> pieces(long rigId) {
    return RollUp.of(forest.assembly(rigId), Scope.COMPLETE).leaves().stream()
        .map(leaf -> leaf.piece().id())
        .collect(Collectors.toSet());
  }

  private boolean stayedAtHome(LineRead line, Named part) {
    return standing.stream()
        .anyMatch(
            before ->
                before.uuid().equals(line.id())
                    && Objects.equals(before.rigId(), line.rigId())
                    && before.leftAtHome().contains(part.id()));
  }

  private void standIns() {
    Map<String, Integer> positions = new HashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      positions.put(id(lines.get(i)), i);
    }
    StandIns standIns =
        StandIns.of(
            lines.stream()
                .filter(line -> line.rigId() != null)
                .map(
                    line ->
                        new StandIns.Holder(
                            id(line),
                            forest.assembly(Objects.requireNonNull(line.rigId())),
                            line.quantity()))
                .toList(),
            lines.stream()
                .map(
                    line ->
                        new StandIns.Stand(
                            id(line),
                            line.quantity(),
                            line.standsInFor().stream()
                                .map(
                                    place ->
                                        new StandIns.Place(
                                            place.rig().uuid().toString(),
                                            place.part().uuid().toString()))
                                .toList()))
                .toList());
    for (StandIns.Idle idle : standIns.idle()) {
      int position = Objects.requireNonNull(positions.get(idle.line()));
      LineRead line = lines.get(position);
      PlaceRead place = line.standsInFor().get(idle.index());
      String field = "lines[" + position + "].standsInFor[" + idle.index() + "]";
      switch (idle.why()) {
        case SERVED_ALREADY ->
            faults.add(
                field,
                "Other things serve for every "
                    + place.part().code()
                    + " of "
                    + place.rig().code()
                    + " already: let as many serve as there are pieces.");
        case TOO_FEW ->
            faults.add(
                field,
                "Take more along, or let them serve for fewer: "
                    + line.quantity()
                    + " cannot serve for "
                    + line.standsInFor().size()
                    + " parts.");
        case NOT_ON_TRIP -> {
          // A warning of the trip: the rig may yet be put on it, or changed.
        }
      }
    }
  }

  private static String id(LineRead line) {
    return Objects.requireNonNull(line.id()).toString();
  }
}
