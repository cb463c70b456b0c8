package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tareline.cutting.Nesting;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.material.OnHand;
import org.tareline.part.Calculation;
import org.tareline.part.Need;
import org.tareline.part.json.MoneyJson;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.QuantityJson;
import org.tareline.units.Unit;

/**
 * What a cut list comes to.
 *
 * @param materials what it wants of each material
 * @param cost of all that have a price, by currency
 */
record CalculatedJson(
    EstimateJson estimate, List<NeedJson> materials, List<MoneyJson> cost, List<String> notes) {

  /**
   * What it wants of one material.
   *
   * @param estimate its part of the mass
   * @param net what is cut and stays: an area, a length or a count
   * @param toBuy along the roll, for the usable width; an upper bound
   * @param offcut what is left over of that
   * @param tooWide panels that do not fit across the roll
   * @param onHand left out where it was never counted, and of lists
   * @param covered whether one can be cut from that
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record NeedJson(
      String material,
      String name,
      EstimateJson estimate,
      @Nullable QuantityJson net,
      @Nullable QuantityJson toBuy,
      @Nullable QuantityJson offcut,
      @Nullable List<String> tooWide,
      @Nullable QuantityJson onHand,
      @Nullable Boolean covered,
      @Nullable MoneyJson cost) {}

  /**
   * Weighed against calculated.
   *
   * @param difference weighed − calculated
   * @param zeta difference over its standard uncertainty; null where that is nothing
   * @param agrees whether the difference is within its expanded uncertainty
   */
  record AgainstJson(
      EstimateJson calculated,
      EstimateJson weighed,
      EstimateJson difference,
      @Nullable String zeta,
      boolean agrees) {

    static AgainstJson of(Estimate calculated, Estimate weighed, Unit unit) {
      Estimate difference = weighed.minus(calculated);
      double u = difference.standardUncertaintyInGrams();
      return new AgainstJson(
          EstimateJson.of(calculated, Basis.CALCULATED, 1, List.of(), unit),
          EstimateJson.of(weighed, Basis.WEIGHED, 0, List.of(), unit),
          EstimateJson.of(difference, unit),
          u == 0 ? null : QuantityJson.plain(difference.value().inGrams() / u),
          Math.abs(difference.value().inGrams()) <= difference.expandedUncertaintyInGrams());
    }
  }

  static CalculatedJson of(Calculation calculation, Map<Long, OnHand> onHand, Unit unit) {
    List<Need> needs = Need.of(calculation);
    return new CalculatedJson(
        EstimateJson.of(calculation.estimate(), calculation.basis(), 1, List.of(), unit),
        needs.stream().map(need -> need(need, onHand.get(need.material().id()), unit)).toList(),
        Need.total(needs).stream().map(MoneyJson::of).toList(),
        needs.stream().anyMatch(need -> need.nesting() != null)
            ? List.of(
                "What to buy along the roll is an upper bound: panels are laid in their boxes, row by row.")
            : List.of());
  }

  static NeedJson need(Need need, @Nullable OnHand onHand, Unit unit) {
    Nesting nesting = need.nesting();
    return new NeedJson(
        need.material().code(),
        need.material().name(),
        EstimateJson.of(need.estimate(), Basis.CALCULATED, 1, List.of(), unit),
        net(need),
        nesting == null ? null : new QuantityJson(QuantityJson.plain(nesting.metres()), "m"),
        need.offcut()
            .map(offcut -> new QuantityJson(QuantityJson.plain(offcut), "m2"))
            .orElse(null),
        nesting == null || nesting.tooWide().isEmpty()
            ? null
            : nesting.tooWide().stream().map(Nesting.Piece::name).distinct().toList(),
        onHand == null || onHand.amount() == null
            ? null
            : QuantityJson.of(onHand.amount(), onHand.measure().unit()),
        onHand == null ? null : need.fromStock().flatMap(onHand::covers).orElse(null),
        need.cost() == null ? null : MoneyJson.of(need.cost()));
  }

  private static @Nullable QuantityJson net(Need need) {
    if (need.squareMetres() != 0) {
      return new QuantityJson(QuantityJson.plain(need.squareMetres()), "m2");
    }
    if (need.metres() != 0) {
      return new QuantityJson(QuantityJson.plain(need.metres()), "m");
    }
    return need.pieces() == 0 ? null : new QuantityJson(String.valueOf(need.pieces()), "1");
  }
}
