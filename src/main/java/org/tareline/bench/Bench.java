package org.tareline.bench;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rig.Moved;
import org.tareline.rig.Rigs;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.weighing.Condition;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import org.tareline.weighing.Subject;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** Logs a weighing, and says what it moved. */
@Service
@Transactional(readOnly = true)
public class Bench {

  /**
   * A weighing of a part as somebody typed it.
   *
   * @param part its code, its name, or enough of either to tell it from all others
   * @param newPart a part to be made for it, when there is none yet
   * @param newScale a scale to be made for it; the weighing is then on this one
   * @param sure that the reading is right, though it looks like another unit; null to be asked
   */
  public record Entry(
      @Nullable String part,
      Weighings.Entry weighing,
      Parts.@Nullable Entry newPart,
      Scales.@Nullable Entry newScale,
      boolean sure) {}

  /**
   * What became of an entry.
   *
   * @param before what the part was known to weigh
   * @param after what it is known to weigh now; as before where this weighing does not count
   * @param moved the rigs whose totals moved
   * @param notes what is to be said about it, as sentences
   */
  public record Outcome(
      Weighing weighing,
      Part part,
      PartMass before,
      PartMass after,
      List<Moved> moved,
      List<String> notes) {

    /** Whether this weighing is now what the part's mass comes from. */
    public boolean counts() {
      return after.weighing() != null && after.weighing().uuid().equals(weighing.uuid());
    }

    /**
     * By how much the part is heavier than it was last weighed or stated; null where nothing was
     * known.
     */
    public @Nullable Estimate change() {
      return counts() && before.estimate() != null
          ? weighing.estimate().minus(before.estimate())
          : null;
    }
  }

  /**
   * How far a reading may be off what is expected before it looks like grams read as ounces, or the
   * reverse.
   */
  private static final BigDecimal LEAST_OFF = new BigDecimal("20");

  private static final BigDecimal MOST_OFF = new BigDecimal("40");
  private static final int CHOICES_NAMED = 5;

  private final Parts parts;
  private final Scales scales;
  private final Weighings weighings;
  private final Rigs rigs;

  Bench(Parts parts, Scales scales, Weighings weighings, Rigs rigs) {
    this.parts = parts;
    this.scales = scales;
    this.weighings = weighings;
    this.rigs = rigs;
  }

  /**
   * Logs a weighing.
   *
   * @param asksAboutUnits whether a reading that looks like another unit is asked about before it
   *     is written
   * @throws org.tareline.site.Refusal with every fault of the entry; nothing has been written then
   */
  @Transactional
  public Outcome log(Member member, Entry entry, boolean asksAboutUnits) {
    Faults faults = new Faults();
    Weighings.Entry typed = entry.weighing();
    Scales.Entry newScale = entry.newScale();
    if (newScale != null) {
      Scale made = faults.within("newScale", () -> scales.add(member, newScale));
      typed = made == null ? typed : on(made, typed);
    }
    Parts.Entry newPart = entry.newPart();
    Part part =
        newPart == null
            ? part(member, entry.part(), faults)
            : faults.within("newPart", () -> parts.add(member, newPart));
    Weighing read = weighings.read(member, typed, faults);
    faults.refuseIfAny();
    if (part == null) {
      throw new IllegalStateException("A fault was noted for a part that was not found");
    }

    PartMass before = parts.mass(member, part);
    if (asksAboutUnits && !entry.sure()) {
      askAboutUnits(before, read, faults);
      faults.refuseIfAny();
    }
    Weighing weighing = weighings.log(read, Subject.part(part.id()));
    PartMass after = parts.mass(member, part);
    Outcome outcome =
        new Outcome(
            weighing,
            part,
            before,
            after,
            rigs.moved(member, part.id(), before, after),
            new ArrayList<>());
    outcome.notes().addAll(notes(outcome));
    return outcome;
  }

  /**
   * Strikes out a weighing of a part.
   *
   * @throws NotThere if there is no such weighing
   * @throws org.tareline.site.Refusal if it has been struck out already or no reason is given
   */
  @Transactional
  public Outcome strikeOut(Member member, UUID uuid, @Nullable String reason) {
    Weighings.Logged logged = weighings.get(member, uuid);
    Part part = partOf(member, logged.subject());
    PartMass before = parts.mass(member, part);
    weighings.strikeOut(member, uuid, reason);
    PartMass after = parts.mass(member, part);
    return new Outcome(
        logged.weighing(),
        part,
        before,
        after,
        rigs.moved(member, part.id(), before, after),
        List.of());
  }

  /**
   * A weighing as it is kept.
   *
   * @param counts whether it is what the part's mass comes from
   */
  public record Kept(Weighings.Logged logged, Part part, boolean counts) {}

  /**
   * Looks a weighing up.
   *
   * @throws NotThere if there is no such weighing of a part
   */
  public Kept kept(Member member, UUID uuid) {
    Weighings.Logged logged = weighings.get(member, uuid);
    Part part = partOf(member, logged.subject());
    Weighing newest = parts.mass(member, part).weighing();
    return new Kept(logged, part, newest != null && newest.uuid().equals(uuid));
  }

  private Part partOf(Member member, Subject subject) {
    return parts.byIds(member, List.of(subject.id())).stream()
        .findFirst()
        .orElseThrow(() -> new NotThere("part"));
  }

  /** The part meant: by its code, else by its whole name, else the only one that fits. */
  private @Nullable Part part(Member member, @Nullable String typed, Faults faults) {
    String text = faults.text("part", typed, "the part's code or name", 200);
    if (text.isEmpty() || text.length() > 200) {
      return null;
    }
    Optional<Part> byCode = parts.find(member, text);
    if (byCode.isPresent()) {
      return byCode.get();
    }
    List<Part> fitting = parts.search(member, text, CHOICES_NAMED + 1);
    List<Part> named =
        fitting.stream().filter(part -> Codes.key(part.name()).equals(Codes.key(text))).toList();
    List<Part> meant = named.isEmpty() ? fitting : named;
    if (meant.size() == 1) {
      return meant.get(0);
    }
    faults.add(
        "part",
        meant.isEmpty()
            ? "There is no part " + Faults.shortened(text) + " in this ledger."
            : "Say which part: "
                + String.join(
                    ", ",
                    meant.stream()
                        .limit(CHOICES_NAMED)
                        .map(p -> p.code() + " (" + p.name() + ")")
                        .toList())
                + (meant.size() > CHOICES_NAMED ? " and more" : "")
                + " fit "
                + Faults.shortened(text)
                + ".");
    return null;
  }

  private static void askAboutUnits(PartMass expected, Weighing read, Faults faults) {
    Estimate known = expected.estimate();
    if (known == null || known.value().signum() <= 0) {
      return;
    }
    BigDecimal now = read.estimate().value().grams();
    BigDecimal then = known.value().grams();
    boolean tooLight = within(then, now);
    if (tooLight || within(now, then)) {
      faults.add(
          "readings",
          "That looks like "
              + (tooLight ? "ounces read as grams" : "grams read as ounces")
              + ": it comes to "
              + now.toPlainString()
              + " g, and "
              + then.toPlainString()
              + " g was known. Type the unit, or say below that the reading is right.");
    }
  }

  private static boolean within(BigDecimal larger, BigDecimal smaller) {
    return larger.compareTo(smaller.multiply(LEAST_OFF)) >= 0
        && larger.compareTo(smaller.multiply(MOST_OFF)) <= 0;
  }

  private static List<String> notes(Outcome outcome) {
    List<String> notes = new ArrayList<>();
    Weighing weighing = outcome.weighing();
    if (weighing.condition() == Condition.DAMP || weighing.condition() == Condition.WET) {
      notes.add(
          "Kept as a "
              + weighing.condition().word()
              + " weighing: only a dry or aired one says what a part weighs.");
    } else if (!outcome.counts()) {
      notes.add("A weighing made later than this one still says what the part weighs.");
    }
    weighing
        .evidence()
        .filter(evidence -> !evidence.repeatabilityKnown())
        .ifPresent(
            evidence ->
                notes.add(
                    "repeatability not known: with one reading, and none recorded of this scale, the ± covers its "
                        + "resolution and span alone. A second reading would tell."));
    return notes;
  }

  private static Weighings.Entry on(Scale scale, Weighings.Entry typed) {
    return new Weighings.Entry(
        scale.code(),
        null,
        typed.readings(),
        typed.tare(),
        typed.count(),
        typed.condition(),
        typed.weighedAt(),
        typed.note());
  }
}
