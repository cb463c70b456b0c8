package org.tareline.rig;

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
import org.jspecify.annotations.Nullable;

/** A line of a rig: so many of one part or of one other rig, and what they do there. */
@Entity
@Table(name = "rig_line")
class RigLine {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "rig_id", nullable = false, updatable = false)
  private Rig rig;

  @Column(nullable = false)
  private int position;

  @Column(name = "part_id")
  private @Nullable Long partId;

  @Column(name = "child_rig_id")
  private @Nullable Long childRigId;

  @Column(nullable = false)
  private int quantity;

  @Column(nullable = false)
  private String role;

  protected RigLine() {}

  RigLine(Rig rig, UUID uuid) {
    this.uuid = uuid;
    this.ledgerId = rig.ledgerId();
    this.rig = rig;
  }

  void describe(int position, Rigs.ReadLine read) {
    this.position = position;
    this.partId = read.partId();
    this.childRigId = read.rigId();
    this.quantity = read.quantity();
    this.role = read.role();
  }

  /** The id that it keeps through every edit. */
  UUID uuid() {
    return uuid;
  }

  /** The row of the rig that it holds; null where it holds a part. */
  @Nullable Long rigHeld() {
    return childRigId;
  }

  int quantity() {
    return quantity;
  }

  /** Names what it holds. */
  String thing() {
    return thing(partId, childRigId);
  }

  static String thing(@Nullable Long partId, @Nullable Long rigId) {
    return partId == null ? "rig " + rigId + " " : "part " + partId + " ";
  }

  String role() {
    return role;
  }
}
