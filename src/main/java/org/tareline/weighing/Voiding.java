package org.tareline.weighing;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.tareline.ledger.Member;
import org.tareline.ledger.StrikeOut;

/** That a weighing was struck out: weigh again instead. */
@Entity
@Immutable
@Table(name = "weighing_void")
@AttributeOverride(name = "id", column = @Column(name = "weighing_id"))
class Voiding extends StrikeOut {

  protected Voiding() {}

  Voiding(Weighing weighing, String reason, Instant voidedAt, Member by) {
    super(weighing.id(), reason, voidedAt, by);
  }
}
