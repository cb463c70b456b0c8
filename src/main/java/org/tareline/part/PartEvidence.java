package org.tareline.part;

import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.material.OnHand;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/**
 * What a part weighs, and all that is known about it.
 *
 * @param mass by the best evidence there is
 * @param weighings newest first, those struck out included
 * @param estimates what each of them says, by its id: of the part, or of all on the pan together
 * @param older whether there are weighings older than these
 * @param events what happened to it, newest first, those struck out included
 * @param olderEvents whether more happened before these
 * @param lent how many of those owned are lent
 * @param stated by the stated mass alone; unknown where none is stated
 * @param calculation by its cut list; null where it has none
 * @param onHand how much there is of the materials of that, by their rows
 */
public record PartEvidence(
    PartMass mass,
    List<Weighings.Logged> weighings,
    Map<UUID, Estimate> estimates,
    boolean older,
    List<LifeEvents.Logged> events,
    boolean olderEvents,
    int lent,
    PartMass stated,
    @Nullable Calculation calculation,
    Map<Long, OnHand> onHand) {

  /**
   * What a weighing says against the one before it.
   *
   * @param since the usable weighing before it, of the same piece where pieces were weighed one by
   *     one
   * @param difference this − that; what the two share, such as the span of one scale, cancels
   * @param between what happened from one to the other, oldest first
   */
  public record Change(Weighing since, Estimate difference, List<LifeEvent> between) {

    /** Whether it is more than its own uncertainty: else no change can be told. */
    public boolean told() {
      return Verdict.of(difference) != Verdict.UNDECIDED;
    }
  }

  /** Of each usable weighing that has one before it, by its id. */
  public Map<UUID, Change> changes() {
    Map<UUID, Change> changes = new HashMap<>();
    Map<String, Weighings.Logged> later = new HashMap<>();
    for (Weighings.Logged logged : weighings) {
      if (usable(logged)) {
        Weighings.Logged next = later.put(String.valueOf(logged.placed().piece()), logged);
        if (next != null) {
          changes.put(
              next.weighing().uuid(),
              new Change(
                  logged.weighing(),
                  estimate(next).minus(estimate(logged)),
                  between(logged.weighing().weighedAt(), next.weighing().weighedAt())));
        }
      }
    }
    return changes;
  }

  /** Whether a weighing may say what the part weighs. */
  public static boolean usable(Weighings.Logged logged) {
    return logged.voidReason() == null
        && !logged.together()
        && logged.weighing().condition().saysTheMass();
  }

  private List<LifeEvent> between(Instant from, Instant to) {
    return events.stream()
        .filter(logged -> logged.voidReason() == null)
        .map(LifeEvents.Logged::event)
        .filter(event -> !event.happenedAt().isBefore(from) && !event.happenedAt().isAfter(to))
        .sorted(Comparator.comparing(LifeEvent::happenedAt).thenComparing(LifeEvent::id))
        .toList();
  }

  /** What a weighing says: of the part, or of all on the pan together. */
  public Estimate estimate(Weighings.Logged logged) {
    return Objects.requireNonNull(estimates.get(logged.weighing().uuid()));
  }

  /** Whether the mass comes from this weighing, be it of one piece among others. */
  public boolean counts(Weighings.Logged logged) {
    String piece = logged.placed().piece();
    if (mass.pieces() != null && piece != null) {
      return weighings.stream()
          .filter(each -> piece.equals(each.placed().piece()))
          .filter(each -> each.voidReason() == null)
          .filter(each -> each.weighing().condition().saysTheMass())
          .findFirst()
          .filter(newest -> newest.weighing().uuid().equals(logged.weighing().uuid()))
          .isPresent();
    }
    return mass.weighing() != null && mass.weighing().uuid().equals(logged.weighing().uuid());
  }

  /** Whether the mass is the stated one. */
  public boolean statedCounts() {
    return mass.basis() == Basis.ESTIMATED;
  }

  /** Whether the mass is that of the cut list. */
  public boolean calculationCounts() {
    return calculation != null
        && mass.estimate() != null
        && mass.basis() == calculation.basis()
        && mass.weighing() == null;
  }
}
