package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Id;
import jakarta.persistence.MappedSuperclass;
import java.time.Instant;
import org.springframework.data.domain.Persistable;

/**
 * That something noted was struck out, and why. One for a thing at most, and never taken back: note
 * it again instead. Its id is that of what was struck out.
 */
@MappedSuperclass
public abstract class StrikeOut implements Persistable<Long> {

  @Id private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String reason;

  @Column(name = "voided_at", nullable = false)
  private Instant voidedAt;

  @Column(name = "voided_by", nullable = false)
  private long voidedBy;

  protected StrikeOut() {}

  protected StrikeOut(long id, String reason, Instant voidedAt, Member by) {
    this.id = id;
    this.ledgerId = by.ledgerId();
    this.reason = reason;
    this.voidedAt = voidedAt;
    this.voidedBy = by.accountId();
  }

  @Override
  public Long getId() {
    return id;
  }

  /** Always: a row of this kind is written once and never again. */
  @Override
  public boolean isNew() {
    return true;
  }
}
