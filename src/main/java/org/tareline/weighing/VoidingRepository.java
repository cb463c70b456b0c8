package org.tareline.weighing;

import org.springframework.data.repository.Repository;

interface VoidingRepository extends Repository<Voiding, Long> {

  Voiding save(Voiding voiding);

  boolean existsByLedgerIdAndId(long ledgerId, long id);
}
