package org.tareline.trip;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface TripOutcomeRepository extends Repository<TripOutcome, Long> {

  /**
   * What came of a thing on one of the trips.
   *
   * @param line null where it was not on the trip
   * @param part null where {@code item} names what is no part
   */
  record Met(
      long trip,
      @Nullable UUID line,
      @Nullable UUID part,
      @Nullable String code,
      @Nullable String partName,
      @Nullable String item,
      TripOutcome.Outcome outcome) {}

  TripOutcome save(TripOutcome outcome);

  @Query("select o from TripOutcome o where o.ledgerId = :ledgerId and any_of(o.id, :ids)")
  List<TripOutcome> byIds(long ledgerId, Long[] ids);

  @Query(
      """
      select o from TripOutcome o
      where o.ledgerId = :ledgerId and any_of(o.tripId, :tripIds)
      order by o.id
      """)
  List<TripOutcome> ofTrips(long ledgerId, Long[] tripIds);

  /** Of one trip, in the order of the writing. */
  @Query(
      """
      select new org.tareline.trip.TripOutcomeRepository$Met(
          o.tripId, o.line, o.part, p.code, p.name, o.item, o.outcome)
      from TripOutcome o left join Part p on p.ledgerId = o.ledgerId and p.uuid = o.part
      where o.ledgerId = :ledgerId and o.tripId = :tripId
      order by o.id
      """)
  List<Met> ofTrip(long ledgerId, long tripId);

  @Modifying(flushAutomatically = true, clearAutomatically = true)
  @Query("delete from TripOutcome o where o.ledgerId = :ledgerId and o.tripId = :tripId")
  void deleteOf(long ledgerId, long tripId);

  /** Of every trip, the latest first; those of no day are the oldest. */
  @Query(
      """
      select new org.tareline.trip.TripOutcomeRepository$Met(
          t.id, o.line, o.part, p.code, p.name, o.item, o.outcome)
      from TripOutcome o join Trip t on t.id = o.tripId
      left join Part p on p.ledgerId = o.ledgerId and p.uuid = o.part
      where o.ledgerId = :ledgerId
      order by t.starts desc nulls last, t.id desc, o.id
      """)
  List<Met> latestFirst(long ledgerId);
}
