package org.tareline.ledger;

import org.springframework.data.repository.Repository;

interface LedgerRepository extends Repository<Ledger, Long> {

  Ledger save(Ledger ledger);
}
