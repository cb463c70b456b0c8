package org.tareline.weighing;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface WeighingRepository extends Repository<Weighing, Long> {

  /** A weighing, what stood on the pan, and why it was struck out if it was. */
  interface Row {
    Weighing getWeighing();

    String getKind();

    long getSubjectId();

    @org.jspecify.annotations.Nullable
    String getVoidReason();
  }

  Weighing save(Weighing weighing);

  Optional<Weighing> findByLedgerIdAndUuid(long ledgerId, UUID uuid);

  /**
   * The newest usable weighing that is not struck out, of each subject: pairs of subject and
   * weighing. One index look-up a subject, however many weighings there are.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select s.id, (
            select p.weighing_id from weighing_subject p
            where p.ledger_id = :ledgerId and p.kind = :kind and p.subject_id = s.id and p.usable = true
              and not exists (select 1 from weighing_void v where v.weighing_id = p.weighing_id)
            order by p.weighed_at desc, p.weighing_id desc
            fetch first 1 row only)
          from unnest(cast(:subjectIds as bigint array)) as s(id)
          """)
  List<Object[]> newestUsable(long ledgerId, String kind, Long[] subjectIds);

  @Query(
      """
      select distinct w from Weighing w left join fetch w.scale left join fetch w.readings
      where w.ledgerId = :ledgerId and w.id in :ids
      """)
  List<Weighing> withReadings(long ledgerId, Collection<Long> ids);

  @Query(
      """
      select w as weighing, p.kind as kind, p.subjectId as subjectId, v.reason as voidReason
      from OnThePan p join p.weighing w left join Voiding v on v.weighingId = w.id
      where p.ledgerId = :ledgerId and p.kind = :kind and p.subjectId = :subjectId
      order by p.weighedAt desc, w.id desc
      """)
  List<Row> historyOf(long ledgerId, String kind, long subjectId, Limit limit);

  @Query(
      """
      select w as weighing, p.kind as kind, p.subjectId as subjectId, v.reason as voidReason
      from OnThePan p join p.weighing w left join Voiding v on v.weighingId = w.id
      where w.ledgerId = :ledgerId and w.enteredAt >= :since
      order by w.enteredAt desc, w.id desc
      """)
  List<Row> enteredSince(long ledgerId, Instant since, Limit limit);

  @Query(
      """
      select w as weighing, p.kind as kind, p.subjectId as subjectId, v.reason as voidReason
      from OnThePan p join p.weighing w left join Voiding v on v.weighingId = w.id
      where w.ledgerId = :ledgerId and w.uuid = :uuid
      """)
  List<Row> row(long ledgerId, UUID uuid);
}
