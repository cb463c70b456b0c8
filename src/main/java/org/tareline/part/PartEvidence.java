package org.tareline.part;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.tareline.evidence.Estimate;
import org.tareline.weighing.Weighings;

/**
 * What a part weighs, and all that is known about it.
 *
 * @param mass by the best evidence there is
 * @param weighings newest first, those struck out included
 * @param estimates what each of them says, by its id: of the part, or of all on the pan together
 * @param older whether there are weighings older than these
 * @param lent how many of those owned are lent
 * @param stated by the stated mass alone; unknown where none is stated
 */
public record PartEvidence(
    PartMass mass,
    List<Weighings.Logged> weighings,
    Map<UUID, Estimate> estimates,
    boolean older,
    int lent,
    PartMass stated) {

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
    return mass.weighing() == null && mass.estimate() != null;
  }
}
