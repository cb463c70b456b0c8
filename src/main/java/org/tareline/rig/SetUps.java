package org.tareline.rig;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** Records of how rigs were hung and how that felt. */
@Service
@Transactional(readOnly = true)
public class SetUps implements ReadAgain {

  private static final String KIND = "set-up";

  /**
   * A record as somebody typed it. Angles and lengths may carry a ±; all but the date may be left
   * out.
   *
   * @param hungOn such as 2027-04-11
   * @param ridgeLength of the structural ridge line
   * @param ridgeMark how far along it the mark sits that it was set to
   * @param headAngle or, in its place, headRun and headRise from the load point; likewise of the
   *     foot
   * @param headHeight of the strap above the ground; likewise of the foot
   * @param words how it felt
   * @param favourite whether it is the one to get back to; no other of the rig is then
   */
  public record Entry(
      @Nullable String hungOn,
      @Nullable String ridgeLength,
      @Nullable String ridgeMark,
      @Nullable String headAngle,
      @Nullable String headRun,
      @Nullable String headRise,
      @Nullable String footAngle,
      @Nullable String footRun,
      @Nullable String footRise,
      @Nullable String sag,
      @Nullable String headHeight,
      @Nullable String footHeight,
      @Nullable String anchorDistance,
      @Nullable String words,
      @Nullable Boolean favourite) {}

  private final SetUpRepository setUps;
  private final Rigs rigs;
  private final Revisions revisions;

  SetUps(SetUpRepository setUps, Rigs rigs, Revisions revisions) {
    this.setUps = setUps;
    this.rigs = rigs;
    this.revisions = revisions;
  }

  /** Those of a rig: the favourite first, then the newest. */
  public List<SetUp> of(Member member, Rig rig) {
    return setUps.findByLedgerIdAndRigIdOrderByFavouriteDescHungOnDescIdDesc(
        member.ledgerId(), rig.id());
  }

  /** One of a rig by its id. */
  public SetUp get(Member member, Rig rig, String id) {
    try {
      return setUps
          .findByLedgerIdAndRigIdAndUuid(member.ledgerId(), rig.id(), UUID.fromString(id))
          .orElseThrow(() -> new NotThere("hang record"));
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("hang record");
    }
  }

  /**
   * Adds a record.
   *
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  @Transactional
  public SetUp add(Member member, String rigCode, Entry entry) {
    Rig rig = rigs.get(member, rigCode);
    LocalDate hungOn = read(entry);
    stepBack(member, rig, entry, null);
    SetUp setUp = setUps.save(new SetUp(member.ledgerId(), rig.id(), entry, hungOn));
    revisions.keep(member, KIND, setUp.id(), setUp.revision(), entry);
    return setUp;
  }

  /**
   * Describes a record anew; the earlier description is kept.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws org.tareline.site.Refusal with every fault, or if somebody saved since
   */
  @Transactional
  public SetUp change(
      Member member, String rigCode, String id, Entry entry, @Nullable Integer expected) {
    Rig rig = rigs.get(member, rigCode);
    SetUp setUp = get(member, rig, id);
    Revisions.guard("the hang record of " + setUp.hungOn(), setUp.revision(), expected);
    LocalDate hungOn = read(entry);
    stepBack(member, rig, entry, setUp);
    setUp.describe(entry, hungOn);
    setUps.flush();
    revisions.keep(member, KIND, setUp.id(), setUp.revision(), entry);
    return setUp;
  }

  private void stepBack(Member member, Rig rig, Entry entry, @Nullable SetUp itself) {
    if (!Boolean.TRUE.equals(entry.favourite())) {
      return;
    }
    for (SetUp other : of(member, rig)) {
      if (other.favourite() && other != itself) {
        other.stepBack();
        revisions.keep(member, KIND, other.id(), other.revision(), other.entry());
      }
    }
  }

  @Override
  public String table() {
    return "set_up";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    return ReadAgain.each(
        setUps.byIds(member.ledgerId(), ids.toArray(Long[]::new)),
        SetUp::id,
        setUp -> {
          read(setUp.entry());
          if (setUp.favourite()
              && setUps.countByLedgerIdAndRigIdAndFavouriteTrue(member.ledgerId(), setUp.rigId())
                  > 1) {
            throw Refusal.badInput("favourite", "Let one record of the rig be the favourite.");
          }
        });
  }

  private static LocalDate read(Entry entry) {
    Faults faults = new Faults();
    HangReader reader = new HangReader(faults);
    LocalDate hungOn = LocalDate.EPOCH;
    String date = faults.text("hungOn", entry.hungOn(), "the date, such as 2027-04-11", 60);
    if (!date.isEmpty()) {
      try {
        hungOn = LocalDate.parse(date);
        if (hungOn.getYear() < 1900 || hungOn.getYear() > 2200) {
          faults.add("hungOn", "Give a date between the years 1900 and 2200.");
        }
      } catch (DateTimeException unreadable) {
        faults.add(
            "hungOn", "Give the date as 2027-04-11; read \"" + Faults.shortened(date) + "\".");
      }
    }
    reader.angleOrSides("head", entry.headAngle(), entry.headRun(), entry.headRise());
    reader.angleOrSides("foot", entry.footAngle(), entry.footRun(), entry.footRise());
    reader.optionalLength("ridgeLength", entry.ridgeLength(), "the ridge line");
    reader.optionalLength("ridgeMark", entry.ridgeMark(), "the place of its mark");
    reader.optionalLength("sag", entry.sag(), "the sag");
    reader.optionalLength("headHeight", entry.headHeight(), "the height");
    reader.optionalLength("footHeight", entry.footHeight(), "the height");
    reader.optionalLength("anchorDistance", entry.anchorDistance(), "the distance");
    faults.optionalText("words", entry.words(), "the words", 2000);
    faults.refuseIfAny();
    return hungOn;
  }
}
