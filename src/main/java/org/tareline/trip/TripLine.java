package org.tareline.trip;

import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.units.Mass;

/** So many of a part, of a rig or of a free item on a trip, and how they travel. */
@Entity
@Table(name = "trip_line")
public class TripLine {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "trip_id", nullable = false, updatable = false)
  private Trip trip;

  @Column(nullable = false)
  private int position;

  @Column(name = "part_id")
  private @Nullable Long partId;

  @Column(name = "rig_id")
  private @Nullable Long rigId;

  @Column(name = "item_name")
  private @Nullable String itemName;

  @Column(name = "item_system")
  private @Nullable String itemSystem;

  @Column(name = "item_ng")
  private @Nullable Long itemMass;

  @Column(name = "item_typed")
  private @Nullable String itemTyped;

  @Column(nullable = false)
  private int quantity;

  @Convert(converter = Carry.Stored.class)
  @Column(nullable = false)
  private Carry carry;

  @Column private @Nullable String place;

  protected TripLine() {}

  TripLine(Trip trip, Trips.LineRead read, int position) {
    this.uuid = Objects.requireNonNull(read.id());
    this.ledgerId = trip.ledgerId();
    this.trip = trip;
    describe(read, position);
  }

  /** Takes on what was read. */
  void describe(Trips.LineRead read, int position) {
    Item item = read.item();
    this.position = position;
    this.partId = read.partId();
    this.rigId = read.rigId();
    this.itemName = item == null ? null : item.name();
    this.itemSystem = item == null ? null : item.system().word();
    this.itemMass = item == null || item.mass() == null ? null : item.mass().nanograms();
    this.itemTyped = item == null ? null : item.massTyped();
    this.quantity = read.quantity();
    this.carry = read.carry();
    this.place = read.place();
  }

  /** Survives every edit of the line. */
  public UUID uuid() {
    return uuid;
  }

  /** The part it is, if it is one. */
  public @Nullable Long partId() {
    return partId;
  }

  /** The rig it is, if it is one. */
  public @Nullable Long rigId() {
    return rigId;
  }

  /** The free item it is, if it is one: a thing that is on this trip and nowhere else. */
  public Optional<Item> item() {
    return itemName == null
        ? Optional.empty()
        : Optional.of(
            new Item(
                itemName,
                itemSystem == null
                    ? GearSystem.OTHER
                    : GearSystem.of(itemSystem).orElse(GearSystem.OTHER),
                itemMass == null ? null : new Mass(itemMass),
                itemTyped));
  }

  public int quantity() {
    return quantity;
  }

  public Carry carry() {
    return carry;
  }

  /** The bag or pocket it travels in, where one is named. */
  public Optional<String> place() {
    return Optional.ofNullable(place);
  }

  /**
   * A free item.
   *
   * @param mass of one of it; null where nobody has said
   * @param massTyped the mass as it was typed
   */
  public record Item(
      String name, GearSystem system, @Nullable Mass mass, @Nullable String massTyped) {}
}
