package org.tareline.trip;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.part.WorthAsking;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.trip.TripOutcome.Outcome;
import org.tareline.trip.TripOutcomeRepository.Met;

/** What came of the things of a trip when it was over, and what that says over several trips. */
@Service
@Transactional(readOnly = true)
public class Afterwards implements WorthAsking, ReadAgain {

  private static final String KIND = "afterwards";
  private static final int UNUSED_IN_A_ROW = 3;
  private static final int MISSED = 2;
  private static final int MOST_MISSED = 200;

  /**
   * What came of a trip, as somebody typed it.
   *
   * @param things of the trip; of those left out nothing is said
   * @param missed parts by code, and other things as they are called, that were not on the trip
   */
  public record Entry(
      @Nullable List<@Nullable ThingEntry> things, @Nullable List<@Nullable String> missed) {}

  /**
   * What came of a thing.
   *
   * @param line id of its line
   * @param part its code, where the line carries a rig; all of the rig when left out
   * @param outcome used, not used or missed; nothing is said when left out
   */
  public record ThingEntry(@Nullable String line, @Nullable String part, @Nullable String outcome) {

    static final ThingEntry EMPTY = new ThingEntry(null, null, null);
  }

  /**
   * What came of a thing.
   *
   * @param outcome null where nothing was said
   */
  public record Thing(Checklist.Thing thing, @Nullable String outcome) {}

  /** A thing that was missed and was not on the trip; a part has a code. */
  public record Missed(@Nullable String code, String name) {}

  /** What came of a trip. */
  public record Found(Trip trip, List<Thing> things, List<Missed> missed) {}

  private final TripOutcomeRepository outcomes;
  private final Trips trips;
  private final Parts parts;
  private final Revisions revisions;

  Afterwards(TripOutcomeRepository outcomes, Trips trips, Parts parts, Revisions revisions) {
    this.outcomes = outcomes;
    this.trips = trips;
    this.parts = parts;
    this.revisions = revisions;
  }

  /** What is known to have come of a trip. */
  public Found of(Member member, String code) {
    Trip trip = trips.get(member, code);
    Map<String, String> byThing = new HashMap<>();
    List<Missed> missed = new ArrayList<>();
    for (Met met : outcomes.ofTrip(member.ledgerId(), trip.id())) {
      if (met.line() == null) {
        missed.add(new Missed(met.code(), name(met)));
      } else {
        byThing.put(key(met.line().toString(), met.part()), met.outcome().word());
      }
    }
    return new Found(
        trip,
        things(member, trip).stream()
            .map(thing -> new Thing(thing, byThing.get(key(thing.line().id(), part(thing)))))
            .toList(),
        missed);
  }

  private static String name(Met met) {
    return met.partName() == null ? String.valueOf(met.item()) : met.partName();
  }

  private List<Checklist.Thing> things(Member member, Trip trip) {
    return Checklist.of(trip, trips.packing(member, trip), List.of()).things();
  }

  private static String key(String line, @Nullable UUID part) {
    return line + " " + part;
  }

  /** The part that a thing is; null of a free item. */
  private static @Nullable UUID part(Checklist.Thing thing) {
    return thing.code() == null ? null : UUID.fromString(thing.piece().id());
  }

  /**
   * Writes down what came of a trip, in place of what was written before, which is kept.
   *
   * @param expected the revision of it that the change started from; null to save whatever came
   *     between
   * @throws org.tareline.site.NotThere if there is no such trip
   * @throws org.tareline.site.Refusal if something cannot be read or is not on the trip
   */
  @Transactional
  public void write(Member member, String code, Entry entry, @Nullable Integer expected) {
    Trip trip = trips.locked(member, code);
    Revisions.guard("what came of trip " + trip.code(), trip.afterwardsRevision(), expected);
    List<Checklist.Thing> things = things(member, trip);
    Faults faults = new Faults();
    Map<String, TripOutcome> read = new LinkedHashMap<>();
    List<@Nullable ThingEntry> typed = entry.things() == null ? List.of() : entry.things();
    for (int i = 0; i < typed.size(); i++) {
      ThingEntry one = typed.get(i);
      read(faults, "things[" + i + "]", one == null ? ThingEntry.EMPTY : one, trip, things, read);
    }
    List<@Nullable String> missed = entry.missed() == null ? List.of() : entry.missed();
    if (missed.size() > MOST_MISSED) {
      faults.add("missed", "Give at most " + MOST_MISSED + " things that were missed.");
    }
    faults.refuseIfAny();
    List<TripOutcome> readMissed = missed(faults, member, trip, missed);
    faults.refuseIfAny();
    trip.tellAfterwards();
    outcomes.deleteOf(member.ledgerId(), trip.id());
    List<TripOutcome> all = Stream.concat(read.values().stream(), readMissed.stream()).toList();
    all.forEach(outcomes::save);
    revisions.keep(
        member,
        KIND,
        trip.id(),
        trip.afterwardsRevision(),
        all.stream().map(TripOutcome::kept).toList());
  }

  private static void read(
      Faults faults,
      String at,
      ThingEntry typed,
      Trip trip,
      List<Checklist.Thing> things,
      Map<String, TripOutcome> read) {
    String line = faults.text(at + ".line", typed.line(), "the line, by its id", 60);
    String code = faults.optionalText(at + ".part", typed.part(), "the part", Codes.LONGEST);
    List<Checklist.Thing> meant =
        things.stream()
            .filter(thing -> thing.line().id().equals(line.toLowerCase(Locale.ROOT)))
            .filter(
                thing ->
                    code == null
                        || thing.code() != null && Codes.key(thing.code()).equals(Codes.key(code)))
            .toList();
    if (meant.isEmpty() && !line.isEmpty()) {
      faults.add(
          code == null ? at + ".line" : at + ".part",
          "Name what is on " + trip.code() + ": there is no such thing on it.");
    }
    String word = faults.optionalText(at + ".outcome", typed.outcome(), "what came of it", 60);
    if (word == null) {
      return;
    }
    Outcome outcome = Outcome.of(word).orElse(null);
    if (outcome == null) {
      faults.add(
          at + ".outcome",
          "Say used, not used or missed; read \"" + Faults.shortened(word) + "\".");
      return;
    }
    for (Checklist.Thing thing : meant) {
      UUID part = part(thing);
      TripOutcome before =
          read.put(
              key(thing.line().id(), part),
              new TripOutcome(
                  trip,
                  UUID.fromString(thing.line().id()),
                  part,
                  part == null ? thing.piece().name() : null,
                  outcome));
      if (before != null && before.outcome() != outcome) {
        faults.add(
            at + ".outcome",
            "Say one thing of "
                + thing.piece().name()
                + ": before, it was said to be "
                + before.outcome().word()
                + ".");
      }
    }
  }

  private List<TripOutcome> missed(
      Faults faults, Member member, Trip trip, List<@Nullable String> typed) {
    Map<String, TripOutcome> read = new LinkedHashMap<>();
    Map<String, Part> byCode =
        parts.byCodes(
            member,
            typed.stream()
                .filter(Objects::nonNull)
                .filter(one -> one.strip().length() <= Codes.LONGEST)
                .collect(Collectors.toSet()));
    for (int i = 0; i < typed.size(); i++) {
      String text = faults.text("missed[" + i + "]", typed.get(i), "what was missed", 200);
      Part part = byCode.get(Codes.key(text));
      read.put(
          Codes.key(text),
          new TripOutcome(
              trip,
              null,
              part == null ? null : part.uuid(),
              part == null ? text : null,
              Outcome.MISSED));
    }
    return List.copyOf(read.values());
  }

  @Override
  public String table() {
    return "trip_outcome";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<TripOutcome> of = outcomes.byIds(member.ledgerId(), ids.toArray(Long[]::new));
    Map<Long, Trip> byId =
        trips.byIds(member, of.stream().map(TripOutcome::tripId).distinct().toList());
    Set<String> said = new HashSet<>();
    Set<Long> again =
        outcomes.ofTrips(member.ledgerId(), byId.keySet().toArray(Long[]::new)).stream()
            .filter(outcome -> !said.add(outcome.tripId() + " " + outcome.thing()))
            .map(TripOutcome::id)
            .collect(Collectors.toSet());
    return ReadAgain.each(
        of,
        TripOutcome::id,
        outcome -> {
          Faults faults = new Faults();
          UUID line = outcome.line();
          if (line != null) {
            trips.checkLine(
                member, Objects.requireNonNull(byId.get(outcome.tripId())), line, faults);
          }
          outcome.check(faults);
          if (again.contains(outcome.id())) {
            faults.add("outcome", "Say one thing of each thing: an earlier row says one already.");
          }
          faults.refuseIfAny();
        });
  }

  /** What was not used on the last trips that it was said of, or missed on several. */
  @Override
  public List<Question> questions(Member member) {
    Map<String, List<Met>> byThing = new LinkedHashMap<>();
    for (Met met : outcomes.latestFirst(member.ledgerId())) {
      String thing =
          met.part() == null ? "item " + Codes.key(String.valueOf(met.item())) : "" + met.part();
      byThing.computeIfAbsent(thing, any -> new ArrayList<>()).add(met);
    }
    List<Question> questions = new ArrayList<>();
    byThing.values().forEach(met -> ask(questions, met));
    questions.sort(Comparator.comparing(Question::name, String.CASE_INSENSITIVE_ORDER));
    return questions;
  }

  private static void ask(List<Question> questions, List<Met> met) {
    Met first = met.get(0);
    String name = name(first);
    // On one trip a thing may stand in several lines: what came of it there is the most that did.
    Map<Long, Map<Outcome, Boolean>> byTrip = new LinkedHashMap<>();
    for (Met one : met) {
      byTrip
          .computeIfAbsent(one.trip(), any -> new EnumMap<>(Outcome.class))
          .put(one.outcome(), true);
    }
    int unused = 0;
    for (Map<Outcome, Boolean> trip : byTrip.values()) {
      if (trip.size() > 1 || !trip.containsKey(Outcome.NOT_USED)) {
        break;
      }
      unused++;
    }
    long missed = byTrip.values().stream().filter(trip -> trip.containsKey(Outcome.MISSED)).count();
    if (unused >= UNUSED_IN_A_ROW) {
      questions.add(new Question(first.code(), name, "not used on its last " + unused + " trips"));
    }
    if (missed >= MISSED) {
      questions.add(new Question(first.code(), name, "missed on " + missed + " trips"));
    }
  }
}
