package org.tareline.ledger;

import java.util.Optional;
import org.springframework.data.repository.Repository;

interface AccountRepository extends Repository<Account, Long> {

  Account save(Account account);

  long count();

  Optional<Account> findById(long id);

  Optional<Account> findFirstByOrderByCreatedAtAscIdAsc();

  Optional<Account> findByNameKey(String nameKey);
}
