package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.provisions.Reckoning;
import org.tareline.site.json.QuantityJson;
import org.tareline.trip.Provisions;

/** Fuel, food and a day's way by published rules of thumb. Nothing is written. */
@RestController
@RequestMapping("/api/v1/provisions")
class ProvisionsResource {

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
  ProvisionsJson fuel(@RequestBody Provisions.FuelEntry request) {
    return ProvisionsJson.of(Provisions.fuel(request));
  }

  @PostMapping("/food")
  ProvisionsJson food(@RequestBody Provisions.FoodEntry request) {
    return ProvisionsJson.of(Provisions.food(request));
  }

  @PostMapping("/pace")
  ProvisionsJson pace(@RequestBody Provisions.PaceEntry request) {
    return ProvisionsJson.of(Provisions.pace(request));
  }
}
