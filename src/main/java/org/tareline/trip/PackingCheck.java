package org.tareline.trip;

import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Objects;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.site.Faults;

/** That somebody checked off a thing while packing. Never changed and never deleted. */
@Entity
@Immutable
@Table(name = "packing_check")
class PackingCheck {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(name = "ledger_id", nullable = false)
  private long ledgerId;

  @Column(name = "trip_id", nullable = false)
  private long tripId;

  @Column(name = "trip_revision", nullable = false)
  private int tripRevision;

  @Column(name = "line_uuid", nullable = false)
  private UUID line;

  @Column(name = "part_uuid")
  private @Nullable UUID part;

  @Convert(converter = Packed.Stored.class)
  @Column(nullable = false)
  private Packed state;

  @Column(name = "check_key", nullable = false)
  private String key;

  @Column(name = "claimed_at", nullable = false)
  private Instant claimedAt;

  @Column(name = "checked_at", nullable = false)
  private Instant checkedAt;

  @Column(name = "received_at", nullable = false)
  private Instant receivedAt;

  @Column(name = "checked_by", nullable = false)
  private long checkedBy;

  protected PackingCheck() {}

  /**
   * @param checkedAt when it was made, by the server's clock
   */
  PackingCheck(Member member, Trip trip, Checks.Read read, Instant receivedAt, Instant checkedAt) {
    this.ledgerId = member.ledgerId();
    this.tripId = trip.id();
    this.tripRevision = trip.revision();
    this.line = read.line();
    this.part = read.part();
    this.state = read.state();
    this.key = read.key();
    this.claimedAt = read.claimedAt();
    this.checkedAt = checkedAt;
    this.receivedAt = receivedAt;
    this.checkedBy = member.accountId();
  }

  long id() {
    return id;
  }

  long tripId() {
    return tripId;
  }

  UUID line() {
    return line;
  }

  String key() {
    return key;
  }

  /**
   * Notes what could not have been sent so.
   *
   * @param latest when it may have come at the latest
   */
  void check(Trip trip, Instant latest, Faults faults) {
    if (tripRevision < 1 || tripRevision > trip.revision()) {
      faults.add(
          "tripRevision",
          "Give a revision that the trip has had: it is at " + trip.revision() + " now.");
    }
    if (!faults.text("checkKey", key, "the key", Checks.LONGEST_KEY).equals(key)) {
      faults.add("checkKey", "Leave spaces before and after the key out.");
    }
    // Else it would count for more than any check that is made until then.
    if (receivedAt.isAfter(latest)) {
      faults.add("receivedAt", "Give a time that has come.");
    }
  }

  /** Whether this is what was sent, when it was sent before. */
  boolean isOf(Trip trip, Checks.Read read) {
    return tripId == trip.id()
        && line.equals(read.line())
        && Objects.equals(part, read.part())
        && state == read.state();
  }
}
