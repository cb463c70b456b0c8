package org.tareline.rig;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.ledger.Revisions;
import org.tareline.part.LifeEvent;
import org.tareline.part.LifeEvents;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rollup.Explanation;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.Piece;
import org.tareline.rollup.Provenance;
import org.tareline.rollup.Reconciliation;
import org.tareline.rollup.Reconciliation.Agreement;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** Rigs that were weighed whole, held against the sum of their parts. */
@Service
@Transactional(readOnly = true)
public class Reconciliations {

  /**
   * A rig held against its parts.
   *
   * @param whole its weighing; null where it was not weighed whole with what is counted
   * @param reconciliation null where it was not weighed whole
   * @param changedSince whether it, or a rig in it, has been saved since it was weighed
   * @param notes what has to be known besides, as sentences
   * @param weighings of the whole and of its parts, by the ids that their sources have
   */
  public record Held(
      RollUp rollUp,
      Weighings.@Nullable Logged whole,
      @Nullable Reconciliation reconciliation,
      boolean changedSince,
      List<String> notes,
      Map<String, Weighing> weighings) {

    /** The weighing that an explanation would have one look at again. */
    public Optional<Weighing> weighing(Explanation explanation) {
      return Optional.ofNullable(explanation.weighing()).map(weighings::get);
    }
  }

  private final Parts parts;
  private final Weighings weighings;
  private final LifeEvents lifeEvents;
  private final Revisions revisions;

  private final Scopes scopes;

  Reconciliations(
      Parts parts, Weighings weighings, LifeEvents lifeEvents, Revisions revisions, Scopes scopes) {
    this.parts = parts;
    this.weighings = weighings;
    this.lifeEvents = lifeEvents;
    this.revisions = revisions;
    this.scopes = scopes;
  }

  /**
   * Holds the newest weighing of a rig, made with what the roll-up counts, against the roll-up as
   * it is now. A dry weighing counts before a damp one.
   *
   * @param forest that the roll-up was made of
   */
  public Held hold(Member member, Rig rig, Forest forest, RollUp rollUp) {
    Weighings.Logged whole =
        weighings.newestWhole(member, rig.id(), rollUp.scope().code()).orElse(null);
    if (whole == null) {
      return new Held(
          rollUp,
          null,
          null,
          false,
          List.of(
              rig.code()
                  + " has not been weighed whole with this counted: "
                  + rollUp.scope().name()
                  + "."),
          Map.of());
    }
    Map<String, Weighing> seen = new HashMap<>();
    Map<Long, List<LifeEvent>> changes = lifeEvents.changes(member, forest.partIds());
    Weighing weighing = whole.weighing();
    Reconciliation reconciliation =
        Reconciliation.of(
            rollUp,
            whole(member, weighing, forest, rollUp),
            new Provenance(List.of(weighed(weighing, seen)), null, List.of()),
            piece -> provenance(piece, forest, changes, seen));
    List<String> since = changedSince(member, rig, forest, whole);
    List<String> notes = new ArrayList<>(since);
    if (!weighing.condition().saysTheMass()) {
      notes.add(
          rig.code()
              + " was "
              + weighing.condition().word()
              + " when it was weighed whole, and there is no dry weighing of it with this counted.");
    }
    notes.addAll(notes(reconciliation));
    return new Held(rollUp, whole, reconciliation, !since.isEmpty(), notes, seen);
  }

  /**
   * A rig that was weighed whole and is not the sum of its parts.
   *
   * @param scope what is counted, in words
   * @param residual whole − parts
   */
  public record Disagreement(String code, String name, String scope, Estimate residual) {}

  /**
   * Those of these rigs and of the rigs in them that do not agree with their newest dry weighing
   * whole, under any scope; in a fixed number of queries, and with no look for the cause.
   */
  public List<Disagreement> disagreeing(Member member, Forest forest, Collection<Long> rigIds) {
    Map<String, Scope> known =
        scopes.all(member).stream().collect(Collectors.toMap(Scope::code, scope -> scope));
    Set<String> seen = new HashSet<>();
    List<Disagreement> found = new ArrayList<>();
    for (Weighings.Logged whole : weighings.historyOf(member, Subject.RIG, forest.within(rigIds))) {
      long rigId = whole.placed().subject().id();
      Scope scope = known.get(whole.placed().scope());
      if (whole.voidReason() != null
          || !whole.weighing().condition().saysTheMass()
          || scope == null
          || !seen.add(rigId + " " + scope.code())) {
        continue;
      }
      RollUp rollUp = RollUp.of(forest.assembly(rigId), scope);
      Estimate residual = whole(member, whole.weighing(), forest, rollUp).minus(rollUp.estimate());
      if (Reconciliation.agreement(residual, rollUp.atLeast()) == Agreement.DISAGREES) {
        found.add(
            new Disagreement(
                rollUp.assembly().code(), rollUp.assembly().name(), scope.name(), residual));
      }
    }
    found.sort(Comparator.comparing(Disagreement::code));
    return found;
  }

  /**
   * What a rig weighed whole weighs: by the weighing, and as unsure as the air of its day made the
   * parts in it whose fibre is named. What was weighed in the same air shares that.
   *
   * @param forest that the roll-up was made of
   */
  public Estimate whole(Member member, Weighing weighing, Forest forest, RollUp rollUp) {
    List<Estimate> terms = new ArrayList<>();
    terms.add(weighing.estimate());
    for (Leaf leaf : rollUp.leaves()) {
      Estimate known = leaf.estimate();
      if (known != null) {
        forest
            .part(leaf.piece())
            .ifPresent(part -> terms.add(parts.airOn(member, part, weighing, known.value())));
      }
    }
    return Estimate.sum(terms);
  }

  private List<String> changedSince(Member member, Rig rig, Forest forest, Weighings.Logged whole) {
    List<String> since = new ArrayList<>();
    Integer then = whole.placed().revision();
    int now = forest.revision(rig.id());
    if (then != null && then != now) {
      since.add(
          rig.code()
              + " has changed since it was weighed whole: it was at revision "
              + then
              + " and is at "
              + now
              + " now.");
    }
    Map<Long, String> nested = forest.codes();
    nested.remove(rig.id());
    Set<Long> saved =
        revisions.savedSince(member, Rigs.KIND, nested.keySet(), whole.weighing().enteredAt());
    List<String> codes =
        nested.entrySet().stream()
            .filter(each -> saved.contains(each.getKey()))
            .map(Map.Entry::getValue)
            .sorted()
            .toList();
    if (!codes.isEmpty()) {
      since.add(
          String.join(", ", codes)
              + (codes.size() == 1 ? " in it has" : " in it have")
              + " been saved since it was weighed whole.");
    }
    return since;
  }

  private static List<String> notes(Reconciliation reconciliation) {
    List<String> notes = new ArrayList<>();
    if (!reconciliation.missing().isEmpty()) {
      List<String> codes = reconciliation.missing().stream().map(Piece::code).toList();
      notes.add(
          String.join(", ", codes)
              + (codes.size() == 1 ? " has" : " have")
              + " no mass, so the parts together are at least what is given"
              + (reconciliation.agreement() == Agreement.CANNOT_TELL
                  ? " and whether they agree with the whole cannot be told."
                  : ", and the whole is too light even without."));
    }
    if (reconciliation.agreement() == Agreement.DISAGREES) {
      if (reconciliation.explanations().isEmpty()) {
        notes.add("No single cause that is looked for would explain it; two at once might.");
      }
      if (reconciliation.more()) {
        notes.add("The " + Reconciliation.MOST + " that fit best are listed; there are more.");
      }
    }
    return notes;
  }

  private static Provenance provenance(
      Piece piece, Forest forest, Map<Long, List<LifeEvent>> changes, Map<String, Weighing> seen) {
    PartMass mass = forest.mass(piece).orElse(PartMass.UNKNOWN);
    List<Provenance.Weighed> weighings =
        mass.weighings().stream().map(weighing -> weighed(weighing, seen)).toList();
    Part part = forest.part(piece).orElse(null);
    return part == null
        ? new Provenance(weighings, null, List.of())
        : new Provenance(
            weighings,
            part.fibre().orElse(null),
            changes.getOrDefault(part.id(), List.of()).stream()
                .map(event -> new Provenance.Change(event.kind().word(), event.happenedAt()))
                .toList());
  }

  private static Provenance.Weighed weighed(Weighing weighing, Map<String, Weighing> seen) {
    seen.put(weighing.sourceId(), weighing);
    return new Provenance.Weighed(
        weighing.sourceId(),
        weighing.readings().stream()
            .map(reading -> new Provenance.Reading(reading.typed(), reading.mass()))
            .toList(),
        weighing.scale().map(Scale::unit).orElse(Unit.GRAM),
        weighing.tare(),
        weighing.pieceCount(),
        weighing.scale().map(scale -> scale.instrumentAt(weighing.weighedAt())).orElse(null),
        weighing.condition().saysTheMass(),
        weighing.weighedAt());
  }
}
