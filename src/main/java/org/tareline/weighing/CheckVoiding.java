package org.tareline.weighing;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.tareline.ledger.Member;
import org.tareline.ledger.StrikeOut;

/** That a check of a scale was struck out. */
@Entity
@Immutable
@Table(name = "scale_check_void")
@AttributeOverride(name = "id", column = @Column(name = "scale_check_id"))
class CheckVoiding extends StrikeOut {

  protected CheckVoiding() {}

  CheckVoiding(ScaleCheck check, String reason, Instant voidedAt, Member by) {
    super(check.id(), reason, voidedAt, by);
  }
}
