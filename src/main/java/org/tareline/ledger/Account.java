package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Codes;
import org.tareline.units.MassStyle;

/** A person who signs in. */
@Entity
@Table(name = "account")
class Account {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(nullable = false)
  private String name;

  @Column(name = "name_key", nullable = false)
  private String nameKey;

  @Column(name = "password_hash", nullable = false)
  private String passwordHash;

  @Enumerated(EnumType.STRING)
  @Column(name = "mass_style", nullable = false, length = 40)
  private MassStyle massStyle;

  @Column(name = "created_at", nullable = false, updatable = false)
  private Instant createdAt;

  /** As {@link Seal} keeps it; there before it is asked for, while it is set up. */
  @Column(name = "second_factor_secret", length = 64)
  private @Nullable String secondFactorSecret;

  @Column(name = "second_factor_since")
  private @Nullable Instant secondFactorSince;

  protected Account() {}

  Account(String name, String passwordHash, Instant createdAt) {
    this.uuid = UUID.randomUUID();
    this.name = name;
    this.nameKey = Codes.key(name);
    this.passwordHash = passwordHash;
    this.massStyle = MassStyle.GRAMS;
    this.createdAt = createdAt;
  }

  /** Somebody who did something elsewhere and does not sign in here. */
  static Account knownByName(String name, String key, Instant createdAt) {
    Account account = new Account(name, "{never}", createdAt);
    account.nameKey = key;
    return account;
  }

  long id() {
    return id;
  }

  String name() {
    return name;
  }

  String passwordHash() {
    return passwordHash;
  }

  void changePassword(String newHash) {
    this.passwordHash = newHash;
  }

  /** Who it is to Spring Security when it signs in now. */
  SignedIn signedIn() {
    return new SignedIn(id, name, passwordHash, null, false, asksForCode());
  }

  boolean asksForCode() {
    return secondFactorSince != null;
  }

  @Nullable String secondFactorSecret() {
    return secondFactorSecret;
  }

  void prepareSecondFactor(String secret) {
    this.secondFactorSecret = secret;
  }

  void askForCode(Instant since) {
    this.secondFactorSince = since;
  }

  void dropSecondFactor() {
    this.secondFactorSecret = null;
    this.secondFactorSince = null;
  }

  MassStyle massStyle() {
    return massStyle;
  }

  void showMassesIn(MassStyle style) {
    this.massStyle = style;
  }
}
