package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.springframework.data.domain.Persistable;

/** That a check of a scale was struck out, and why; as {@link Voiding} of a weighing. */
@Entity
@Immutable
@Table(name = "scale_check_void")
class CheckVoiding implements Persistable<Long> {

  @Id
  @Column(name = "scale_check_id")
  private long checkId;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String reason;

  @Column(name = "voided_at", nullable = false)
  private Instant voidedAt;

  @Column(name = "voided_by", nullable = false)
  private long voidedBy;

  protected CheckVoiding() {}

  CheckVoiding(ScaleCheck check, String reason, Instant voidedAt, long voidedBy) {
    this.checkId = check.id();
    this.ledgerId = check.ledgerId();
    this.reason = reason;
    this.voidedAt = voidedAt;
    this.voidedBy = voidedBy;
  }

  @Override
  public Long getId() {
    return checkId;
  }

  /** Always: a row of this kind is written once and never again. */
  @Override
  public boolean isNew() {
    return true;
  }
}
