package org.tareline.rig;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.ledger.ReadAgain;
import org.tareline.ledger.Revisions;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.WhereUsed;
import org.tareline.rollup.Roles;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** The rigs of a ledger, and what they hold. */
@Service
@Transactional(readOnly = true)
public class Rigs implements ReadAgain {

  static final String KIND = "rig";

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
        .or(() -> revisions.formerly(member, KIND, code));
  }

  public Rig get(Member member, String code) {
    return find(member, code).orElseThrow(() -> new NotThere("rig"));
  }

  @Override
  public String table() {
    return KIND;
  }

  @Override
  public Map<Long, List<Refusal.Fault>> readAgain(Member member, Collection<Long> ids) {
    EntryReader reader = new EntryReader(member, this, rigs, parts, revisions);
    Nesting nesting = reader.nesting(EntryReader.NEW);
    Set<Long> inCircles = nesting.inCircles(ids);
    Set<String> said = new HashSet<>();
    return ReadAgain.each(
        byIds(member, ids), Rig::id, rig -> reader.readAgain(rig, nesting, inCircles, said));
  }

  public List<Rig> byIds(Member member, Collection<Long> ids) {
    return ids.isEmpty() ? List.of() : rigs.byIds(member.ledgerId(), ids.toArray(Long[]::new));
  }

  /** Those that have these codes now or once had, by the key of the code. */
  public Map<String, Rig> byCodes(Member member, Collection<String> codes) {
    Map<String, Rig> found = byCodesNow(member, codes);
    codes.stream()
        .map(Codes::key)
        .distinct()
        .filter(key -> !found.containsKey(key))
        .forEach(key -> find(member, key).ifPresent(rig -> found.put(key, rig)));
    return found;
  }

  /** Those that have these codes now, by the key of the code, in one query. */
  Map<String, Rig> byCodesNow(Member member, Collection<String> codes) {
    Map<String, Rig> found = new HashMap<>();
    List<String> keys = codes.stream().map(Codes::key).distinct().toList();
    if (!keys.isEmpty()) {
      rigs.byCodeKeys(member.ledgerId(), keys.toArray(String[]::new))
          .forEach(rig -> found.put(Codes.key(rig.code()), rig));
    }
    return found;
  }

  /** Those whose code or name holds the text, best fit first. */
  public List<Rig> search(Member member, String text, int most) {
    String key = Codes.key(text).replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_");
    return key.length() > 200 ? List.of() : rigs.holding(member.ledgerId(), key, Limit.of(most));
  }

  /** In which roles each part stands in rigs, by its id; of one that is in none, nothing. */
  public Map<Long, Set<String>> rolesOfParts(Member member) {
    Map<Long, Set<String>> roles = new HashMap<>();
    for (Object[] row : rigs.rolesOfParts(member.ledgerId())) {
      roles.computeIfAbsent((Long) row[0], any -> new LinkedHashSet<>()).add((String) row[1]);
    }
    return roles;
  }

  /** The lines of a rig, in their order, with what they hold. */
  public List<HeldLine> lines(Member member, Rig rig) {
    return rigs.linesOf(member.ledgerId(), rig.id());
  }

  /** The lines of every rig, by the rig's id. */
  public Map<Long, List<HeldLine>> lines(Member member) {
    Map<Long, List<HeldLine>> lines = new HashMap<>();
    for (RigRepository.LineOf line : rigs.linesOfLedger(member.ledgerId())) {
      lines.computeIfAbsent(line.rigId(), any -> new ArrayList<>()).add(line.line());
    }
    return lines;
  }

  /** The rigs that have a rig in a line of their own, and how many of it, by code. */
  public List<WhereUsed.Use> holding(Member member, Rig rig) {
    return rigs.usesOfRig(member.ledgerId(), rig.id());
  }

  /** Who saved a rig last, and when. */
  public Optional<Revisions.Saved> lastSaved(Member member, Rig rig) {
    return revisions.lastSaved(member, KIND, rig.id());
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
                  (String) row[1], (String) row[2], ((Number) row[3]).intValue(), partId, rigId));
    }
    for (Object[] row : reached) {
      trees.put(
          number(row[0]),
          new Forest.Tree(
              (String) row[1],
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

  /**
   * The totals of these rigs under a scope, in their order, in a fixed number of queries.
   *
   * @throws NotThere naming the first that is not in the ledger
   */
  public List<RollUp> rollUps(Member member, List<String> codes, Scope scope) {
    Map<String, Rig> found = byCodes(member, codes);
    List<Long> ids = new ArrayList<>();
    for (String code : codes) {
      Rig rig = found.get(Codes.key(code));
      if (rig == null) {
        throw new NotThere("rig as " + Faults.shortened(code));
      }
      ids.add(rig.id());
    }
    Forest forest = forest(member, ids);
    Map<Long, RollUp> rollUps = new HashMap<>();
    return ids.stream()
        .map(id -> rollUps.computeIfAbsent(id, any -> forest.rollUp(id, scope)))
        .toList();
  }

  static long number(Object column) {
    return ((Number) column).longValue();
  }

  /**
   * The rigs whose complete total, or how sure it is, changes with the masses of parts: those that
   * hold one directly first, then by code.
   *
   * @param before what the parts weighed, by their ids
   * @param after what they weigh now, of the same parts
   */
  public List<Moved> moved(Member member, Map<Long, PartMass> before, Map<Long, PartMass> after) {
    Map<Long, Integer> steps = new HashMap<>();
    for (Map.Entry<Long, PartMass> part : after.entrySet()) {
      if (part.getValue().equals(before.get(part.getKey()))) {
        continue;
      }
      for (Object[] row : rigs.holdersOf(member.ledgerId(), part.getKey())) {
        steps.merge(number(row[0]), ((Number) row[1]).intValue(), Math::min);
      }
    }
    Forest forest = forest(member, steps.keySet());
    Forest then = forest.with(before);
    Forest now = forest.with(after);
    List<Long> nearestFirst =
        steps.keySet().stream()
            .sorted(
                Comparator.<Long, Integer>comparing(id -> steps.getOrDefault(id, 0))
                    .thenComparing(id -> Codes.key(forest.assembly(id).code())))
            .toList();
    List<Moved> moved = new ArrayList<>();
    for (long id : nearestFirst) {
      try {
        Moved.of(
                RollUp.of(then.assembly(id), Scope.COMPLETE),
                RollUp.of(now.assembly(id), Scope.COMPLETE))
            .ifPresent(moved::add);
      } catch (ArithmeticException outOfRange) {
        // Its own page says so; a weighing is not to be refused for it.
      }
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
    return add(member, entry, null);
  }

  /** As {@link #add(Member, Entry)}, as a variant of another rig. */
  @Transactional
  Rig add(Member member, Entry entry, @Nullable Rig variantOf) {
    Read read = reader(member).read(entry, null);
    Rig rig =
        new Rig(member.ledgerId(), read, clock.instant().truncatedTo(ChronoUnit.MICROS), variantOf);
    Revisions.write(read.code(), () -> rigs.save(rig));
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
        && entry.lines().stream().anyMatch(line -> line != null && line.rig() != null)) {
      // Two saves that each look harmless could make a circle between them.
      rigs.lockAll(member.ledgerId());
    }
    Rig rig = rigs.lock(member.ledgerId(), id).orElseThrow(() -> new NotThere("rig"));
    Revisions.guard("rig " + rig.code(), rig.revision(), expected);
    Read read = reader(member).read(entry, rig);
    revisions.recode(member, KIND, rig.id(), rig.code(), read.code());
    rig.describe(read);
    Revisions.write(read.code(), rigs::flush);
    revisions.keep(member, KIND, rig.id(), rig.revision(), read);
    return rig;
  }

  private EntryReader reader(Member member) {
    return new EntryReader(member, this, rigs, parts, revisions);
  }
}
