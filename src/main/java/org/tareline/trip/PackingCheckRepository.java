package org.tareline.trip;

import java.util.Collection;
import java.util.List;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface PackingCheckRepository extends Repository<PackingCheck, Long> {

  PackingCheck save(PackingCheck check);

  List<PackingCheck> findByLedgerIdAndKeyIn(long ledgerId, Collection<String> keys);

  @Query("select c from PackingCheck c where c.ledgerId = :ledgerId and any_of(c.id, :ids)")
  List<PackingCheck> byIds(long ledgerId, Long[] ids);

  long countByLedgerIdAndTripId(long ledgerId, long tripId);

  /** Every check of a trip, the newest last. */
  @Query(
      """
      select new org.tareline.trip.Checklist$Check(
          c.line, c.part, c.state, c.key, c.checkedAt, a.id, a.name)
      from PackingCheck c join Account a on a.id = c.checkedBy
      where c.ledgerId = :ledgerId and c.tripId = :tripId
      order by c.checkedAt, c.id
      """)
  List<Checklist.Check> oldestFirst(long ledgerId, long tripId);
}
