package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import org.hibernate.annotations.Immutable;

/** A code that a thing once had. Labels are printed, so it still finds the thing. */
@Entity
@Immutable
@Table(name = "former_code")
class FormerCode {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String kind;

  @Column(name = "code_key", nullable = false)
  private String codeKey;

  @Column(name = "subject_id", nullable = false)
  private long subjectId;

  protected FormerCode() {}

  FormerCode(long ledgerId, String kind, String codeKey, long subjectId) {
    this.ledgerId = ledgerId;
    this.kind = kind;
    this.codeKey = codeKey;
    this.subjectId = subjectId;
  }

  long subjectId() {
    return subjectId;
  }
}
