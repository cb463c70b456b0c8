package org.tareline.part;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Pieces;
import org.tareline.site.Figure;
import org.tareline.units.MassStyle;
import org.tareline.weighing.Weighing;

/**
 * What one piece of a part weighs, and where that comes from. Weighed beats stated; nothing known
 * is null, never zero.
 *
 * @param estimate of one, whichever it is; null when nothing is known
 * @param basis null when nothing is known
 * @param weighing the newest weighing it comes from; null when it was not weighed
 * @param pieces where pieces of it were weighed one by one; else null
 * @param oneByOne the newest weighing of each of those pieces; else empty
 * @param remainder whether it is what was left of a weighing of several things, the others taken
 *     off
 */
public record PartMass(
    @Nullable Estimate estimate,
    @Nullable Basis basis,
    @Nullable Weighing weighing,
    @Nullable Pieces pieces,
    List<Weighing> oneByOne,
    boolean remainder) {

  /** Nothing is known. */
  public static final PartMass UNKNOWN = new PartMass(null, null, null);

  /** Of a part whose pieces are taken as alike. */
  public PartMass(@Nullable Estimate estimate, @Nullable Basis basis, @Nullable Weighing weighing) {
    this(estimate, basis, weighing, null, List.of(), false);
  }

  /** The weighings that the mass is the mean of: mostly one, and none where it was not weighed. */
  public List<Weighing> weighings() {
    if (!oneByOne.isEmpty()) {
      return oneByOne;
    }
    return weighing == null ? List.of() : List.of(weighing);
  }

  /** By a cut list, where that comes to anything. */
  static PartMass calculated(Calculation calculation) {
    Estimate estimate = calculation.estimate();
    return estimate.value().signum() <= 0
        ? UNKNOWN
        : new PartMass(estimate, calculation.basis(), null);
  }

  /** The mass of one of so many taken together; null when nothing is known. */
  public @Nullable Estimate each(int quantity) {
    return pieces == null ? estimate : pieces.each(quantity);
  }

  /** In a few words beside the part's name: its mass, and where that comes from unless weighed. */
  public String words(MassStyle style) {
    if (estimate == null) {
      return "not weighed";
    }
    String figure = Figure.of(estimate, style).sentence();
    return basis == null || basis == Basis.WEIGHED ? figure : basis.pageWords() + " " + figure;
  }
}
