package org.tareline.trip;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.trip.Trips.LineEntry;
import org.tareline.trip.Trips.StandInEntry;

/** The parts and rigs that lines name, by code or, where it was typed by hand, by name. */
final class Things {

  /** Says that a rig is meant where a part has the same code. */
  private static final String RIG = "rig ";

  private static final int MOST_ALIKE = 4;

  private final Member member;
  private final Parts parts;
  private final Rigs rigs;
  private final Map<String, Part> partsByCode = new HashMap<>();
  private final Map<String, Rig> rigsByCode = new HashMap<>();

  /**
   * What a text stands for.
   *
   * @param trouble why it stands for neither a part nor a rig; null where it stands for one
   */
  record Found(@Nullable Part part, @Nullable Rig rig, @Nullable String trouble) {}

  Things(Member member, Parts parts, Rigs rigs) {
    this.member = member;
    this.parts = parts;
    this.rigs = rigs;
  }

  /** Finds at once all that these lines name by code. */
  void lookUp(List<LineEntry> lines) {
    Set<String> partCodes = new LinkedHashSet<>();
    Set<String> rigCodes = new LinkedHashSet<>();
    for (LineEntry line : lines) {
      collect(partCodes, line.part());
      collect(partCodes, line.thing());
      collect(rigCodes, line.rig());
      orNone(line.leftAtHome()).forEach(code -> collect(partCodes, code));
      for (StandInEntry place : orNone(line.standsInFor())) {
        if (place != null) {
          collect(partCodes, place.part());
          collect(rigCodes, place.rig());
        }
      }
      collect(rigCodes, rigMeant(line.thing()));
    }
    partsByCode.putAll(parts.byCodes(member, partCodes));
    lines.stream()
        .filter(line -> line.thing() != null && part(line.thing()) == null)
        .forEach(line -> collect(rigCodes, line.thing()));
    rigsByCode.putAll(rigs.byCodes(member, rigCodes));
  }

  private static <T extends @Nullable Object> List<T> orNone(@Nullable List<T> list) {
    return list == null ? List.of() : list;
  }

  private static void collect(Set<String> codes, @Nullable String typed) {
    if (typed != null && !typed.isBlank() && mayBeFound(typed)) {
      codes.add(typed);
    }
  }

  /** What cannot be a code is not looked for: not every database takes every character. */
  private static boolean mayBeFound(String typed) {
    return typed.strip().length() <= Codes.LONGEST
        && typed.chars().noneMatch(Character::isISOControl);
  }

  /** Those of these texts that can be codes. */
  static List<String> findable(Collection<String> typed) {
    return typed.stream().filter(Things::mayBeFound).toList();
  }

  private static @Nullable String rigMeant(@Nullable String typed) {
    return typed != null && Codes.key(typed).startsWith(RIG)
        ? typed.strip().substring(RIG.length())
        : null;
  }

  /** The rigs with these ids, with all that they hold. */
  Forest forest(Collection<Long> rigIds) {
    return rigs.forest(member, rigIds);
  }

  @Nullable Part part(String code) {
    return partsByCode.get(Codes.key(code));
  }

  @Nullable Rig rig(String code) {
    return rigsByCode.get(Codes.key(code));
  }

  /** By code, a part before a rig; else by what only one thing's code or name holds. */
  Found thing(String typed) {
    Part part = part(typed);
    if (part != null) {
      return new Found(part, null, null);
    }
    String meant = rigMeant(typed);
    Rig rig = rig(typed);
    if (rig == null && meant != null) {
      rig = rig(meant);
    }
    return rig != null || !mayBeFound(typed)
        ? new Found(null, rig, rig == null ? none("part or rig", typed) : null)
        : byName(typed);
  }

  private Found byName(String typed) {
    List<Part> likeParts = parts.search(member, typed, MOST_ALIKE);
    List<Rig> likeRigs = rigs.search(member, typed, MOST_ALIKE);
    if (likeParts.size() + likeRigs.size() == 1) {
      return new Found(
          likeParts.isEmpty() ? null : likeParts.get(0),
          likeRigs.isEmpty() ? null : likeRigs.get(0),
          null);
    }
    List<String> codes = new ArrayList<>();
    likeParts.forEach(part -> codes.add(part.code()));
    likeRigs.forEach(rig -> codes.add(rig.code()));
    return new Found(
        null,
        null,
        codes.isEmpty()
            ? none("part or rig", typed)
            : "Say which is meant by \""
                + Faults.shortened(typed)
                + "\": "
                + codes.stream().limit(MOST_ALIKE).collect(Collectors.joining(", "))
                + (codes.size() > MOST_ALIKE ? ", or another." : "."));
  }

  /** Says that there is no such thing. */
  static String none(String kind, String typed) {
    return "There is no " + kind + " " + Faults.shortened(typed) + " in this ledger.";
  }
}
