package org.tareline.part;

import java.util.Collection;
import java.util.List;
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

  /** The parts that are cut from a material. */
  @Query(
      "select distinct l.partId from CutLine l where l.ledgerId = :ledgerId and l.materialId = :materialId")
  List<Long> partsOf(long ledgerId, long materialId);

  @Query(
      nativeQuery = true,
      value =
          """
          delete from cut_size where ledger_id = :ledgerId and cut_line_id in (
            select id from cut_line where ledger_id = :ledgerId and part_id = :partId)
          """)
  @Modifying
  void forgetSizes(long ledgerId, long partId);

  @Query(
      nativeQuery = true,
      value = "delete from cut_line where ledger_id = :ledgerId and part_id = :partId")
  @Modifying
  void forgetLines(long ledgerId, long partId);
}
