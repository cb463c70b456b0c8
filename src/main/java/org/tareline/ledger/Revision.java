package org.tareline.ledger;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;

/** A state that a part, a rig or a trip has had, as it was saved. */
@Entity
@Immutable
@Table(name = "revision")
class Revision {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String kind;

  @Column(name = "subject_id", nullable = false)
  private long subjectId;

  @Column(nullable = false)
  private int number;

  @Column(nullable = false, length = 1_000_000)
  private String content;

  @Column(name = "made_at", nullable = false)
  private Instant madeAt;

  @Column(name = "made_by", nullable = false)
  private long madeBy;

  protected Revision() {}

  Revision(Member member, String kind, long subjectId, int number, String content, Instant madeAt) {
    this.ledgerId = member.ledgerId();
    this.kind = kind;
    this.subjectId = subjectId;
    this.number = number;
    this.content = content;
    this.madeAt = madeAt;
    this.madeBy = member.accountId();
  }
}
