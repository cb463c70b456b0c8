package org.tareline.trip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.LifeEvents;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.Strength;
import org.tareline.rig.HangLoads;
import org.tareline.rig.Rigs;
import org.tareline.site.Codes;
import org.tareline.trip.HeldToTarget.Lighter;
import org.tareline.trip.HeldToTarget.Strong;
import org.tareline.trip.HeldToTarget.Thing;
import org.tareline.trip.HeldToTarget.Unused;
import org.tareline.trip.TripOutcome.Outcome;
import org.tareline.trip.TripOutcomeRepository.Met;

/** Trips held against the base weight they aim at, and what to look at first to come near it. */
@Service
@Transactional(readOnly = true)
public class BaseTargets {

  private static final int MOST_LARGEST = 5;
  private static final int MOST_SHOWN = 12;

  /** The role of what has no other says nothing of what it does. */
  private static final String NO_ROLE = "other";

  private final Parts parts;
  private final Rigs rigs;
  private final LifeEvents events;
  private final TripOutcomeRepository outcomes;

  BaseTargets(Parts parts, Rigs rigs, LifeEvents events, TripOutcomeRepository outcomes) {
    this.parts = parts;
    this.rigs = rigs;
    this.events = events;
    this.outcomes = outcomes;
  }

  /** Nothing where the trip aims at nothing; else in a fixed number of queries. */
  public Optional<HeldToTarget> of(Member member, Trip trip, Trips.Weighed weighed) {
    return trip.targetBase().map(target -> held(member, trip, weighed, target));
  }

  private HeldToTarget held(Member member, Trip trip, Trips.Weighed weighed, Amount target) {
    Total base = weighed.weights().base();
    List<Checklist.Thing> things =
        Checklist.of(trip, weighed.packing(), List.of()).things().stream()
            .filter(thing -> thing.line().carry() == Carry.BASE)
            .sorted(
                Comparator.comparing(
                    (Checklist.Thing thing) -> grams(mass(thing)), Comparator.reverseOrder()))
            .toList();
    Map<String, Unused> unused = unused(member);
    Map<Place, Lighter> lighter = lighter(member, things, weighed.weights());
    List<Thing> rows = new ArrayList<>();
    for (Checklist.Thing thing : things) {
      Estimate mass = mass(thing);
      rows.add(
          new Thing(
              thing,
              mass,
              mass == null || rows.size() >= MOST_LARGEST
                  ? null
                  : Double.valueOf(grams(mass) / grams(base.estimate())),
              unused.get(key(thing)),
              lighter.get(Place.of(thing))));
    }
    return new HeldToTarget(
        target,
        Estimate.exact(target.mass()).minus(base.estimate()),
        base.missing(),
        rows.stream().filter(Thing::worthALook).limit(MOST_SHOWN).toList());
  }

  private static @Nullable Estimate mass(Checklist.Thing thing) {
    Estimate each = thing.piece().each();
    return each == null ? null : each.times(thing.quantity());
  }

  private static double grams(@Nullable Estimate mass) {
    return mass == null ? 0 : mass.value().inGrams();
  }

  /** What makes a thing the same from trip to trip. */
  private static String key(Checklist.Thing thing) {
    return thing.code() == null
        ? Packing.ITEM + Codes.key(thing.piece().name())
        : thing.piece().id();
  }

  private static String key(Met met) {
    return met.part() == null
        ? Packing.ITEM + Codes.key(String.valueOf(met.item()))
        : met.part().toString();
  }

  /** What was not used on at least half of the trips that it was on, as far as that is known. */
  private Map<String, Unused> unused(Member member) {
    Map<String, Map<Long, Set<Outcome>>> byThing = new HashMap<>();
    for (Met met : outcomes.latestFirst(member.ledgerId())) {
      if (met.line() != null) {
        byThing
            .computeIfAbsent(key(met), any -> new HashMap<>())
            .computeIfAbsent(met.trip(), any -> new HashSet<>())
            .add(met.outcome());
      }
    }
    Map<String, Unused> unused = new HashMap<>();
    byThing.forEach(
        (thing, trips) -> {
          int not = (int) trips.values().stream().filter(Set.of(Outcome.NOT_USED)::equals).count();
          if (not > 0 && 2 * not >= trips.size()) {
            unused.put(thing, new Unused(not, trips.size()));
          }
        });
    return unused;
  }

  /** A thing by its line and its piece. */
  private record Place(String line, String piece) {

    static Place of(Checklist.Thing thing) {
      return new Place(thing.line().id(), thing.piece().id());
    }
  }

  private Map<Place, Lighter> lighter(
      Member member, List<Checklist.Thing> things, Weights weights) {
    Map<String, Part> all =
        parts.all(member).stream()
            .collect(Collectors.toMap(part -> part.uuid().toString(), part -> part));
    Set<String> along =
        weights.skinOut().leaves().stream()
            .map(leaf -> leaf.piece().id())
            .collect(Collectors.toSet());
    Map<Long, Set<String>> roles = rigs.rolesOfParts(member);
    roles.values().forEach(of -> of.remove(NO_ROLE));
    List<Part> inThePack =
        things.stream()
            .map(thing -> all.get(thing.piece().id()))
            .filter(Objects::nonNull)
            .distinct()
            .toList();
    // What could stand in for nothing is not weighed: a ledger has far more parts than a pack.
    List<Part> spare =
        all.values().stream()
            .filter(part -> part.owned() > 0 && !along.contains(part.uuid().toString()))
            .filter(
                other ->
                    inThePack.stream().anyMatch(part -> match(part, other, roles) != Match.NONE))
            .sorted(Comparator.comparing(part -> Codes.key(part.code())))
            .toList();
    Map<Long, PartMass> masses = parts.masses(member, spare);
    Map<Long, LifeEvents.Whereabouts> whereabouts =
        events.whereabouts(member, spare.stream().map(Part::id).toList());
    Map<Long, Strength> strengths =
        parts.strengths(
            member,
            Stream.concat(inThePack.stream(), spare.stream())
                .filter(part -> carriesLoad(part, roles))
                .toList());
    Map<Place, Lighter> lighter = new HashMap<>();
    for (Checklist.Thing thing : things) {
      Part part = all.get(thing.piece().id());
      if (part == null) {
        continue;
      }
      List<Lighter> found = new ArrayList<>();
      for (Part other : spare) {
        Match match = match(part, other, roles);
        int lent = whereabouts.getOrDefault(other.id(), LifeEvents.Whereabouts.AT_HOME).lent();
        Estimate saves =
            match == Match.NONE || other.owned() - lent < thing.quantity()
                ? null
                : saves(thing, masses.getOrDefault(other.id(), PartMass.UNKNOWN));
        if (saves != null && (match == Match.ROLE || likelyTheSame(thing, saves))) {
          Strong strength =
              carriesLoad(part, roles)
                  ? strong(strengths.get(part.id()), strengths.get(other.id()))
                  : null;
          found.add(new Lighter(other, match == Match.ROLE, saves, strength));
        }
      }
      best(found).ifPresent(best -> lighter.put(Place.of(thing), best));
    }
    return lighter;
  }

  private enum Match {
    ROLE,
    SYSTEM,
    NONE
  }

  /** By what both do in rigs; only where that is not known of both, by what they are for. */
  private static Match match(Part one, Part other, Map<Long, Set<String>> roles) {
    Set<String> ofOne = roles(one, roles);
    Set<String> ofOther = roles(other, roles);
    if (ofOne.stream().anyMatch(ofOther::contains)) {
      return Match.ROLE;
    }
    return (ofOne.isEmpty() || ofOther.isEmpty())
            && one.system() == other.system()
            && one.system() != GearSystem.OTHER
        ? Match.SYSTEM
        : Match.NONE;
  }

  private static Set<String> roles(Part part, Map<Long, Set<String>> roles) {
    return roles.getOrDefault(part.id(), Set.of());
  }

  /** Of what hangs and stands in no rig nobody knows that it carries none. */
  private static boolean carriesLoad(Part part, Map<Long, Set<String>> roles) {
    Set<String> known = roles(part, roles);
    return known.isEmpty()
        ? part.system() == GearSystem.HANG
        : known.stream().anyMatch(HangLoads::carriesLoad);
  }

  /**
   * Whether a thing for the same system may do the same: one of less than half the mass hardly does
   * (common practice, no source).
   */
  private static boolean likelyTheSame(Checklist.Thing thing, Estimate saves) {
    return 2 * grams(saves) <= grams(mass(thing));
  }

  /** Null unless it is lighter by more than the uncertainty of that. */
  private static @Nullable Estimate saves(Checklist.Thing thing, PartMass other) {
    Estimate mass = mass(thing);
    Estimate each = other.each(Math.toIntExact(thing.quantity()));
    Estimate saves = each == null || mass == null ? null : mass.minus(each.times(thing.quantity()));
    return saves == null || Verdict.of(saves) != Verdict.HEAVIER ? null : saves;
  }

  /**
   * What does the same comes before what may, strength before grams; then the lightest, or of what
   * only may do the same the nearest in mass, which most likely does.
   */
  private static Optional<Lighter> best(List<Lighter> found) {
    return found.stream()
        .min(
            Comparator.comparing((Lighter lighter) -> !lighter.sameRole())
                .thenComparing(
                    lighter -> lighter.strength() == null ? Strong.NOT_WEAKER : lighter.strength())
                .thenComparing(
                    lighter ->
                        lighter.sameRole()
                            ? lighter.saves().value().negated()
                            : lighter.saves().value()));
  }

  /** Strengths of two kinds, such as a breaking strength and a working load, do not compare. */
  private static Strong strong(@Nullable Strength one, @Nullable Strength other) {
    return one == null || other == null || one.kind() != other.kind()
        ? Strong.NOT_KNOWN
        : other.force().force().compareTo(one.force().force()) < 0
            ? Strong.WEAKER
            : Strong.NOT_WEAKER;
  }
}
