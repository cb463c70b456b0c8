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
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;

/**
 * That a subject stood on the pan in a weighing, how many of it, and whether that may say what it
 * weighs.
 */
@Entity
@Immutable
@Table(name = "weighing_subject")
public class OnThePan {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "weighing_id", nullable = false)
  private Weighing weighing;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(nullable = false)
  private String kind;

  @Column(name = "subject_id", nullable = false)
  private long subjectId;

  @Column(nullable = false)
  private int quantity;

  @Column private @Nullable String piece;

  @Column(name = "subject_revision")
  private @Nullable Integer subjectRevision;

  @Column(name = "scope_code")
  private @Nullable String scopeCode;

  @Column(nullable = false)
  private boolean together;

  @Column(nullable = false)
  private boolean usable;

  /**
   * As the weighing's own, repeated here so that the newest one is found by one index however many
   * there are.
   */
  @Column(name = "weighed_at", nullable = false)
  private Instant weighedAt;

  protected OnThePan() {}

  /**
   * @param together whether other things lay on the pan with it
   */
  OnThePan(Weighing weighing, Placed placed, boolean together) {
    this.weighing = weighing;
    this.ledgerId = weighing.ledgerId();
    this.kind = placed.subject().kind();
    this.subjectId = placed.subject().id();
    this.quantity = placed.quantity();
    this.piece = placed.piece();
    this.subjectRevision = placed.revision();
    this.scopeCode = placed.scope();
    this.together = together;
    this.usable = weighing.condition().saysTheMass() && !together;
    this.weighedAt = weighing.weighedAt();
  }

  Weighing weighing() {
    return weighing;
  }

  Placed placed() {
    return new Placed(new Subject(kind, subjectId), quantity, piece, subjectRevision, scopeCode);
  }
}
