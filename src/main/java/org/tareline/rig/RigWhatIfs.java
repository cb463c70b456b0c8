package org.tareline.rig;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.Parts;
import org.tareline.part.Strength;
import org.tareline.part.Swap;
import org.tareline.part.WhatIf;
import org.tareline.part.WhatIfs;
import org.tareline.rollup.Leaf;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** What rigs would be with other materials or parts. Writes nothing. */
@Service
@Transactional(readOnly = true)
public class RigWhatIfs {

  private static final String PARTS_FIELD = "replaceParts";
  private static final int MOST_EXCHANGES = 50;

  /**
   * What is replaced, as somebody typed it.
   *
   * @param replace codes of materials by codes of those that they stand in for
   * @param replaceParts codes of parts by codes of those that they stand in for
   */
  public record Entry(
      @Nullable Map<String, @Nullable String> replace,
      @Nullable Map<String, @Nullable String> replaceParts) {

    public boolean isEmpty() {
      return (replace == null || replace.isEmpty())
          && (replaceParts == null || replaceParts.isEmpty());
    }
  }

  /** One part in the place of another. */
  record PartSwap(Part from, Part to) {}

  /**
   * What could be chosen for a rig.
   *
   * @param materials by what each would make of its parts
   * @param whatIfs what the rig would be with each candidate, in the order of those
   */
  public record Choice(RollUp before, WhatIfs.Choice materials, List<RigWhatIf> whatIfs) {}

  private final Rigs rigs;
  private final Parts parts;
  private final WhatIfs whatIfs;
  private final HangLoads loads;

  RigWhatIfs(Rigs rigs, Parts parts, WhatIfs whatIfs, HangLoads loads) {
    this.rigs = rigs;
    this.parts = parts;
    this.whatIfs = whatIfs;
    this.loads = loads;
  }

  /**
   * What a rig would be, in a fixed number of queries.
   *
   * @throws org.tareline.site.Refusal if something that is named is not there, does not fit, or is
   *     in nothing that is counted
   */
  public RigWhatIf of(Member member, Rig rig, Scope scope, Entry entry) {
    Faults faults = new Faults();
    if (entry.isEmpty()) {
      faults.add("replace", "Say which material is replaced by which, such as {\"OLD\":\"NEW\"}.");
    }
    List<Swap> swaps = whatIfs.read(member, entry.replace(), faults);
    Map<Long, PartSwap> instead = readParts(member, entry.replaceParts(), faults);
    faults.refuseIfAny();
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp before = RollUp.of(forest.assembly(rig.id()), scope);
    Map<Long, PartMass> masses =
        new HashMap<>(parts.masses(member, instead.values().stream().map(PartSwap::to).toList()));
    Set<Part> standing = new LinkedHashSet<>();
    for (Leaf leaf : before.leaves()) {
      Part part = part(forest, leaf);
      masses.putIfAbsent(part.id(), forest.mass(leaf.piece()).orElse(PartMass.UNKNOWN));
      standing.add(instead.getOrDefault(part.id(), new PartSwap(part, part)).to());
    }
    WhatIfs.Found found = whatIfs.of(member, standing, masses, swaps, faults);
    faults.refuseIfAny();
    Map<Long, Strength> strengths =
        parts.strengths(
            member,
            instead.values().stream().flatMap(swap -> Stream.of(swap.from(), swap.to())).toList());
    HangLoads.Trial trial = loads.trial(member, rig, forest).orElse(null);
    RigWhatIf whatIf = of(before, forest, swaps, instead, masses, strengths, found, trial);
    WhatIfs.refuseUnused(
        swaps,
        whatIf.parts().stream().flatMap(part -> part.whatIf().swaps().stream()).toList(),
        "No part of " + rig.code() + " that is counted has a line in its cut list of ",
        faults);
    refuseUnused(
        rig,
        instead,
        whatIf.exchanges().stream().map(each -> each.from().id()).collect(Collectors.toSet()),
        faults);
    faults.refuseIfAny();
    return whatIf;
  }

  /** Notes each part that is to be replaced and is not among these. */
  static void refuseUnused(Rig rig, Map<Long, PartSwap> instead, Set<Long> there, Faults faults) {
    instead.forEach(
        (id, swap) -> {
          if (!there.contains(id)) {
            faults.add(
                Faults.entry(PARTS_FIELD, swap.from().code()),
                "Of what is counted in " + rig.code() + ", nothing is " + swap.from().code() + ".");
          }
        });
  }

  private static Part part(Forest forest, Leaf leaf) {
    return forest.part(leaf.piece()).orElseThrow();
  }

  private static RigWhatIf of(
      RollUp before,
      Forest forest,
      List<Swap> swaps,
      Map<Long, PartSwap> instead,
      Map<Long, PartMass> masses,
      Map<Long, Strength> strengths,
      WhatIfs.Found found,
      HangLoads.@Nullable Trial trial) {
    Map<Long, Long> counts = new LinkedHashMap<>();
    Map<Long, RigWhatIf.Exchange> exchanges = new LinkedHashMap<>();
    for (Leaf leaf : before.leaves()) {
      Part part = part(forest, leaf);
      PartSwap swap = instead.get(part.id());
      Part to = swap == null ? null : swap.to();
      counts.merge(to == null ? part.id() : to.id(), leaf.multiplicity(), Math::addExact);
      if (to != null) {
        Estimate each = masses.getOrDefault(to.id(), PartMass.UNKNOWN).each(leaf.line().quantity());
        exchanges.merge(
            part.id(),
            new RigWhatIf.Exchange(
                part,
                to,
                leaf.multiplicity(),
                leaf.estimate(),
                each == null ? null : each.times(leaf.multiplicity()),
                strengths.get(part.id()),
                strengths.get(to.id())),
            RigWhatIfs::both);
      }
    }
    List<RigWhatIf.Changed> changed = new ArrayList<>();
    for (Map.Entry<Long, WhatIf> each : found.touched().entrySet()) {
      changed.add(new RigWhatIf.Changed(each.getValue(), counts.getOrDefault(each.getKey(), 0L)));
    }
    Map<Long, Optional<Strength>> others = new HashMap<>();
    changed.forEach(one -> others.put(one.whatIf().part().id(), one.whatIf().strengthAfter()));
    // A part may stand in for another and be of other materials itself.
    exchanges
        .values()
        .forEach(
            one ->
                others.put(
                    one.from().id(),
                    others.getOrDefault(one.to().id(), Optional.ofNullable(one.holds()))));
    return new RigWhatIf(
        before,
        swaps,
        changed,
        List.copyOf(exchanges.values()),
        found.withoutList(),
        trial == null ? null : trial.with(others));
  }

  private static RigWhatIf.Exchange both(RigWhatIf.Exchange one, RigWhatIf.Exchange other) {
    return new RigWhatIf.Exchange(
        one.from(),
        one.to(),
        Math.addExact(one.count(), other.count()),
        sum(one.was(), other.was()),
        sum(one.is(), other.is()),
        one.held(),
        one.holds());
  }

  private static @Nullable Estimate sum(@Nullable Estimate one, @Nullable Estimate other) {
    return one == null || other == null ? null : one.plus(other);
  }

  /**
   * Reads which parts stand in for which, and notes all that is wrong with it.
   *
   * @return by the row of the old
   */
  Map<Long, PartSwap> readParts(
      Member member, @Nullable Map<String, @Nullable String> replaceParts, Faults faults) {
    Map<Long, PartSwap> instead = new LinkedHashMap<>();
    if (replaceParts == null) {
      return instead;
    }
    if (replaceParts.size() > MOST_EXCHANGES) {
      faults.add(PARTS_FIELD, "Replace at most " + MOST_EXCHANGES + " parts at once.");
      return instead;
    }
    Map<String, Part> named =
        parts.byCodes(
            member,
            Stream.concat(replaceParts.keySet().stream(), replaceParts.values().stream())
                .filter(Codes::couldBe)
                .collect(Collectors.toSet()));
    replaceParts.forEach(
        (old, by) -> {
          String field = Faults.entry(PARTS_FIELD, old);
          Part from = named.get(Codes.key(old));
          Part to = by == null ? null : named.get(Codes.key(by));
          if (from == null || to == null) {
            faults.add(
                field,
                by == null || by.isBlank()
                    ? "Give the part that replaces " + Faults.shortened(old) + "."
                    : "There is no part "
                        + Faults.shortened(from == null ? old : by)
                        + " in this ledger.");
          } else if (to.id() == from.id()) {
            faults.add(field, from.code() + " cannot be replaced by itself.");
          } else if (instead.put(from.id(), new PartSwap(from, to)) != null) {
            faults.add(field, from.code() + " is named twice: say once what replaces it.");
          }
        });
    return instead;
  }

  /**
   * What each other material of a kind would make of a rig, in a fixed number of queries.
   *
   * @param replaced code of the material to be replaced; the first in the lists where none is named
   */
  public Choice choice(
      Member member, Rig rig, Scope scope, @Nullable String replaced, Faults faults) {
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp before = RollUp.of(forest.assembly(rig.id()), scope);
    Map<Long, PartMass> masses = new HashMap<>();
    Set<Part> standing = new LinkedHashSet<>();
    for (Leaf leaf : before.leaves()) {
      Part part = part(forest, leaf);
      masses.put(part.id(), forest.mass(leaf.piece()).orElse(PartMass.UNKNOWN));
      standing.add(part);
    }
    WhatIfs.Choice materials = whatIfs.choice(member, standing, masses, replaced, faults);
    HangLoads.Trial trial = loads.trial(member, rig, forest).orElse(null);
    return new Choice(
        before,
        materials,
        materials.candidates().stream()
            .map(
                candidate ->
                    of(
                        before,
                        forest,
                        List.of(
                            new Swap(
                                Objects.requireNonNull(materials.from()), candidate.material())),
                        Map.of(),
                        masses,
                        Map.of(),
                        new WhatIfs.Found(candidate.whatIfs(), materials.withoutList()),
                        trial))
            .toList());
  }
}
