package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;

/** That an account is a member of a ledger, and as what. */
@Entity
@Table(name = "member")
class Membership {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(name = "account_id", nullable = false, updatable = false)
  private long accountId;

  @Enumerated(EnumType.STRING)
  @Column(nullable = false, length = 20)
  private MemberRole role;

  @Column(name = "joined_at", nullable = false, updatable = false)
  private Instant joinedAt;

  protected Membership() {}

  Membership(long ledgerId, long accountId, MemberRole role, Instant joinedAt) {
    this.ledgerId = ledgerId;
    this.accountId = accountId;
    this.role = role;
    this.joinedAt = joinedAt;
  }

  long ledgerId() {
    return ledgerId;
  }

  long accountId() {
    return accountId;
  }

  MemberRole role() {
    return role;
  }

  void become(MemberRole other) {
    this.role = other;
  }
}
