package org.tareline.rig;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.material.StrengthKind;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.part.Strength;
import org.tareline.rollup.Piece;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;
import org.tareline.statics.Assessment;
import org.tareline.statics.Element;
import org.tareline.statics.Give;
import org.tareline.units.Kind;
import org.tareline.units.Percent;
import org.tareline.units.Range;

/** How rigs are hung, and what they then carry. */
@Service
@Transactional(readOnly = true)
public class HangLoads implements ReadAgain {

  private static final String KIND = "rig loads";
  private static final int MOST_ELEMENTS = 200;

  /** Roles whose parts carry load wherever they stand. */
  private static final Set<String> CARRY =
      Set.of(
          "suspension",
          "tree strap",
          "continuous loop",
          "hardware",
          "structural ridge line",
          "spreader bar",
          "body");

  /** Whether what stands in this role carries load wherever it does. */
  public static boolean carriesLoad(String role) {
    return CARRY.contains(role);
  }

  /** How a rig is hung, as somebody typed it; as {@link RigLoads.Entry}, with its elements. */
  public record Entry(
      @Nullable String lies,
      @Nullable String hangs,
      @Nullable String dynamicAllowance,
      @Nullable String designFactor,
      @Nullable String ridgeLength,
      @Nullable String flatLength,
      @Nullable String edgeSpan,
      @Nullable String edgeSag,
      @Nullable String treeGives,
      @Nullable String settles,
      @Nullable List<HangEntry.@Nullable EndEntry> ends,
      @Nullable List<@Nullable PartEntry> elements) {

    RigLoads.Entry hang() {
      return new RigLoads.Entry(
          lies,
          hangs,
          dynamicAllowance,
          designFactor,
          ridgeLength,
          flatLength,
          edgeSpan,
          edgeSag,
          treeGives,
          settles,
          ends);
    }
  }

  /**
   * A part in the path of the load, as somebody typed it.
   *
   * @param part code
   * @param where a word of {@link LoadPlace}
   * @param termination a word of {@link Termination}; not known when left out
   * @param terminationFactor what that leaves, where it is known better than by the word
   * @param terminationSource where that comes from
   * @param length of one such line, and
   * @param breakingStretch how much longer it is when it breaks, as a percentage: for how far it
   *     gives
   */
  public record PartEntry(
      @Nullable String part,
      @Nullable String where,
      @Nullable String termination,
      @Nullable String terminationFactor,
      @Nullable String terminationSource,
      @Nullable String length,
      @Nullable String breakingStretch) {}

  private final RigLoadsRepository loads;
  private final Rigs rigs;
  private final Parts parts;
  private final Revisions revisions;

  HangLoads(RigLoadsRepository loads, Rigs rigs, Parts parts, Revisions revisions) {
    this.loads = loads;
    this.rigs = rigs;
    this.parts = parts;
    this.revisions = revisions;
  }

  /** The loads of a rig. */
  public RigLoad of(Member member, Rig rig) {
    return Objects.requireNonNull(of(member, List.of(rig)).get(rig.id()));
  }

  /** The loads of those of these rigs of which it is said how they are hung, by their codes. */
  public Map<String, RigLoad> ofThoseHung(Member member, Collection<String> codes) {
    Map<String, Rig> named = rigs.byCodesNow(member, codes);
    Map<Long, RigLoads> kept = kept(member, named.values());
    Map<String, RigLoad> found = new HashMap<>();
    if (!kept.isEmpty()) {
      of(member, named.values().stream().filter(rig -> kept.containsKey(rig.id())).toList())
          .values()
          .forEach(load -> found.put(load.rig().code(), load));
    }
    return found;
  }

  private Map<Long, RigLoads> kept(Member member, Collection<Rig> of) {
    Map<Long, RigLoads> kept = new HashMap<>();
    if (!of.isEmpty()) {
      loads
          .ofRigs(member.ledgerId(), of.stream().map(Rig::id).toArray(Long[]::new))
          .forEach(one -> kept.put(one.rigId(), one));
    }
    return kept;
  }

  /** The loads of rigs, by their ids, in a fixed number of queries. */
  private Map<Long, RigLoad> of(Member member, Collection<Rig> of) {
    List<Long> ids = of.stream().map(Rig::id).distinct().toList();
    Map<Long, RigLoads> kept = kept(member, of);
    Forest forest = rigs.forest(member, ids);
    Map<Long, Part> namedParts = named(member, kept.values());
    Map<Long, Strength> strengths = parts.strengths(member, namedParts.values());
    Map<Long, RigLoad> found = new LinkedHashMap<>();
    for (Rig rig : of) {
      Map<String, String> roles = roles(forest, rig);
      RigLoads one = kept.get(rig.id());
      found.put(
          rig.id(),
          one == null
              ? new RigLoad(rig, null, null, List.of(), unsaid(roles, Set.of()), 0)
              : load(member, rig, one, roles, namedParts, strengths));
    }
    return found;
  }

  /** The codes of all parts of a rig, each with a role in which it carries load or with none. */
  private static Map<String, String> roles(Forest forest, Rig rig) {
    Map<String, String> roles = new LinkedHashMap<>();
    RollUp.of(forest.assembly(rig.id()), Scope.COMPLETE)
        .leaves()
        .forEach(
            leaf -> {
              if (leaf.line().content() instanceof Piece piece) {
                String role = leaf.line().role();
                roles.merge(piece.code(), role, (one, other) -> CARRY.contains(one) ? one : other);
              }
            });
    return roles;
  }

  private static List<String> unsaid(Map<String, String> roles, Set<String> said) {
    return roles.entrySet().stream()
        .filter(role -> CARRY.contains(role.getValue()) && !said.contains(role.getKey()))
        .map(Map.Entry::getKey)
        .toList();
  }

  /**
   * How a rig is hung, to be tried with other strengths.
   *
   * @param named the parts in the path of its load, by id
   * @param strengths what they hold as they are
   * @param roles the codes of all parts that the rig has, as {@link #roles}
   */
  record Trial(
      RigLoads hung,
      Map<Long, Part> named,
      Map<Long, Strength> strengths,
      Map<String, String> roles,
      double designFactor) {

    /**
     * What it carries, held against what its parts would hold.
     *
     * @param instead of those that are changed, by the id of the part; nothing where that is not
     *     known
     */
    LoadsChange with(Map<Long, Optional<Strength>> instead) {
      return new LoadsChange(figures(Map.of()), figures(instead));
    }

    private HangFigures figures(Map<Long, Optional<Strength>> instead) {
      Faults faults = new Faults();
      List<Element> elements = new ArrayList<>();
      for (LoadsElement element : hung.elements()) {
        Part part = Objects.requireNonNull(named.get(element.partId()));
        Strength strength =
            instead
                .getOrDefault(part.id(), Optional.ofNullable(strengths.get(part.id())))
                .orElse(null);
        elements.add(
            element(inPath(part, element, strength, !roles.containsKey(part.code())), faults));
      }
      return HangReader.figures(hung.entry(), elements, designFactor);
    }
  }

  /** Nothing where nobody has said how the rig is hung. */
  Optional<Trial> trial(Member member, Rig rig, Forest forest) {
    RigLoads one = kept(member, List.of(rig)).get(rig.id());
    if (one == null) {
      return Optional.empty();
    }
    Map<Long, Part> named = named(member, List.of(one));
    return Optional.of(
        new Trial(
            one,
            named,
            parts.strengths(member, named.values()),
            roles(forest, rig),
            member.settings().designFactor()));
  }

  private Map<Long, Part> named(Member member, Collection<RigLoads> kept) {
    Set<Long> ids = new TreeSet<>();
    kept.forEach(one -> one.elements().forEach(element -> ids.add(element.partId())));
    Map<Long, Part> named = new HashMap<>();
    parts.byIds(member, ids).forEach(part -> named.put(part.id(), part));
    return named;
  }

  private static RigLoad load(
      Member member,
      Rig rig,
      RigLoads kept,
      Map<String, String> roles,
      Map<Long, Part> named,
      Map<Long, Strength> strengths) {
    Faults faults = new Faults();
    List<RigLoad.InPath> inPath = new ArrayList<>();
    List<Element> elements = new ArrayList<>();
    for (LoadsElement element : kept.elements()) {
      Part part = Objects.requireNonNull(named.get(element.partId()));
      RigLoad.InPath one =
          inPath(part, element, strengths.get(part.id()), !roles.containsKey(part.code()));
      inPath.add(one);
      elements.add(element(one, faults));
    }
    HangFigures figures =
        HangReader.figures(kept.entry(), elements, member.settings().designFactor());
    List<RigLoad.InPath> stretched = new ArrayList<>();
    for (int i = 0; i < inPath.size(); i++) {
      stretched.add(
          stretched(inPath.get(i), kept.elements().get(i), figures.assessment().checked().get(i)));
    }
    Set<String> said = new TreeSet<>();
    inPath.forEach(one -> said.add(one.part()));
    return new RigLoad(
        rig, entry(kept, named), figures, stretched, unsaid(roles, said), kept.revision());
  }

  private static RigLoad.InPath inPath(
      Part part, LoadsElement element, @Nullable Strength strength, boolean gone) {
    Termination termination =
        Termination.of(element.termination() == null ? "" : element.termination()).orElse(null);
    String own = element.terminationFactor();
    return new RigLoad.InPath(
        part.code(),
        part.name(),
        LoadPlace.of(element.place()).orElse(LoadPlace.LINE),
        strength,
        termination,
        own != null ? own : termination == null ? null : termination.factor(),
        own != null
            ? element.terminationSource()
            : termination == null ? null : termination.source(),
        gone,
        null);
  }

  /** A strength whose ends are not known is not known, nor is that of a part that is not there. */
  private static Element element(RigLoad.InPath one, Faults faults) {
    Strength strength = one.strength();
    String factor = one.factor();
    boolean known =
        strength != null && !one.gone() && (factor != null || one.place() == LoadPlace.BAR);
    return new Element(
        one.part(),
        one.place().place(),
        known && strength != null ? Range.of(strength.force().force().newtons()) : null,
        strength != null && strength.kind() == StrengthKind.WORKING_LOAD_LIMIT,
        factor == null
            ? Range.ONE
            : Objects.requireNonNullElse(
                faults.read("terminationFactor", () -> Range.readNumber(factor)), Range.ONE));
  }

  private static RigLoad.InPath stretched(
      RigLoad.InPath one, LoadsElement element, Assessment.Checked checked) {
    Strength strength = one.strength();
    Range load = checked.load();
    if (element.length() == null
        || element.breakingStretch() == null
        || strength == null
        // A limit does not say what it breaks at.
        || strength.kind() == StrengthKind.WORKING_LOAD_LIMIT
        || load == null) {
      return one;
    }
    double stretch =
        Give.stretch(
            Range.read(element.length(), Kind.LENGTH, null).nominal(),
            load.nominal(),
            Percent.parse(element.breakingStretch()).fraction().doubleValue(),
            strength.force().force().newtons());
    return new RigLoad.InPath(
        one.part(),
        one.name(),
        one.place(),
        strength,
        one.termination(),
        one.factor(),
        one.source(),
        one.gone(),
        stretch);
  }

  private static Entry entry(RigLoads kept, Map<Long, Part> named) {
    RigLoads.Entry hang = kept.entry();
    List<@Nullable PartEntry> elements = new ArrayList<>();
    for (LoadsElement element : kept.elements()) {
      elements.add(
          new PartEntry(
              Objects.requireNonNull(named.get(element.partId())).code(),
              element.place(),
              element.termination(),
              element.terminationFactor(),
              element.terminationSource(),
              element.length(),
              element.breakingStretch()));
    }
    return new Entry(
        hang.lies(),
        hang.hangs(),
        hang.dynamicAllowance(),
        hang.designFactor(),
        hang.ridgeLength(),
        hang.flatLength(),
        hang.edgeSpan(),
        hang.edgeSag(),
        hang.treeGives(),
        hang.settles(),
        hang.ends(),
        elements);
  }

  /**
   * Says how a rig is hung, in place of what was said before.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws org.tareline.site.NotThere if there is no such rig
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  @Transactional
  public void hang(Member member, String code, Entry entry, @Nullable Integer expected) {
    Rig rig = rigs.get(member, code);
    RigLoads kept =
        loads.ofRigs(member.ledgerId(), new Long[] {rig.id()}).stream()
            .findFirst()
            .orElseGet(() -> new RigLoads(member.ledgerId(), rig.id()));
    Revisions.guard("the loads of " + rig.code(), kept.revision(), expected);
    Faults faults = new Faults();
    Set<Long> held = rigs.forest(member, List.of(rig.id())).partIds();
    List<LoadsElement> elements = elements(member, rig, held, entry, faults);
    refuse(member, entry, elements, faults);
    kept.describe(entry.hang(), elements);
    try {
      loads.save(kept);
      loads.flush();
    } catch (DataIntegrityViolationException atOnce) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT, "", "Somebody else said so at this moment. Read again and retry.");
    }
    revisions.keep(member, KIND, kept.id(), kept.revision(), entry);
  }

  @Override
  public String table() {
    return "rig_loads";
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    List<RigLoads> all = loads.byIds(member.ledgerId(), ids.toArray(Long[]::new));
    Map<Long, Rig> of = new HashMap<>();
    rigs.byIds(member, all.stream().map(RigLoads::rigId).toList())
        .forEach(rig -> of.put(rig.id(), rig));
    return ReadAgain.each(
        all,
        RigLoads::id,
        kept -> {
          Faults faults = new Faults();
          Entry entry = entry(kept, named(member, List.of(kept)));
          // What the rig has lost since may stand there: it is shown as gone.
          Set<Long> held = new TreeSet<>();
          kept.elements().forEach(element -> held.add(element.partId()));
          Rig rig = Objects.requireNonNull(of.get(kept.rigId()));
          refuse(member, entry, elements(member, rig, held, entry, faults), faults);
          of(member, rig);
        });
  }

  private static void refuse(
      Member member, Entry entry, List<LoadsElement> elements, Faults faults) {
    List<Element> placed = new ArrayList<>();
    if (faults.none()) {
      for (LoadsElement element : elements) {
        LoadPlace place = LoadPlace.of(element.place()).orElse(LoadPlace.LINE);
        placed.add(new Element(element.place(), place.place(), null, false, Range.ONE));
      }
    }
    try {
      HangReader.figures(entry.hang(), placed, member.settings().designFactor());
    } catch (Refusal refusal) {
      refusal.faults().forEach(fault -> faults.add(fault.field(), fault.message()));
    }
    faults.refuseIfAny();
  }

  private List<LoadsElement> elements(
      Member member, Rig rig, Set<Long> held, Entry entry, Faults faults) {
    List<@Nullable PartEntry> entries = entry.elements() == null ? List.of() : entry.elements();
    if (entries.size() > MOST_ELEMENTS) {
      faults.add("elements", "Give at most " + MOST_ELEMENTS + " elements.");
      return List.of();
    }
    Map<String, Part> named =
        parts.byCodes(
            member,
            entries.stream()
                .map(one -> one == null || one.part() == null ? "" : one.part())
                .filter(one -> !one.isBlank())
                .toList());
    List<LoadsElement> elements = new ArrayList<>();
    HangReader reader = new HangReader(faults);
    for (int i = 0; i < entries.size(); i++) {
      PartEntry one = entries.get(i);
      String field = "elements[" + i + "]";
      if (one == null) {
        faults.add(field, "Give a part of the rig and where it stands.");
        continue;
      }
      String code = faults.text(field + ".part", one.part(), "a part of the rig", 60);
      Part part = named.get(Codes.key(code));
      if (!code.isEmpty() && (part == null || !held.contains(part.id()))) {
        faults.add(
            field + ".part",
            "There is no part " + Faults.shortened(code) + " in " + rig.code() + ".");
      }
      LoadPlace place = reader.place(field + ".where", one.where());
      Termination termination = termination(faults, field + ".termination", one.termination());
      String factor = LoadsEnd.stripped(one.terminationFactor());
      reader.termination(field + ".terminationFactor", factor);
      String source =
          faults.optionalText(
              field + ".terminationSource", one.terminationSource(), "the source", 200);
      if (factor != null && source == null) {
        faults.add(
            field + ".terminationSource",
            "Say where the factor comes from: a handbook with its page, a maker, your own test.");
      }
      String length = LoadsEnd.stripped(one.length());
      if (length != null) {
        reader.length(field + ".length", length, "the length");
      }
      String stretch = LoadsEnd.stripped(one.breakingStretch());
      if (stretch != null) {
        faults.read(field + ".breakingStretch", () -> Percent.parse(stretch));
      }
      if (part != null) {
        elements.add(
            new LoadsElement(
                member.ledgerId(),
                part.id(),
                place.word(),
                termination == null ? null : termination.word(),
                factor,
                source,
                length,
                stretch));
      }
    }
    return elements;
  }

  private static @Nullable Termination termination(
      Faults faults, String field, @Nullable String typed) {
    String word = faults.optionalText(field, typed, "how its ends are made", 60);
    if (word == null) {
      return null;
    }
    Optional<Termination> termination = Termination.of(word);
    if (termination.isEmpty()) {
      faults.add(
          field,
          "Say one of " + Termination.words() + "; read \"" + Faults.shortened(word) + "\".");
    }
    return termination.orElse(null);
  }
}
