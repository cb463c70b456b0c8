package org.tareline.part;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface CutLineRepository extends Repository<CutLine, Long> {

  CutLine save(CutLine line);

  /** The lines of these parts in their order, with their sizes. */
  @Query(
      """
      select l from CutLine l left join fetch l.sizes
      where l.ledgerId = :ledgerId and l.partId in :partIds
      order by l.partId, l.position
      """)
  List<CutLine> linesOf(long ledgerId, Collection<Long> partIds);

  Optional<CutLine> findByLedgerIdAndPartIdAndUuid(long ledgerId, long partId, UUID uuid);

  List<CutLine> findByLedgerIdAndIdIn(long ledgerId, Collection<Long> ids);

  @Query(
      "select l from CutLine l where l.ledgerId = :ledgerId and l.materialId = :materialId order by l.id")
  List<CutLine> ofMaterial(long ledgerId, long materialId);

  /** The parts that are cut from a material. */
  @Query(
      "select distinct l.partId from CutLine l where l.ledgerId = :ledgerId and l.materialId = :materialId")
  List<Long> partsOf(long ledgerId, long materialId);

  @Query(
      nativeQuery = true,
      value =
          """
          delete from cut_size where ledger_id = :ledgerId and cut_line_id in (:ids)
          """)
  @Modifying
  void forgetSizes(long ledgerId, Collection<Long> ids);

  @Query(
      nativeQuery = true,
      value = "delete from cut_line where ledger_id = :ledgerId and id in (:ids)")
  @Modifying
  void forgetLines(long ledgerId, Collection<Long> ids);
}
