package org.tareline.trip.api;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.site.Refusal;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.EstimateJson;
import org.tareline.trip.Total;
import org.tareline.trip.TripComparison;
import org.tareline.trip.Trips;
import org.tareline.units.Unit;

/** Two trips side by side. */
@RestController
@RequestMapping(path = "/api/v1/compare", params = "trip")
class CompareTripsResource {

  /**
   * Two trips side by side, at the start of each.
   *
   * @param first code of the trip that the other is compared with
   * @param totalPack base and consumables
   * @param skinOut everything
   * @param systems everything of each system
   */
  record CompareTripsJson(
      String first,
      String second,
      TripPairJson base,
      TripPairJson worn,
      TripPairJson consumables,
      TripPairJson totalPack,
      TripPairJson skinOut,
      List<SystemPairJson> systems) {

    static CompareTripsJson of(TripComparison comparison, Unit unit) {
      List<TripPairJson> totals =
          comparison.totals().stream().map(row -> TripPairJson.of(row, unit)).toList();
      return new CompareTripsJson(
          comparison.first().code(),
          comparison.second().code(),
          totals.get(0),
          totals.get(1),
          totals.get(2),
          totals.get(3),
          totals.get(4),
          comparison.systems().stream()
              .map(row -> SystemPairJson.of(row.of().word(), TripPairJson.of(row, unit)))
              .toList());
    }
  }

  /**
   * Two figures and their difference.
   *
   * @param a null where the first has nothing of it
   * @param b null where the second has nothing of it
   * @param difference b − a; what both share cancels, error and all
   * @param verdict of the second against the first: {@code lighter}, {@code heavier}, or {@code
   *     undecided} where the difference is within its uncertainty or what has no mass yet differs
   */
  record TripPairJson(
      @Nullable EstimateJson a, @Nullable EstimateJson b, EstimateJson difference, String verdict) {

    static TripPairJson of(TripComparison.Row<?> row, Unit unit) {
      return new TripPairJson(
          side(row.a(), unit),
          side(row.b(), unit),
          EstimateJson.of(row.pair().difference(), unit),
          row.pair().verdict().word());
    }

    private static @Nullable EstimateJson side(@Nullable Total total, Unit unit) {
      return total == null ? null : WeightsJson.estimate(total, unit);
    }
  }

  /** As {@link TripPairJson}, of one system. */
  record SystemPairJson(
      String system,
      @Nullable EstimateJson a,
      @Nullable EstimateJson b,
      EstimateJson difference,
      String verdict) {

    static SystemPairJson of(String system, TripPairJson pair) {
      return new SystemPairJson(system, pair.a(), pair.b(), pair.difference(), pair.verdict());
    }
  }

  private final Trips trips;

  CompareTripsResource(Trips trips) {
    this.trips = trips;
  }

  /** Compares the second of two trips with the first. */
  @GetMapping
  CompareTripsJson compare(
      Member member,
      @RequestParam("trip") List<String> codes,
      @RequestParam(name = "rig", required = false) @Nullable List<String> rigs,
      @RequestParam(required = false) @Nullable String unit) {
    if (rigs != null) {
      throw Refusal.badInput("rig", "Compare two trips or two rigs, not the one with the other.");
    }
    if (codes.size() != 2) {
      throw Refusal.badInput(
          "trip",
          "Name two trips to compare, such as trip=one&trip=another; read " + codes.size() + ".");
    }
    Unit asked = AnswerUnit.ofMass(unit);
    return CompareTripsJson.of(trips.compare(member, codes.get(0), codes.get(1)), asked);
  }
}
