package org.tareline.ledger;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface TokenRepository extends Repository<Token, Long> {

  Token save(Token token);

  @Query(
      "select t from Token t where t.accountId = :accountId and t.ledgerId = :ledgerId order by t.id desc")
  List<Token> of(long accountId, long ledgerId);

  @Query(
      "select t from Token t where t.accountId = :accountId and t.ledgerId = :ledgerId and t.uuid = :uuid")
  Optional<Token> one(long accountId, long ledgerId, UUID uuid);

  /** Whom a token signs in, if it is good at that time. */
  @Query(
      """
      select new org.tareline.ledger.SignedIn(a.id, a.name, a.passwordHash, l.uuid, t.readOnly)
      from Token t, Account a, Ledger l
      where a.id = t.accountId and l.id = t.ledgerId and t.secretHash = :secretHash
        and t.revokedAt is null and (t.expiresAt is null or t.expiresAt > :at)
      """)
  Optional<SignedIn> signedIn(String secretHash, Instant at);
}
