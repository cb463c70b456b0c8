package org.tareline.material;

import java.util.List;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface SwatchRepository extends Repository<Swatch, Long> {

  Swatch save(Swatch swatch);

  @Query("select s from Swatch s where s.ledgerId = :ledgerId and any_of(s.id, :ids)")
  List<Swatch> byIds(long ledgerId, Long[] ids);

  @Query(
      nativeQuery = true,
      value =
          """
          select s.* from unnest(cast(:materialIds as bigint array)) as m(id)
          join swatch s on s.ledger_id = :ledgerId and s.material_id = m.id
          """)
  List<Swatch> ofMaterials(long ledgerId, Long[] materialIds);

  boolean existsByLedgerIdAndMaterialId(long ledgerId, long materialId);
}
