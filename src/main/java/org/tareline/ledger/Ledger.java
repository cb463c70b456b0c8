package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;

/** All the parts, scales, weighings, rigs and trips of one person or group. */
@Entity
@Table(name = "ledger")
class Ledger {

  /** Common practice, no source: a mass printed by a seller is taken to be within five per cent. */
  private static final BigDecimal STATED_TOLERANCE = new BigDecimal("0.05");

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(nullable = false)
  private String name;

  @Column(name = "stated_tolerance", nullable = false)
  private BigDecimal statedTolerance;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  protected Ledger() {}

  Ledger(String name, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.name = name;
    this.statedTolerance = STATED_TOLERANCE;
    this.createdAt = createdAt;
  }

  long id() {
    return id;
  }
}
