package org.tareline.trip;

import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.part.GearSystem;
import org.tareline.part.LifeEvents;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.Forest;
import org.tareline.rig.Reconciliations;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/** The trips of a ledger, and what is carried on them. */
@Service
@Transactional(readOnly = true)
public class Trips implements ReadAgain {

  static final String KIND = "trip";

  private static final int LONGEST_TRIP = 366;
  private static final int MOST_CARRIERS = 100;

  /**
   * A trip as somebody typed it.
   *
   * @param starts the first day, as {@code 2027-05-08}
   * @param coldestNight how cold a night is expected, with its unit; may be left out
   * @param carriers who carries it, in their order; null is nobody named
   * @param lines in their order; null on a new trip is none
   * @param targetBase what the base weight is to be at most, a bare number in grams; none when left
   *     out
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String starts,
      @Nullable String days,
      @Nullable String coldestNight,
      @Nullable List<@Nullable CarrierEntry> carriers,
      @Nullable List<@Nullable LineEntry> lines,
      @Nullable String targetBase,
      @Nullable String note) {}

  /**
   * Who carries a share, as somebody typed it.
   *
   * @param name the code when left out
   * @param bodyMass what the person weighs; may be left out
   * @param pack what goes into the pack; may be left out
   */
  public record CarrierEntry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String bodyMass,
      PackedSize.@Nullable Entry pack) {

    static final CarrierEntry EMPTY = new CarrierEntry(null, null, null, null);
  }

  /**
   * A line as somebody typed it: a part, a rig or a free item, and only one of them.
   *
   * @param id of the line it was, so that it stays the same line; may be left out, and is then told
   *     by what it carries
   * @param part code of a part
   * @param rig code of a rig
   * @param thing code or name of a part or a rig, where it was not said of which
   * @param quantity 1 when left out
   * @param carry a word of {@link Carry}; when left out, {@code base}, or {@code consumable} where
   *     it is said how it is used up
   * @param place the bag or pocket it travels in
   * @param carrier code of a carrier of the trip; the first when left out
   * @param system a word of {@link GearSystem} that all of it counts for; when left out, each thing
   *     counts for its own
   * @param leftAtHome codes of parts of its rig that do not go along
   * @param standsInFor parts of rigs of the trip for which it serves
   * @param supply how it is used up; may be left out
   */
  public record LineEntry(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable String thing,
      @Nullable ItemEntry item,
      @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place,
      @Nullable String carrier,
      @Nullable String system,
      @Nullable List<@Nullable String> leftAtHome,
      @Nullable List<@Nullable StandInEntry> standsInFor,
      @Nullable SupplyEntry supply) {

    /** What would be typed for another line that is as this one. */
    static LineEntry like(TripLine line, Carried carried) {
      TripLine.Item item = line.item().orElse(null);
      Supply supply = line.supply();
      return new LineEntry(
          null,
          carried.part() == null ? null : carried.part().code(),
          carried.rig() == null ? null : carried.rig().code(),
          null,
          item == null ? null : new ItemEntry(item.name(), item.system().word(), item.massTyped()),
          String.valueOf(line.quantity()),
          line.carry().word(),
          line.place().orElse(null),
          line.carrier().orElse(null),
          line.system().map(GearSystem::word).orElse(null),
          carried.leftAtHome().stream().<@Nullable String>map(Part::code).toList(),
          carried.standsInFor().stream()
              .<@Nullable StandInEntry>map(
                  place -> new StandInEntry(place.rig().code(), place.part().code()))
              .toList(),
          new SupplyEntry(
              typed(supply.taken()),
              typed(supply.used()),
              supply.perDay() == null ? null : supply.perDay().typed(),
              supply.densityTyped()));
    }

    private static Map<String, @Nullable String> typed(SortedMap<Integer, Amount> amounts) {
      Map<String, @Nullable String> typed = new LinkedHashMap<>();
      amounts.forEach((day, amount) -> typed.put(String.valueOf(day), amount.typed()));
      return typed;
    }

    static final LineEntry EMPTY = new LineEntry(null, null, null, null, null, null, null);

    /** A line that says which kind of thing it carries. */
    public LineEntry(
        @Nullable String id,
        @Nullable String part,
        @Nullable String rig,
        @Nullable ItemEntry item,
        @Nullable String quantity,
        @Nullable String carry,
        @Nullable String place) {
      this(id, part, rig, null, item, quantity, carry, place, null, null, null, null, null);
    }
  }

  /** A part of a rig of the trip, by their codes, as somebody typed it. */
  public record StandInEntry(@Nullable String rig, @Nullable String part) {

    static final StandInEntry EMPTY = new StandInEntry(null, null);
  }

  /**
   * How a consumable is used up, as somebody typed it. An amount is a mass, a bare number in grams,
   * or a volume.
   *
   * @param taken what is added before leaving on a day, by the number of the day
   * @param used what is used during a day, by the number of the day
   * @param perDay used every day; then nothing is said day by day
   * @param density mass per volume of what is given by volume; that of water when left out
   */
  public record SupplyEntry(
      @Nullable Map<String, @Nullable String> taken,
      @Nullable Map<String, @Nullable String> used,
      @Nullable String perDay,
      @Nullable String density) {

    static final SupplyEntry NONE = new SupplyEntry(null, null, null, null);

    boolean isEmpty() {
      return (taken == null || taken.isEmpty())
          && (used == null || used.isEmpty())
          && (perDay == null || perDay.isBlank())
          && (density == null || density.isBlank());
    }
  }

  /**
   * A free item as somebody typed it. A bare number is in grams.
   *
   * @param system a word of {@link GearSystem}; {@code other} when left out
   * @param mass of one, or its volume; not known when left out
   * @param supply how it is used up, where that was said of the item and not of its line
   */
  public record ItemEntry(
      @Nullable String name,
      @Nullable String system,
      @Nullable String mass,
      @Nullable SupplyEntry supply) {

    public ItemEntry(@Nullable String name, @Nullable String system, @Nullable String mass) {
      this(name, system, mass, null);
    }
  }

  /**
   * The parts and rigs that a line names.
   *
   * @param part that it carries; null where it carries something else
   * @param rig that it carries; null where it carries something else
   * @param leftAtHome parts of its rig
   * @param standsInFor parts of rigs for which it serves
   */
  public record Carried(
      @Nullable Part part, @Nullable Rig rig, List<Part> leftAtHome, List<RigPart> standsInFor) {}

  /** A part of a rig. */
  public record RigPart(Rig rig, Part part) {}

  /** An entry that could be read; as kept with each revision. */
  record Read(
      String code,
      String name,
      @Nullable LocalDate starts,
      @Nullable Integer days,
      @Nullable String coldestNight,
      List<CarrierRead> carriers,
      List<LineRead> lines,
      @Nullable Amount targetBase,
      @Nullable String note) {}

  /** A carrier that could be read. */
  record CarrierRead(String code, String name, @Nullable Amount body, PackedSize pack) {}

  /** A part or a rig, with the code it had at the time. */
  record Named(long id, UUID uuid, String code) {}

  /** A part of a rig. */
  record PlaceRead(Named rig, Named part) {}

  /**
   * A line that could be read.
   *
   * @param id null only while it is not yet known which line it is
   * @param code of the part or rig at the time, for whoever reads an old revision
   */
  record LineRead(
      @Nullable UUID id,
      @Nullable Long partId,
      @Nullable Long rigId,
      @Nullable String code,
      TripLine.@Nullable Item item,
      int quantity,
      Carry carry,
      @Nullable String place,
      @Nullable String carrier,
      @Nullable GearSystem system,
      List<Named> leftAtHome,
      List<PlaceRead> standsInFor,
      Supply supply) {

    boolean carriesTheSameAs(TripLine line) {
      return Objects.equals(partId, line.partId())
          && Objects.equals(rigId, line.rigId())
          && Objects.equals(nameKey(item), nameKey(line.item().orElse(null)));
    }

    private static @Nullable String nameKey(TripLine.@Nullable Item item) {
      return item == null ? null : Codes.key(item.name());
    }

    LineRead withId(UUID known) {
      return new LineRead(
          known,
          partId,
          rigId,
          code,
          item,
          quantity,
          carry,
          place,
          carrier,
          system,
          leftAtHome,
          standsInFor,
          supply);
    }
  }

  private final TripRepository trips;
  private final Parts parts;
  private final Rigs rigs;
  private final LifeEvents lifeEvents;
  private final Reconciliations reconciliations;
  private final Revisions revisions;
  private final Clock clock;

  Trips(
      TripRepository trips,
      Parts parts,
      Rigs rigs,
      LifeEvents lifeEvents,
      Reconciliations reconciliations,
      Revisions revisions,
      Clock clock) {
    this.trips = trips;
    this.parts = parts;
    this.rigs = rigs;
    this.lifeEvents = lifeEvents;
    this.reconciliations = reconciliations;
    this.revisions = revisions;
    this.clock = clock;
  }

  /** The bags and pockets that things of the ledger travel in, by name. */
  public List<String> places(Member member) {
    return trips.places(member.ledgerId());
  }

  /** The distinct parts of rigs, by the key of the rig's code; of no rig, nothing. */
  public Map<String, List<Part>> partsOfRigs(Member member, Collection<String> rigCodes) {
    Map<String, Rig> found = rigs.byCodes(member, Things.findable(rigCodes));
    Forest forest = rigs.forest(member, found.values().stream().map(Rig::id).toList());
    Map<String, List<Part>> partsOfRigs = new HashMap<>();
    found.forEach(
        (key, rig) ->
            partsOfRigs.put(
                key,
                RollUp.of(forest.assembly(rig.id()), Scope.COMPLETE).leaves().stream()
                    .map(leaf -> forest.part(leaf.piece()).orElseThrow())
                    .distinct()
                    .toList()));
    return partsOfRigs;
  }

  /** What each line of these trips carries, in a fixed number of queries; by the line's UUID. */
  public Map<UUID, Carried> carried(Member member, Collection<Trip> of) {
    Map<Long, Part> partsById = byId(parts.byIds(member, partIds(of)), Part::id);
    Map<Long, Rig> rigsById = byId(rigs.byIds(member, rigIds(of)), Rig::id);
    Map<UUID, Carried> carried = new HashMap<>();
    for (TripLine line : lines(of)) {
      carried.put(
          line.uuid(),
          new Carried(
              line.partId() == null ? null : partsById.get(line.partId()),
              line.rigId() == null ? null : rigsById.get(line.rigId()),
              line.leftAtHome().stream().map(partsById::get).toList(),
              line.standsInFor().stream()
                  .map(
                      place ->
                          new RigPart(
                              Objects.requireNonNull(rigsById.get(place.rigId())),
                              Objects.requireNonNull(partsById.get(place.partId()))))
                  .toList()));
    }
    return carried;
  }

  /** These trips with all that is on them, in a fixed number of queries; by the trip's id. */
  public Map<Long, Packing> packings(Member member, Collection<Trip> of) {
    return packings(member, of, rigs.forest(member, rigIds(of)));
  }

  private Map<Long, Packing> packings(Member member, Collection<Trip> of, Forest forest) {
    Map<Long, Part> partsById = byId(parts.byIds(member, partIds(of)), Part::id);
    Set<Long> all = new HashSet<>(forest.partIds());
    all.addAll(partsById.keySet());
    Stowing stowing =
        new Stowing(
            forest,
            partsById,
            parts.masses(member, partsById.values()),
            lifeEvents.whereabouts(member, all),
            member.statedTolerance());
    Map<Long, Packing> packings = new HashMap<>();
    of.forEach(trip -> packings.put(trip.id(), stowing.packing(trip)));
    return packings;
  }

  public Packing packing(Member member, Trip trip) {
    return Objects.requireNonNull(packings(member, List.of(trip)).get(trip.id()));
  }

  /**
   * The second of two trips against the first, in a fixed number of queries.
   *
   * @throws NotThere if there is no such trip
   */
  public TripComparison compare(Member member, String first, String second) {
    Trip a = get(member, first);
    Trip b = get(member, second);
    Map<Long, Packing> packings = packings(member, List.of(a, b));
    return TripComparison.of(
        Objects.requireNonNull(packings.get(a.id())), Objects.requireNonNull(packings.get(b.id())));
  }

  /** A trip, what it weighs, what it takes against the cold, and what is amiss with it. */
  public record Weighed(Packing packing, Weights weights, Nights nights, List<Warning> warnings) {}

  /** What a trip takes against the cold, held against its coldest night. */
  public Nights nights(Member member, Trip trip) {
    return Nights.of(packing(member, trip), trip.coldestNight().orElse(null));
  }

  /** Weighs a trip and looks for what is amiss, in a fixed number of queries. */
  public Weighed weighed(Member member, Trip trip) {
    List<Trip> all = new ArrayList<>(onTheSameDays(member, trip));
    all.add(0, trip);
    Forest forest = rigs.forest(member, rigIds(all));
    Map<Long, Packing> packings = packings(member, all, forest);
    List<Packing> others = all.stream().skip(1).map(other -> packings.get(other.id())).toList();
    Packing packing = Objects.requireNonNull(packings.get(trip.id()));
    Weights weights = Weights.of(packing);
    Nights nights = Nights.of(packing, trip.coldestNight().orElse(null));
    List<Warning> warnings = new ArrayList<>(nights.warnings());
    warnings.addAll(
        Warnings.of(
            packing,
            weights,
            others,
            reconciliations.disagreeing(member, forest, rigIds(List.of(trip))),
            member.massStyle()));
    return new Weighed(packing, weights, nights, warnings);
  }

  /** The other trips that are under way on one of its days; of an unknown length, on the first. */
  private List<Trip> onTheSameDays(Member member, Trip trip) {
    LocalDate starts = trip.starts().orElse(null);
    if (starts == null) {
      return List.of();
    }
    LocalDate ends = trip.ends().orElse(starts);
    return trips.starting(member.ledgerId(), starts.minusDays(LONGEST_TRIP), ends).stream()
        .filter(other -> other.id() != trip.id())
        .filter(other -> !other.ends().or(other::starts).orElseThrow().isBefore(starts))
        .toList();
  }

  private static List<TripLine> lines(Collection<Trip> of) {
    return of.stream().flatMap(trip -> trip.lines().stream()).toList();
  }

  /** Every part that a line names, whether it carries it or not. */
  private static Set<Long> partIds(Collection<Trip> of) {
    Set<Long> ids = new HashSet<>();
    for (TripLine line : lines(of)) {
      if (line.partId() != null) {
        ids.add(line.partId());
      }
      ids.addAll(line.leftAtHome());
      line.standsInFor().forEach(place -> ids.add(place.partId()));
    }
    return ids;
  }

  /** Every rig that a line names, whether it carries it or not. */
  private static Set<Long> rigIds(Collection<Trip> of) {
    Set<Long> ids = new HashSet<>();
    for (TripLine line : lines(of)) {
      if (line.rigId() != null) {
        ids.add(line.rigId());
      }
      line.standsInFor().forEach(place -> ids.add(place.rigId()));
    }
    return ids;
  }

  private static <T> Map<Long, T> byId(List<T> things, Function<T, Long> id) {
    return things.stream().collect(Collectors.toMap(id, Function.identity()));
  }

  /** All with their lines: those not dated yet, then the latest first. */
  public List<Trip> all(Member member) {
    return trips.allWithLines(member.ledgerId());
  }

  /**
   * The trips after a code, by code; from the first where it is empty. With their lines.
   *
   * @param after need not be the code of a trip
   */
  public List<Trip> after(Member member, String after, int most) {
    List<Long> ids = trips.after(member.ledgerId(), Codes.key(after), Limit.of(most));
    return ids.isEmpty() ? List.of() : trips.withLines(member.ledgerId(), ids.toArray(Long[]::new));
  }

  /** The trip with this code, or that once had it; with its lines. */
  public Optional<Trip> find(Member member, String code) {
    return id(member, code).flatMap(id -> trips.withLines(member.ledgerId(), id));
  }

  private Optional<Long> id(Member member, String code) {
    return trips
        .idOf(member.ledgerId(), Codes.key(code))
        .or(() -> revisions.formerly(member, KIND, code));
  }

  public Trip get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere(KIND));
  }

  /**
   * Puts a trip into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Trip add(Member member, Entry entry) {
    Read read = read(member, entry, null);
    Trip trip = new Trip(member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS));
    write(trip.code(), () -> trips.save(trip));
    revisions.keep(member, KIND, trip.id(), trip.revision(), read);
    return trip;
  }

  /**
   * Puts a trip into the ledger that takes along what an earlier one did: carriers, lines and how
   * consumables are used up. Its lines are lines of their own.
   *
   * @param name that of the earlier one when left out
   * @param starts the first day; not known when left out
   * @throws NotThere if there is no such trip
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Trip copy(
      Member member,
      String from,
      @Nullable String code,
      @Nullable String name,
      @Nullable String starts) {
    Trip earlier = get(member, from);
    Entry like = entry(earlier, carried(member, List.of(earlier)));
    return add(
        member,
        new Entry(
            code,
            name == null || name.isBlank() ? like.name() : name,
            starts,
            like.days(),
            // Another time of the year has other nights.
            null,
            like.carriers(),
            like.lines(),
            like.targetBase(),
            like.note()));
  }

  /** Somebody may take a code between the look and the leap; the database is the last judge. */
  private static void write(String code, Runnable write) {
    try {
      write.run();
    } catch (DataIntegrityViolationException taken) {
      throw Refusal.of(Refusal.Kind.CONFLICT, "code", taken(code));
    }
  }

  private static String taken(String code) {
    return "Choose another code: " + code + " is a trip already.";
  }

  /**
   * Describes a trip anew; the earlier description is kept.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws NotThere if there is no such trip
   * @throws org.tareline.site.Refusal if the entry cannot be read, the code is taken or somebody
   *     saved since
   */
  @Transactional
  public Trip change(Member member, String code, Entry entry, @Nullable Integer expected) {
    Trip trip = locked(member, code);
    Revisions.guard("trip " + trip.code(), trip.revision(), expected);
    Read read = read(member, entry, trip);
    revisions.recode(member, KIND, trip.id(), trip.code(), read.code());
    trip.describe(read);
    write(trip.code(), trips::flush);
    revisions.keep(member, KIND, trip.id(), trip.revision(), read);
    return trip;
  }

  /** The trip with this code, for changing it: nobody else does until this transaction ends. */
  Trip locked(Member member, String code) {
    return id(member, code)
        .flatMap(id -> trips.lock(member.ledgerId(), id))
        .orElseThrow(() -> new NotThere(KIND));
  }

  /** Those with these ids; with their lines. */
  Map<Long, Trip> byIds(Member member, Collection<Long> ids) {
    return byId(trips.withLines(member.ledgerId(), ids.toArray(Long[]::new)), Trip::id);
  }

  /** Notes a fault where a line neither is on a trip nor ever was. */
  void checkLine(Member member, Trip trip, UUID line, Faults faults) {
    if (!everHeld(member, trip, line)) {
      faults.add("line", neverHeld(trip, line.toString()));
    }
  }

  boolean everHeld(Member member, Trip trip, UUID line) {
    return trip.lines().stream().anyMatch(each -> each.uuid().equals(line))
        || revisions.everHeld(member, KIND, trip.id(), line.toString());
  }

  static String neverHeld(Trip trip, String line) {
    return "Give the id of a line of "
        + trip.code()
        + ": it never had a line "
        + Faults.shortened(line)
        + ".";
  }

  @Override
  public String table() {
    return KIND;
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<Trip> of = trips.withLines(member.ledgerId(), ids.toArray(Long[]::new));
    Map<UUID, Carried> carried = carried(member, of);
    return ReadAgain.each(
        of,
        Trip::id,
        trip -> {
          Faults faults = new Faults();
          // Whether rigs still have what stays at home or is served for is a warning of the trip.
          read(entry(trip, carried), trip, new Things(member, parts, rigs), faults);
          faults.refuseIfAny();
        });
  }

  private static Entry entry(Trip trip, Map<UUID, Carried> carried) {
    Carried nothing = new Carried(null, null, List.of(), List.of());
    return new Entry(
        trip.code(),
        trip.name(),
        trip.starts().map(LocalDate::toString).orElse(null),
        trip.days().map(String::valueOf).orElse(null),
        trip.coldestNight().map(Quantity::text).orElse(null),
        trip.carriers().stream()
            .<@Nullable CarrierEntry>map(
                carrier ->
                    new CarrierEntry(
                        carrier.code(),
                        carrier.name(),
                        carrier.body().map(Amount::typed).orElse(null),
                        new PackedSize.Entry(
                            carrier.pack().volumeTyped(), carrier.pack().lengthTyped())))
            .toList(),
        trip.lines().stream()
            .<@Nullable LineEntry>map(
                line -> LineEntry.like(line, carried.getOrDefault(line.uuid(), nothing)))
            .toList(),
        trip.targetBase().map(Amount::typed).orElse(null),
        trip.note().orElse(null));
  }

  private Read read(Member member, Entry entry, @Nullable Trip itself) {
    Faults faults = new Faults();
    Things things = new Things(member, parts, rigs);
    Read read = read(entry, itself, things, faults);
    if (faults.none()) {
      RigsUnfolded.check(faults, things, read.lines(), itself == null ? List.of() : itself.lines());
    }
    if (faults.none()) {
      refuseTakenCode(faults, member, read.code(), itself);
    }
    faults.refuseIfAny();
    return read;
  }

  /** As far as it can be told by itself; useless where a fault was noted. */
  private static Read read(Entry entry, @Nullable Trip itself, Things things, Faults faults) {
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    LocalDate starts = date(faults, "starts", entry.starts());
    int days = faults.wholeNumber("days", entry.days(), "the days", 1, LONGEST_TRIP, 0);
    String coldestNight =
        faults.optionalText("coldestNight", entry.coldestNight(), "the coldest night", 200);
    if (coldestNight != null) {
      faults.read("coldestNight", () -> Quantity.read(coldestNight, Kind.TEMPERATURE, null));
    }
    if (entry.lines() == null && itself != null) {
      faults.add("lines", "Give the lines; an empty list takes them all out.");
    }
    List<CarrierRead> carriers = carriers(faults, entry.carriers());
    List<LineRead> lines =
        LineReading.read(
            faults,
            things,
            carriers,
            days,
            entry.lines() == null ? List.of() : entry.lines(),
            itself == null ? List.of() : itself.lines());
    Amount target = mass(faults, "targetBase", entry.targetBase(), "the target", Unit.GRAM);
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    return new Read(
        code, name, starts, days == 0 ? null : days, coldestNight, carriers, lines, target, note);
  }

  private static List<CarrierRead> carriers(
      Faults faults, @Nullable List<@Nullable CarrierEntry> typed) {
    List<CarrierRead> carriers = new ArrayList<>();
    if (typed == null) {
      return carriers;
    }
    if (typed.size() > MOST_CARRIERS) {
      faults.add(
          "carriers",
          "Give at most " + MOST_CARRIERS + " carriers; there are " + typed.size() + ".");
      return carriers;
    }
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < typed.size(); i++) {
      String at = "carriers[" + i + "]";
      CarrierEntry entry = typed.get(i) == null ? CarrierEntry.EMPTY : typed.get(i);
      String code = Codes.read(faults, at + ".code", entry.code());
      if (!code.isEmpty() && !seen.add(Codes.key(code))) {
        faults.add(
            at + ".code",
            "Give each carrier another code: " + code + " is one of this trip already.");
      }
      String name = faults.optionalText(at + ".name", entry.name(), "the name", 200);
      carriers.add(
          new CarrierRead(
              code,
              name == null ? code : name,
              mass(faults, at + ".bodyMass", entry.bodyMass(), "the body mass", Unit.KILOGRAM),
              PackedSize.read(
                  faults,
                  at + ".pack",
                  false,
                  entry.pack() == null ? PackedSize.Entry.EMPTY : entry.pack())));
    }
    return carriers;
  }

  private static @Nullable Amount mass(
      Faults faults, String field, @Nullable String entry, String what, Unit bare) {
    String typed = faults.optionalText(field, entry, what, 200);
    Quantity read =
        typed == null
            ? null
            : faults.read(field, () -> Quantity.read(typed, Kind.MASS, bare).positive());
    return read == null || typed == null ? null : new Amount(read.mass(), typed);
  }

  private void refuseTakenCode(Faults faults, Member member, String code, @Nullable Trip itself) {
    Optional<Long> other = trips.idOf(member.ledgerId(), Codes.key(code));
    if (other.isPresent() && (itself == null || other.get() != itself.id())) {
      faults.conflict("code", taken(code));
    } else {
      revisions.refuseFormerCode(member, KIND, code, itself == null ? null : itself.id(), faults);
    }
  }

  private static @Nullable LocalDate date(Faults faults, String field, @Nullable String entry) {
    String typed = faults.optionalText(field, entry, "the first day", 60);
    if (typed == null) {
      return null;
    }
    try {
      LocalDate date = LocalDate.parse(typed);
      if (date.getYear() >= 1900 && date.getYear() <= 2999) {
        return date;
      }
    } catch (DateTimeParseException notADate) {
      // said below
    }
    faults.add(
        field,
        "Give the first day as year-month-day, such as 2027-05-08; read \""
            + Faults.shortened(typed)
            + "\".");
    return null;
  }
}
