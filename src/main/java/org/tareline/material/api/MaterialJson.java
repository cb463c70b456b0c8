package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Fibre;
import org.tareline.material.CutFrom;
import org.tareline.material.MassPer;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.material.StrengthKind;
import org.tareline.material.Swatches;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;

/**
 * A material in an answer.
 *
 * @param nominal as a seller prints it; per area also where that was a mass per running length
 * @param nominalWidth the width that a printed mass per running length is for
 * @param tolerance as typed; left out where the ledger's own serves
 * @param width what of the width of a roll can be used
 * @param strength left out where it is not known
 * @param use which mass was chosen; left out where the swatches decide
 * @param weighed the swatches that count, taken together; left out where there are none
 * @param used which of them counts, and why; left out where nothing is known
 * @param learned what parts that were weighed say of it; left out where none does, and of lists
 * @param swatches newest first, with those that were struck out; left out of lists
 * @param stock what is on hand; left out where it was never counted
 * @param stockRecord what came and went, newest first; left out of lists, and where there is none
 * @param usedIn the parts whose cut lists use it; left out of lists, and where there is none
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record MaterialJson(
    String code,
    String name,
    String kind,
    @Nullable TypedQuantityJson nominal,
    @Nullable TypedQuantityJson nominalWidth,
    @Nullable String tolerance,
    @Nullable String fillPower,
    @Nullable TypedQuantityJson width,
    @Nullable TypedQuantityJson strength,
    @Nullable String strengthKind,
    @Nullable String fibre,
    @Nullable String price,
    @Nullable String colour,
    @Nullable String note,
    @Nullable OnHandJson stock,
    @Nullable String use,
    int revision,
    @Nullable MassPerJson weighed,
    @Nullable UsedJson used,
    @Nullable LearnedJson learned,
    @Nullable List<SwatchJson> swatches,
    @Nullable List<StockEntryJson> stockRecord,
    @Nullable List<UseJson> usedIn) {

  /**
   * That the cut list of a part uses it.
   *
   * @param mass how much of the mass of one is the material
   * @param needs how much of the stock one takes; left out where that is not known
   * @param covered whether so much is on hand; left out where that is not known
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record UseJson(
      String part,
      String name,
      QuantityJson mass,
      @Nullable QuantityJson needs,
      @Nullable Boolean covered) {

    static UseJson of(CutFrom.Use use, OnHand onHand) {
      BigDecimal needs = use.needs();
      return new UseJson(
          use.thing().code(),
          use.thing().name(),
          QuantityJson.of(use.ofMaterial().value(), Unit.GRAM),
          needs == null ? null : QuantityJson.of(needs, onHand.measure().unit()),
          needs == null ? null : onHand.covers(needs).orElse(null));
    }
  }

  /**
   * The mass that is used.
   *
   * @param from {@code nominal}, {@code weighed} or {@code learned}
   */
  record UsedJson(String from, String why, @JsonUnwrapped MassPerJson mass) {}

  /** In a list, without what takes more looking up. */
  static MaterialJson of(Material material, MaterialMass known, @Nullable OnHand onHand) {
    return of(material, known, onHand, null, null, null, null);
  }

  static MaterialJson of(
      Material material,
      MaterialMass known,
      @Nullable OnHand onHand,
      @Nullable LearnedJson learned,
      @Nullable List<Swatches.Weighed> swatches,
      @Nullable List<StockEntries.Logged> stockRecord,
      @Nullable List<CutFrom.Use> uses) {
    MassPer weighed = known.weighed();
    MassPer used = known.inUse();
    return new MaterialJson(
        material.code(),
        material.name(),
        material.kind().word(),
        material
            .nominal()
            .map(nominal -> TypedQuantityJson.of(nominal.quantity(), nominal.typed()))
            .orElse(null),
        material
            .nominal()
            .map(nominal -> nominal.width())
            .map(width -> TypedQuantityJson.of(width, width.text()))
            .orElse(null),
        material.toleranceTyped().orElse(null),
        material.fillPower().map(power -> power.toPlainString()).orElse(null),
        material
            .widthTyped()
            .flatMap(
                typed ->
                    material.width().map(width -> TypedQuantityJson.of(Quantity.of(width), typed)))
            .orElse(null),
        material
            .strength()
            .map(strength -> TypedQuantityJson.of(strength, strength.text()))
            .orElse(null),
        material.strengthKind().map(StrengthKind::word).orElse(null),
        material.fibre().map(Fibre::word).orElse(null),
        material.priceTyped().orElse(null),
        material.colour().orElse(null),
        material.note().orElse(null),
        OnHandJson.of(onHand),
        material.chosen().map(MaterialMass.Use::word).orElse(null),
        material.revision(),
        weighed == null ? null : MassPerJson.of(weighed, known.swatches(), known.agree()),
        used == null || known.used() == null
            ? null
            : new UsedJson(known.used().word(), known.why(), MassPerJson.of(used)),
        learned,
        swatches == null ? null : swatches.stream().map(SwatchJson::of).toList(),
        stockRecord == null || onHand == null || stockRecord.isEmpty()
            ? null
            : stockRecord.stream()
                .map(logged -> StockEntryJson.of(logged, onHand.measure()))
                .toList(),
        uses == null || onHand == null || uses.isEmpty()
            ? null
            : uses.stream().map(use -> UseJson.of(use, onHand)).toList());
  }
}
