package org.tareline.ledger;

import jakarta.persistence.LockModeType;
import java.util.Optional;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface LedgerRepository extends Repository<Ledger, Long> {

  Ledger save(Ledger ledger);

  @Query("select l from Ledger l where l.id = :ledgerId")
  Optional<Ledger> one(long ledgerId);

  /** For changing it: nobody else changes it until this transaction ends. */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select l from Ledger l where l.id = :ledgerId")
  Optional<Ledger> lock(long ledgerId);
}
