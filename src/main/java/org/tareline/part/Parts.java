package org.tareline.part;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Fibre;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.material.Material;
import org.tareline.material.StrengthKind;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.units.DecimalMark;
import org.tareline.units.Kind;
import org.tareline.units.Mass;
import org.tareline.units.Quantity;
import org.tareline.units.Tolerance;
import org.tareline.units.Unit;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Subject;
import org.tareline.weighing.UsableChanged;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** The parts of a ledger, and what they weigh. */
@Service
@Transactional(readOnly = true)
public class Parts implements ReadAgain {

  static final String KIND = "part";

  static final int MOST_OWNED = 1_000_000;

  /** More than this many weighings of one part are not shown at once. */
  private static final int MOST_EVIDENCE = 500;

  /**
   * A part as somebody typed it. A bare number is in grams.
   *
   * @param system a word of {@link GearSystem}; {@code other} when left out
   * @param owned how many of it are owned; 1 when left out
   * @param fibre a word of {@link Fibre}, where it is known
   * @param packed the room it takes when it is packed; not known when left out
   * @param sheet the cut list; null to leave it as it is
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable String system,
      @Nullable String owned,
      @Nullable StatedEntry stated,
      @Nullable String fibre,
      @Nullable StrengthEntry strength,
      Comfort.@Nullable Entry comfort,
      PackedSize.@Nullable Entry packed,
      @Nullable String note,
      @Nullable SheetEntry sheet) {

    /** One that leaves the cut list as it is, of a part whose strength and size are not known. */
    public Entry(
        @Nullable String code,
        @Nullable String name,
        @Nullable String system,
        @Nullable String owned,
        @Nullable StatedEntry stated,
        @Nullable String fibre,
        @Nullable String note) {
      this(code, name, system, owned, stated, fibre, null, null, null, note, null);
    }
  }

  /** What a part holds as somebody typed it. */
  public record StrengthEntry(@Nullable String strength, @Nullable String kind) {}

  /**
   * A cut list as somebody typed it; one without lines is none.
   *
   * @param cuttingTolerance ± of every cut edge; common practice when left out
   */
  public record SheetEntry(
      @Nullable String cuttingTolerance, @Nullable List<@Nullable CutEntry> lines) {}

  /**
   * A line of a cut list as somebody typed it.
   *
   * @param id of a line that is there and stays, with its weighings; null of a new one
   * @param sizes by their names; those not given are null or left out
   * @param stitch 301, where the thread of a seam is by the geometry of that stitch
   */
  public record CutEntry(
      @Nullable String id,
      @Nullable String name,
      @Nullable String kind,
      @Nullable String shape,
      @Nullable String material,
      @Nullable String quantity,
      @Nullable Boolean removed,
      @Nullable String stitch,
      Map<CutSize, @Nullable String> sizes) {}

  /**
   * A stated or guessed mass as somebody typed it, with a tolerance such as {@code 5 %} or {@code 2
   * g}.
   *
   * @param mark what is known of the decimal mark in both
   */
  public record StatedEntry(@Nullable String mass, @Nullable String tolerance, DecimalMark mark) {

    /** One of which nothing is known. */
    public StatedEntry(@Nullable String mass, @Nullable String tolerance) {
      this(mass, tolerance, DecimalMark.POINT);
    }

    /** What is known of the mark in a text: of what is kept already, that it was read then. */
    private DecimalMark mark(String text, Optional<String> kept) {
      return kept.filter(text::equals).isPresent() ? DecimalMark.EITHER : mark;
    }
  }

  /** An entry that could be read; as kept with each revision. */
  record Read(
      String code,
      String name,
      GearSystem system,
      int owned,
      @Nullable Mass stated,
      @Nullable String statedTyped,
      @Nullable Mass statedHalfWidth,
      @Nullable String statedToleranceTyped,
      @Nullable Fibre fibre,
      @Nullable String strengthTyped,
      @Nullable StrengthKind strengthKind,
      Comfort.Read comfort,
      PackedSize packed,
      @Nullable String note,
      @Nullable CutSheet sheet) {

    Read with(CutSheet another) {
      return new Read(
          code,
          name,
          system,
          owned,
          stated,
          statedTyped,
          statedHalfWidth,
          statedToleranceTyped,
          fibre,
          strengthTyped,
          strengthKind,
          comfort,
          packed,
          note,
          another);
    }
  }

  private final PartRepository parts;
  private final LifeEventRepository events;
  private final CutSheets sheets;
  private final Weighings weighings;
  private final Revisions revisions;
  private final Clock clock;

  Parts(
      PartRepository parts,
      LifeEventRepository events,
      CutSheets sheets,
      Weighings weighings,
      Revisions revisions,
      Clock clock) {
    this.parts = parts;
    this.events = events;
    this.sheets = sheets;
    this.weighings = weighings;
    this.revisions = revisions;
    this.clock = clock;
  }

  public List<Part> all(Member member) {
    return parts.findByLedgerIdOrderByCodeKey(member.ledgerId());
  }

  /** What a part is looked for, sorted and counted by, without what it weighs. */
  public record Listed(long id, String code, String name, GearSystem system, int owned) {}

  /** All parts of the ledger, in no order. */
  public List<Listed> listed(Member member) {
    return parts.listed(member.ledgerId()).stream()
        .map(
            row ->
                new Listed(
                    (Long) row[0],
                    (String) row[1],
                    (String) row[2],
                    GearSystem.of((String) row[3]).orElse(GearSystem.OTHER),
                    (Integer) row[4]))
        .toList();
  }

  /**
   * The parts after a code, by code; from the first where it is empty.
   *
   * @param after need not be the code of a part
   */
  public List<Part> after(Member member, String after, int most) {
    return parts.findByLedgerIdAndCodeKeyGreaterThanOrderByCodeKey(
        member.ledgerId(), Codes.key(after), Limit.of(most));
  }

  /** The part with this code, or that once had it. */
  public Optional<Part> find(Member member, String code) {
    return id(member, code).flatMap(id -> parts.findByLedgerIdAndId(member.ledgerId(), id));
  }

  private Optional<Long> id(Member member, String code) {
    return parts
        .idOf(member.ledgerId(), Codes.key(code))
        .or(() -> revisions.formerly(member, KIND, code));
  }

  public Part get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere("part"));
  }

  public List<Part> byIds(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : parts.byIds(member.ledgerId(), ids.toArray(Long[]::new));
  }

  /** Those that have these codes now, by the key of the code. */
  public Map<String, Part> byCodes(Member member, Collection<String> codes) {
    Map<String, Part> found = new HashMap<>();
    List<String> keys = codes.stream().map(Codes::key).distinct().toList();
    if (!keys.isEmpty()) {
      parts
          .byCodeKeys(member.ledgerId(), keys.toArray(String[]::new))
          .forEach(part -> found.put(Codes.key(part.code()), part));
      keys.stream()
          .filter(key -> !found.containsKey(key))
          .forEach(key -> find(member, key).ifPresent(part -> found.put(key, part)));
    }
    return found;
  }

  /** Those whose code or name holds the text, best fit first. */
  public List<Part> search(Member member, String text, int most) {
    String key = Codes.key(text).replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_");
    return key.length() > 200 ? List.of() : parts.holding(member.ledgerId(), key, Limit.of(most));
  }

  /** Those that were never weighed, by code. */
  public List<Part> waiting(Member member, int most) {
    return parts.neverWeighed(member.ledgerId(), most);
  }

  /** A part that may have no usable weighing is one that the bench looks at. */
  @EventListener
  void noteWhetherTheyWait(UsableChanged changed) {
    parts.note(
        changed.ledgerId(),
        changed.subjects().stream()
            .filter(subject -> subject.kind().equals(Subject.PART))
            .map(Subject::id)
            .toArray(Long[]::new),
        !changed.usable());
  }

  /** The same of all parts, for whoever writes weighings and strike-outs past {@link Weighings}. */
  @Transactional
  public void noteWhichWait(Member member) {
    parts.lockAll(member.ledgerId());
    parts.noteAll(member.ledgerId());
  }

  /** What each of these parts weighs, in a fixed number of queries. */
  public Map<Long, PartMass> masses(Member member, Collection<Part> of) {
    return masses(member, of, unweighed -> sheets.of(member, unweighed));
  }

  /** The same of the parts with these ids. */
  public Map<Long, PartMass> massesByIds(Member member, Collection<Long> ids) {
    return masses(member, byIds(member, ids));
  }

  private Map<Long, PartMass> masses(
      Member member,
      Collection<Part> of,
      Function<Collection<Part>, Map<Long, Calculation>> calculations) {
    Map<Long, PartMass> masses = byThemselves(member, of, calculations);
    Map<Long, Part> unknown =
        of.stream()
            .filter(part -> masses.getOrDefault(part.id(), PartMass.UNKNOWN).estimate() == null)
            .collect(Collectors.toMap(Part::id, part -> part, (same, twice) -> same));
    if (!unknown.isEmpty()) {
      masses.putAll(remainders(member, unknown));
    }
    return masses;
  }

  /** By the newest weighing, else by the cut list, else as stated. */
  private Map<Long, PartMass> byThemselves(
      Member member,
      Collection<Part> of,
      Function<Collection<Part>, Map<Long, Calculation>> calculations) {
    Map<Long, Weighings.Newest> newest =
        weighings.newestUsable(member, Subject.PART, of.stream().map(Part::id).toList());
    Map<Long, PartMass> masses = new HashMap<>();
    for (Part part : of) {
      masses.put(part.id(), part.mass(newest.get(part.id()), air(member)));
    }
    calculations
        .apply(of.stream().filter(part -> !newest.containsKey(part.id())).toList())
        .forEach((id, calculation) -> masses.put(id, PartMass.calculated(calculation)));
    return masses;
  }

  /**
   * What these parts hold, as far as it is known: by themselves or, where nothing is stated of the
   * part, by the weakest of the cord and webbing they are cut from.
   */
  public Map<Long, Strength> strengths(Member member, Collection<Part> of) {
    Map<Long, Strength> strengths = new HashMap<>();
    sheets
        .of(member, of)
        .forEach(
            (id, calculation) ->
                calculation.strength().ifPresent(strength -> strengths.put(id, strength)));
    of.forEach(part -> part.strength().ifPresent(own -> strengths.put(part.id(), own)));
    return strengths;
  }

  /** The parts whose cut lists use a material, by code. */
  public List<Part> cutFrom(Member member, Material material) {
    return byIds(member, sheets.partsOf(member, material)).stream()
        .sorted(Comparator.comparing(part -> Codes.key(part.code())))
        .toList();
  }

  /** What its cut list comes to; nothing where it has none. */
  public Optional<Calculation> calculation(Member member, Part part) {
    return Optional.ofNullable(sheets.of(member, List.of(part)).get(part.id()));
  }

  /**
   * What is left for parts of which nothing else is known, of weighings in which they lay on the
   * pan with others that are known.
   */
  private Map<Long, PartMass> remainders(Member member, Map<Long, Part> unknown) {
    Map<Long, Weighings.Together> together =
        weighings.newestTogether(member, Subject.PART, unknown.keySet());
    Set<Long> others =
        together.values().stream()
            .flatMap(each -> each.things().stream())
            .map(placed -> placed.subject().id())
            .filter(id -> !unknown.containsKey(id))
            .collect(Collectors.toSet());
    Map<Long, Part> beside =
        byIds(member, others).stream().collect(Collectors.toMap(Part::id, part -> part));
    Map<Long, PartMass> known =
        byThemselves(member, beside.values(), unweighed -> sheets.of(member, unweighed));
    beside.putAll(unknown);
    Map<Long, PartMass> remainders = new HashMap<>();
    together.forEach(
        (id, weighed) -> {
          List<Part.Beside> rest = new ArrayList<>();
          int quantity = 1;
          for (Placed placed : weighed.things()) {
            if (placed.subject().id() == id) {
              quantity = placed.quantity();
            } else {
              long other = placed.subject().id();
              rest.add(
                  new Part.Beside(
                      Objects.requireNonNull(beside.get(other)),
                      known.getOrDefault(other, PartMass.UNKNOWN),
                      placed.quantity()));
            }
          }
          remainders.put(
              id,
              Objects.requireNonNull(unknown.get(id))
                  .remainder(weighed.weighing(), quantity, rest, air(member)));
        });
    return remainders;
  }

  /** These parts, and those that once lay on the pan with one of them. */
  public List<Part> withCompanions(Member member, List<Part> of) {
    Set<Long> ids = of.stream().map(Part::id).collect(Collectors.toSet());
    List<Long> companions =
        weighings.companions(member, Subject.PART, ids).stream()
            .filter(id -> !ids.contains(id))
            .toList();
    List<Part> all = new ArrayList<>(of);
    all.addAll(byIds(member, companions));
    return all;
  }

  public PartMass mass(Member member, Part part) {
    return masses(member, List.of(part)).getOrDefault(part.id(), PartMass.UNKNOWN);
  }

  private AirOfDay air(Member member) {
    return new AirOfDay(member.settings(), clock.getZone());
  }

  /** What a part weighs by one weighing of it, the air of its day with it. */
  public Estimate weighed(Member member, Part part, Weighing weighing) {
    return air(member).weighed(part, weighing);
  }

  /**
   * What the air of the day of a weighing did to so much of a part that lay on the pan: an error,
   * and no mass.
   */
  public Estimate airOn(Member member, Part part, Weighing weighing, Mass mass) {
    return air(member).on(part, weighing, mass);
  }

  /** The same of a part that is weighed now, not aired. */
  public Estimate airNow(Member member, Part part, Mass mass) {
    return air(member).at(clock.instant(), part, mass);
  }

  /** What a part weighs, and all that is known about it. */
  public PartEvidence evidence(Member member, Part part) {
    List<Weighings.Logged> newest =
        weighings.historyOf(member, Subject.part(part.id()), MOST_EVIDENCE + 1);
    List<Weighings.Logged> shown = newest.stream().limit(MOST_EVIDENCE).toList();
    Map<UUID, Estimate> estimates = new HashMap<>();
    for (Weighings.Logged logged : shown) {
      Weighing weighing = logged.weighing();
      estimates.put(
          weighing.uuid(),
          logged.together() ? weighing.estimate() : weighed(member, part, weighing));
    }
    List<LifeEvents.Logged> happened = LifeEvents.of(events, member, part, MOST_EVIDENCE + 1);
    Calculation calculation = calculation(member, part).orElse(null);
    Map<Long, Calculation> known = calculation == null ? Map.of() : Map.of(part.id(), calculation);
    Map<Long, PartMass> masses =
        masses(member, List.of(part), unweighed -> unweighed.isEmpty() ? Map.of() : known);
    return new PartEvidence(
        masses.getOrDefault(part.id(), PartMass.UNKNOWN),
        shown,
        estimates,
        newest.size() > MOST_EVIDENCE,
        happened.stream().limit(MOST_EVIDENCE).toList(),
        happened.size() > MOST_EVIDENCE,
        events.lent(member.ledgerId(), part.id()),
        part.statedMass(member.statedTolerance()),
        calculation,
        calculation == null ? Map.of() : sheets.onHand(member, calculation));
  }

  /**
   * Puts a part into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Part add(Member member, Entry entry) {
    return add(member, entry, null);
  }

  /** As {@link #add(Member, Entry)}, as a variant of another part. */
  @Transactional
  Part add(Member member, Entry entry, @Nullable Part variantOf) {
    Read read = read(member, entry, null);
    Part part =
        new Part(
            member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS), variantOf);
    Revisions.write(read.code(), () -> parts.save(part));
    keepSheet(member, part, read);
    revisions.keep(member, KIND, part.id(), part.revision(), read);
    return part;
  }

  /**
   * Describes a part anew; the earlier description is kept.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws NotThere if there is no such part
   * @throws org.tareline.site.Refusal if the entry cannot be read, the code is taken or somebody
   *     saved since
   */
  @Transactional
  public Part change(Member member, String code, Entry entry, @Nullable Integer expected) {
    Part part = locked(member, code);
    Revisions.guard("part " + part.code(), part.revision(), expected);
    Read read = read(member, entry, part);
    revisions.recode(member, KIND, part.id(), part.code(), read.code());
    part.describe(read);
    Revisions.write(read.code(), parts::flush);
    keepSheet(member, part, read);
    revisions.keep(member, KIND, part.id(), part.revision(), read);
    return part;
  }

  /**
   * Gives a part another cut list, and leaves all else as it is.
   *
   * @param expected the revision that the change started from
   * @throws NotThere if there is no such part
   * @throws org.tareline.site.Refusal if the list cannot be read or somebody saved since
   */
  @Transactional
  public Part cut(Member member, String code, SheetEntry entry, int expected) {
    Part part = locked(member, code);
    Revisions.guard("part " + part.code(), part.revision(), expected);
    Faults faults = new Faults();
    CutSheet sheet = sheets.read(member, part, entry, faults);
    faults.refuseIfAny();
    Read read = part.read().with(sheet);
    part.describe(read);
    parts.flush();
    keepSheet(member, part, read);
    revisions.keep(member, KIND, part.id(), part.revision(), read);
    return part;
  }

  private void keepSheet(Member member, Part part, Read read) {
    if (read.sheet() != null) {
      sheets.keep(member, part, read.sheet());
    }
  }

  /** The part with this code, for changing it: nobody else does until this transaction ends. */
  Part locked(Member member, String code) {
    return id(member, code)
        .flatMap(id -> parts.lock(member.ledgerId(), id))
        .orElseThrow(() -> new NotThere("part"));
  }

  /** Takes note that so many of a part are owned now; the earlier description is kept. */
  void own(Member member, Part part, int owned) {
    part.own(owned);
    revisions.keep(member, KIND, part.id(), part.revision(), part.read());
  }

  @Override
  public String table() {
    return "part";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<Part> of = byIds(member, ids);
    Map<Long, List<CutLine>> cut = sheets.linesOf(member, of);
    return ReadAgain.each(
        of,
        Part::id,
        part -> {
          Faults faults = new Faults();
          Read read = read(member, part.entry(), part, faults);
          if (faults.none() && !part.saysAs(read)) {
            faults.add("", "Let the figures say what is typed beside them.");
          }
          sheets.readAgain(member, part, cut.getOrDefault(part.id(), List.of()), faults);
          faults.refuseIfAny();
        });
  }

  private Read read(Member member, Entry entry, @Nullable Part itself) {
    Faults faults = new Faults();
    Read read = read(member, entry, itself, faults);
    int lent = itself == null ? 0 : events.lent(member.ledgerId(), itself.id());
    if (read.owned() < lent) {
      faults.conflict(
          "owned",
          "Give at least the " + lent + " that are lent, or note first that they were returned.");
    }
    if (faults.none()) {
      Optional<Part> other =
          parts.findByLedgerIdAndCodeKey(member.ledgerId(), Codes.key(read.code()));
      if (other.isPresent() && (itself == null || other.get().id() != itself.id())) {
        faults.conflict(
            "code",
            "Choose another code: " + read.code() + " is " + other.get().name() + " already.");
      } else {
        revisions.refuseFormerCode(
            member, KIND, read.code(), itself == null ? null : itself.id(), faults);
      }
    }
    faults.refuseIfAny();
    return read;
  }

  /** As far as it can be told without looking at other parts; useless where a fault was noted. */
  private Read read(Member member, Entry entry, @Nullable Part itself, Faults faults) {
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    String systemTyped = faults.optionalText("system", entry.system(), "the system", 60);
    GearSystem system =
        systemTyped == null ? GearSystem.OTHER : GearSystem.of(systemTyped).orElse(null);
    if (system == null) {
      faults.add(
          "system",
          "Say hang, sleep, rain, pack, clothing, cook, water, food, light, repair, hygiene or other.");
    }
    int owned = faults.wholeNumber("owned", entry.owned(), "how many are owned", 0, MOST_OWNED, 1);
    StatedEntry statedEntry = entry.stated() == null ? new StatedEntry(null, null) : entry.stated();
    String statedTyped =
        faults.optionalText("stated.mass", statedEntry.mass(), "the stated mass", 200);
    String toleranceTyped =
        faults.optionalText("stated.tolerance", statedEntry.tolerance(), "the tolerance", 200);
    Optional<Part> kept = Optional.ofNullable(itself);
    Quantity stated =
        statedTyped == null
            ? null
            : faults.read(
                "stated.mass",
                () ->
                    Quantity.read(
                            statedTyped,
                            Kind.MASS,
                            Unit.GRAM,
                            statedEntry.mark(statedTyped, kept.flatMap(Part::statedTyped)))
                        .positive());
    Tolerance tolerance =
        toleranceTyped == null
            ? null
            : faults.read(
                "stated.tolerance",
                () ->
                    Tolerance.read(
                        toleranceTyped,
                        Kind.MASS,
                        Unit.GRAM,
                        statedEntry.mark(
                            toleranceTyped, kept.flatMap(Part::statedToleranceTyped))));
    if (toleranceTyped != null && statedTyped == null) {
      faults.add("stated.mass", "Give the stated mass that the tolerance belongs to.");
    }
    String fibreTyped = faults.optionalText("fibre", entry.fibre(), "the fibre", 60);
    Fibre fibre = fibreTyped == null ? null : Fibre.of(fibreTyped).orElse(null);
    if (fibreTyped != null && fibre == null) {
      faults.add(
          "fibre",
          "Say nylon, polyester, hmpe, cotton, wool or down, or leave it out; read \""
              + Faults.shortened(fibreTyped)
              + "\".");
    }
    StrengthEntry strength =
        entry.strength() == null ? new StrengthEntry(null, null) : entry.strength();
    String strengthTyped =
        faults.optionalText("strength", strength.strength(), "the strength", 200);
    if (strengthTyped != null) {
      faults.read("strength", () -> Quantity.read(strengthTyped, Kind.FORCE, null).positive());
    }
    StrengthKind strengthKind = StrengthKind.read(faults, "", strengthTyped, strength.kind());
    Comfort.Read comfort = Comfort.read(faults, entry.comfort());
    PackedSize packed =
        PackedSize.read(
            faults,
            "packed",
            true,
            entry.packed() == null ? PackedSize.Entry.EMPTY : entry.packed());
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    CutSheet sheet =
        entry.sheet() == null ? null : sheets.read(member, itself, entry.sheet(), faults);

    return new Read(
        code,
        name,
        system == null ? GearSystem.OTHER : system,
        owned,
        stated == null ? null : stated.mass(),
        statedTyped,
        stated == null || tolerance == null ? null : tolerance.ofMass(stated.mass()),
        toleranceTyped,
        fibre,
        strengthTyped,
        strengthKind,
        comfort,
        packed,
        note,
        sheet);
  }
}
