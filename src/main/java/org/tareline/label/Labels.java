package org.tareline.label;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.part.GearSystem;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.rig.Forest;
import org.tareline.rig.Rig;
import org.tareline.rig.Rigs;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Moments;

/** Labels of the things of a ledger. */
@Service
@Transactional(readOnly = true)
public class Labels {

  private static final int LONGEST_LIST = 20_000;

  /**
   * What labels are asked for, as somebody typed it.
   *
   * @param show {@code parts}, {@code rigs} or {@code both}
   * @param system of parts; any when left out
   * @param since a date: parts whose mass was weighed then or later; any when left out
   * @param codes of parts and rigs, on lines of their own or with commas or semicolons between: a
   *     label for each, in this order, and nothing else. Of no account when left out
   */
  public record Entry(
      @Nullable String show,
      @Nullable String system,
      @Nullable String since,
      @Nullable String codes) {}

  private final Parts parts;
  private final Rigs rigs;
  private final Clock clock;

  Labels(Parts parts, Rigs rigs, Clock clock) {
    this.parts = parts;
    this.rigs = rigs;
    this.clock = clock;
  }

  /**
   * The labels asked for, in a fixed number of queries: parts by code and then rigs by code, or in
   * the order of the list of codes.
   *
   * @throws org.tareline.site.Refusal if the entry cannot be read, or names what is not there
   */
  public List<Label> of(Member member, Entry entry) {
    Faults faults = new Faults();
    String show = faults.text("show", entry.show(), "what to print labels for", 60);
    if (!show.isEmpty() && !List.of("parts", "rigs", "both").contains(show)) {
      faults.add("show", "Say parts, rigs or both.");
    }
    String systemTyped = faults.optionalText("system", entry.system(), "the system", 60);
    GearSystem system = systemTyped == null ? null : GearSystem.of(systemTyped).orElse(null);
    if (systemTyped != null && system == null) {
      faults.add("system", "Choose one of the systems, or leave it out.");
    }
    boolean anyTime = entry.since() == null || entry.since().isBlank();
    Instant since = anyTime ? null : Moments.read(faults, "since", entry.since(), clock);
    String listed = faults.optionalText("codes", entry.codes(), "the list of codes", LONGEST_LIST);
    if (listed != null && faults.none()) {
      return listed(member, listed, faults);
    }
    faults.refuseIfAny();
    return Stream.concat(
            show.equals("rigs") ? Stream.of() : parts(member, system, since),
            show.equals("parts") ? Stream.of() : rigs(member, rigs.all(member)).stream())
        .toList();
  }

  private Stream<Label> parts(Member member, @Nullable GearSystem system, @Nullable Instant since) {
    List<Part> asked =
        parts.all(member).stream()
            .filter(part -> system == null || part.system() == system)
            .toList();
    return parts(member, asked).stream()
        .filter(
            label ->
                since == null || label.weighedAt() != null && !label.weighedAt().isBefore(since));
  }

  private List<Label> listed(Member member, String listed, Faults faults) {
    List<String> codes =
        Arrays.stream(listed.split("[,;\\r\\n]+"))
            .map(String::strip)
            .filter(code -> !code.isEmpty())
            .toList();
    Map<String, Part> partsByCode = parts.byCodes(member, codes);
    Map<String, Rig> rigsByCode = rigs.byCodes(member, codes);
    List<Object> things = new ArrayList<>();
    for (String code : codes) {
      Part part = partsByCode.get(Codes.key(code));
      Rig rig = rigsByCode.get(Codes.key(code));
      if (part == null && rig == null) {
        faults.add("codes", "There is no part and no rig " + Faults.shortened(code) + ".");
      }
      Stream.of(part, rig).filter(Objects::nonNull).forEach(things::add);
    }
    faults.refuseIfAny();
    Map<Long, PartMass> masses = parts.masses(member, List.copyOf(partsByCode.values()));
    Forest forest = rigs.forest(member, rigsByCode.values().stream().map(Rig::id).toList());
    return things.stream()
        .map(
            thing ->
                thing instanceof Part part
                    ? label(part, masses.getOrDefault(part.id(), PartMass.UNKNOWN))
                    : label((Rig) thing, forest))
        .toList();
  }

  private List<Label> parts(Member member, List<Part> asked) {
    Map<Long, PartMass> masses = parts.masses(member, asked);
    return asked.stream()
        .map(part -> label(part, masses.getOrDefault(part.id(), PartMass.UNKNOWN)))
        .toList();
  }

  private List<Label> rigs(Member member, List<Rig> asked) {
    Forest forest = rigs.forest(member, asked.stream().map(Rig::id).toList());
    return asked.stream().map(rig -> label(rig, forest)).toList();
  }

  private static Label label(Part part, PartMass mass) {
    return new Label(
        "part",
        part.code(),
        part.name(),
        mass.estimate(),
        false,
        mass.basis(),
        mass.weighing() == null ? null : mass.weighing().weighedAt());
  }

  private static Label label(Rig rig, Forest forest) {
    RollUp total = total(rig, forest);
    return total == null || total.basis() == null
        ? new Label("rig", rig.code(), rig.name(), null, false, null, null)
        : new Label(
            "rig", rig.code(), rig.name(), total.estimate(), total.atLeast(), total.basis(), null);
  }

  /** All that is in a rig; null where that is more than can be added up. */
  private static @Nullable RollUp total(Rig rig, Forest forest) {
    try {
      return RollUp.of(forest.assembly(rig.id()), Scope.COMPLETE);
    } catch (ArithmeticException outOfRange) {
      return null;
    }
  }
}
