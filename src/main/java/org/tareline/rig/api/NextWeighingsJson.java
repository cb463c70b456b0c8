package org.tareline.rig.api;

import java.util.List;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.Piece;
import org.tareline.site.Refusal;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;

/**
 * Which parts to weigh next, so that a total or a difference becomes surer.
 *
 * @param scale code of the scale that they would be weighed on
 * @param expandedUncertainty as things are
 * @param candidates the greatest share of the doubt first
 * @param notWeighed codes of parts that have no mass at all: weigh these before any other
 * @param tooHeavy codes of parts with a share that are beyond the scale's capacity
 */
record NextWeighingsJson(
    String scale,
    QuantityJson expandedUncertainty,
    List<CandidateJson> candidates,
    List<String> notWeighed,
    List<String> tooHeavy) {

  /**
   * A part to weigh.
   *
   * @param shareOfVariance its part of the variance, over all its lines
   * @param expandedUncertaintyAfter what the uncertainty would be once this part and all before it
   *     have been weighed, one piece, one reading
   */
  record CandidateJson(
      String part, String shareOfVariance, QuantityJson expandedUncertaintyAfter) {}

  static NextWeighingsJson of(ToWeigh.OnScale toWeigh, Unit unit) {
    NextWeighings next = toWeigh.next();
    return new NextWeighingsJson(
        toWeigh.scale().code(),
        QuantityJson.ofComputedGrams(next.expandedUncertaintyInGrams(), unit),
        next.candidates().stream()
            .map(
                candidate ->
                    new CandidateJson(
                        candidate.piece().code(),
                        QuantityJson.plain(candidate.shareOfVariance()),
                        QuantityJson.ofComputedGrams(
                            candidate.expandedUncertaintyInGramsAfter(), unit)))
            .toList(),
        next.missing().stream().map(Piece::code).toList(),
        next.tooHeavy().stream().map(Piece::code).toList());
  }

  /** There is nothing to weigh on. */
  static Refusal noScale() {
    return Refusal.badInput(
        "scale", "Put a scale into the ledger first: there is none to weigh on.");
  }
}
