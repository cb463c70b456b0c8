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
import java.util.List;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;

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

  long id() {
    return id;
  }

  Weighing weighing() {
    return weighing;
  }

  /**
   * Notes what could not have been logged so.
   *
   * @param pan all that lay there, this one among it
   */
  void check(List<OnThePan> pan, Faults faults) {
    OnThePan logged = new OnThePan(weighing, placed(), pan.size() > 1);
    if (together != logged.together) {
      faults.add("together", "Say yes where several things lay on the pan, and no of one alone.");
    }
    if (usable != logged.usable) {
      faults.add(
          "usable",
          "Say yes of what lay there alone and was dry or aired, and no of all else: a thing weighs "
              + "what that says.");
    }
    if (!weighedAt.equals(logged.weighedAt)) {
      faults.add("weighedAt", "Give the time of the weighing, " + logged.weighedAt + ".");
    }
    checkAlone(pan, faults);
    boolean rig = kind.equals(Subject.RIG);
    boolean revised = rig || kind.equals(Subject.CUT_LINE);
    if (revised == (subjectRevision == null)) {
      faults.add(
          "subjectRevision",
          "Give the revision of a rig and of a line of a cut list, and of nothing else.");
    }
    if (rig == (scopeCode == null)) {
      faults.add("scopeCode", "Say of a rig what was counted, and of nothing else.");
    }
  }

  private void checkAlone(List<OnThePan> pan, Faults faults) {
    if (pan.size() == 1 && quantity != weighing.pieceCount()) {
      faults.add("quantity", "Give the count of the weighing, " + weighing.pieceCount() + ".");
    }
    if (pan.size() > 1 && weighing.pieceCount() != 1) {
      faults.add("quantity", "Say with each thing how many of it lay there: the count is then 1.");
    }
    if (pan.size() > 1 && !kind.equals(Subject.PART)) {
      faults.add("kind", "Only parts are weighed together.");
    }
    if (pan.stream().filter(on -> on.placed().subject().equals(placed().subject())).count() > 1) {
      faults.add("subject", "Name each thing once, and say how many of it.");
    }
    if (piece != null && (pan.size() > 1 || quantity != 1 || !kind.equals(Subject.PART))) {
      faults.add("piece", "Weigh a labelled piece of a part by itself.");
    }
  }

  Placed placed() {
    return new Placed(new Subject(kind, subjectId), quantity, piece, subjectRevision, scopeCode);
  }
}
