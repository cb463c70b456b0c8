package org.tareline.part;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.cutting.Cut;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.material.CutFrom;
import org.tareline.material.Material;

/** Says which parts are cut from a material. */
@Component
@Transactional(readOnly = true)
class PartsCutFrom implements CutFrom {

  private final Parts parts;
  private final CutSheets sheets;

  PartsCutFrom(Parts parts, CutSheets sheets) {
    this.parts = parts;
    this.sheets = sheets;
  }

  @Override
  public List<Made> madeOf(Member member, Material material) {
    List<Part> cut = parts.cutFrom(member, material);
    Map<Long, PartMass> masses = parts.masses(member, cut);
    List<Part> weighed =
        cut.stream()
            .filter(part -> onTheScale(masses.getOrDefault(part.id(), PartMass.UNKNOWN)))
            .toList();
    Map<Long, Calculation> calculations = sheets.beforeLearning(member, weighed);
    List<Made> made = new ArrayList<>();
    for (Part part : weighed) {
      Calculation calculation = calculations.get(part.id());
      Estimate mass = masses.getOrDefault(part.id(), PartMass.UNKNOWN).estimate();
      if (calculation != null && mass != null && calculation.estimate().value().signum() > 0) {
        made.add(
            new Made(
                named(part),
                calculation.estimate(),
                calculation.list().estimate(cutsOf(calculation, material)),
                mass));
      }
    }
    return made;
  }

  @Override
  public List<Use> usesOf(Member member, Material material) {
    List<Part> cut = parts.cutFrom(member, material);
    Map<Long, Calculation> calculations = sheets.of(member, cut);
    List<Use> uses = new ArrayList<>();
    for (Part part : cut) {
      Calculation calculation = calculations.get(part.id());
      if (calculation != null) {
        for (Need need : Need.of(calculation)) {
          if (need.material().id() == material.id()) {
            uses.add(new Use(named(part), need.estimate(), need.fromStock().orElse(null)));
          }
        }
      }
    }
    return uses;
  }

  @Override
  public Optional<String> unfit(Member member, Material material) {
    return sheets.unfit(member, material);
  }

  @Override
  public Optional<Named> find(Member member, String code) {
    return parts.find(member, code).map(PartsCutFrom::named);
  }

  @Override
  public Map<Long, Named> named(Member member, Collection<Long> ids) {
    return parts.byIds(member, ids).stream()
        .map(PartsCutFrom::named)
        .collect(Collectors.toMap(Named::id, named -> named));
  }

  private static Named named(Part part) {
    return new Named(part.id(), part.code(), part.name());
  }

  /** By itself: what is left of a weighing of several things rests on what the others weigh. */
  private static boolean onTheScale(PartMass mass) {
    return mass.basis() == Basis.WEIGHED && mass.weighing() != null && !mass.remainder();
  }

  private static List<Cut> cutsOf(Calculation calculation, Material material) {
    return calculation.lines().stream()
        .filter(line -> line.material().id() == material.id())
        .map(Calculation.Line::cut)
        .toList();
  }
}
