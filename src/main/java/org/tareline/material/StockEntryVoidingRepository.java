package org.tareline.material;

import org.springframework.data.repository.Repository;

interface StockEntryVoidingRepository extends Repository<StockEntryVoiding, Long> {

  StockEntryVoiding save(StockEntryVoiding voiding);

  boolean existsByLedgerIdAndId(long ledgerId, long id);
}
