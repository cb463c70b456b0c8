package org.tareline.rig;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartVariants;
import org.tareline.part.Parts;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.WhatIfs;
import org.tareline.rig.RigWhatIfs.PartSwap;
import org.tareline.rollup.Assembly;
import org.tareline.rollup.Line;
import org.tareline.rollup.Piece;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/**
 * Second designs of rigs. A variant begins as a copy of another rig. Where it is to be of other
 * materials, the parts that change become variants too, and so do the rigs in it that hold them;
 * all else it shares with the other. What is counted makes no difference here: all of the rig
 * changes.
 */
@Service
@Transactional(readOnly = true)
public class RigVariants {

  /** The object of codes of parts, in a request and in the fields of a form. */
  public static final String PARTS_FIELD = "partCodes";

  /** The same of rigs. */
  public static final String RIGS_FIELD = "rigCodes";

  /**
   * A variant as somebody typed it.
   *
   * @param name that of the other rig, marked as a variant, when left out
   * @param replaced as of a what-if; may be empty
   * @param partCodes codes for variants of parts by the codes of those; each that is left out is
   *     made up from the other
   * @param rigCodes the same for rigs in the rig
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      RigWhatIfs.Entry replaced,
      @Nullable Map<String, @Nullable String> partCodes,
      @Nullable Map<String, @Nullable String> rigCodes) {}

  /**
   * What a rig is a variant of, and what is a variant of it.
   *
   * @param original null where it is no variant
   * @param variants by code
   */
  public record Kin(@Nullable Rig original, List<Rig> variants) {}

  /**
   * What a variant would make besides.
   *
   * @param partCodes codes for variants of parts, by the codes of those
   * @param rigCodes codes for variants of rigs in the rig, by the codes of those
   */
  public record Plan(Map<String, String> partCodes, Map<String, String> rigCodes) {}

  private final RigRepository repository;
  private final Rigs rigs;
  private final RigWhatIfs rigWhatIfs;
  private final WhatIfs whatIfs;
  private final PartVariants partVariants;
  private final Parts parts;

  RigVariants(
      RigRepository repository,
      Rigs rigs,
      RigWhatIfs rigWhatIfs,
      WhatIfs whatIfs,
      PartVariants partVariants,
      Parts parts) {
    this.repository = repository;
    this.rigs = rigs;
    this.rigWhatIfs = rigWhatIfs;
    this.whatIfs = whatIfs;
    this.partVariants = partVariants;
    this.parts = parts;
  }

  public Kin kin(Member member, Rig rig) {
    List<Rig> kin = repository.kin(member.ledgerId(), rig.id());
    return new Kin(
        kin.stream()
            .filter(other -> rig.variantOf().filter(id -> id == other.id()).isPresent())
            .findFirst()
            .orElse(null),
        kin.stream()
            .filter(other -> other.variantOf().filter(id -> id == rig.id()).isPresent())
            .toList());
  }

  /** A code for a variant of a rig that no rig has or had. */
  public String freeCode(Member member, Rig rig) {
    return Codes.another(rig.code(), code -> rigs.find(member, code).isPresent());
  }

  /**
   * What a change reaches in a rig, before anything is written.
   *
   * @param instead parts in whose place others stand, by the row of the old
   * @param touched what becomes of other materials, by the row of the part
   * @param changed the rigs in it that hold any of those, itself among them, held before holder
   */
  private record Reach(
      Forest forest,
      Assembly assembly,
      Map<Long, PartSwap> instead,
      Map<Long, WhatIf> touched,
      Set<Assembly> changed) {

    /** The part that is to stand where a piece stands. */
    Part standing(Piece piece) {
      return standing(forest, instead, piece);
    }

    static Part standing(Forest forest, Map<Long, PartSwap> instead, Piece piece) {
      Part part = forest.part(piece).orElseThrow();
      PartSwap swap = instead.get(part.id());
      return swap == null ? part : swap.to();
    }
  }

  /** The codes that a variant of a rig would make up. */
  public Plan plan(Member member, Rig rig, RigWhatIfs.Entry replaced) {
    Reach reach = reach(member, rig, replaced);
    Faults none = new Faults();
    Map<String, String> partCodes = new LinkedHashMap<>();
    partCodes(member, reach, null, none)
        .forEach((whatIf, code) -> partCodes.put(whatIf.part().code(), code));
    Map<String, String> rigCodes = new LinkedHashMap<>();
    rigCodes(member, reach, null, new HashSet<>(), none)
        .forEach((assembly, code) -> rigCodes.put(assembly.code(), code));
    return new Plan(partCodes, rigCodes);
  }

  /**
   * Puts a variant of a rig into the ledger, with variants of all in it that changes; or nothing.
   *
   * @throws org.tareline.site.NotThere if there is no such rig
   * @throws org.tareline.site.Refusal if the entry cannot be read, a code is taken or something
   *     cannot be replaced so
   */
  @Transactional
  public Rig add(Member member, String original, Entry entry) {
    Rig rig = rigs.get(member, original);
    Reach reach = reach(member, rig, entry.replaced());
    Faults faults = new Faults();
    String ownCode = Codes.read(faults, "code", entry.code());
    refuseTaken("code", ownCode, code -> rigs.find(member, code).isPresent(), faults);
    Map<WhatIf, String> partCodes = partCodes(member, reach, entry.partCodes(), faults);
    Map<Assembly, String> rigCodes =
        rigCodes(
            member, reach, entry.rigCodes(), new HashSet<>(Set.of(Codes.key(ownCode))), faults);
    faults.refuseIfAny();
    partCodes.forEach(
        (whatIf, its) ->
            partVariants.add(
                member, whatIf.part(), new PartVariants.Entry(its, null, null, null), whatIf));
    rigCodes.forEach(
        (assembly, its) ->
            add(
                member,
                rigs.get(member, assembly.code()),
                its,
                null,
                lines(reach, assembly, partCodes, rigCodes)));
    return add(
        member, rig, ownCode, entry.name(), lines(reach, reach.assembly(), partCodes, rigCodes));
  }

  private Rig add(
      Member member,
      Rig original,
      String code,
      @Nullable String name,
      List<Rigs.@Nullable LineEntry> lines) {
    return rigs.add(
        member,
        new Rigs.Entry(
            code, PartVariants.name(original.name(), name), lines, original.note().orElse(null)),
        original);
  }

  private static List<Rigs.@Nullable LineEntry> lines(
      Reach reach,
      Assembly assembly,
      Map<WhatIf, String> partCodes,
      Map<Assembly, String> rigCodes) {
    List<Rigs.@Nullable LineEntry> lines = new ArrayList<>();
    for (Line line : assembly.lines()) {
      String part = null;
      String rig = null;
      if (line.content() instanceof Piece piece) {
        Part standing = reach.standing(piece);
        WhatIf whatIf = reach.touched().get(standing.id());
        part = whatIf == null ? standing.code() : partCodes.get(whatIf);
      } else {
        rig = rigCodes.getOrDefault(line.content(), line.content().code());
      }
      lines.add(new Rigs.LineEntry(null, part, rig, String.valueOf(line.quantity()), line.role()));
    }
    return lines;
  }

  private Reach reach(Member member, Rig rig, RigWhatIfs.Entry replaced) {
    Faults faults = new Faults();
    List<Swap> swaps = whatIfs.read(member, replaced.replace(), faults);
    Map<Long, PartSwap> instead = rigWhatIfs.readParts(member, replaced.replaceParts(), faults);
    faults.refuseIfAny();
    Forest forest = rigs.forest(member, List.of(rig.id()));
    Assembly whole = forest.assembly(rig.id());
    Set<Piece> pieces = new LinkedHashSet<>();
    Set<Assembly> assemblies = Collections.newSetFromMap(new IdentityHashMap<>());
    collect(whole, pieces, assemblies);
    Set<Part> standing = new LinkedHashSet<>();
    Set<Long> exchanged = new HashSet<>();
    for (Piece piece : pieces) {
      standing.add(Reach.standing(forest, instead, piece));
      exchanged.add(forest.part(piece).orElseThrow().id());
    }
    Map<Long, WhatIf> touched =
        swaps.isEmpty()
            ? Map.of()
            : whatIfs.of(member, standing, Map.of(), swaps, faults).touched();
    faults.refuseIfAny();
    WhatIfs.refuseUnused(
        swaps,
        touched.values().stream().flatMap(whatIf -> whatIf.swaps().stream()).toList(),
        "No part of " + rig.code() + " has a line in its cut list of ",
        faults);
    RigWhatIfs.refuseUnused(rig, instead, exchanged, faults);
    faults.refuseIfAny();
    Set<Assembly> changed = new LinkedHashSet<>();
    Reach reach = new Reach(forest, whole, instead, touched, changed);
    changes(reach, whole, new IdentityHashMap<>());
    return reach;
  }

  private static void collect(Assembly assembly, Set<Piece> pieces, Set<Assembly> met) {
    if (met.add(assembly)) {
      for (Line line : assembly.lines()) {
        if (line.content() instanceof Piece piece) {
          pieces.add(piece);
        } else if (line.content() instanceof Assembly nested) {
          collect(nested, pieces, met);
        }
      }
    }
  }

  /** Notes which rigs change, held before holder; whether this one does. */
  private static boolean changes(Reach reach, Assembly assembly, Map<Assembly, Boolean> known) {
    Boolean before = known.get(assembly);
    if (before != null) {
      return before;
    }
    boolean changes = false;
    for (Line line : assembly.lines()) {
      if (line.content() instanceof Piece piece) {
        Part standing = reach.standing(piece);
        changes |=
            reach.touched().containsKey(standing.id())
                || !standing.uuid().toString().equals(piece.id());
      } else if (line.content() instanceof Assembly nested) {
        changes |= changes(reach, nested, known);
      }
    }
    known.put(assembly, changes);
    if (changes && assembly != reach.assembly()) {
      reach.changed().add(assembly);
    }
    return changes;
  }

  private Map<WhatIf, String> partCodes(
      Member member, Reach reach, @Nullable Map<String, @Nullable String> given, Faults faults) {
    Set<String> taken = new HashSet<>();
    Map<String, @Nullable String> rest = given == null ? new HashMap<>() : new HashMap<>(given);
    Map<WhatIf, String> codes = new LinkedHashMap<>();
    for (WhatIf whatIf : reach.touched().values()) {
      codes.put(
          whatIf,
          code(
              PARTS_FIELD,
              whatIf.part().code(),
              rest,
              code -> taken.contains(Codes.key(code)) || parts.find(member, code).isPresent(),
              taken,
              faults));
    }
    refuseUnchanged(PARTS_FIELD, rest, faults);
    return codes;
  }

  private Map<Assembly, String> rigCodes(
      Member member,
      Reach reach,
      @Nullable Map<String, @Nullable String> given,
      Set<String> taken,
      Faults faults) {
    Map<String, @Nullable String> rest = given == null ? new HashMap<>() : new HashMap<>(given);
    Map<Assembly, String> codes = new LinkedHashMap<>();
    for (Assembly assembly : reach.changed()) {
      codes.put(
          assembly,
          code(
              RIGS_FIELD,
              assembly.code(),
              rest,
              code -> taken.contains(Codes.key(code)) || rigs.find(member, code).isPresent(),
              taken,
              faults));
    }
    refuseUnchanged(RIGS_FIELD, rest, faults);
    return codes;
  }

  /** The code given for a variant; made up where none is given. */
  private static String code(
      String holder,
      String original,
      Map<String, @Nullable String> given,
      Predicate<String> isTaken,
      Set<String> taken,
      Faults faults) {
    String named =
        given.keySet().stream()
            .filter(each -> Codes.key(each).equals(Codes.key(original)))
            .findFirst()
            .orElse(original);
    String typed = given.remove(named);
    String code;
    if (typed == null || typed.isBlank()) {
      code = Codes.another(original, isTaken);
    } else {
      String field = Faults.entry(holder, named);
      code = Codes.read(faults, field, typed);
      refuseTaken(field, code, isTaken, faults);
    }
    taken.add(Codes.key(code));
    return code;
  }

  private static void refuseTaken(
      String field, String code, Predicate<String> taken, Faults faults) {
    if (Codes.couldBe(code) && taken.test(code)) {
      faults.conflict(field, "Choose another code: " + code + " is taken, or was once.");
    }
  }

  private static void refuseUnchanged(
      String holder, Map<String, @Nullable String> rest, Faults faults) {
    rest.keySet()
        .forEach(
            original ->
                faults.add(
                    Faults.entry(holder, original),
                    "Leave it out: " + Faults.shortened(original) + " is not changed by this."));
  }
}
