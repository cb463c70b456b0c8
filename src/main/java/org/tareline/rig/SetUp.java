package org.tareline.rig;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.tareline.site.Faults;
import org.tareline.units.Range;

/** How a rig was hung once, and how it felt: what was typed, since a figure may carry a ±. */
@Entity
@Table(name = "set_up")
public class SetUp {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private long id;

  @Column(nullable = false, updatable = false)
  private UUID uuid;

  @Column(name = "ledger_id", nullable = false, updatable = false)
  private long ledgerId;

  @Column(name = "rig_id", nullable = false, updatable = false)
  private long rigId;

  @Column(name = "hung_on", nullable = false)
  private LocalDate hungOn;

  @Column(name = "ridge_length")
  private @Nullable String ridgeLength;

  @Column(name = "ridge_mark")
  private @Nullable String ridgeMark;

  @Column(name = "head_angle")
  private @Nullable String headAngle;

  @Column(name = "head_run")
  private @Nullable String headRun;

  @Column(name = "head_rise")
  private @Nullable String headRise;

  @Column(name = "foot_angle")
  private @Nullable String footAngle;

  @Column(name = "foot_run")
  private @Nullable String footRun;

  @Column(name = "foot_rise")
  private @Nullable String footRise;

  @Column private @Nullable String sag;

  @Column(name = "head_height")
  private @Nullable String headHeight;

  @Column(name = "foot_height")
  private @Nullable String footHeight;

  @Column(name = "anchor_distance")
  private @Nullable String anchorDistance;

  @Column private @Nullable String words;

  @Column(nullable = false)
  private boolean favourite;

  @Column(nullable = false)
  private int revision;

  protected SetUp() {}

  SetUp(long ledgerId, long rigId, SetUps.Entry entry, LocalDate hungOn) {
    this.uuid = UUID.randomUUID();
    this.ledgerId = ledgerId;
    this.rigId = rigId;
    describe(entry, hungOn);
  }

  /** Takes on what was read, as a new revision. */
  void describe(SetUps.Entry entry, LocalDate hungOn) {
    this.hungOn = hungOn;
    this.ridgeLength = LoadsEnd.stripped(entry.ridgeLength());
    this.ridgeMark = LoadsEnd.stripped(entry.ridgeMark());
    this.headAngle = LoadsEnd.stripped(entry.headAngle());
    this.headRun = LoadsEnd.stripped(entry.headRun());
    this.headRise = LoadsEnd.stripped(entry.headRise());
    this.footAngle = LoadsEnd.stripped(entry.footAngle());
    this.footRun = LoadsEnd.stripped(entry.footRun());
    this.footRise = LoadsEnd.stripped(entry.footRise());
    this.sag = LoadsEnd.stripped(entry.sag());
    this.headHeight = LoadsEnd.stripped(entry.headHeight());
    this.footHeight = LoadsEnd.stripped(entry.footHeight());
    this.anchorDistance = LoadsEnd.stripped(entry.anchorDistance());
    this.words = LoadsEnd.stripped(entry.words());
    this.favourite = Boolean.TRUE.equals(entry.favourite());
    this.revision++;
  }

  /** Another is the favourite now. */
  void stepBack() {
    this.favourite = false;
    this.revision++;
  }

  /** As an entry that says all that is kept of it. */
  public SetUps.Entry entry() {
    return new SetUps.Entry(
        hungOn.toString(),
        ridgeLength,
        ridgeMark,
        headAngle,
        headRun,
        headRise,
        footAngle,
        footRun,
        footRise,
        sag,
        headHeight,
        footHeight,
        anchorDistance,
        words,
        favourite);
  }

  /** The angle of the head end or, where that is not said, of the foot end, in deg; or null. */
  public @Nullable Range angle() {
    HangReader reader = new HangReader(new Faults());
    Range head = reader.angleOrSides("head", headAngle, headRun, headRise);
    return head != null ? head : reader.angleOrSides("foot", footAngle, footRun, footRise);
  }

  public UUID uuid() {
    return uuid;
  }

  long id() {
    return id;
  }

  long rigId() {
    return rigId;
  }

  public LocalDate hungOn() {
    return hungOn;
  }

  public boolean favourite() {
    return favourite;
  }

  public int revision() {
    return revision;
  }
}
