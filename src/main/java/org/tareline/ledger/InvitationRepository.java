package org.tareline.ledger;

import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Lock;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface InvitationRepository extends Repository<Invitation, Long> {

  Invitation save(Invitation invitation);

  @Query(
      """
      select i from Invitation i
      where i.ledgerId = :ledgerId and i.acceptedAt is null and i.withdrawnAt is null and i.expiresAt > :at
      order by i.id
      """)
  List<Invitation> open(long ledgerId, Instant at);

  @Query("select i from Invitation i where i.ledgerId = :ledgerId and i.uuid = :uuid")
  Optional<Invitation> one(long ledgerId, UUID uuid);

  Optional<Invitation> findBySecretHash(String secretHash);

  /** For taking it up: of two at once, the second finds it taken. */
  @Lock(LockModeType.PESSIMISTIC_WRITE)
  @Query("select i from Invitation i where i.secretHash = :secretHash")
  Optional<Invitation> lock(String secretHash);
}
