package org.tareline.bench;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.OutlierScreen;
import org.tareline.ledger.Member;
import org.tareline.material.Material;
import org.tareline.material.Swatches;
import org.tareline.part.LineWeighings;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rig.Forest;
import org.tareline.rig.Moved;
import org.tareline.rig.Reconciliations;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.units.Mass;
import org.tareline.weighing.Placed;
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
   * A weighing as somebody typed it, of a part, of a rig or of several parts at once.
   *
   * @param part its code, its name, or enough of either to tell it from all others; where {@code
   *     loose}, also a rig, or several parts as in {@code BODY + 2 × STRAP}
   * @param loose whether the part may be a rig, or several parts, as the bench's one field takes it
   * @param rig code of a rig weighed whole
   * @param scope code of what is counted of a rig; all of it when left out
   * @param parts what lies on the pan together
   * @param piece label of the piece, where pieces of a part are weighed one by one
   * @param newPart a part to be made for it, when there is none yet
   * @param newScale a scale to be made for it; the weighing is then on this one
   * @param sure that the reading is right, though it looks like another unit; null to be asked
   */
  public record Entry(
      @Nullable String part,
      boolean loose,
      @Nullable String rig,
      @Nullable String scope,
      @Nullable List<@Nullable Several> parts,
      @Nullable String piece,
      Weighings.Entry weighing,
      Parts.@Nullable Entry newPart,
      Scales.@Nullable Entry newScale,
      boolean sure) {}

  /**
   * So many of a part, with others.
   *
   * @param quantity 1 when left out
   */
  public record Several(@Nullable String part, @Nullable String quantity) {}

  /**
   * What became of an entry.
   *
   * @param estimate what the weighing says of the part, of the rig, or of all on the pan
   * @param things the parts that lay on the pan; empty of anything else
   * @param whole of a rig weighed whole; null of anything else
   * @param material that a swatch was cut from; null of anything else
   * @param moved the rigs whose totals moved
   * @param notes what is to be said about it, as sentences
   */
  public record Outcome(
      Weighing weighing,
      Estimate estimate,
      List<Weighed> things,
      @Nullable Whole whole,
      @Nullable Material material,
      List<Moved> moved,
      List<String> notes) {

    /** Whole minus parts of a rig; null of parts. */
    public @Nullable Estimate residual() {
      return whole == null ? null : estimate.minus(whole.parts().estimate());
    }
  }

  /**
   * A part that was weighed.
   *
   * @param before what the part was known to weigh
   * @param after what it is known to weigh now; as before where this weighing does not count
   */
  public record Weighed(Part part, Placed placed, PartMass before, PartMass after) {

    /** Whether this weighing is now what the part's mass comes from. */
    public boolean counts(Weighing weighing) {
      return after.weighing() != null && after.weighing().uuid().equals(weighing.uuid());
    }

    /**
     * By how much the part is heavier than it was last weighed or stated; null where nothing was
     * known, or where this weighing does not count.
     */
    public @Nullable Estimate change(Weighing weighing) {
      Estimate now = after.estimate();
      return counts(weighing) && now != null && before.estimate() != null
          ? now.minus(before.estimate())
          : null;
    }
  }

  /**
   * A rig that was weighed whole.
   *
   * @param forest with all that it holds
   * @param parts the roll-up of it as it is now, under the scope of the weighing
   */
  public record Whole(Rig rig, Scope scope, Forest forest, RollUp parts) {}

  /**
   * How far a reading may be off what is expected before it looks like grams read as ounces, or the
   * reverse.
   */
  private static final BigDecimal LEAST_OFF = new BigDecimal("20");

  private static final BigDecimal MOST_OFF = new BigDecimal("40");
  private static final int CHOICES_NAMED = 5;
  private static final int MOST_TOGETHER = 50;
  private static final int MOST_OF_A_PART = 100_000;
  private static final Pattern COUNTED = Pattern.compile("(\\d{1,6})\\s*[x×]\\s*(\\S.*)");

  private final Parts parts;
  private final Scales scales;
  private final Weighings weighings;
  private final Rigs rigs;
  private final Scopes scopes;
  private final Reconciliations reconciliations;
  private final Swatches swatches;
  private final LineWeighings lines;

  Bench(
      Parts parts,
      Scales scales,
      Weighings weighings,
      Rigs rigs,
      Scopes scopes,
      Reconciliations reconciliations,
      Swatches swatches,
      LineWeighings lines) {
    this.reconciliations = reconciliations;
    this.parts = parts;
    this.scales = scales;
    this.weighings = weighings;
    this.rigs = rigs;
    this.scopes = scopes;
    this.swatches = swatches;
    this.lines = lines;
  }

  /** What an entry says lies on the pan: parts, or a rig with what is counted of it. */
  private record Pan(List<PartOnPan> parts, @Nullable Whole whole) {}

  private record PartOnPan(Part part, Placed placed) {}

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
      typed = made == null ? typed : typed.on(made.code());
    }
    Weighing read = weighings.read(member, typed, faults);
    Pan pan = pan(member, entry, read, faults);
    faults.refuseIfAny();

    List<Part> concerned =
        parts.withCompanions(member, pan.parts().stream().map(PartOnPan::part).toList());
    Map<Long, PartMass> before = parts.masses(member, concerned);
    if (asksAboutUnits && !entry.sure()) {
      askAboutUnits(expected(pan, before), read, faults);
      faults.refuseIfAny();
    }
    Weighing weighing = weighings.log(read, placed(pan, read));
    if (pan.parts().size() > 1) {
      concerned = parts.withCompanions(member, concerned);
    }
    return outcome(member, weighing, pan, concerned, before);
  }

  private Outcome outcome(
      Member member, Weighing weighing, Pan pan, List<Part> concerned, Map<Long, PartMass> before) {
    Map<Long, PartMass> after = parts.masses(member, concerned);
    Outcome outcome =
        new Outcome(
            weighing,
            estimate(member, weighing, pan),
            pan.parts().stream().map(on -> weighed(on, before, after)).toList(),
            pan.whole(),
            null,
            rigs.moved(member, before, after),
            new ArrayList<>());
    outcome.notes().addAll(notes(outcome));
    return outcome;
  }

  private static Weighed weighed(
      PartOnPan on, Map<Long, PartMass> before, Map<Long, PartMass> after) {
    long id = on.part().id();
    return new Weighed(
        on.part(),
        on.placed(),
        before.getOrDefault(id, PartMass.UNKNOWN),
        after.getOrDefault(id, PartMass.UNKNOWN));
  }

  private static List<Placed> placed(Pan pan, Weighing read) {
    Whole whole = pan.whole();
    return whole == null
        ? pan.parts().stream().map(PartOnPan::placed).toList()
        : List.of(
            Placed.rig(
                whole.rig().id(), read.pieceCount(), whole.rig().revision(), whole.scope().code()));
  }

  /**
   * Strikes out a weighing.
   *
   * @throws NotThere if there is no such weighing
   * @throws org.tareline.site.Refusal if it has been struck out already or no reason is given
   */
  @Transactional
  public Outcome strikeOut(Member member, UUID uuid, @Nullable String reason) {
    Kept kept = kept(member, uuid);
    Pan pan =
        new Pan(
            kept.things().stream()
                .map(thing -> new PartOnPan(thing.part(), thing.placed()))
                .toList(),
            kept.whole());
    Material material = kept.material();
    List<Part> concerned =
        material == null
            ? parts.withCompanions(member, pan.parts().stream().map(PartOnPan::part).toList())
            : parts.cutFrom(member, material);
    Map<Long, PartMass> before = parts.masses(member, concerned);
    weighings.strikeOut(member, uuid, reason);
    Map<Long, PartMass> after = parts.masses(member, concerned);
    return new Outcome(
        kept.logged().weighing(),
        kept.estimate(),
        pan.parts().stream().map(on -> weighed(on, before, after)).toList(),
        pan.whole(),
        kept.material(),
        rigs.moved(member, before, after),
        List.of());
  }

  /**
   * A weighing as it is kept.
   *
   * @param logged with the first thing that lay on the pan
   * @param estimate what it says of the part, of the rig, or of all on the pan
   * @param things the parts that lay there, with what they weigh by all that is known; empty of a
   *     rig
   * @param whole of a rig weighed whole; null of anything else
   * @param material that a swatch was cut from; null of anything else
   */
  public record Kept(
      Weighings.Logged logged,
      Estimate estimate,
      List<Weighed> things,
      @Nullable Whole whole,
      @Nullable Material material) {

    /** Whether it is what the mass of a part comes from, or one of what that of a material does. */
    public boolean counts() {
      return (material != null
              && logged.voidReason() == null
              && logged.weighing().condition().saysTheMass())
          || things.stream().anyMatch(thing -> thing.counts(logged.weighing()));
    }
  }

  /**
   * Looks a weighing up.
   *
   * @throws NotThere if there is no such weighing
   */
  public Kept kept(Member member, UUID uuid) {
    List<Weighings.Logged> logged = weighings.things(member, uuid);
    Placed first = logged.get(0).placed();
    if (first.subject().kind().equals(Subject.RIG)) {
      Rig rig =
          rigs.byIds(member, List.of(first.subject().id())).stream()
              .findFirst()
              .orElseThrow(() -> new NotThere("rig"));
      Whole whole = whole(member, rig, scopes.get(member, first.scope()));
      return new Kept(
          logged.get(0),
          estimate(member, logged.get(0).weighing(), new Pan(List.of(), whole)),
          List.of(),
          whole,
          null);
    }
    if (first.subject().kind().equals(Subject.SWATCH)) {
      return new Kept(
          logged.get(0),
          logged.get(0).weighing().estimate(),
          List.of(),
          null,
          swatches.materialsOf(member, List.of(first.subject().id())).get(first.subject().id()));
    }
    boolean ofLine = first.subject().kind().equals(Subject.CUT_LINE);
    Map<Long, Part> named =
        ofLine
            ? lines.partsOf(member, List.of(first.subject().id()))
            : parts
                .byIds(member, logged.stream().map(each -> each.subject().id()).toList())
                .stream()
                .collect(Collectors.toMap(Part::id, part -> part));
    if (ofLine && named.isEmpty()) {
      throw new NotThere("weighing");
    }
    Map<Long, PartMass> masses = parts.masses(member, named.values());
    List<PartOnPan> on =
        logged.stream()
            .filter(each -> named.containsKey(each.subject().id()))
            .map(
                each ->
                    new PartOnPan(
                        Objects.requireNonNull(named.get(each.subject().id())), each.placed()))
            .toList();
    return new Kept(
        logged.get(0),
        ofLine
            ? logged.get(0).weighing().estimate()
            : estimate(member, logged.get(0).weighing(), new Pan(on, null)),
        on.stream().map(each -> weighed(each, masses, masses)).toList(),
        null,
        null);
  }

  private Estimate estimate(Member member, Weighing weighing, Pan pan) {
    Whole whole = pan.whole();
    if (whole != null) {
      return reconciliations.whole(member, weighing, whole.forest(), whole.parts());
    }
    return pan.parts().size() == 1
        ? parts.weighed(member, pan.parts().get(0).part(), weighing)
        : weighing.estimate();
  }

  private Whole whole(Member member, Rig rig, Scope scope) {
    Forest forest = rigs.forest(member, List.of(rig.id()));
    return new Whole(rig, scope, forest, RollUp.of(forest.assembly(rig.id()), scope));
  }

  private Pan pan(Member member, Entry entry, Weighing read, Faults faults) {
    List<@Nullable Several> several = several(member, entry);
    if (several != null) {
      return together(member, entry, several, read, faults);
    }
    String rigTyped = rigMeant(member, entry);
    if (rigTyped != null) {
      return new Pan(List.of(), whole(member, entry, rigTyped, faults));
    }
    if (entry.scope() != null && !entry.scope().isBlank()) {
      faults.add("scope", "What is counted is said of a rig; a part is weighed as it is.");
    }
    Parts.Entry newPart = entry.newPart();
    Part part =
        newPart == null
            ? part(member, "part", entry.part(), faults)
            : faults.within("newPart", () -> parts.add(member, newPart));
    String piece = faults.optionalText("piece", entry.piece(), "the label of the piece", 60);
    if (piece != null && read.pieceCount() > 1) {
      faults.add("count", "Weigh a labelled piece by itself: the count is then 1.");
    }
    if (part == null) {
      return new Pan(List.of(), null);
    }
    return new Pan(
        List.of(
            new PartOnPan(
                part,
                piece == null
                    ? Placed.part(part.id(), read.pieceCount())
                    : Placed.piece(part.id(), piece))),
        null);
  }

  /** The parts named together; null where one thing is named. */
  private @Nullable List<@Nullable Several> several(Member member, Entry entry) {
    String typed = entry.part();
    if (entry.parts() != null || !entry.loose() || typed == null || !typed.contains("+")) {
      return entry.parts();
    }
    return parts.find(member, typed).isPresent() || rigs.find(member, typed).isPresent()
        ? null
        : Arrays.stream(typed.split("\\+", -1)).map(Bench::counted).toList();
  }

  /** So many of a part, as {@code 2 × STRAP} or {@code 2x STRAP} says it. */
  private static Several counted(String typed) {
    Matcher matcher = COUNTED.matcher(typed.strip());
    return matcher.matches()
        ? new Several(matcher.group(2), matcher.group(1))
        : new Several(typed.strip(), null);
  }

  private @Nullable String rigMeant(Member member, Entry entry) {
    String typed = entry.part();
    if (entry.rig() != null || !entry.loose() || typed == null || typed.isBlank()) {
      return entry.rig();
    }
    boolean scoped = entry.scope() != null && !entry.scope().isBlank();
    return typed.strip().length() <= Codes.LONGEST
            && (scoped || parts.find(member, typed).isEmpty())
            && rigs.find(member, typed).isPresent()
        ? typed
        : null;
  }

  private @Nullable Whole whole(Member member, Entry entry, String typed, Faults faults) {
    if (entry.part() != null && entry.rig() != null) {
      faults.add("rig", "Name the part or the rig that lay on the pan, not both.");
    }
    if (entry.piece() != null && !entry.piece().isBlank()) {
      faults.add("piece", "Pieces are labelled of a part, not of a rig.");
    }
    if (entry.weighing().before() != null && !entry.weighing().before().isEmpty()) {
      faults.add("before", "A rig is weighed whole, not by difference.");
    }
    Rig rig = rigs.find(member, typed).orElse(null);
    if (rig == null) {
      faults.add(
          entry.rig() == null ? "part" : "rig",
          "There is no rig " + Faults.shortened(typed) + " in this ledger.");
    }
    String scopeTyped = faults.optionalText("scope", entry.scope(), "what is counted", 60);
    Scope scope =
        scopeTyped == null ? Scope.COMPLETE : scopes.find(member, scopeTyped).orElse(null);
    if (scope == null) {
      faults.add(
          "scope",
          "There is no scope "
              + Faults.shortened(String.valueOf(scopeTyped))
              + " in this ledger; there are "
              + String.join(", ", scopes.all(member).stream().map(Scope::code).toList())
              + ".");
    }
    if (rig == null || scope == null) {
      return null;
    }
    try {
      return whole(member, rig, scope);
    } catch (ArithmeticException tooHeavy) {
      faults.add(entry.rig() == null ? "part" : "rig", String.valueOf(tooHeavy.getMessage()));
      return null;
    }
  }

  private Pan together(
      Member member, Entry entry, List<@Nullable Several> several, Weighing read, Faults faults) {
    if (entry.rig() != null || (!entry.loose() && entry.part() != null)) {
      faults.add("parts", "Name one part, one rig, or several parts together.");
    }
    if (entry.piece() != null && !entry.piece().isBlank()) {
      faults.add("piece", "Weigh a labelled piece by itself.");
    }
    if (entry.scope() != null && !entry.scope().isBlank()) {
      faults.add("scope", "What is counted is said of a rig, not of parts together.");
    }
    if (read.pieceCount() > 1) {
      faults.add("count", "Say with each part how many of it lie on the pan.");
    }
    if (several.size() > MOST_TOGETHER) {
      faults.add(
          "parts",
          "Name at most " + MOST_TOGETHER + " parts together; there are " + several.size() + ".");
      return new Pan(List.of(), null);
    }
    Map<Long, PartOnPan> found = new LinkedHashMap<>();
    for (int i = 0; i < several.size(); i++) {
      Several each = several.get(i) == null ? new Several(null, null) : several.get(i);
      String field = entry.loose() ? "part" : "parts[" + i + "].part";
      Part part = part(member, field, each.part(), faults);
      int quantity =
          faults.wholeNumber(
              entry.loose() ? "part" : "parts[" + i + "].quantity",
              each.quantity(),
              "how many of it",
              1,
              MOST_OF_A_PART,
              1);
      if (part != null && found.containsKey(part.id())) {
        faults.add(field, "Name " + part.code() + " once, and say how many of it.");
      } else if (part != null) {
        found.put(part.id(), new PartOnPan(part, Placed.part(part.id(), quantity)));
      }
    }
    if (faults.none() && found.size() < 2) {
      faults.add("parts", "Name two parts or more, or weigh the one by itself.");
    }
    return new Pan(List.copyOf(found.values()), null);
  }

  /** The part meant: by its code, else by its whole name, else the only one that fits. */
  private @Nullable Part part(Member member, String field, @Nullable String typed, Faults faults) {
    String text = faults.text(field, typed, "the part's code or name", 200);
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
        field,
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

  /** What the pan should come to by all that is known; null where something on it is not known. */
  private static @Nullable Estimate expected(Pan pan, Map<Long, PartMass> masses) {
    Whole whole = pan.whole();
    if (whole != null) {
      return whole.parts().atLeast() ? null : whole.parts().estimate();
    }
    if (pan.parts().size() == 1) {
      return masses.getOrDefault(pan.parts().get(0).part().id(), PartMass.UNKNOWN).estimate();
    }
    Estimate sum = Estimate.exact(Mass.ZERO);
    for (PartOnPan on : pan.parts()) {
      int quantity = on.placed().quantity();
      Estimate each = masses.getOrDefault(on.part().id(), PartMass.UNKNOWN).each(quantity);
      if (each == null) {
        return null;
      }
      sum = sum.plus(each.times(quantity));
    }
    return sum;
  }

  private static void askAboutUnits(@Nullable Estimate known, Weighing read, Faults faults) {
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
    if (!weighing.condition().saysTheMass()) {
      notes.add(
          "Kept as a "
              + weighing.condition().word()
              + " weighing: only a dry or aired one says what a "
              + (outcome.whole() == null ? "part" : "rig")
              + " weighs.");
    } else if (outcome.things().size() > 1) {
      notes.add(together(outcome));
    } else if (outcome.whole() == null && !outcome.things().get(0).counts(weighing)) {
      notes.add("A weighing made later than this one still says what the part weighs.");
    }
    weighing.flagged().forEach(flag -> notes.add(apart(weighing, flag)));
    if (!weighing.repeatabilityKnown().orElse(true)) {
      notes.add(
          "repeatability not known: with one reading, and none recorded of this scale, the ± covers its "
              + "resolution and span alone. A second reading would tell.");
    }
    return notes;
  }

  private static String apart(Weighing weighing, OutlierScreen.Flag flag) {
    return "Reading "
        + (flag.index() + 1)
        + ", "
        + weighing.readings().get(flag.index()).typed()
        + ", stands apart from the others ("
        + String.join(", ", flag.tests().stream().map(OutlierScreen.Test::word).toList())
        + "). It counts like the others; if something was wrong with it, strike the weighing out and weigh again.";
  }

  /** What the sum says beyond itself: of one that was not known, or of all that were. */
  private static String together(Outcome outcome) {
    List<String> found =
        outcome.things().stream()
            .filter(thing -> thing.counts(outcome.weighing()))
            .map(thing -> thing.part().code())
            .toList();
    return found.isEmpty()
        ? "The sum is kept with each of them; it is not shared out, for only where one alone is not known otherwise can it be told what is left for it."
        : "Of what lay on the pan "
            + String.join(", ", found)
            + " was not known: it has what the others leave of the sum.";
  }
}
