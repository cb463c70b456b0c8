package org.tareline.material;

import java.util.Collection;
import java.util.List;
import org.springframework.data.repository.Repository;

interface SwatchRepository extends Repository<Swatch, Long> {

  Swatch save(Swatch swatch);

  List<Swatch> findByLedgerIdAndIdIn(long ledgerId, Collection<Long> ids);

  List<Swatch> findByLedgerIdAndMaterialIdIn(long ledgerId, Collection<Long> materialIds);

  boolean existsByLedgerIdAndMaterialId(long ledgerId, long materialId);
}
