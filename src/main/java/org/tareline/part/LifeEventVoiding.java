package org.tareline.part;

import jakarta.persistence.AttributeOverride;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.tareline.ledger.Member;
import org.tareline.ledger.StrikeOut;

/** That something that happened to a part was struck out. */
@Entity
@Immutable
@Table(name = "life_event_void")
@AttributeOverride(name = "id", column = @Column(name = "life_event_id"))
class LifeEventVoiding extends StrikeOut {

  protected LifeEventVoiding() {}

  LifeEventVoiding(LifeEvent event, String reason, Instant voidedAt, Member by) {
    super(event.id(), reason, voidedAt, by);
  }
}
