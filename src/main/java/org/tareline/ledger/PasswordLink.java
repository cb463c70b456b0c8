package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** A link by which somebody who forgot a password sets another, once. */
@Entity
@Table(name = "password_link")
class PasswordLink {

  /** Common practice, no source: long enough to reach whoever asked for it. */
  static final Duration GOOD_FOR = Duration.ofDays(1);

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "account_id", nullable = false, updatable = false)
  private long accountId;

  @Column(name = "secret_hash", nullable = false, updatable = false)
  private String secretHash;

  @Column(name = "expires_at", nullable = false, updatable = false)
  private Instant expiresAt;

  @Column(name = "used_at")
  private @Nullable Instant usedAt;

  protected PasswordLink() {}

  PasswordLink(long accountId, Secret secret, Instant madeAt) {
    this.accountId = accountId;
    this.secretHash = secret.hash();
    this.expiresAt = madeAt.plus(GOOD_FOR);
  }

  long accountId() {
    return accountId;
  }

  Instant expiresAt() {
    return expiresAt;
  }

  boolean openAt(Instant now) {
    return usedAt == null && now.isBefore(expiresAt);
  }

  void use(Instant at) {
    this.usedAt = at;
  }
}
