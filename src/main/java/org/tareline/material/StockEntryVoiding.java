package org.tareline.material;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.tareline.ledger.Member;
import org.tareline.ledger.StrikeOut;

/** That a line of the stock was struck out. */
@Entity
@Immutable
@Table(name = "stock_entry_void")
@AttributeOverride(name = "id", column = @Column(name = "stock_entry_id"))
class StockEntryVoiding extends StrikeOut {

  protected StockEntryVoiding() {}

  StockEntryVoiding(StockEntry entry, String reason, Instant voidedAt, Member by) {
    super(entry.id(), reason, voidedAt, by);
  }
}
