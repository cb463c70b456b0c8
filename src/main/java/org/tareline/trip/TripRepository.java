package org.tareline.trip;

import jakarta.persistence.LockModeType;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;
import org.tareline.part.WhereUsed;

interface TripRepository extends Repository<Trip, Long> {

  Trip save(Trip trip);

  void flush();

  @Query("select t.id from Trip t where t.ledgerId = :ledgerId and t.codeKey = :codeKey")
  Optional<Long> idOf(long ledgerId, String codeKey);

  @Query(
      """
      select t from Trip t left join fetch t.lines
      where t.ledgerId = :ledgerId and t.id = :id
      """)
  Optional<Trip> withLines(long ledgerId, long id);

  /**
   * For changing it: nobody else changes it until this transaction ends. Ask by id, before it is
   * loaded unlocked.
   */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select t from Trip t where t.ledgerId = :ledgerId and t.id = :id")
  Optional<Trip> lock(long ledgerId, long id);

  @Query(
      """
      select t.id from Trip t
      where t.ledgerId = :ledgerId and t.codeKey > :codeKey
      order by t.codeKey
      """)
  List<Long> after(long ledgerId, String codeKey, Limit limit);

  /** By code; with their lines. */
  @Query(
      """
      select t from Trip t left join fetch t.lines
      where t.ledgerId = :ledgerId and any_of(t.id, :ids)
      order by t.codeKey
      """)
  List<Trip> withLines(long ledgerId, Long[] ids);

  /** Those not dated yet, then the latest first; with their lines. */
  @Query(
      """
      select t from Trip t left join fetch t.lines
      where t.ledgerId = :ledgerId
      order by t.starts desc nulls first, t.codeKey
      """)
  List<Trip> allWithLines(long ledgerId);

  /** Those that start within these days, the first to start first; with their lines. */
  @Query(
      """
      select t from Trip t left join fetch t.lines
      where t.ledgerId = :ledgerId and t.starts between :from and :to
      order by t.starts, t.codeKey
      """)
  List<Trip> starting(long ledgerId, LocalDate from, LocalDate to);

  @Query(
      """
      select distinct l.place from TripLine l
      where l.ledgerId = :ledgerId and l.place is not null
      order by l.place
      """)
  List<String> places(long ledgerId);

  /** Where a part stands in a line of its own. */
  @Query(
      """
      select new org.tareline.part.WhereUsed$Use('trip', t.code, t.name, cast(sum(l.quantity) as int))
      from TripLine l join l.trip t
      where l.ledgerId = :ledgerId and l.partId = :partId
      group by t.id, t.code, t.codeKey, t.name
      order by t.codeKey
      """)
  List<WhereUsed.Use> usesOfPart(long ledgerId, long partId);
}
