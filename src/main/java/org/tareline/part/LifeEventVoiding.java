package org.tareline.part;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.springframework.data.domain.Persistable;

/** That a life event was struck out, and why. One an event at most, and never taken back. */
@Entity
@Immutable
@Table(name = "life_event_void")
class LifeEventVoiding implements Persistable<Long> {

  @Id
  @Column(name = "life_event_id")
  private long lifeEventId;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String reason;

  @Column(name = "voided_at", nullable = false)
  private Instant voidedAt;

  @Column(name = "voided_by", nullable = false)
  private long voidedBy;

  protected LifeEventVoiding() {}

  LifeEventVoiding(LifeEvent event, String reason, Instant voidedAt, long voidedBy) {
    this.lifeEventId = event.id();
    this.ledgerId = event.ledgerId();
    this.reason = reason;
    this.voidedAt = voidedAt;
    this.voidedBy = voidedBy;
  }

  @Override
  public Long getId() {
    return lifeEventId;
  }

  /** Always: a row of this kind is written once and never again. */
  @Override
  public boolean isNew() {
    return true;
  }
}
