package org.tareline.part;

import org.springframework.data.repository.Repository;

interface LifeEventVoidingRepository extends Repository<LifeEventVoiding, Long> {

  LifeEventVoiding save(LifeEventVoiding voiding);

  boolean existsByLedgerIdAndId(long ledgerId, long id);
}
