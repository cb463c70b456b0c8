package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Embedded;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** All the parts, scales, weighings, rigs and trips of one person or group. */
@Entity
@Table(name = "ledger")
class Ledger {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(nullable = false)
  private String name;

  @Embedded private Settings settings;

  @Column(name = "settings_revision", nullable = false)
  private int settingsRevision;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  protected Ledger() {}

  Ledger(String name, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.name = name;
    this.settings = Settings.COMMON_PRACTICE;
    this.settingsRevision = 1;
    this.createdAt = createdAt;
  }

  long id() {
    return id;
  }

  UUID uuid() {
    return uuid;
  }

  String name() {
    return name;
  }

  Settings settings() {
    return settings;
  }

  int settingsRevision() {
    return settingsRevision;
  }

  void settle(Settings settings) {
    this.settings = settings;
    this.settingsRevision++;
  }
}
