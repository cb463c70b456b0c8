package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Opens one ledger at the API as one account, in place of a name and a password. */
@Entity
@Table(name = "token")
class Token {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(name = "account_id", nullable = false, updatable = false)
  private long accountId;

  @Column(nullable = false, updatable = false)
  private String name;

  @Column(name = "secret_hash", nullable = false, updatable = false)
  private String secretHash;

  @Column(name = "read_only", nullable = false, updatable = false)
  private boolean readOnly;

  @Column(name = "made_at", nullable = false, updatable = false)
  private Instant madeAt;

  @Column(name = "expires_at", updatable = false)
  private @Nullable Instant expiresAt;

  @Column(name = "revoked_at")
  private @Nullable Instant revokedAt;

  protected Token() {}

  Token(
      Member member,
      String name,
      Secret secret,
      boolean readOnly,
      Instant madeAt,
      @Nullable Instant expiresAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = member.ledgerId();
    this.accountId = member.accountId();
    this.name = name;
    this.secretHash = secret.hash();
    this.readOnly = readOnly;
    this.madeAt = madeAt;
    this.expiresAt = expiresAt;
  }

  UUID uuid() {
    return uuid;
  }

  String name() {
    return name;
  }

  boolean readOnly() {
    return readOnly;
  }

  Instant madeAt() {
    return madeAt;
  }

  @Nullable Instant expiresAt() {
    return expiresAt;
  }

  @Nullable Instant revokedAt() {
    return revokedAt;
  }

  /** Takes it back; a second time changes nothing. */
  void revoke(Instant at) {
    if (revokedAt == null) {
      revokedAt = at;
    }
  }
}
