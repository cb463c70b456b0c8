package org.tareline.trip;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Embeddable;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.OrderBy;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import org.hibernate.annotations.Fetch;
import org.hibernate.annotations.FetchMode;
import org.jspecify.annotations.Nullable;
import org.tareline.part.GearSystem;
import org.tareline.units.Kind;
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

  /** The code of a carrier of the trip. */
  @Column private @Nullable String carrier;

  /** The word of a system that stands in for those of what it carries. */
  @Column private @Nullable String system;

  @Column(name = "per_day_ng")
  private @Nullable Long perDay;

  @Column(name = "per_day_typed")
  private @Nullable String perDayTyped;

  @Column(name = "density_g_per_ml")
  private @Nullable BigDecimal density;

  @Column(name = "density_typed")
  private @Nullable String densityTyped;

  @ElementCollection(fetch = FetchType.EAGER)
  @Fetch(FetchMode.SUBSELECT)
  @CollectionTable(
      name = "trip_line_left_at_home",
      joinColumns = @JoinColumn(name = "trip_line_id"))
  @OrderBy("position")
  private List<LeftAtHome> leftAtHome = new ArrayList<>();

  @ElementCollection(fetch = FetchType.EAGER)
  @Fetch(FetchMode.SUBSELECT)
  @CollectionTable(name = "trip_line_stand_in", joinColumns = @JoinColumn(name = "trip_line_id"))
  @OrderBy("position")
  private List<StandsInFor> standsInFor = new ArrayList<>();

  @ElementCollection(fetch = FetchType.EAGER)
  @Fetch(FetchMode.SUBSELECT)
  @CollectionTable(name = "trip_line_amount", joinColumns = @JoinColumn(name = "trip_line_id"))
  @OrderBy("kind, day")
  private List<OnDay> amounts = new ArrayList<>();

  /** A part of the line's rig that does not go along. */
  @Embeddable
  record LeftAtHome(
      @Column(name = "ledger_id", nullable = false) long ledgerId,
      @Column(nullable = false) int position,
      @Column(name = "part_id", nullable = false) long partId) {}

  /** A part of a rig for which the line serves. */
  @Embeddable
  record StandsInFor(
      @Column(name = "ledger_id", nullable = false) long ledgerId,
      @Column(nullable = false) int position,
      @Column(name = "rig_id", nullable = false) long rigId,
      @Column(name = "part_id", nullable = false) long partId) {}

  /** So much of a consumable taken or used on a day. */
  @Embeddable
  record OnDay(
      @Column(name = "ledger_id", nullable = false) long ledgerId,
      @Column(nullable = false) String kind,
      @Column(name = "on_day", nullable = false) int day,
      @Column(name = "amount_ng", nullable = false) long nanograms,
      @Column(nullable = false) String typed) {}

  private static final String TAKEN = "taken";
  private static final String USED = "used";

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
    this.carrier = read.carrier();
    this.system = read.system() == null ? null : read.system().word();
    Supply supply = read.supply();
    this.perDay = supply.perDay() == null ? null : supply.perDay().mass().nanograms();
    this.perDayTyped = supply.perDay() == null ? null : supply.perDay().typed();
    this.densityTyped = supply.densityTyped();
    this.density =
        densityTyped == null
            ? null
            : new BigDecimal(Amount.density(densityTyped).in(Kind.DENSITY.base()).value());
    List<LeftAtHome> leftNow = new ArrayList<>();
    read.leftAtHome()
        .forEach(part -> leftNow.add(new LeftAtHome(ledgerId, leftNow.size(), part.id())));
    replace(leftAtHome, leftNow);
    List<StandsInFor> placesNow = new ArrayList<>();
    read.standsInFor()
        .forEach(
            place ->
                placesNow.add(
                    new StandsInFor(
                        ledgerId, placesNow.size(), place.rig().id(), place.part().id())));
    replace(standsInFor, placesNow);
    List<OnDay> amountsNow = new ArrayList<>();
    supply.taken().forEach((day, amount) -> amountsNow.add(onDay(TAKEN, day, amount)));
    supply.used().forEach((day, amount) -> amountsNow.add(onDay(USED, day, amount)));
    replace(amounts, amountsNow);
  }

  private OnDay onDay(String kind, int day, Amount amount) {
    return new OnDay(ledgerId, kind, day, amount.mass().nanograms(), amount.typed());
  }

  /** Leaves alone what is the same, so that nothing is written for it. */
  private static <T> void replace(List<T> before, List<T> now) {
    if (!before.equals(now)) {
      before.clear();
      before.addAll(now);
    }
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

  /** The code of who carries it; of the trip's first carrier where none is named. */
  public Optional<String> carrier() {
    return Optional.ofNullable(carrier);
  }

  /** The system that all of it counts for, where that is not each thing's own. */
  public Optional<GearSystem> system() {
    return Optional.ofNullable(system).flatMap(GearSystem::of);
  }

  /** The parts of its rig that stay at home, by their ids. */
  public List<Long> leftAtHome() {
    return leftAtHome.stream().map(LeftAtHome::partId).toList();
  }

  /** A part of a rig, by their ids. */
  public record RigPart(long rigId, long partId) {}

  /** The parts of rigs for which it serves. */
  public List<RigPart> standsInFor() {
    return standsInFor.stream().map(place -> new RigPart(place.rigId(), place.partId())).toList();
  }

  /** How it is used up, of a consumable. */
  public Supply supply() {
    return new Supply(
        byDay(TAKEN),
        byDay(USED),
        perDay == null || perDayTyped == null ? null : new Amount(new Mass(perDay), perDayTyped),
        densityTyped);
  }

  private SortedMap<Integer, Amount> byDay(String kind) {
    SortedMap<Integer, Amount> byDay = new TreeMap<>();
    for (OnDay amount : amounts) {
      if (amount.kind().equals(kind)) {
        byDay.put(amount.day(), new Amount(new Mass(amount.nanograms()), amount.typed()));
      }
    }
    return byDay;
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
