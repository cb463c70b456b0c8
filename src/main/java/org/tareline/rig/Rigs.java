package org.tareline.rig;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.Revisions;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;

/** The rigs of a ledger, and what they hold. */
@Service
@Transactional(readOnly = true)
public class Rigs {

  static final String KIND = "rig";

  private static final int MOST_LINES = 2_500;
  private static final int MOST_ALIKE = 100_000;

  /** Stands for the id of a rig that has none yet. */
  private static final long NEW = -1;

  /**
   * A rig as somebody typed it.
   *
   * @param lines in their order; null on a new rig is none
   */
  public record Entry(
      @Nullable String code,
      @Nullable String name,
      @Nullable List<@Nullable LineEntry> lines,
      @Nullable String note) {}

  /**
   * A line as somebody typed it. It holds a part or a rig, never both.
   *
   * @param id of the line it was, so that it stays the same line; may be left out, and is then told
   *     by what it holds
   * @param part code of a part
   * @param rig code of a rig
   * @param quantity 1 when left out
   */
  public record LineEntry(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @Nullable String quantity,
      @Nullable String role) {}

  /** An entry that could be read; as kept with each revision. */
  record Read(String code, String name, List<ReadLine> lines, @Nullable String note) {}

  /**
   * A line that could be read.
   *
   * @param code of what it held at the time, for whoever reads an old revision
   */
  record ReadLine(
      UUID id,
      @Nullable Long partId,
      @Nullable Long rigId,
      String code,
      int quantity,
      String role) {

    /** Names what it holds. */
    String thing() {
      return RigLine.thing(partId, rigId);
    }

    ReadLine as(UUID lineId) {
      return new ReadLine(lineId, partId, rigId, code, quantity, role);
    }
  }

  private final RigRepository rigs;
  private final Parts parts;
  private final Revisions revisions;
  private final Clock clock;

  Rigs(RigRepository rigs, Parts parts, Revisions revisions, Clock clock) {
    this.rigs = rigs;
    this.parts = parts;
    this.revisions = revisions;
    this.clock = clock;
  }

  public List<Rig> all(Member member) {
    return rigs.findByLedgerIdOrderByCodeKey(member.ledgerId());
  }

  /** The rig with this code, or that once had it. */
  public Optional<Rig> find(Member member, String code) {
    return id(member, code).flatMap(id -> rigs.findByLedgerIdAndId(member.ledgerId(), id));
  }

  private Optional<Long> id(Member member, String code) {
    return rigs.idOf(member.ledgerId(), Codes.key(code))
        .or(() -> revisions.formerly(member, KIND, code).stream().boxed().findFirst());
  }

  public Rig get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere("rig"));
  }

  public List<Rig> byIds(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : rigs.findByLedgerIdAndIdIn(member.ledgerId(), ids);
  }

  /** Those that have these codes now or once had, by the key of the code. */
  public Map<String, Rig> byCodes(Member member, Collection<String> codes) {
    Map<String, Rig> found = new HashMap<>();
    List<String> keys = codes.stream().map(Codes::key).distinct().toList();
    if (!keys.isEmpty()) {
      rigs.findByLedgerIdAndCodeKeyIn(member.ledgerId(), keys)
          .forEach(rig -> found.put(Codes.key(rig.code()), rig));
      keys.stream()
          .filter(key -> !found.containsKey(key))
          .forEach(key -> find(member, key).ifPresent(rig -> found.put(key, rig)));
    }
    return found;
  }

  /** Those whose code or name holds the text, best fit first. */
  public List<Rig> search(Member member, String text, int most) {
    String key = Codes.key(text).replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_");
    return key.length() > 200 ? List.of() : rigs.holding(member.ledgerId(), key, Limit.of(most));
  }

  /** The lines of a rig, in their order, with what they hold. */
  public List<HeldLine> lines(Member member, Rig rig) {
    return rigs.linesOf(member.ledgerId(), rig.id());
  }

  /** The roles that a line may be given without a new word coming about, in the order of pages. */
  public List<String> roles(Member member) {
    Set<String> roles = new LinkedHashSet<>(Roles.ALL);
    roles.addAll(rigs.rolesInUse(member.ledgerId()));
    return List.copyOf(roles);
  }

  /** These rigs with all that they hold, in a fixed number of queries. */
  public Forest forest(Member member, Collection<Long> rigIds) {
    Map<Long, Forest.Tree> trees = new LinkedHashMap<>();
    if (rigIds.isEmpty()) {
      return new Forest(trees, Map.of(), Map.of());
    }
    List<Object[]> reached =
        rigs.reachable(member.ledgerId(), new LinkedHashSet<>(rigIds).toArray(Long[]::new));
    Map<Long, List<Forest.Branch>> branches = new HashMap<>();
    for (Object[] row : reached) {
      branches.put(number(row[0]), new ArrayList<>());
    }
    Set<Long> partIds = new LinkedHashSet<>();
    Long[] reachedIds = branches.keySet().toArray(Long[]::new);
    for (Object[] row : rigs.linesOfAll(member.ledgerId(), reachedIds)) {
      Long partId = row[4] == null ? null : number(row[4]);
      Long rigId = row[5] == null ? null : number(row[5]);
      if (partId != null) {
        partIds.add(partId);
      }
      branches
          .getOrDefault(number(row[0]), new ArrayList<>())
          .add(
              new Forest.Branch(
                  UUID.fromString((String) row[1]), (String) row[2], ((Number) row[3]).intValue(), partId, rigId));
    }
    for (Object[] row : reached) {
      trees.put(
          number(row[0]),
          new Forest.Tree(
              UUID.fromString((String) row[1]),
              (String) row[2],
              (String) row[3],
              ((Number) row[4]).intValue(),
              branches.getOrDefault(number(row[0]), List.of())));
    }
    List<Part> held = parts.byIds(member, partIds);
    return new Forest(
        trees,
        held.stream().collect(Collectors.toMap(Part::id, part -> part)),
        parts.masses(member, held));
  }

  private static long number(Object column) {
    return ((Number) column).longValue();
  }

  /**
   * The rigs whose complete total, or how sure it is, changes with the mass of a part: those that
   * hold it directly first, then by code.
   *
   * @param before what the part weighed; null where nothing was known
   */
  public List<Moved> moved(Member member, long partId, @Nullable PartMass before, PartMass after) {
    Map<Long, Integer> steps = new HashMap<>();
    for (Object[] row : rigs.holdersOf(member.ledgerId(), partId)) {
      steps.put(number(row[0]), ((Number) row[1]).intValue());
    }
    Forest forest = forest(member, steps.keySet());
    Forest then = forest.with(partId, before == null ? new PartMass(null, null, null) : before);
    Forest now = forest.with(partId, after);
    List<Long> nearestFirst =
        steps.keySet().stream()
            .sorted(
                Comparator.<Long, Integer>comparing(id -> steps.getOrDefault(id, 0))
                    .thenComparing(id -> Codes.key(forest.assembly(id).code())))
            .toList();
    List<Moved> moved = new ArrayList<>();
    for (long id : nearestFirst) {
      Moved.of(
              RollUp.of(then.assembly(id), Scope.COMPLETE),
              RollUp.of(now.assembly(id), Scope.COMPLETE))
          .ifPresent(moved::add);
    }
    return moved;
  }

  /**
   * Puts a rig into the ledger.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read or the code is taken
   */
  @Transactional
  public Rig add(Member member, Entry entry) {
    Read read = read(member, entry, null);
    Rig rig =
        rigs.save(new Rig(member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS)));
    revisions.keep(member, KIND, rig.id(), rig.revision(), read);
    return rig;
  }

  /**
   * Describes a rig anew; the earlier description is kept.
   *
   * @param expected the revision that the change started from; null to save whatever came between
   * @throws NotThere if there is no such rig
   * @throws org.tareline.site.Refusal if the entry cannot be read, the code is taken, the rig would
   *     hold itself or somebody saved since
   */
  @Transactional
  public Rig change(Member member, String code, Entry entry, @Nullable Integer expected) {
    long id = id(member, code).orElseThrow(() -> new NotThere("rig"));
    if (entry.lines() != null
        && entry.lines().stream().anyMatch(line -> line != null && typed(line.rig()) != null)) {
      // Two saves that each look harmless could make a circle between them.
      rigs.lockAll(member.ledgerId());
    }
    Rig rig = rigs.lock(member.ledgerId(), id).orElseThrow(() -> new NotThere("rig"));
    Revisions.guard("rig " + rig.code(), rig.revision(), expected);
    Read read = read(member, entry, rig);
    revisions.recode(member, KIND, rig.id(), rig.code(), read.code());
    rig.describe(read);
    revisions.keep(member, KIND, rig.id(), rig.revision(), read);
    return rig;
  }

  private Read read(Member member, Entry entry, @Nullable Rig itself) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    List<ReadLine> lines = readLines(member, entry, itself, faults);
    if (faults.none() && lines.stream().anyMatch(line -> line.rigId() != null)) {
      refuseBadNesting(member, code, itself, lines, faults);
    }
    if (faults.none()) {
      Optional<Rig> other = rigs.findByLedgerIdAndCodeKey(member.ledgerId(), Codes.key(code));
      if (other.isPresent() && (itself == null || other.get().id() != itself.id())) {
        faults.conflict(
            "code", "Choose another code: " + code + " is " + other.get().name() + " already.");
      } else {
        revisions.refuseFormerCode(member, KIND, code, itself == null ? null : itself.id(), faults);
      }
    }
    faults.refuseIfAny();
    return new Read(code, name, lines, note);
  }

  private List<ReadLine> readLines(
      Member member, Entry entry, @Nullable Rig itself, Faults faults) {
    List<@Nullable LineEntry> entries = entry.lines() == null ? List.of() : entry.lines();
    if (entry.lines() == null && itself != null) {
      faults.add("lines", "Give the lines; an empty list takes them all out.");
    }
    if (entries.size() > MOST_LINES) {
      faults.add(
          "lines",
          "Give at most "
              + MOST_LINES
              + " lines; there are "
              + entries.size()
              + ". Put some of them into a rig of their own.");
      return List.of();
    }
    Map<String, Part> partsNamed = parts.byCodes(member, typedCodes(entries, LineEntry::part));
    Map<String, Rig> rigsNamed = byCodes(member, typedCodes(entries, LineEntry::rig));
    Map<UUID, RigLine> unclaimed = new LinkedHashMap<>();
    if (itself != null) {
      itself.lines().forEach(line -> unclaimed.put(line.uuid(), line));
    }
    List<ReadLine> lines = new ArrayList<>();
    Set<ReadLine> anonymous = Collections.newSetFromMap(new IdentityHashMap<>());
    for (int i = 0; i < entries.size(); i++) {
      LineEntry line = entries.get(i);
      String field = "lines[" + i + "]";
      if (line == null) {
        faults.add(field, "Give a line: a part or a rig, and its role.");
        continue;
      }
      String idTyped = typed(line.id());
      String partTyped = typed(line.part());
      String rigTyped = typed(line.rig());
      UUID id = idTyped == null ? null : claimed(idTyped, unclaimed, field, faults);
      Part part = partTyped == null ? null : partsNamed.get(Codes.key(partTyped));
      Rig rig = rigTyped == null ? null : rigsNamed.get(Codes.key(rigTyped));
      if (partTyped != null && rigTyped != null) {
        faults.add(field + ".part", "Name a part or a rig, not both.");
      } else if (partTyped == null && rigTyped == null) {
        faults.add(field + ".part", "Name the part or the rig that the line holds.");
      } else if (partTyped != null && part == null) {
        faults.add(
            field + ".part",
            "There is no part " + Faults.shortened(partTyped) + " in this ledger.");
      } else if (rigTyped != null && rig == null) {
        faults.add(field + ".rig", noRig(rigTyped, entry.code()));
      }
      int quantity =
          faults.wholeNumber(
              field + ".quantity", line.quantity(), "the quantity", 1, MOST_ALIKE, 1);
      ReadLine read =
          new ReadLine(
              id == null ? UUID.randomUUID() : id,
              part == null ? null : part.id(),
              rig == null ? null : rig.id(),
              part != null ? part.code() : rig != null ? rig.code() : "",
              quantity,
              LineRole.read(faults, field + ".role", line.role()));
      lines.add(read);
      if (id == null) {
        anonymous.add(read);
      }
    }
    return faults.none() ? told(lines, anonymous, unclaimed.values()) : lines;
  }

  private static List<String> typedCodes(
      List<@Nullable LineEntry> lines, Function<LineEntry, @Nullable String> code) {
    List<String> codes = new ArrayList<>();
    for (LineEntry line : lines) {
      String typed = line == null ? null : typed(code.apply(line));
      if (typed != null) {
        codes.add(typed);
      }
    }
    return codes;
  }

  /** What was typed, stripped, or null where nothing was. */
  private static @Nullable String typed(@Nullable String text) {
    return text == null || text.isBlank() ? null : text.strip();
  }

  /** A rig that is made or renamed by this very entry would stand in itself. */
  private static String noRig(String named, @Nullable String ownCode) {
    return ownCode != null && Codes.key(ownCode).equals(Codes.key(named))
        ? circle(List.of(named, named))
        : "There is no rig " + Faults.shortened(named) + " in this ledger.";
  }

  private static String circle(List<String> path) {
    return Faults.shortened(path.get(0))
        + " would hold itself: "
        + path.stream().map(Faults::shortened).collect(Collectors.joining(" → "))
        + ". Take this line out, or one further down.";
  }

  private static @Nullable UUID claimed(
      String typed, Map<UUID, RigLine> unclaimed, String field, Faults faults) {
    try {
      UUID id = UUID.fromString(typed.strip());
      if (unclaimed.remove(id) != null) {
        return id;
      }
    } catch (IllegalArgumentException notAnId) {
      // said below
    }
    faults.add(
        field + ".id",
        "Leave the id out: the rig has no line "
            + Faults.shortened(typed.strip())
            + ", or another line here has that id already.");
    return null;
  }

  /**
   * Tells lines that came without an id by what they hold and what they do there, then by what they
   * hold alone, so that they stay the lines they were.
   */
  private static List<ReadLine> told(
      List<ReadLine> lines, Set<ReadLine> anonymous, Collection<RigLine> unclaimed) {
    Map<String, Deque<RigLine>> byThingAndRole = new HashMap<>();
    Map<String, Deque<RigLine>> byThing = new HashMap<>();
    for (RigLine line : unclaimed) {
      byThing.computeIfAbsent(line.thing(), any -> new ArrayDeque<>()).add(line);
      byThingAndRole
          .computeIfAbsent(line.thing() + line.role(), any -> new ArrayDeque<>())
          .add(line);
    }
    Map<ReadLine, UUID> found = new IdentityHashMap<>();
    Set<UUID> taken = new HashSet<>();
    for (ReadLine line : lines) {
      RigLine same =
          anonymous.contains(line)
              ? byThingAndRole.getOrDefault(line.thing() + line.role(), new ArrayDeque<>()).poll()
              : null;
      if (same != null) {
        found.put(line, same.uuid());
        taken.add(same.uuid());
      }
    }
    for (ReadLine line : lines) {
      if (anonymous.contains(line) && !found.containsKey(line)) {
        Deque<RigLine> alike = byThing.getOrDefault(line.thing(), new ArrayDeque<>());
        alike.removeIf(one -> taken.contains(one.uuid()));
        RigLine same = alike.poll();
        if (same != null) {
          found.put(line, same.uuid());
        }
      }
    }
    return lines.stream().map(line -> line.as(found.getOrDefault(line, line.id()))).toList();
  }

  private void refuseBadNesting(
      Member member, String code, @Nullable Rig itself, List<ReadLine> lines, Faults faults) {
    long own = itself == null ? NEW : itself.id();
    Map<Long, List<Long>> held = new HashMap<>();
    for (Object[] pair : rigs.nestings(member.ledgerId())) {
      held.computeIfAbsent(number(pair[0]), any -> new ArrayList<>()).add(number(pair[1]));
    }
    Nesting nesting = new Nesting();
    for (Object[] pair : rigs.lineCounts(member.ledgerId())) {
      long id = number(pair[0]);
      if (id != own) {
        nesting.put(id, held.getOrDefault(id, List.of()), number(pair[1]));
      }
    }
    nesting.put(
        own, lines.stream().map(ReadLine::rigId).filter(Objects::nonNull).toList(), lines.size());

    Optional<List<Long>> circle = nesting.circle(own);
    if (circle.isPresent()) {
      List<Long> path = circle.get();
      faults.add(
          "lines[" + indexOf(lines, path.get(1)) + "].rig",
          circle(codesOf(member, path, own, code)));
      return;
    }
    for (long changed : nesting.changedWith(own)) {
      if (nesting.levels(changed) > Nesting.DEEPEST) {
        faults.add(
            "lines",
            codesOf(member, List.of(changed), own, code).get(0)
                + " would hold rigs in rigs "
                + nesting.levels(changed)
                + " levels deep; "
                + Nesting.DEEPEST
                + " are allowed.");
        return;
      }
      if (nesting.unfoldedLines(changed) > Nesting.MOST_UNFOLDED) {
        faults.add(
            "lines",
            codesOf(member, List.of(changed), own, code).get(0)
                + " would have more than "
                + Nesting.MOST_UNFOLDED
                + " lines with every rig in it unfolded.");
        return;
      }
    }
  }

  private static int indexOf(List<ReadLine> lines, long rigId) {
    int index = 0;
    while (!Objects.equals(lines.get(index).rigId(), rigId)) {
      index++;
    }
    return index;
  }

  private List<String> codesOf(Member member, List<Long> ids, long own, String ownCode) {
    Map<Long, String> codes =
        byIds(member, ids).stream().collect(Collectors.toMap(Rig::id, Rig::code));
    return ids.stream()
        .map(id -> id == own ? ownCode : codes.getOrDefault(id, String.valueOf(id)))
        .toList();
  }
}
