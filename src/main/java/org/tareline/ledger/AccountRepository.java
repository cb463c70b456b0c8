package org.tareline.ledger;

import java.util.Optional;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface AccountRepository extends Repository<Account, Long> {

  Account save(Account account);

  long count();

  Optional<Account> findById(long id);

  Optional<Account> findFirstByOrderByCreatedAtAscIdAsc();

  Optional<Account> findByNameKey(String nameKey);

  boolean existsBySecondFactorSinceIsNotNull();

  /**
   * Takes a code of this step of time, and none of it or of one before it again: of two at once,
   * one finds it. No column of the entity, for saving that would set it back.
   */
  @Modifying
  @Query(
      value =
          "update account set second_factor_step = :step where id = :id and second_factor_step < :step",
      nativeQuery = true)
  int useStep(long id, long step);

  /** For another secret. */
  @Modifying
  @Query(value = "update account set second_factor_step = 0 where id = :id", nativeQuery = true)
  void forgetStep(long id);

  @Query(
      "select a.id from Account a, Membership m where m.accountId = a.id and m.ledgerId = :ledgerId"
          + " and a.nameKey = :nameKey")
  Optional<Long> idOfMember(long ledgerId, String nameKey);
}
