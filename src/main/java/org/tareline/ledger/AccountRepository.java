package org.tareline.ledger;

import java.util.Optional;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface AccountRepository extends Repository<Account, Long> {

  Account save(Account account);

  long count();

  Optional<Account> findById(long id);

  Optional<Account> findFirstByOrderByCreatedAtAscIdAsc();

  Optional<Account> findByNameKey(String nameKey);

  @Query(
      "select a.id from Account a, Membership m where m.accountId = a.id and m.ledgerId = :ledgerId"
          + " and a.nameKey = :nameKey")
  Optional<Long> idOfMember(long ledgerId, String nameKey);
}
