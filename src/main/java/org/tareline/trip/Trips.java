package org.tareline.trip;

import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.Revisions;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** The trips of a ledger, and what is carried on them. */
@Service
@Transactional(readOnly = true)
public class Trips {

  static final String KIND = "trip";

  private static final int LONGEST_TRIP = 366;

  /**
   * A trip as somebody typed it.
   *
   * @param starts the first day, as {@code 2027-05-08}
   * @param lines in their order; null on a new trip is none
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String starts,
      @Nullable String days,
      @Nullable List<@Nullable LineEntry> lines,
      @Nullable String note) {}

  /**
   * A line as somebody typed it: a part, a rig or a free item, and only one of them.
   *
   * @param id of the line it was, so that it stays the same line; may be left out, and is then told
   *     by what it carries
   * @param part code of a part
   * @param rig code of a rig
   * @param thing code or name of a part or a rig, where it was not said of which
   * @param quantity 1 when left out
   * @param carry a word of {@link Carry}; {@code base} when left out
   * @param place the bag or pocket it travels in
   */
  public record LineEntry(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable String thing,
      @Nullable ItemEntry item,
      @Nullable String quantity,
      @Nullable String carry,
      @Nullable String place) {

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
      this(id, part, rig, null, item, quantity, carry, place);
    }
  }

  /**
   * A free item as somebody typed it. A bare number is in grams.
   *
   * @param system a word of {@link GearSystem}; {@code other} when left out
   * @param mass of one; not known when left out
   */
  public record ItemEntry(@Nullable String name, @Nullable String system, @Nullable String mass) {}

  /** The part or the rig that a line carries; both null where it is a free item. */
  public record Carried(@Nullable Part part, @Nullable Rig rig) {}

  /** An entry that could be read; as kept with each revision. */
  record Read(
      String code,
      String name,
      @Nullable LocalDate starts,
      @Nullable Integer days,
      List<LineRead> lines,
      @Nullable String note) {}

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
      @Nullable String place) {

    boolean carriesTheSameAs(TripLine line) {
      return Objects.equals(partId, line.partId())
          && Objects.equals(rigId, line.rigId())
          && Objects.equals(nameKey(item), nameKey(line.item().orElse(null)));
    }

    private static @Nullable String nameKey(TripLine.@Nullable Item item) {
      return item == null ? null : Codes.key(item.name());
    }

    LineRead withId(UUID known) {
      return new LineRead(known, partId, rigId, code, item, quantity, carry, place);
    }
  }

  private final TripRepository trips;
  private final Parts parts;
  private final Rigs rigs;
  private final Revisions revisions;
  private final Clock clock;

  Trips(TripRepository trips, Parts parts, Rigs rigs, Revisions revisions, Clock clock) {
    this.trips = trips;
    this.parts = parts;
    this.rigs = rigs;
    this.revisions = revisions;
    this.clock = clock;
  }

  /** The bags and pockets that things of the ledger travel in, by name. */
  public List<String> places(Member member) {
    return trips.places(member.ledgerId());
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
              line.rigId() == null ? null : rigsById.get(line.rigId())));
    }
    return carried;
  }

  /** These trips with all that is on them, in a fixed number of queries; by the trip's id. */
  public Map<Long, Packing> packings(Member member, Collection<Trip> of) {
    Forest forest = rigs.forest(member, rigIds(of));
    Map<Long, Part> partsById = byId(parts.byIds(member, partIds(of)), Part::id);
    Stowing stowing =
        new Stowing(
            forest, partsById, parts.masses(member, partsById.values()), member.statedTolerance());
    Map<Long, Packing> packings = new HashMap<>();
    of.forEach(trip -> packings.put(trip.id(), stowing.packing(trip)));
    return packings;
  }

  public Packing packing(Member member, Trip trip) {
    return Objects.requireNonNull(packings(member, List.of(trip)).get(trip.id()));
  }

  private static List<TripLine> lines(Collection<Trip> of) {
    return of.stream().flatMap(trip -> trip.lines().stream()).toList();
  }

  private static Set<Long> partIds(Collection<Trip> of) {
    return ids(of, TripLine::partId);
  }

  private static Set<Long> rigIds(Collection<Trip> of) {
    return ids(of, TripLine::rigId);
  }

  private static Set<Long> ids(Collection<Trip> of, Function<TripLine, @Nullable Long> id) {
    return lines(of).stream().map(id).filter(Objects::nonNull).collect(Collectors.toSet());
  }

  private static <T> Map<Long, T> byId(List<T> things, Function<T, Long> id) {
    return things.stream().collect(Collectors.toMap(id, Function.identity()));
  }

  /** All with their lines: those not dated yet, then the latest first. */
  public List<Trip> all(Member member) {
    return trips.allWithLines(member.ledgerId());
  }

  /** The trip with this code, or that once had it; with its lines. */
  public Optional<Trip> find(Member member, String code) {
    return id(member, code).flatMap(id -> trips.withLines(member.ledgerId(), id));
  }

  private Optional<Long> id(Member member, String code) {
    return trips
        .idOf(member.ledgerId(), Codes.key(code))
        .or(() -> revisions.formerly(member, KIND, code).stream().boxed().findFirst());
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
    Trip trip =
        id(member, code)
            .flatMap(id -> trips.lock(member.ledgerId(), id))
            .orElseThrow(() -> new NotThere(KIND));
    Revisions.guard("trip " + trip.code(), trip.revision(), expected);
    Read read = read(member, entry, trip);
    revisions.recode(member, KIND, trip.id(), trip.code(), read.code());
    trip.describe(read);
    write(trip.code(), trips::flush);
    revisions.keep(member, KIND, trip.id(), trip.revision(), read);
    return trip;
  }

  private Read read(Member member, Entry entry, @Nullable Trip itself) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    LocalDate starts = date(faults, "starts", entry.starts());
    int days = faults.wholeNumber("days", entry.days(), "the days", 1, LONGEST_TRIP, 0);
    if (entry.lines() == null && itself != null) {
      faults.add("lines", "Give the lines; an empty list takes them all out.");
    }
    List<LineRead> lines =
        LineReading.read(
            faults,
            new Things(member, parts, rigs),
            entry.lines() == null ? List.of() : entry.lines(),
            itself == null ? List.of() : itself.lines());
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    if (faults.none()) {
      refuseTakenCode(faults, member, code, itself);
    }
    faults.refuseIfAny();
    return new Read(code, name, starts, days == 0 ? null : days, lines, note);
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
