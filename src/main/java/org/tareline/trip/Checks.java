package org.tareline.trip;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionOperations;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.trip.Checklist.Check;

/**
 * Checking off what is packed, by several people at once and from telephones without a connection.
 * Of each thing the check counts that was made last, whenever it arrives. When it was made is told
 * by the clock of whoever made it, and clocks are wrong: the sender says what that clock shows at
 * the sending, and no check is newer than its arrival.
 */
@Service
public class Checks implements ReadAgain {

  private static final int MOST_AT_ONCE = 1_000;
  static final int LONGEST_KEY = 100;

  /** How far the clock of another server may be ahead. */
  private static final Duration CLOCKS_APART = Duration.ofMinutes(5);

  /**
   * Checks as somebody sent them.
   *
   * @param sentAt what the sender's clock shows at the sending; when left out it is taken to be
   *     right
   */
  public record Entry(@Nullable String sentAt, @Nullable List<@Nullable CheckEntry> checks) {}

  /**
   * A check as somebody sent it.
   *
   * @param line the id of a line of the trip
   * @param part code of one part of the rig that the line carries; all of it when left out
   * @param state a word of {@link Packed}
   * @param at when it was made; now when left out
   * @param key the sender's own name for it, so that it may be sent again; made up when left out
   */
  public record CheckEntry(
      @Nullable String line,
      @Nullable String part,
      @Nullable String state,
      @Nullable String at,
      @Nullable String key) {

    static final CheckEntry EMPTY = new CheckEntry(null, null, null, null, null);
  }

  /** A check that could be read. */
  record Read(UUID line, @Nullable UUID part, Packed state, String key, Instant claimedAt) {}

  /** What became of a check. */
  public enum Fate {
    COUNTS("counts"),
    /** A check of the same thing was made later. */
    OVERTAKEN("overtaken"),
    /** What it is of is not on the trip now; the check is kept. */
    OFF_THE_TRIP("off the trip");

    private final String word;

    Fate(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }

  /**
   * What became of a check.
   *
   * @param by the check that counts instead, where it was overtaken
   */
  public record Outcome(String key, Fate fate, @Nullable Check by) {

    /** As a sentence; null where it counts, which says itself. */
    public @Nullable String words() {
      return switch (fate) {
        case COUNTS -> null;
        case OVERTAKEN ->
            by == null
                ? "A later check counts instead."
                : by.by() + " checked it later, and that counts: " + by.state().word() + ".";
        case OFF_THE_TRIP -> "It is not on the trip now. The check was kept, and changes nothing.";
      };
    }
  }

  /**
   * How far things are after checks came.
   *
   * @param outcomes in the order of the checks
   */
  public record Done(Checklist checklist, List<Outcome> outcomes) {}

  private final PackingCheckRepository checks;
  private final Trips trips;
  private final Parts parts;
  private final TransactionOperations transactions;
  private final Clock clock;

  Checks(
      PackingCheckRepository checks,
      Trips trips,
      Parts parts,
      TransactionOperations transactions,
      Clock clock) {
    this.checks = checks;
    this.trips = trips;
    this.parts = parts;
    this.transactions = transactions;
    this.clock = clock;
  }

  /** What is to be packed, and how far it is. */
  public Checklist of(Member member, Trip trip) {
    return Checklist.of(
        trip, trips.packing(member, trip), checks.oldestFirst(member.ledgerId(), trip.id()));
  }

  /** As {@link Checklist#checks}, without the list. */
  public long count(Member member, Trip trip) {
    return checks.countByLedgerIdAndTripId(member.ledgerId(), trip.id());
  }

  /**
   * Takes down checks, each once however often it is sent: all of them or, where one cannot be
   * read, none.
   *
   * @throws org.tareline.site.NotThere if there is no such trip
   * @throws Refusal if a check cannot be read, is of what was never on the trip, or has the key of
   *     another
   */
  public Done take(Member member, String code, Entry entry) {
    try {
      return takeOnce(member, code, entry);
    } catch (DataIntegrityViolationException raced) {
      // The same check came twice at the same moment; the other one is there now.
      return takeOnce(member, code, entry);
    }
  }

  private Done takeOnce(Member member, String code, Entry entry) {
    return Objects.requireNonNull(
        transactions.execute(
            status -> {
              Trip trip = trips.get(member, code);
              Checklist before = of(member, trip);
              Instant received = clock.instant().truncatedTo(ChronoUnit.MICROS);
              List<Read> reads = new ArrayList<>();
              Duration ahead = read(member, before, entry, received, reads);
              write(member, trip, reads, received, ahead);
              Checklist after = of(member, trip);
              return new Done(after, reads.stream().map(read -> outcome(after, read)).toList());
            }));
  }

  private void write(Member member, Trip trip, List<Read> reads, Instant received, Duration ahead) {
    Map<String, PackingCheck> there =
        checks
            .findByLedgerIdAndKeyIn(
                member.ledgerId(), reads.stream().map(Read::key).collect(Collectors.toSet()))
            .stream()
            .collect(Collectors.toMap(PackingCheck::key, check -> check));
    Faults faults = new Faults();
    List<PackingCheck> fresh = new ArrayList<>();
    for (int i = 0; i < reads.size(); i++) {
      Read read = reads.get(i);
      Instant byServer = read.claimedAt().minus(ahead);
      PackingCheck check =
          new PackingCheck(
              member, trip, read, received, byServer.isAfter(received) ? received : byServer);
      PackingCheck first = there.putIfAbsent(read.key(), check);
      if (first == null) {
        fresh.add(check);
      } else if (!first.isOf(trip, read)) {
        faults.conflict(
            "checks[" + i + "].key",
            "Give every check a key of its own: "
                + Faults.shortened(read.key())
                + " came before with another check.");
      }
    }
    faults.refuseIfAny();
    fresh.forEach(checks::save);
  }

  private static Outcome outcome(Checklist after, Read read) {
    List<Checklist.Thing> things =
        after.things().stream()
            .filter(thing -> thing.line().id().equals(read.line().toString()))
            .filter(thing -> read.part() == null || read.part().equals(thing.part()))
            .toList();
    if (things.isEmpty()) {
      return new Outcome(read.key(), Fate.OFF_THE_TRIP, null);
    }
    return things.stream()
        .map(Checklist.Thing::newest)
        .filter(newest -> newest != null && !newest.key().equals(read.key()))
        .findFirst()
        .map(newest -> new Outcome(read.key(), Fate.OVERTAKEN, newest))
        .orElseGet(() -> new Outcome(read.key(), Fate.COUNTS, null));
  }

  /**
   * @param reads is filled
   * @return how much the sender's clock is ahead of the server's
   */
  private Duration read(
      Member member, Checklist list, Entry entry, Instant received, List<Read> reads) {
    Faults faults = new Faults();
    List<@Nullable CheckEntry> typed = entry.checks() == null ? List.of() : entry.checks();
    if (entry.checks() == null) {
      faults.add("checks", "Give the checks as a list.");
    } else if (typed.size() > MOST_AT_ONCE) {
      faults.add(
          "checks",
          "Send at most " + MOST_AT_ONCE + " checks at once; there are " + typed.size() + ".");
    }
    Duration ahead =
        entry.sentAt() == null || entry.sentAt().isBlank()
            ? Duration.ZERO
            : Duration.between(received, Moments.read(faults, "sentAt", entry.sentAt(), clock));
    faults.refuseIfAny();
    List<CheckEntry> entries =
        typed.stream().map(check -> check == null ? CheckEntry.EMPTY : check).toList();
    Map<String, Part> partsByCode =
        parts.byCodes(
            member,
            entries.stream()
                .map(CheckEntry::part)
                .filter(Objects::nonNull)
                .collect(Collectors.toSet()));
    Subjects subjects = new Subjects(member, list, partsByCode);
    Instant now = received.plus(ahead);
    for (int i = 0; i < entries.size(); i++) {
      read(faults, "checks[" + i + "]", entries.get(i), subjects, now).ifPresent(reads::add);
    }
    faults.refuseIfAny();
    return ahead;
  }

  private Optional<Read> read(
      Faults faults, String at, CheckEntry typed, Subjects subjects, Instant now) {
    UUID line = subjects.line(faults, at + ".line", typed.line());
    UUID part = line == null ? null : subjects.part(faults, at + ".part", line, typed.part());
    String word = faults.text(at + ".state", typed.state(), "how far it is", 60);
    Optional<Packed> state = Packed.of(word);
    if (state.isEmpty() && !word.isEmpty()) {
      faults.add(
          at + ".state", "Say open, to fetch or packed; read \"" + Faults.shortened(word) + "\".");
    }
    Instant claimed =
        typed.at() == null || typed.at().isBlank()
            ? now
            : Moments.read(faults, at + ".at", typed.at(), clock);
    String key = faults.optionalText(at + ".key", typed.key(), "the key", LONGEST_KEY);
    return line == null || state.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Read(
                line,
                part,
                state.get(),
                key == null ? UUID.randomUUID().toString() : key,
                claimed));
  }

  @Override
  public String table() {
    return "packing_check";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<PackingCheck> of = checks.byIds(member.ledgerId(), ids.toArray(Long[]::new));
    Map<Long, Trip> byId =
        trips.byIds(member, of.stream().map(PackingCheck::tripId).distinct().toList());
    Instant now = clock.instant();
    return ReadAgain.each(
        of,
        PackingCheck::id,
        check -> {
          Faults faults = new Faults();
          Trip trip = Objects.requireNonNull(byId.get(check.tripId()));
          trips.checkLine(member, trip, check.line(), faults);
          check.check(trip, now.plus(CLOCKS_APART), faults);
          faults.refuseIfAny();
        });
  }

  /** What checks may be of. */
  private final class Subjects {

    private final Member member;
    private final Checklist list;
    private final Map<String, Part> partsByCode;

    Subjects(Member member, Checklist list, Map<String, Part> partsByCode) {
      this.member = member;
      this.list = list;
      this.partsByCode = partsByCode;
    }

    @Nullable UUID line(Faults faults, String field, @Nullable String typed) {
      String text = faults.text(field, typed, "the line, by its id", 60);
      if (text.isEmpty()) {
        return null;
      }
      try {
        UUID line = UUID.fromString(text);
        if (trips.everHeld(member, list.trip(), line)) {
          return line;
        }
      } catch (IllegalArgumentException notAnId) {
        // said below
      }
      faults.add(field, Trips.neverHeld(list.trip(), text));
      return null;
    }

    /** Null for all of the line; of a line that carries the part itself, that is all of it. */
    @Nullable UUID part(Faults faults, String field, UUID line, @Nullable String typed) {
      String code = faults.optionalText(field, typed, "the part", Codes.LONGEST);
      if (code == null) {
        return null;
      }
      Part part = partsByCode.get(Codes.key(code));
      if (part == null) {
        faults.add(field, "There is no part " + Faults.shortened(code) + ".");
        return null;
      }
      UUID found = part.uuid();
      boolean isTheLine =
          list.things().stream()
              .anyMatch(
                  thing ->
                      thing.line().id().equals(line.toString())
                          && thing.part() == null
                          && thing.piece().id().equals(found.toString()));
      return isTheLine ? null : found;
    }
  }
}
