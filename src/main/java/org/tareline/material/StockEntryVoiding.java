package org.tareline.material;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.springframework.data.domain.Persistable;

/**
 * That a line of the record of stock was struck out, and why. One a line at most, and never taken
 * back.
 */
@Entity
@Immutable
@Table(name = "stock_entry_void")
class StockEntryVoiding implements Persistable<Long> {

  @Id
  @Column(name = "stock_entry_id")
  private long stockEntryId;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String reason;

  @Column(name = "voided_at", nullable = false)
  private Instant voidedAt;

  @Column(name = "voided_by", nullable = false)
  private long voidedBy;

  protected StockEntryVoiding() {}

  StockEntryVoiding(StockEntry entry, String reason, Instant voidedAt, long voidedBy) {
    this.stockEntryId = entry.id();
    this.ledgerId = entry.ledgerId();
    this.reason = reason;
    this.voidedAt = voidedAt;
    this.voidedBy = voidedBy;
  }

  @Override
  public Long getId() {
    return stockEntryId;
  }

  /** Always: a row of this kind is written once and never again. */
  @Override
  public boolean isNew() {
    return true;
  }
}
