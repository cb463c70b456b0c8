package org.tareline.ledger;

import java.util.Optional;
import org.springframework.data.repository.Repository;

interface FormerCodeRepository extends Repository<FormerCode, Long> {

  FormerCode save(FormerCode formerCode);

  Optional<FormerCode> findByLedgerIdAndKindAndCodeKey(long ledgerId, String kind, String codeKey);

  void delete(FormerCode formerCode);
}
