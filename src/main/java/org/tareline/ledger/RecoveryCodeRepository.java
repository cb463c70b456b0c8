package org.tareline.ledger;

import java.time.Instant;
import org.springframework.data.jpa.repository.Modifying;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface RecoveryCodeRepository extends Repository<RecoveryCode, Long> {

  RecoveryCode save(RecoveryCode code);

  @Query("select count(c) from RecoveryCode c where c.accountId = :accountId and c.usedAt is null")
  int left(long accountId);

  /** Uses one up: of two at once, one finds it. */
  @Modifying
  @Query(
      """
      update RecoveryCode c set c.usedAt = :at
      where c.accountId = :accountId and c.codeHash = :codeHash and c.usedAt is null
      """)
  int use(long accountId, String codeHash, Instant at);

  @Modifying
  @Query("delete from RecoveryCode c where c.accountId = :accountId")
  void forget(long accountId);
}
