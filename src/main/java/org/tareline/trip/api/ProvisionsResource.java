package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.provisions.Reckoning;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.trip.Provisions;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Fuel, food and a day's way by published rules of thumb. Nothing is written. */
@RestController
@RequestMapping("/api/v1/provisions")
class ProvisionsResource {

  /**
   * Water to be boiled, as it is sent; see {@link Provisions.FuelEntry} for what may be left out.
   */
  record FuelRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String water,
      @JsonDeserialize(using = TypedText.class) @Nullable String people,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @Nullable String from,
      @JsonDeserialize(using = TypedText.class) @Nullable String temperature,
      @JsonDeserialize(using = TypedText.class) @Nullable String to,
      @JsonDeserialize(using = TypedText.class) @Nullable String altitude,
      @Nullable String fuel,
      @JsonDeserialize(using = TypedText.class) @Nullable String heat,
      @JsonDeserialize(using = TypedText.class) @Nullable String efficiency) {}

  /** Food as it is sent: all of its mass, and its energy per mass or what 100 g of it hold. */
  record FoodRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String mass,
      @JsonDeserialize(using = TypedText.class) @Nullable String people,
      @JsonDeserialize(using = TypedText.class) @Nullable String days,
      @JsonDeserialize(using = TypedText.class) @Nullable String energyPerMass,
      @JsonDeserialize(using = TypedText.class) @Nullable String protein,
      @JsonDeserialize(using = TypedText.class) @Nullable String fat,
      @JsonDeserialize(using = TypedText.class) @Nullable String carbohydrate,
      @JsonDeserialize(using = TypedText.class) @Nullable String alcohol,
      @JsonDeserialize(using = TypedText.class) @Nullable String fibre,
      @JsonDeserialize(using = TypedText.class) @Nullable String polyols,
      @JsonDeserialize(using = TypedText.class) @Nullable String organicAcid) {

    Provisions.FoodEntry entry() {
      Map<String, @Nullable String> per100 = new LinkedHashMap<>();
      per100.put("protein", protein);
      per100.put("fat", fat);
      per100.put("carbohydrate", carbohydrate);
      per100.put("alcohol", alcohol);
      per100.put("fibre", fibre);
      per100.put("polyols", polyols);
      per100.put("organicAcid", organicAcid);
      return new Provisions.FoodEntry(mass, people, days, energyPerMass, per100);
    }
  }

  /** A day's way as it is sent; see {@link Provisions.PaceEntry} for what may be left out. */
  record PaceRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String distance,
      @JsonDeserialize(using = TypedText.class) @Nullable String ascent,
      @JsonDeserialize(using = TypedText.class) @Nullable String gentleDescent,
      @JsonDeserialize(using = TypedText.class) @Nullable String steepDescent,
      @JsonDeserialize(using = TypedText.class) @Nullable String body,
      @JsonDeserialize(using = TypedText.class) @Nullable String load,
      @Nullable String terrain,
      @JsonDeserialize(using = TypedText.class) @Nullable String speed,
      @JsonDeserialize(using = TypedText.class) @Nullable String slope) {}

  /**
   * What comes of it.
   *
   * @param rough always: none of it is more than a rule of thumb
   */
  record ProvisionsJson(boolean rough, List<ReckoningJson> results) {

    static ProvisionsJson of(List<Reckoning> reckonings) {
      return new ProvisionsJson(true, reckonings.stream().map(ReckoningJson::of).toList());
    }
  }

  /**
   * A rough figure with all it was worked out from.
   *
   * @param of fuel, by-mass, eu-label, atwater, naismith, naismith-1892, tobler, pandolf or lcda
   * @param outside why there is no figure; left out where there is one
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ReckoningJson(
      String of,
      String name,
      List<ResultJson> figures,
      @Nullable String outside,
      String formula,
      List<CoefficientJson> coefficients,
      String range,
      String source,
      List<StepJson> steps) {

    static ReckoningJson of(Reckoning reckoning) {
      Reckoning.Formula formula = reckoning.formula();
      return new ReckoningJson(
          reckoning.of(),
          formula.name(),
          reckoning.results().stream()
              .map(each -> new ResultJson(each.name(), quantity(each.value(), each.unit())))
              .toList(),
          reckoning.outside(),
          formula.text(),
          formula.coefficients().stream()
              .map(
                  each ->
                      new CoefficientJson(
                          each.name(),
                          QuantityJson.plain(each.value()),
                          each.unit(),
                          each.source()))
              .toList(),
          formula.range(),
          formula.source(),
          reckoning.steps().stream()
              .map(
                  each ->
                      new StepJson(each.what(), each.sum(), quantity(each.value(), each.unit())))
              .toList());
    }

    private static QuantityJson quantity(double value, String unit) {
      return new QuantityJson(QuantityJson.plain(value), unit);
    }
  }

  record ResultJson(String name, QuantityJson figure) {}

  /**
   * A number of a formula.
   *
   * @param unit as it is printed beside the formula
   */
  record CoefficientJson(String name, String value, String unit, String source) {}

  record StepJson(String what, String sum, QuantityJson figure) {}

  @PostMapping("/fuel")
  ProvisionsJson fuel(@RequestBody FuelRequest request) {
    return ProvisionsJson.of(
        Provisions.fuel(
            new Provisions.FuelEntry(
                request.water(),
                request.people(),
                request.days(),
                request.from(),
                request.temperature(),
                request.to(),
                request.altitude(),
                request.fuel(),
                request.heat(),
                request.efficiency())));
  }

  @PostMapping("/food")
  ProvisionsJson food(@RequestBody FoodRequest request) {
    return ProvisionsJson.of(Provisions.food(request.entry()));
  }

  @PostMapping("/pace")
  ProvisionsJson pace(@RequestBody PaceRequest request) {
    return ProvisionsJson.of(
        Provisions.pace(
            new Provisions.PaceEntry(
                request.distance(),
                request.ascent(),
                request.gentleDescent(),
                request.steepDescent(),
                request.body(),
                request.load(),
                request.terrain(),
                request.speed(),
                request.slope())));
  }
}
