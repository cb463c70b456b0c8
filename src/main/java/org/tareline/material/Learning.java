package org.tareline.material;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.cutting.Stock;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.SizedPiece;
import org.tareline.ledger.Member;
import org.tareline.ledger.Revisions;
import org.tareline.site.Refusal;

/**
 * What parts that were weighed once they were made say of the materials they were cut from.
 *
 * <p>A learned mass is never learned from itself: parts are calculated for this by what is printed
 * or by swatches, whichever was used before anything learned was taken, and so are the other
 * materials in them. Otherwise the ratio would go to 1 as soon as it was taken, and two materials
 * that share parts would push each other up and down. The ratio is that of whole parts, weighed to
 * calculated: as far as a part is of other materials it is laid at the door of this one as well,
 * and what those are unsure of is in its uncertainty.
 */
@Service
@Transactional(readOnly = true)
public class Learning {

  /**
   * What was learned of a material.
   *
   * @param against whether the parts were calculated by what is printed or by swatches
   * @param parts those of which it is most of the mass, by code
   * @param ratio weighed to calculated, of all of them together
   * @param standardUncertainty of that
   * @param mass what follows from it
   * @param agree whether the errors of the parts explain how far apart they are
   */
  public record Learned(
      MaterialMass.Use against,
      List<Part> parts,
      double ratio,
      double standardUncertainty,
      MassPer mass,
      boolean agree) {

    /** Whether it is off what was calculated by more than its own uncertainty. */
    public boolean told() {
      return Math.abs(ratio - 1) > expandedUncertainty();
    }

    /** U of the ratio, for 95 %. */
    public double expandedUncertainty() {
      return mass.estimate().coverageFactor() * standardUncertainty;
    }
  }

  /**
   * A part from which it was learned.
   *
   * @param ratio weighed to calculated
   * @param standardUncertainty of that
   * @param expandedUncertainty of that, for 95 %
   * @param share of the calculated mass that is the material, above a half
   */
  public record Part(
      CutFrom.Made made,
      double ratio,
      double standardUncertainty,
      double expandedUncertainty,
      double share) {}

  private final Materials materials;
  private final CutFrom cutFrom;
  private final Revisions revisions;
  private final Clock clock;

  Learning(Materials materials, CutFrom cutFrom, Revisions revisions, Clock clock) {
    this.materials = materials;
    this.cutFrom = cutFrom;
    this.revisions = revisions;
    this.clock = clock;
  }

  /** What was learned of a material; nothing where no part says anything of it. */
  public Optional<Learned> of(Member member, Material material, MaterialMass known) {
    MassPer before = known.before();
    MaterialMass.Use against = known.against();
    Stock stock = MaterialMass.stock(material, before);
    if (before == null || against == null || stock == null) {
      return Optional.empty();
    }
    List<CutFrom.Made> mostly =
        cutFrom.madeOf(member, material).stream().filter(made -> share(made) > 0.5).toList();
    if (mostly.isEmpty()) {
      return Optional.empty();
    }
    org.tareline.evidence.Learned learned =
        new org.tareline.evidence.Learned(
            "material:" + material.uuid() + "/learned",
            "scatter of the parts",
            stock.estimate(SizedPiece.UNITS),
            mostly.stream()
                .map(
                    made ->
                        new org.tareline.evidence.Learned.Made(made.calculated(), made.weighed()))
                .toList());
    List<Part> parts = new ArrayList<>();
    for (int i = 0; i < mostly.size(); i++) {
      Estimate finding = learned.findings().get(i);
      parts.add(
          new Part(
              mostly.get(i),
              learned.ratio(finding),
              learned.standardUncertainty(finding),
              learned.standardUncertainty(finding) * finding.coverageFactor(),
              share(mostly.get(i))));
    }
    return Optional.of(
        new Learned(
            against,
            List.copyOf(parts),
            learned.ratio(learned.value()),
            learned.standardUncertainty(learned.value()),
            new MassPer(before.per(), learned.value()),
            learned.agree()));
  }

  private static double share(CutFrom.Made made) {
    double all = made.calculated().value().inGrams();
    return all <= 0 ? 0 : made.ofMaterial().value().inGrams() / all;
  }

  /**
   * Takes what was learned as the mass that cut lists use, as a new revision.
   *
   * @param expected the revision that the choice started from; null to take it whatever came
   *     between
   * @throws org.tareline.site.NotThere if there is no such material
   * @throws Refusal if nothing was learned or somebody saved since
   */
  @Transactional
  public Material take(Member member, String code, @Nullable Integer expected) {
    Material material = materials.locked(member, code);
    Revisions.guard("material " + material.code(), material.revision(), expected);
    Learned learned =
        of(member, material, materials.mass(member, material))
            .orElseThrow(
                () ->
                    Refusal.of(
                        Refusal.Kind.CONFLICT,
                        "",
                        "Nothing was learned of "
                            + material.code()
                            + " yet: weigh a part that has a cut list and is for the most part of it."));
    material.take(Taken.of(learned, clock.instant().truncatedTo(ChronoUnit.MICROS)));
    return kept(member, material);
  }

  /**
   * Goes back to what was used before anything learned was taken, as a new revision.
   *
   * @param expected as of {@link #take}
   * @throws org.tareline.site.NotThere if there is no such material
   * @throws Refusal if nothing learned is in use or somebody saved since
   */
  @Transactional
  public Material takeBack(Member member, String code, @Nullable Integer expected) {
    Material material = materials.locked(member, code);
    Revisions.guard("material " + material.code(), material.revision(), expected);
    if (material.taken().isEmpty()) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          "",
          "Nothing that was learned of " + material.code() + " is in use.");
    }
    material.take(null);
    return kept(member, material);
  }

  private Material kept(Member member, Material material) {
    revisions.keep(member, Materials.KIND, material.id(), material.revision(), material.kept());
    return material;
  }
}
