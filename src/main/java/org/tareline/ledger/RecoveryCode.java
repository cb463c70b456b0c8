package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** What stands in for a code of the second factor, once. */
@Entity
@Table(name = "recovery_code")
class RecoveryCode {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "account_id", nullable = false, updatable = false)
  private long accountId;

  @Column(name = "code_hash", nullable = false, updatable = false)
  private String codeHash;

  @Column(name = "used_at")
  private @Nullable Instant usedAt;

  protected RecoveryCode() {}

  RecoveryCode(long accountId, String codeHash) {
    this.accountId = accountId;
    this.codeHash = codeHash;
  }
}
