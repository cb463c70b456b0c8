package org.tareline.rig;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.ledger.Revisions;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** Reads a rig as somebody typed it, and says all that is wrong with it. Writes nothing. */
final class EntryReader {

  private static final int MOST_LINES = 2_500;
  private static final int MOST_ALIKE = 100_000;

  /** Stands for the id of a rig that has none yet. */
  static final long NEW = -1;

  private final Member member;
  private final Rigs rigs;
  private final RigRepository repository;
  private final Parts parts;
  private final Revisions revisions;

  EntryReader(
      Member member, Rigs rigs, RigRepository repository, Parts parts, Revisions revisions) {
    this.member = member;
    this.rigs = rigs;
    this.repository = repository;
    this.parts = parts;
    this.revisions = revisions;
  }

  /**
   * Reads an entry.
   *
   * @param itself the rig that it describes anew; null where it describes a new one
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  Rigs.Read read(Rigs.Entry entry, @Nullable Rig itself) {
    Faults faults = new Faults();
    String code = Codes.read(faults, "code", entry.code());
    String name = faults.text("name", entry.name(), "a name", 200);
    String note = faults.optionalText("note", entry.note(), "the note", 2000);
    List<Rigs.ReadLine> lines = readLines(entry, itself, faults);
    boolean nested = itself != null || lines.stream().anyMatch(line -> line.rigId() != null);
    if (faults.none() && nested) {
      long own = itself == null ? NEW : itself.id();
      List<@Nullable Long> rigsHeld = new ArrayList<>();
      lines.forEach(line -> rigsHeld.add(line.rigId()));
      Nesting nesting = nesting(own);
      nesting.put(own, rigsHeld.stream().filter(Objects::nonNull).toList(), lines.size());
      refuseBadNesting(code, own, rigsHeld, nesting, faults);
    }
    if (faults.none()) {
      Optional<Rig> other = repository.findByLedgerIdAndCodeKey(member.ledgerId(), Codes.key(code));
      if (other.isPresent() && (itself == null || other.get().id() != itself.id())) {
        faults.conflict(
            "code", "Choose another code: " + code + " is " + other.get().name() + " already.");
      } else {
        revisions.refuseFormerCode(
            member, Rigs.KIND, code, itself == null ? null : itself.id(), faults);
      }
    }
    faults.refuseIfAny();
    return new Rigs.Read(code, name, lines, note);
  }

  /**
   * Reads a rig that is kept already.
   *
   * @param inCircles one rig of each circle in the ledger
   * @param said what was said already of the nesting of others
   * @throws org.tareline.site.Refusal with every fault, if there is one
   */
  void readAgain(Rig rig, Nesting nesting, Set<Long> inCircles, Set<String> said) {
    Faults faults = new Faults();
    List<RigLine> lines = rig.lines();
    if (lines.size() > MOST_LINES) {
      faults.add("lines", tooMany(lines.size()));
    }
    List<@Nullable Long> rigsHeld = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String field = "lines[" + i + "]";
      RigLine line = lines.get(i);
      rigsHeld.add(line.rigHeld());
      faults.wholeNumber(
          field + ".quantity", String.valueOf(line.quantity()), "the quantity", 1, MOST_ALIKE, 1);
      String role = LineRole.read(faults, field + ".role", line.role());
      if (!role.equals(line.role())) {
        faults.add(field + ".role", "Write the role as " + role + ".");
      }
    }
    if (faults.none() && (inCircles.isEmpty() || inCircles.contains(rig.id()))) {
      Faults ofNesting = new Faults();
      refuseBadNesting(rig.code(), rig.id(), rigsHeld, nesting, ofNesting);
      ofNesting.found().stream()
          .filter(fault -> said.add(fault.message()))
          .forEach(fault -> faults.add(fault.field(), fault.message()));
    }
    faults.refuseIfAny();
  }

  private static String tooMany(int lines) {
    return "Give at most "
        + MOST_LINES
        + " lines; there are "
        + lines
        + ". Put some of them into a rig of their own.";
  }

  private List<Rigs.ReadLine> readLines(Rigs.Entry entry, @Nullable Rig itself, Faults faults) {
    List<Rigs.@Nullable LineEntry> entries = entry.lines() == null ? List.of() : entry.lines();
    if (entry.lines() == null && itself != null) {
      faults.add("lines", "Give the lines; an empty list takes them all out.");
    }
    if (entries.size() > MOST_LINES) {
      faults.add("lines", tooMany(entries.size()));
      return List.of();
    }
    Map<String, Part> partsNamed = parts.byCodes(member, typedCodes(entries, Rigs.LineEntry::part));
    Map<String, Rig> rigsNamed = rigs.byCodes(member, typedCodes(entries, Rigs.LineEntry::rig));
    Map<UUID, RigLine> unclaimed = new LinkedHashMap<>();
    if (itself != null) {
      itself.lines().forEach(line -> unclaimed.put(line.uuid(), line));
    }
    List<Rigs.ReadLine> lines = new ArrayList<>();
    Set<Rigs.ReadLine> anonymous = Collections.newSetFromMap(new IdentityHashMap<>());
    for (int i = 0; i < entries.size(); i++) {
      Rigs.LineEntry line = entries.get(i);
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
      Rigs.ReadLine read =
          new Rigs.ReadLine(
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
      List<Rigs.@Nullable LineEntry> lines, Function<Rigs.LineEntry, @Nullable String> code) {
    List<String> codes = new ArrayList<>();
    for (Rigs.LineEntry line : lines) {
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
  private static List<Rigs.ReadLine> told(
      List<Rigs.ReadLine> lines, Set<Rigs.ReadLine> anonymous, Collection<RigLine> unclaimed) {
    Map<String, Deque<RigLine>> byThingAndRole = new HashMap<>();
    Map<String, Deque<RigLine>> byThing = new HashMap<>();
    for (RigLine line : unclaimed) {
      byThing.computeIfAbsent(line.thing(), any -> new ArrayDeque<>()).add(line);
      byThingAndRole
          .computeIfAbsent(line.thing() + line.role(), any -> new ArrayDeque<>())
          .add(line);
    }
    Map<Rigs.ReadLine, UUID> found = new IdentityHashMap<>();
    Set<UUID> taken = new HashSet<>();
    for (Rigs.ReadLine line : lines) {
      RigLine same =
          anonymous.contains(line)
              ? byThingAndRole.getOrDefault(line.thing() + line.role(), new ArrayDeque<>()).poll()
              : null;
      if (same != null) {
        found.put(line, same.uuid());
        taken.add(same.uuid());
      }
    }
    for (Rigs.ReadLine line : lines) {
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

  /** What holds what in the ledger but for one rig. */
  Nesting nesting(long itself) {
    Map<Long, List<Long>> held = new HashMap<>();
    for (Object[] pair : repository.nestings(member.ledgerId())) {
      held.computeIfAbsent(Rigs.number(pair[0]), any -> new ArrayList<>())
          .add(Rigs.number(pair[1]));
    }
    Nesting nesting = new Nesting();
    for (Object[] pair : repository.lineCounts(member.ledgerId())) {
      long id = Rigs.number(pair[0]);
      if (id != itself) {
        nesting.put(id, held.getOrDefault(id, List.of()), Rigs.number(pair[1]));
      }
    }
    return nesting;
  }

  private void refuseBadNesting(
      String code, long own, List<@Nullable Long> rigsHeld, Nesting nesting, Faults faults) {
    Optional<List<Long>> circle = nesting.circle(own);
    if (circle.isPresent()) {
      List<Long> path = circle.get();
      faults.add(
          "lines[" + rigsHeld.indexOf(path.get(1)) + "].rig", circle(codesOf(path, own, code)));
      return;
    }
    for (long changed : nesting.changedWith(own)) {
      if (nesting.levels(changed) > Nesting.DEEPEST) {
        faults.add(
            "lines",
            codesOf(List.of(changed), own, code).get(0)
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
            codesOf(List.of(changed), own, code).get(0)
                + " would have more than "
                + Nesting.MOST_UNFOLDED
                + " lines with every rig in it unfolded.");
        return;
      }
    }
  }

  private List<String> codesOf(List<Long> ids, long own, String ownCode) {
    Map<Long, String> codes =
        rigs.byIds(member, ids).stream().collect(Collectors.toMap(Rig::id, Rig::code));
    return ids.stream()
        .map(id -> id == own ? ownCode : codes.getOrDefault(id, String.valueOf(id)))
        .toList();
  }
}
