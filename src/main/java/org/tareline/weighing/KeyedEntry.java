package org.tareline.weighing;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.util.UUID;
import org.hibernate.annotations.Immutable;

/** That an entry came with a key of the sender's, and how it was answered. */
@Entity
@Immutable
@Table(name = "keyed_entry")
class KeyedEntry {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "entry_key", nullable = false)
  private String key;

  @Column(name = "body_hash", nullable = false)
  private String bodyHash;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "weighing_id", nullable = false)
  private Weighing weighing;

  @Column(nullable = false, length = 1_000_000)
  private String answer;

  protected KeyedEntry() {}

  KeyedEntry(long ledgerId, String key, String bodyHash, KeyedEntries.Logged logged) {
    this.ledgerId = ledgerId;
    this.key = key;
    this.bodyHash = bodyHash;
    this.weighing = logged.weighing();
    this.answer = logged.answer();
  }

  boolean isFor(String otherBodyHash) {
    return bodyHash.equals(otherBodyHash);
  }

  UUID weighing() {
    return weighing.uuid();
  }

  String answer() {
    return answer;
  }
}
