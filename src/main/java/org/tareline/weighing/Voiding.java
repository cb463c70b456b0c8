package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.springframework.data.domain.Persistable;

/**
 * That a weighing was struck out, and why. One a weighing at most, and never taken back: weigh
 * again instead.
 */
@Entity
@Immutable
@Table(name = "weighing_void")
class Voiding implements Persistable<Long> {

  @Id
  @Column(name = "weighing_id")
  private long weighingId;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String reason;

  @Column(name = "voided_at", nullable = false)
  private Instant voidedAt;

  @Column(name = "voided_by", nullable = false)
  private long voidedBy;

  protected Voiding() {}

  Voiding(Weighing weighing, String reason, Instant voidedAt, long voidedBy) {
    this.weighingId = weighing.id();
    this.ledgerId = weighing.ledgerId();
    this.reason = reason;
    this.voidedAt = voidedAt;
    this.voidedBy = voidedBy;
  }

  @Override
  public Long getId() {
    return weighingId;
  }

  /** Always: a row of this kind is written once and never again. */
  @Override
  public boolean isNew() {
    return true;
  }

  String reason() {
    return reason;
  }
}
