package org.tareline.weighing;

import java.util.List;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface ScaleCheckRepository extends Repository<ScaleCheck, Long> {

  ScaleCheck save(ScaleCheck check);

  /**
   * How many weighings that stand rest on each check of a scale that stands: those made from it on
   * and before the next of its kind. Pairs of check and count; a check on which none rests is left
   * out.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select c.id, count(w.id)
          from (
            select k.id, k.checked_at,
              lead(k.checked_at) over (partition by k.kind order by k.checked_at, k.id) as taken_over_at
            from scale_check k
            where k.ledger_id = :ledgerId and k.scale_id = :scaleId
              and not exists (select 1 from scale_check_void v where v.scale_check_id = k.id)) c
          join weighing w on w.ledger_id = :ledgerId and w.scale_id = :scaleId and w.weighed_at >= c.checked_at
            and (c.taken_over_at is null or w.weighed_at < c.taken_over_at)
          where not exists (select 1 from weighing_void v where v.weighing_id = w.id)
          group by c.id
          """)
  List<Object[]> weighings(long ledgerId, long scaleId);
}
