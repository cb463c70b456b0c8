package org.tareline.part;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.cutting.Stock;
import org.tareline.ledger.Member;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.Materials;
import org.tareline.site.CandidateTable;
import org.tareline.site.Codes;
import org.tareline.site.Faults;

/** What parts would be with other materials in their cut lists. Writes nothing. */
@Service
@Transactional(readOnly = true)
public class WhatIfs {

  private static final String FIELD = "replace";
  private static final int MOST_SWAPS = 50;

  private final CutSheets sheets;
  private final Materials materials;

  WhatIfs(CutSheets sheets, Materials materials) {
    this.sheets = sheets;
    this.materials = materials;
  }

  /**
   * Reads which materials stand in for which, and notes all that is wrong with it.
   *
   * @param replace codes of the new by codes of the old
   */
  public List<Swap> read(
      Member member, @Nullable Map<String, @Nullable String> replace, Faults faults) {
    if (replace == null) {
      return List.of();
    }
    if (replace.size() > MOST_SWAPS) {
      faults.add(FIELD, "Replace at most " + MOST_SWAPS + " materials at once.");
      return List.of();
    }
    Map<String, Material> named =
        materials.byCodes(
            member,
            Stream.concat(replace.keySet().stream(), replace.values().stream())
                .filter(Codes::couldBe)
                .collect(Collectors.toSet()));
    Map<Long, Swap> swaps = new LinkedHashMap<>();
    replace.forEach(
        (old, by) -> {
          String field = Faults.entry(FIELD, old);
          Material from = named.get(Codes.key(old));
          Material to = by == null ? null : named.get(Codes.key(by));
          if (from == null) {
            faults.add(field, noSuch(old));
          } else if (by == null || by.isBlank()) {
            faults.add(field, "Give the material that replaces " + from.code() + ".");
          } else if (to == null) {
            faults.add(field, noSuch(by));
          } else if (to.id() == from.id()) {
            faults.add(field, from.code() + " cannot be replaced by itself.");
          } else if (swaps.put(from.id(), new Swap(from, to)) != null) {
            faults.add(field, from.code() + " is named twice: say once what replaces it.");
          }
        });
    return List.copyOf(swaps.values());
  }

  private static String noSuch(String code) {
    return "There is no material " + Faults.shortened(code) + " in this ledger.";
  }

  /**
   * What some parts would be.
   *
   * @param touched those that have one of the materials in their cut list, by their rows in their
   *     order
   * @param withoutList those that have no cut list
   */
  public record Found(Map<Long, WhatIf> touched, List<Part> withoutList) {}

  /**
   * What these parts would be; what cannot stand in a line is noted. In a fixed number of queries.
   *
   * @param masses what each of the parts weighs
   */
  public Found of(
      Member member,
      Collection<Part> parts,
      Map<Long, PartMass> masses,
      List<Swap> swaps,
      Faults faults) {
    Map<Long, Calculation> calculations = sheets.unweighed(member, parts);
    Map<Long, Stock> stocks =
        materials.stocks(member, swaps.stream().map(Swap::to).collect(Collectors.toSet()));
    return new Found(
        whatIfs(parts, masses, calculations, swaps, stocks, faults),
        parts.stream().filter(part -> !calculations.containsKey(part.id())).toList());
  }

  private static Map<Long, WhatIf> whatIfs(
      Collection<Part> parts,
      Map<Long, PartMass> masses,
      Map<Long, Calculation> calculations,
      List<Swap> swaps,
      Map<Long, Stock> stocks,
      Faults faults) {
    Map<Long, WhatIf> found = new LinkedHashMap<>();
    for (Part part : parts) {
      Calculation calculation = calculations.get(part.id());
      WhatIf whatIf =
          calculation == null
              ? null
              : of(
                  part,
                  masses.getOrDefault(part.id(), PartMass.UNKNOWN),
                  calculation,
                  swaps,
                  stocks,
                  faults);
      if (whatIf != null) {
        found.put(part.id(), whatIf);
      }
    }
    return found;
  }

  private static @Nullable WhatIf of(
      Part part,
      PartMass now,
      Calculation calculation,
      List<Swap> swaps,
      Map<Long, Stock> stocks,
      Faults faults) {
    Map<Long, Material> instead = new HashMap<>();
    List<Swap> touching = new ArrayList<>();
    boolean fits = true;
    for (Swap swap : swaps) {
      boolean touches = false;
      for (Calculation.Line line : calculation.lines()) {
        if (line.material().id() == swap.from().id()) {
          touches = true;
          String unfit = CutSheets.unfit(line.line().form(), swap.to(), stocks.get(swap.to().id()));
          if (unfit != null && fits) {
            faults.add(Faults.entry(FIELD, swap.from().code()), part.code() + ": " + unfit);
            fits = false;
          }
        }
      }
      if (touches) {
        touching.add(swap);
        instead.put(swap.from().id(), swap.to());
      }
    }
    if (touching.isEmpty() || !fits) {
      return null;
    }
    try {
      return new WhatIf(part, now, calculation, calculation.with(instead, stocks), touching);
    } catch (IllegalArgumentException moreCutAwayThanThereIs) {
      faults.add(FIELD, part.code() + ": " + moreCutAwayThanThereIs.getMessage());
      return null;
    }
  }

  /**
   * What a part would be with other materials in its cut list.
   *
   * @throws org.tareline.site.Refusal if there is no such material, it cannot stand in a line, or
   *     the list has nothing to be replaced
   */
  public WhatIf of(
      Member member, Part part, PartMass now, @Nullable Map<String, @Nullable String> replace) {
    Faults faults = new Faults();
    List<Swap> swaps = read(member, replace, faults);
    if (swaps.isEmpty()) {
      faults.add(FIELD, "Say which material is replaced by which, such as {\"OLD\":\"NEW\"}.");
    }
    faults.refuseIfAny();
    Found found = of(member, List.of(part), Map.of(part.id(), now), swaps, faults);
    faults.refuseIfAny();
    if (!found.withoutList().isEmpty()) {
      faults.add("", part.code() + " has no cut list, and so no material to replace.");
    }
    WhatIf whatIf = found.touched().get(part.id());
    refuseUnused(
        swaps,
        whatIf == null ? List.of() : whatIf.swaps(),
        "The cut list of " + part.code() + " has no line of ",
        faults);
    faults.refuseIfAny();
    return Objects.requireNonNull(whatIf);
  }

  /** Notes each swap of which nothing has the material. */
  public static void refuseUnused(
      List<Swap> swaps, Collection<Swap> used, String words, Faults faults) {
    Set<Swap> touching = new HashSet<>(used);
    for (Swap swap : swaps) {
      if (!touching.contains(swap)) {
        faults.add(Faults.entry(FIELD, swap.from().code()), words + swap.from().code() + ".");
      }
    }
  }

  /**
   * A material that could stand in for another.
   *
   * @param mass what it weighs, and by what
   * @param whatIfs what each part would be with it, by the part's row
   */
  public record Candidate(Material material, MaterialMass mass, Map<Long, WhatIf> whatIfs) {

    /** Whether its code or name holds a text. */
    public boolean holds(String text) {
      String key = Codes.key(text);
      return Codes.key(material.code()).contains(key) || Codes.key(material.name()).contains(key);
    }

    /** As the heading of a column. */
    public CandidateTable.Column column() {
      return new CandidateTable.Column(material.code(), material.name());
    }
  }

  /**
   * What could be chosen for some parts.
   *
   * @param used the materials in their cut lists, in the order met
   * @param from the one that is to be replaced; null where none was named
   * @param mass what that weighs; null with it
   * @param candidates the others of its kind that fit every line, by code
   * @param withoutList the parts that have no cut list
   */
  public record Choice(
      List<Material> used,
      @Nullable Material from,
      @Nullable MaterialMass mass,
      List<Candidate> candidates,
      List<Part> withoutList) {}

  /**
   * What each other material of a kind would make of some parts, in a fixed number of queries.
   *
   * @param masses what each of the parts weighs
   * @param replaced code of the material to be replaced; the first in the lists where none is named
   */
  public Choice choice(
      Member member,
      Collection<Part> parts,
      Map<Long, PartMass> masses,
      @Nullable String replaced,
      Faults faults) {
    Map<Long, Calculation> calculations = sheets.unweighed(member, parts);
    Map<Long, Material> used = new LinkedHashMap<>();
    List<Part> withoutList = new ArrayList<>();
    for (Part part : parts) {
      Calculation calculation = calculations.get(part.id());
      if (calculation == null) {
        withoutList.add(part);
      } else {
        calculation.lines().forEach(line -> used.put(line.material().id(), line.material()));
      }
    }
    Choice none = new Choice(List.copyOf(used.values()), null, null, List.of(), withoutList);
    Material from;
    if (replaced == null || replaced.isBlank()) {
      from = used.values().stream().findFirst().orElse(null);
    } else {
      from =
          Codes.couldBe(replaced)
              ? materials.find(member, replaced).map(found -> used.get(found.id())).orElse(null)
              : null;
      if (from == null) {
        faults.add(FIELD, "No cut list here has a line of " + Faults.shortened(replaced) + ".");
      }
    }
    if (from == null) {
      return none;
    }
    List<Material> alike =
        materials.all(member).stream().filter(each -> each.kind() == from.kind()).toList();
    Map<Long, MaterialMass> known = materials.masses(member, alike);
    Map<Long, Stock> stocks = materials.stocks(member, alike);
    List<Candidate> candidates = new ArrayList<>();
    for (Material to : alike) {
      Faults unfit = new Faults();
      Map<Long, WhatIf> whatIfs = new LinkedHashMap<>();
      if (to.id() != from.id()) {
        whatIfs(parts, masses, calculations, List.of(new Swap(from, to)), stocks, unfit)
            .forEach(whatIfs::put);
      }
      if (!whatIfs.isEmpty() && unfit.none()) {
        candidates.add(new Candidate(to, Objects.requireNonNull(known.get(to.id())), whatIfs));
      }
    }
    return new Choice(none.used(), from, known.get(from.id()), candidates, withoutList);
  }
}
