package org.tareline.material;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface StockEntryRepository extends Repository<StockEntry, Long> {

  /** A line of the record, and why it was struck out if it was. */
  interface Row {
    StockEntry getEntry();

    @Nullable String getVoidReason();
  }

  StockEntry save(StockEntry entry);

  @Query("select e from StockEntry e where e.ledgerId = :ledgerId and any_of(e.id, :ids)")
  List<StockEntry> byIds(long ledgerId, Long[] ids);

  Optional<StockEntry> findByLedgerIdAndMaterialIdAndUuid(
      long ledgerId, long materialId, UUID uuid);

  Optional<StockEntry> findByLedgerIdAndMaterialIdAndKey(
      long ledgerId, long materialId, String key);

  boolean existsByLedgerIdAndMaterialId(long ledgerId, long materialId);

  @Query(
      """
      select e as entry, v.reason as voidReason
      from StockEntry e left join StockEntryVoiding v on v.id = e.id
      where e.ledgerId = :ledgerId and e.materialId = :materialId
      order by e.happenedAt desc, e.id desc
      """)
  List<Row> newestFirst(long ledgerId, long materialId, Limit limit);

  /** Those that stand, oldest first. */
  @Query(
      nativeQuery = true,
      value =
          """
          select e.* from unnest(cast(:materialIds as bigint array)) as m(id)
          join stock_entry e on e.ledger_id = :ledgerId and e.material_id = m.id
          where not exists (select 1 from stock_entry_void v where v.stock_entry_id = e.id)
          order by e.happened_at, e.id
          """)
  List<StockEntry> standing(long ledgerId, Long[] materialIds);
}
