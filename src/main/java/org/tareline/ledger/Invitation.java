package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A link that makes whoever takes it up first a member of a ledger. */
@Entity
@Table(name = "invitation")
class Invitation {

  /** Common practice, no source: long enough to be read, short enough not to lie about. */
  static final Duration GOOD_FOR = Duration.ofDays(7);

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Enumerated(EnumType.STRING)
  @Column(nullable = false, updatable = false, length = 20)
  private MemberRole role;

  @Column(updatable = false)
  private @Nullable String note;

  @Column(name = "secret_hash", nullable = false, updatable = false)
  private String secretHash;

  @Column(name = "made_by", nullable = false, updatable = false)
  private long madeBy;

  @Column(name = "made_at", nullable = false, updatable = false)
  private Instant madeAt;

  @Column(name = "expires_at", nullable = false, updatable = false)
  private Instant expiresAt;

  @Column(name = "accepted_by")
  private @Nullable Long acceptedBy;

  @Column(name = "accepted_at")
  private @Nullable Instant acceptedAt;

  @Column(name = "withdrawn_at")
  private @Nullable Instant withdrawnAt;

  protected Invitation() {}

  Invitation(Member owner, MemberRole role, @Nullable String note, Secret secret, Instant madeAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = owner.ledgerId();
    this.role = role;
    this.note = note;
    this.secretHash = secret.hash();
    this.madeBy = owner.accountId();
    this.madeAt = madeAt;
    this.expiresAt = madeAt.plus(GOOD_FOR);
  }

  UUID uuid() {
    return uuid;
  }

  long ledgerId() {
    return ledgerId;
  }

  MemberRole role() {
    return role;
  }

  @Nullable String note() {
    return note;
  }

  Instant expiresAt() {
    return expiresAt;
  }

  /** Whether it can still be taken up. */
  boolean openAt(Instant now) {
    return acceptedAt == null && withdrawnAt == null && now.isBefore(expiresAt);
  }

  void accept(long accountId, Instant at) {
    this.acceptedBy = accountId;
    this.acceptedAt = at;
  }

  void withdraw(Instant at) {
    this.withdrawnAt = at;
  }
}
