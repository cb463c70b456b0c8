package org.tareline.trip;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Stated;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.rig.Forest;
import org.tareline.rollup.Content;
import org.tareline.rollup.Piece;
import org.tareline.units.Mass;

/** Turns rows of trips into plain records: the one place where that is done. */
final class Stowing {

  private final Forest forest;
  private final Map<Long, Part> parts;
  private final Map<Long, PartMass> masses;
  private final BigDecimal tolerance;

  /** What each part and item that stands in a line of its own is, by the piece's id. */
  private final Map<String, Packing.Kind> kinds = new HashMap<>();

  /**
   * @param forest the rigs that the lines carry
   * @param parts those that the lines carry, by id
   * @param masses theirs
   * @param tolerance half-width of an item's stated mass, as a fraction of it
   */
  Stowing(Forest forest, Map<Long, Part> parts, Map<Long, PartMass> masses, BigDecimal tolerance) {
    this.forest = forest;
    this.parts = parts;
    this.masses = masses;
    this.tolerance = tolerance;
  }

  Packing packing(Trip trip) {
    return new Packing(
        trip.uuid().toString(),
        trip.code(),
        trip.name(),
        trip.lines().stream().map(this::line).toList(),
        this::kind);
  }

  private Packing.Line line(TripLine line) {
    return new Packing.Line(
        line.uuid().toString(),
        content(line),
        line.quantity(),
        line.carry(),
        line.place().orElse(null));
  }

  private Content content(TripLine line) {
    if (line.rigId() != null) {
      return forest.assembly(line.rigId());
    }
    if (line.partId() != null) {
      return piece(Objects.requireNonNull(parts.get(line.partId())), line.quantity());
    }
    return piece(line.uuid(), line.item().orElseThrow());
  }

  /** Under the id that it has within a rig, so that it is the same thing wherever it stands. */
  private Piece piece(Part part, int quantity) {
    PartMass mass = Objects.requireNonNull(masses.get(part.id()));
    String id = part.uuid().toString();
    kinds.put(id, kind(part));
    return new Piece(id, part.code(), part.name(), mass.each(quantity), mass.basis());
  }

  /** A thing of this line alone: two items of one name are two things, each with its own error. */
  private Piece piece(UUID lineId, TripLine.Item item) {
    String id = "item:" + lineId;
    kinds.put(id, new Packing.Kind(item.system(), null));
    Mass mass = item.mass();
    return mass == null
        ? new Piece(id, item.name(), item.name(), null, null)
        : new Piece(
            id,
            item.name(),
            item.name(),
            Stated.of(
                    id + ":stated",
                    "stated mass of " + item.name(),
                    mass,
                    Mass.fromGrams(mass.grams().multiply(tolerance)))
                .estimate(),
            Basis.ESTIMATED);
  }

  private Packing.Kind kind(Piece piece) {
    return forest
        .part(piece)
        .map(Stowing::kind)
        .orElseGet(() -> kinds.getOrDefault(piece.id(), new Packing.Kind(GearSystem.OTHER, null)));
  }

  private static Packing.Kind kind(Part part) {
    return new Packing.Kind(part.system(), part.owned());
  }
}
