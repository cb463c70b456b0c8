package org.tareline.trip;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SortedMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Stated;
import org.tareline.part.GearSystem;
import org.tareline.part.LifeEvents;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.rig.Forest;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Content;
import org.tareline.rollup.Piece;
import org.tareline.units.Mass;

/** Turns rows of trips into plain records: the one place where that is done. */
final class Stowing {

  private final Forest forest;
  private final Map<Long, Part> parts;
  private final Map<Long, PartMass> masses;
  private final Map<Long, LifeEvents.Whereabouts> whereabouts;
  private final BigDecimal tolerance;

  /** What each part and item that stands in a line of its own is, by the piece's id. */
  private final Map<String, Packing.Kind> kinds = new HashMap<>();

  /**
   * @param forest the rigs that the lines name
   * @param parts those that the lines name, by id
   * @param masses theirs
   * @param whereabouts of all parts
   * @param tolerance half-width of an item's stated mass, as a fraction of it
   */
  Stowing(
      Forest forest,
      Map<Long, Part> parts,
      Map<Long, PartMass> masses,
      Map<Long, LifeEvents.Whereabouts> whereabouts,
      BigDecimal tolerance) {
    this.forest = forest;
    this.parts = parts;
    this.masses = masses;
    this.whereabouts = whereabouts;
    this.tolerance = tolerance;
  }

  Packing packing(Trip trip) {
    StandIns standIns = standIns(trip);
    String first = trip.carriers().isEmpty() ? null : trip.carriers().get(0).code();
    return new Packing(
        trip.uuid().toString(),
        trip.code(),
        trip.name(),
        trip.days().orElse(0),
        trip.carriers().stream()
            .map(
                carrier ->
                    new Packing.Bearer(
                        carrier.code(),
                        carrier.name(),
                        carrier.body().orElse(null),
                        carrier.pack()))
            .toList(),
        trip.lines().stream().map(line -> line(line, standIns, first)).toList(),
        idle(trip, standIns),
        this::kind);
  }

  private StandIns standIns(Trip trip) {
    return StandIns.of(
        trip.lines().stream()
            .filter(line -> line.rigId() != null)
            .map(
                line ->
                    new StandIns.Holder(
                        line.uuid().toString(),
                        forest.assembly(Objects.requireNonNull(line.rigId())),
                        line.quantity()))
            .toList(),
        trip.lines().stream()
            .filter(line -> !line.standsInFor().isEmpty())
            .map(
                line ->
                    new StandIns.Stand(
                        line.uuid().toString(),
                        line.quantity(),
                        line.standsInFor().stream()
                            .map(
                                place ->
                                    new StandIns.Place(
                                        forest.assembly(place.rigId()).id(),
                                        part(place.partId()).uuid().toString()))
                            .toList()))
            .toList());
  }

  private List<Packing.Idle> idle(Trip trip, StandIns standIns) {
    Map<String, TripLine> lines = new HashMap<>();
    trip.lines().forEach(line -> lines.put(line.uuid().toString(), line));
    return standIns.idle().stream()
        .map(
            idle -> {
              TripLine.RigPart place =
                  Objects.requireNonNull(lines.get(idle.line())).standsInFor().get(idle.index());
              return new Packing.Idle(
                  idle.line(),
                  forest.assembly(place.rigId()).code(),
                  part(place.partId()).code(),
                  idle.why() != StandIns.Why.NOT_ON_TRIP);
            })
        .toList();
  }

  private Packing.Line line(TripLine line, StandIns standIns, @Nullable String firstCarrier) {
    String id = line.uuid().toString();
    Content content = content(line);
    PartOfRig part = content instanceof Assembly rig ? partOf(line, rig, standIns) : null;
    return new Packing.Line(
        id,
        part == null ? content : part.content(),
        part == null ? line.quantity() : 1,
        line.carry(),
        line.place().orElse(null),
        line.carrier().orElse(firstCarrier),
        line.system().orElse(null),
        line.supply(),
        supplied(line),
        part == null ? List.of() : part.away());
  }

  /** Null where the rig goes along as it is. */
  private @Nullable PartOfRig partOf(TripLine line, Assembly rig, StandIns standIns) {
    List<StandIns.Served> served = standIns.served(line.uuid().toString());
    return line.leftAtHome().isEmpty() && served.isEmpty() && line.system().isEmpty()
        ? null
        : PartOfRig.of(
            line.uuid().toString(),
            rig,
            line.quantity(),
            line.leftAtHome().stream()
                .map(part -> part(part).uuid().toString())
                .collect(Collectors.toSet()),
            served);
  }

  private Part part(long id) {
    return Objects.requireNonNull(parts.get(id));
  }

  private Content content(TripLine line) {
    if (line.rigId() != null) {
      return forest.assembly(line.rigId());
    }
    if (line.partId() != null) {
      return piece(part(line.partId()), line.quantity());
    }
    return piece(line, line.item().orElseThrow());
  }

  /** Under the id that it has within a rig, so that it is the same thing wherever it stands. */
  private Piece piece(Part part, int quantity) {
    PartMass mass = Objects.requireNonNull(masses.get(part.id()));
    String id = part.uuid().toString();
    kinds.put(id, kind(part));
    return new Piece(id, part.code(), part.name(), mass.each(quantity), mass.basis());
  }

  /** A thing of this line alone: two items of one name are two things, each with its own error. */
  private Piece piece(TripLine line, TripLine.Item item) {
    String id = Packing.ITEM + line.uuid();
    kinds.put(id, new Packing.Kind(item.system(), null));
    SortedMap<Integer, Amount> taken = line.supply().taken();
    Mass mass =
        taken.isEmpty() ? item.mass() : taken.getOrDefault(1, new Amount(Mass.ZERO, "")).mass();
    return mass == null
        ? new Piece(id, item.name(), item.name(), null, null)
        : new Piece(id, item.name(), item.name(), stated(line, item, mass), Basis.ESTIMATED);
  }

  /** All that is ever taken of an item that is taken by days; null of all else. */
  private @Nullable Estimate supplied(TripLine line) {
    Mass all = Mass.ZERO;
    for (Amount amount : line.supply().taken().values()) {
      all = all.plus(amount.mass());
    }
    return all.signum() == 0 ? null : stated(line, line.item().orElseThrow(), all);
  }

  /** However much there is of an item, it is by the same guess. */
  private Estimate stated(TripLine line, TripLine.Item item, Mass mass) {
    return Stated.of(
            Packing.ITEM + line.uuid() + ":stated",
            "stated mass of " + item.name(),
            mass,
            Mass.fromGrams(mass.grams().multiply(tolerance)))
        .estimate();
  }

  private Packing.Kind kind(Piece piece) {
    return forest
        .part(piece)
        .map(this::kind)
        .orElseGet(() -> kinds.getOrDefault(piece.id(), new Packing.Kind(GearSystem.OTHER, null)));
  }

  private Packing.Kind kind(Part part) {
    LifeEvents.Whereabouts where =
        whereabouts.getOrDefault(part.id(), LifeEvents.Whereabouts.AT_HOME);
    return new Packing.Kind(
        part.system(),
        part.owned(),
        where.lent(),
        where.retired(),
        part.comfort().orElse(null),
        part.packed());
  }
}
