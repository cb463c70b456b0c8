package org.tareline.rig;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/**
 * What a line of a rig may hold, part or rig, told from one text that somebody types. A code that
 * is both a part's and a rig's is typed as {@code part: CODE} or {@code rig: CODE}; no code has a
 * colon in it.
 */
@Service
@Transactional(readOnly = true)
public class Things {

  private static final String PART = "part:";
  private static final String RIG = "rig:";
  private static final int MOST_NAMED = 4;

  /**
   * What a text was told to be: a part, a rig, or nothing with the reason.
   *
   * @param part code of the part
   * @param rig code of the rig
   * @param fault why it is neither; null where it is one of them
   */
  public record Told(@Nullable String part, @Nullable String rig, @Nullable String fault) {

    static Told part(String code) {
      return new Told(code, null, null);
    }

    static Told rig(String code) {
      return new Told(null, code, null);
    }

    static Told fault(String words) {
      return new Told(null, null, words);
    }
  }

  /** A part or a rig that is meant; typed is what tells it from any other. */
  public record Thing(String typed, String name, @Nullable Part part) {}

  private final RigRepository repository;
  private final Rigs rigs;
  private final Parts parts;

  Things(RigRepository repository, Rigs rigs, Parts parts) {
    this.repository = repository;
    this.rigs = rigs;
    this.parts = parts;
  }

  /** The few whose code or name holds the text, rigs and parts in turn, best fit first. */
  public List<Thing> search(Member member, String text, int most) {
    Set<String> twice = twice(member);
    List<Thing> ofParts =
        parts.search(member, text, most).stream()
            .map(part -> new Thing(typed(PART, part.code(), twice), part.name(), part))
            .toList();
    List<Thing> ofRigs =
        rigs.search(member, text, most).stream()
            .map(rig -> new Thing(typed(RIG, rig.code(), twice), rig.name(), null))
            .toList();
    List<Thing> found = new ArrayList<>();
    for (int i = 0; i < most; i++) {
      found.addAll(ofParts.subList(Math.min(i, ofParts.size()), Math.min(i + 1, ofParts.size())));
      found.addAll(ofRigs.subList(Math.min(i, ofRigs.size()), Math.min(i + 1, ofRigs.size())));
    }
    return found.subList(0, Math.min(most, found.size()));
  }

  /** What to type for the thing that each of these lines holds, in their order. */
  public List<String> typed(Member member, List<HeldLine> lines) {
    Set<String> twice = twice(member);
    return lines.stream()
        .map(
            line ->
                line.part() != null
                    ? typed(PART, line.part(), twice)
                    : typed(RIG, String.valueOf(line.rig()), twice))
        .toList();
  }

  private Set<String> twice(Member member) {
    return Set.copyOf(repository.codesOfBoth(member.ledgerId()));
  }

  private static String typed(String kind, String code, Set<String> twice) {
    return twice.contains(Codes.key(code)) ? kind + " " + code : code;
  }

  /** Tells each of these texts: by its code, by a code it once had, or by what alone fits it. */
  public Map<String, Told> tell(Member member, Set<String> texts) {
    Set<String> codes = new HashSet<>();
    texts.forEach(text -> codes.add(code(text)));
    Map<String, Rig> ofRigs = rigs.byCodesNow(member, codes);
    Set<String> twice = twice(member);
    Set<String> perhapsParts =
        codes.stream()
            .filter(code -> !ofRigs.containsKey(Codes.key(code)) || twice.contains(Codes.key(code)))
            .collect(Collectors.toSet());
    texts.stream().filter(text -> hasKind(text, PART)).map(Things::code).forEach(perhapsParts::add);
    Map<String, Part> ofParts = parts.byCodes(member, perhapsParts);
    Map<String, Told> told = new HashMap<>();
    for (String text : texts) {
      String key = Codes.key(code(text));
      told.put(text, tell(member, text, ofParts.get(key), ofRigs.get(key)));
    }
    return told;
  }

  private Told tell(Member member, String text, @Nullable Part part, @Nullable Rig rig) {
    String code = code(text);
    if (hasKind(text, PART)) {
      return part == null ? none("part", code) : Told.part(part.code());
    }
    if (hasKind(text, RIG)) {
      return rig == null
          ? rigs.find(member, code)
              .map(former -> Told.rig(former.code()))
              .orElseGet(() -> none("rig", code))
          : Told.rig(rig.code());
    }
    if (part != null && rig != null) {
      return Told.fault(
          "There is a part "
              + part.code()
              + " and a rig "
              + rig.code()
              + ": write "
              + PART
              + " "
              + part.code()
              + " or "
              + RIG
              + " "
              + rig.code()
              + ".");
    }
    if (part != null) {
      return Told.part(part.code());
    }
    return rig != null
        ? Told.rig(rig.code())
        : rigs.find(member, code)
            .map(former -> Told.rig(former.code()))
            .orElseGet(() -> byFit(member, code));
  }

  /** What alone has this name, or alone fits it. */
  private Told byFit(Member member, String text) {
    List<Thing> fitting = search(member, text, MOST_NAMED + 1);
    List<Thing> named =
        fitting.stream().filter(thing -> Codes.key(thing.name()).equals(Codes.key(text))).toList();
    List<Thing> meant = named.size() == 1 ? named : fitting;
    if (meant.isEmpty()) {
      return none("part or rig", text);
    }
    if (meant.size() > 1) {
      return Told.fault(
          Faults.shortened(text)
              + " could be "
              + Stream.concat(
                      meant.stream().limit(MOST_NAMED).map(Thing::typed),
                      Stream.of("another").limit(Math.max(0, meant.size() - MOST_NAMED)))
                  .collect(Collectors.joining(", or "))
              + ": give its code.");
    }
    Thing thing = meant.get(0);
    return thing.part() == null ? Told.rig(code(thing.typed())) : Told.part(code(thing.typed()));
  }

  private static Told none(String kind, String text) {
    return Told.fault("There is no " + kind + " " + Faults.shortened(text) + " in this ledger.");
  }

  private static boolean hasKind(String text, String kind) {
    return Codes.key(text).startsWith(kind);
  }

  /** The text without the word that says of what kind it is. */
  private static String code(String text) {
    for (String kind : List.of(PART, RIG)) {
      if (hasKind(text, kind)) {
        return text.strip().substring(kind.length()).strip();
      }
    }
    return text.strip();
  }
}
