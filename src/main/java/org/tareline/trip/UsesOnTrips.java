package org.tareline.trip;

import java.util.List;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.part.WhereUsed;

/** Tells parts which trips they are on. */
@Service
@Transactional(readOnly = true)
class UsesOnTrips implements WhereUsed {

  private final TripRepository trips;

  UsesOnTrips(TripRepository trips) {
    this.trips = trips;
  }

  @Override
  public List<Use> usesOf(Member member, long partId) {
    return trips.usesOfPart(member.ledgerId(), partId);
  }
}
