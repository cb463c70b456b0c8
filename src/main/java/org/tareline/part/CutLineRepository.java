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

  /** The lines of a part in their order, with their sizes. */
  @Query(
      """
      select l from CutLine l left join fetch l.sizes
      where l.ledgerId = :ledgerId and l.partId = :partId
      order by l.position
      """)
  List<CutLine> linesOf(long ledgerId, long partId);

  /**
   * The same without an order, a row for each size ({@link CutRow}), to be read and not to be
   * changed. By a list of ids in place of the array, H2 reads every line of the ledger and holds it
   * against each of them.
   */
  @Query(
      nativeQuery = true,
      value =
          """
          select l.id, cast(l.uuid as varchar(36)), l.part_id, l.position, l.name, l.form, l.material_id, l.quantity, l.removed, l.revision,
            s.name as size_name, s.amount, s.typed
          from unnest(cast(:partIds as bigint array)) as p(id)
          join cut_line l on l.ledger_id = :ledgerId and l.part_id = p.id
          left join cut_size s on s.cut_line_id = l.id
          """)
  List<Object[]> rowsOf(long ledgerId, Long[] partIds);

  Optional<CutLine> findByLedgerIdAndPartIdAndUuid(long ledgerId, long partId, UUID uuid);

  @Query("select l from CutLine l where l.ledgerId = :ledgerId and any_of(l.id, :ids)")
  List<CutLine> byIds(long ledgerId, Long[] ids);

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
