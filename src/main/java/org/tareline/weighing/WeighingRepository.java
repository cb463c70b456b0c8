package org.tareline.weighing;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface WeighingRepository extends Repository<Weighing, Long> {

  /**
   * A weighing, one thing that lay on the pan and how many did, and why it was struck out if it
   * was.
   */
  interface Row {
    Weighing getWeighing();

    OnThePan getOnThePan();

    long getThings();

    @org.jspecify.annotations.Nullable
    String getVoidReason();
  }

  Weighing save(Weighing weighing);

  Optional<Weighing> findByLedgerIdAndUuid(long ledgerId, UUID uuid);

  /**
   * The newest usable weighing that is not struck out, of each subject: pairs of subject and its
   * place on the pan. One index look-up a subject, however many weighings there are.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select s.id, (
            select p.id from weighing_subject p
            where p.ledger_id = :ledgerId and p.kind = :kind and p.subject_id = s.id and p.usable = true
              and not exists (select 1 from weighing_void v where v.weighing_id = p.weighing_id)
            order by p.weighed_at desc, p.weighing_id desc
            fetch first 1 row only)
          from unnest(cast(:subjectIds as bigint array)) as s(id)
          """)
  List<Object[]> newestUsable(long ledgerId, String kind, Long[] subjectIds);

  @Query(
      nativeQuery = true,
      value =
          """
          select distinct p.subject_id from weighing_subject p
          where p.ledger_id = :ledgerId and p.kind = :kind
          """)
  Set<Long> everWeighed(long ledgerId, String kind);

  /** The newest usable weighing that is not struck out, of each labelled piece of the subjects. */
  @Query(
      nativeQuery = true,
      value =
          """
          select x.id from (
            select p.id, row_number() over (
              partition by p.subject_id, p.piece order by p.weighed_at desc, p.weighing_id desc) as place
            from unnest(cast(:subjectIds as bigint array)) as s(id)
            join weighing_subject p
              on p.ledger_id = :ledgerId and p.kind = :kind and p.subject_id = s.id
            where p.usable = true and p.piece is not null
              and not exists (select 1 from weighing_void v where v.weighing_id = p.weighing_id)) x
          where x.place = 1
          """)
  List<Object[]> newestOfPieces(long ledgerId, String kind, Long[] subjectIds);

  /**
   * The newest dry weighing of several things, not struck out, of each subject: pairs of subject
   * and weighing.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select s.id, (
            select p.weighing_id from weighing_subject p
            where p.ledger_id = :ledgerId and p.kind = :kind and p.subject_id = s.id and p.together = true
              and exists (select 1 from weighing w where w.id = p.weighing_id and w.condition in ('dry', 'aired'))
              and not exists (select 1 from weighing_void v where v.weighing_id = p.weighing_id)
            order by p.weighed_at desc, p.weighing_id desc
            fetch first 1 row only)
          from unnest(cast(:subjectIds as bigint array)) as s(id)
          """)
  List<Object[]> newestTogether(long ledgerId, String kind, Long[] subjectIds);

  @Query(
      nativeQuery = true,
      value =
          """
          select distinct q.subject_id from unnest(cast(:subjectIds as bigint array)) as s(id)
          join weighing_subject p
            on p.ledger_id = :ledgerId and p.kind = :kind and p.subject_id = s.id and p.together = true
          join weighing_subject q on q.weighing_id = p.weighing_id and q.kind = :kind
          where not exists (select 1 from weighing_void v where v.weighing_id = p.weighing_id)
          """)
  List<Long> companions(long ledgerId, String kind, Long[] subjectIds);

  @Query(
      """
      select p from OnThePan p join fetch p.weighing w left join fetch w.scale
      left join fetch w.readings left join fetch w.before
      where p.ledgerId = :ledgerId and any_of(p.id, :ids)
      """)
  List<OnThePan> pans(long ledgerId, Long[] ids);

  /** All that lay on the pan in these weighings. */
  @Query(
      """
      select p from OnThePan p join fetch p.weighing w left join fetch w.scale
      left join fetch w.readings left join fetch w.before
      where p.ledgerId = :ledgerId and any_of(w.id, :weighingIds)
      order by p.id
      """)
  List<OnThePan> onThePan(long ledgerId, Long[] weighingIds);

  @Query(
      """
      select w from Weighing w left join fetch w.scale left join fetch w.readings
      left join fetch w.before
      where w.ledgerId = :ledgerId and any_of(w.id, :ids)
      """)
  List<Weighing> withReadings(long ledgerId, Long[] ids);

  @Query(
      """
      select w as weighing, p as onThePan, v.reason as voidReason,
        (select count(q.id) from OnThePan q where q.weighing = w) as things
      from OnThePan p join p.weighing w left join Voiding v on v.id = w.id
      where p.ledgerId = :ledgerId and p.kind = :kind and p.subjectId = :subjectId
      order by p.weighedAt desc, w.id desc
      """)
  List<Row> historyOf(long ledgerId, String kind, long subjectId, Limit limit);

  @Query(
      """
      select w as weighing, p as onThePan, v.reason as voidReason,
        (select count(q.id) from OnThePan q where q.weighing = w) as things
      from OnThePan p join p.weighing w left join Voiding v on v.id = w.id
      where p.ledgerId = :ledgerId and p.kind = :kind and any_of(p.subjectId, :subjectIds)
      order by p.weighedAt desc, w.id desc
      """)
  List<Row> historyOfAll(long ledgerId, String kind, Long[] subjectIds);

  @Query(
      """
      select w as weighing, p as onThePan, v.reason as voidReason,
        (select count(q.id) from OnThePan q where q.weighing = w) as things
      from OnThePan p join p.weighing w left join Voiding v on v.id = w.id
      where w.ledgerId = :ledgerId and w.enteredAt >= :since
      order by w.enteredAt desc, w.id desc
      """)
  List<Row> enteredSince(long ledgerId, Instant since, Limit limit);

  /** Those of these in which nothing lay on the pan. By the weighing alone, as H2 has an index. */
  @Query(
      nativeQuery = true,
      value =
          """
          select w.id from unnest(cast(:ids as bigint array)) as w(id)
          where not exists (
            select 1 from weighing_subject p where p.weighing_id = w.id and p.ledger_id + 0 = :ledgerId)
          """)
  List<Long> ofNothing(long ledgerId, Long[] ids);

  @Query(
      """
      select w as weighing, p as onThePan, v.reason as voidReason,
        (select count(q.id) from OnThePan q where q.weighing = w) as things
      from OnThePan p join p.weighing w left join Voiding v on v.id = w.id
      where w.ledgerId = :ledgerId and w.uuid = :uuid
      order by p.id
      """)
  List<Row> row(long ledgerId, UUID uuid);

  /** Weighings of a subject whole under a scope that stand, the dry ones first, newest first. */
  @Query(
      """
      select w as weighing, p as onThePan, v.reason as voidReason, cast(1 as long) as things
      from OnThePan p join p.weighing w left join Voiding v on v.id = w.id
      where p.ledgerId = :ledgerId and p.kind = :kind and p.subjectId = :subjectId
        and p.scopeCode = :scope and v.id is null
      order by p.usable desc, p.weighedAt desc, w.id desc
      """)
  List<Row> whole(long ledgerId, String kind, long subjectId, String scope, Limit limit);
}
