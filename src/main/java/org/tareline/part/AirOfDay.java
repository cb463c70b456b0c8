package org.tareline.part;

import java.time.Instant;
import java.time.ZoneId;
import org.tareline.evidence.Air;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Settings;
import org.tareline.units.Mass;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Weighing;

/**
 * What the air of its day did to a part on the scale, by what a ledger takes for granted.
 *
 * @param zone in which days are counted
 */
record AirOfDay(Settings settings, ZoneId zone) {

  /** A part by one weighing of it. */
  Estimate weighed(Part part, Weighing weighing) {
    Estimate estimate = weighing.estimate();
    return estimate.plus(on(part, weighing, estimate.value()));
  }

  /** The error of so much of a part; none where its fibre is not named or it had been aired. */
  Estimate on(Part part, Weighing weighing, Mass mass) {
    return weighing.condition() == Condition.AIRED
        ? Estimate.exact(Mass.ZERO)
        : at(weighing.weighedAt(), part, mass);
  }

  /** The same of what is weighed at a moment as it comes. */
  Estimate at(Instant moment, Part part, Mass mass) {
    return part.fibre()
        .map(
            fibre ->
                Air.of(
                    fibre,
                    moment.atZone(zone).toLocalDate(),
                    mass,
                    settings.air(fibre).doubleValue()))
        .orElse(Estimate.exact(Mass.ZERO));
  }
}
