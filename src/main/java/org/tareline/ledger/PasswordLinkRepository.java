package org.tareline.ledger;

import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.util.Optional;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface PasswordLinkRepository extends Repository<PasswordLink, Long> {

  PasswordLink save(PasswordLink link);

  /** Those that are used or too old. */
  @Modifying
  @Query("delete from PasswordLink l where l.usedAt is not null or l.expiresAt <= :at")
  void deleteSpent(Instant at);

  Optional<PasswordLink> findBySecretHash(String secretHash);

  /** For using it up: of two at once, the second finds it used. */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select l from PasswordLink l where l.secretHash = :secretHash")
  Optional<PasswordLink> lock(String secretHash);
}
