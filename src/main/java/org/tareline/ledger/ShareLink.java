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

/** A link that shows one page of a ledger to whoever has it, without signing in. */
@Entity
@Table(name = "share_link")
class ShareLink {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(name = "secret_hash", nullable = false, updatable = false)
  private String secretHash;

  @Column(nullable = false, updatable = false)
  private String page;

  @Column(nullable = false, updatable = false)
  private String title;

  @Column(name = "made_by", nullable = false, updatable = false)
  private long madeBy;

  @Column(name = "made_at", nullable = false, updatable = false)
  private Instant madeAt;

  @Column(name = "revoked_at")
  private @Nullable Instant revokedAt;

  protected ShareLink() {}

  ShareLink(Member member, String page, String title, Secret secret, Instant madeAt) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = member.ledgerId();
    this.secretHash = secret.hash();
    this.page = page;
    this.title = title;
    this.madeBy = member.accountId();
    this.madeAt = madeAt;
  }

  UUID uuid() {
    return uuid;
  }

  String page() {
    return page;
  }

  String title() {
    return title;
  }

  Instant madeAt() {
    return madeAt;
  }

  void revoke(Instant at) {
    this.revokedAt = at;
  }
}
