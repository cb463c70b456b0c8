package org.tareline.part;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface LifeEventRepository extends Repository<LifeEvent, Long> {

  /** An event, and why it was struck out if it was. */
  interface Row {
    LifeEvent getEvent();

    @Nullable String getVoidReason();
  }

  LifeEvent save(LifeEvent event);

  @Query("select e from LifeEvent e where e.ledgerId = :ledgerId and any_of(e.id, :ids)")
  List<LifeEvent> byIds(long ledgerId, Long[] ids);

  Optional<LifeEvent> findByLedgerIdAndPartIdAndUuid(long ledgerId, long partId, UUID uuid);

  @Query(
      """
      select e as event, v.reason as voidReason
      from LifeEvent e left join LifeEventVoiding v on v.id = e.id
      where e.ledgerId = :ledgerId and e.partId = :partId
      order by e.happenedAt desc, e.id desc
      """)
  List<Row> newestFirst(long ledgerId, long partId, Limit limit);

  /** Those of these kinds that stand, oldest first. */
  @Query(
      nativeQuery = true,
      value =
          """
          select e.* from unnest(cast(:partIds as bigint array)) as p(id)
          join life_event e on e.ledger_id = :ledgerId and e.part_id = p.id
          where e.kind = any(cast(:kinds as varchar array))
            and not exists (select 1 from life_event_void v where v.life_event_id = e.id)
          order by e.happened_at, e.id
          """)
  List<LifeEvent> standing(long ledgerId, Long[] partIds, String[] kinds);

  default List<LifeEvent> standing(
      long ledgerId, Collection<Long> partIds, Collection<LifeEvent.Kind> kinds) {
    return standing(
        ledgerId,
        partIds.stream().distinct().toArray(Long[]::new),
        kinds.stream().map(LifeEvent.Kind::word).toArray(String[]::new));
  }

  /** How many pieces are lent by the events that stand. */
  default int lent(long ledgerId, long partId) {
    return Math.toIntExact(lent(ledgerId, partId, LifeEvent.Kind.LENT, LifeEvent.Kind.RETURNED));
  }

  @Query(
      """
      select coalesce(sum(case when e.kind = :lent then e.pieces else -e.pieces end), 0)
      from LifeEvent e
      where e.ledgerId = :ledgerId and e.partId = :partId and (e.kind = :lent or e.kind = :returned)
        and not exists (select 1 from LifeEventVoiding v where v.id = e.id)
      """)
  long lent(long ledgerId, long partId, LifeEvent.Kind lent, LifeEvent.Kind returned);
}
