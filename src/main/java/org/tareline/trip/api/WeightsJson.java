package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tareline.evidence.Estimate;
import org.tareline.rollup.Piece;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.trip.Days;
import org.tareline.trip.Figures;
import org.tareline.trip.HeldToTarget;
import org.tareline.trip.PackFit;
import org.tareline.trip.Total;
import org.tareline.trip.Trips;
import org.tareline.trip.Warning;
import org.tareline.trip.Weights;
import org.tareline.units.MassStyle;
import org.tareline.units.Unit;

/**
 * What a trip weighs.
 *
 * @param consumables at the start
 * @param totalPack base and consumables, at the start
 * @param skinOut everything, at the start
 * @param byCarrier empty where nobody is named
 * @param byDay empty where the days are not known; {@code heaviest}, {@code lightest} and {@code
 *     mean} are then left out
 * @param heaviest the pack on its heaviest morning
 * @param lightest the pack on its lightest evening
 * @param mean of the means of the days
 * @param target left out, with what to look at first, where the trip aims at no base weight
 * @param packed whether it goes into the packs: of each carrier, or of all where nobody is named
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record WeightsJson(
    String trip,
    EstimateJson base,
    EstimateJson worn,
    EstimateJson consumables,
    EstimateJson totalPack,
    EstimateJson skinOut,
    List<SystemJson> bySystem,
    List<ShareJson> byCarrier,
    List<DayJson> byDay,
    @Nullable OnDayJson heaviest,
    @Nullable OnDayJson lightest,
    @Nullable EstimateJson mean,
    @Nullable TargetJson target,
    @Nullable List<TargetJson.ThingJson> lookAtFirst,
    List<PackFitJson> packed,
    List<WarningJson> warnings) {

  static WeightsJson of(
      Trips.Weighed weighed, @Nullable HeldToTarget held, MassStyle style, Unit unit) {
    Weights weights = weighed.weights();
    Figures all = weights.all();
    return new WeightsJson(
        weighed.packing().code(),
        estimate(all.base(), unit),
        estimate(all.worn(), unit),
        estimate(all.consumables(), unit),
        estimate(all.totalPack(), unit),
        estimate(all.skinOut(), unit),
        weights.bySystem().stream().map(system -> SystemJson.of(system, unit)).toList(),
        weights.byCarrier().stream().map(carrier -> ShareJson.of(carrier, unit)).toList(),
        DayJson.of(all, unit),
        OnDayJson.of(all.days().heaviest(), all, unit),
        OnDayJson.of(all.days().lightest(), all, unit),
        meanOf(all, unit),
        held == null ? null : TargetJson.of(held, style, unit),
        held == null ? null : TargetJson.ThingJson.of(held, unit),
        PackFit.of(weighed.packing(), weights).stream().map(PackFitJson::of).toList(),
        weighed.warnings().stream().map(WarningJson::of).toList());
  }

  /**
   * What one person carries.
   *
   * @param carrier code of the carrier
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ShareJson(
      String carrier,
      String name,
      @Nullable TypedQuantityJson bodyMass,
      EstimateJson base,
      EstimateJson worn,
      EstimateJson consumables,
      EstimateJson totalPack,
      EstimateJson skinOut,
      List<DayJson> byDay,
      @Nullable OnDayJson heaviest,
      @Nullable OnDayJson lightest,
      @Nullable EstimateJson mean) {

    static ShareJson of(Weights.OfCarrier of, Unit unit) {
      Figures figures = of.figures();
      return new ShareJson(
          of.carrier().code(),
          of.carrier().name(),
          TripResource.bodyMassJson(of.carrier().body()),
          estimate(figures.base(), unit),
          estimate(figures.worn(), unit),
          estimate(figures.consumables(), unit),
          estimate(figures.totalPack(), unit),
          estimate(figures.skinOut(), unit),
          DayJson.of(figures, unit),
          OnDayJson.of(figures.days().heaviest(), figures, unit),
          OnDayJson.of(figures.days().lightest(), figures, unit),
          meanOf(figures, unit));
    }
  }

  /**
   * The pack on one day, which falls in a straight line from morning to evening.
   *
   * @param startSkinOut everything in the morning
   */
  record DayJson(
      int day, EstimateJson start, EstimateJson end, EstimateJson mean, EstimateJson startSkinOut) {

    static List<DayJson> of(Figures figures, Unit unit) {
      return figures.days().days().stream()
          .map(
              day ->
                  new DayJson(
                      day.day(),
                      estimate(day.start(), figures.totalPack(), unit),
                      estimate(day.end(), figures.totalPack(), unit),
                      estimate(day.mean(), figures.totalPack(), unit),
                      estimate(day.startSkinOut(), figures.skinOut(), unit)))
          .toList();
    }
  }

  /** The pack on a certain day, with the fields of an estimate. */
  record OnDayJson(int day, @JsonUnwrapped EstimateJson pack) {

    static @Nullable OnDayJson of(Optional<Days.OnDay> of, Figures figures, Unit unit) {
      return of.map(
              onDay ->
                  new OnDayJson(onDay.day(), estimate(onDay.mass(), figures.totalPack(), unit)))
          .orElse(null);
    }
  }

  private static @Nullable EstimateJson meanOf(Figures figures, Unit unit) {
    return figures
        .days()
        .mean()
        .map(mean -> estimate(mean, figures.totalPack(), unit))
        .orElse(null);
  }

  /** What of one system travels how; {@code total} is all of it. */
  record SystemJson(
      String system,
      EstimateJson base,
      EstimateJson worn,
      EstimateJson consumables,
      EstimateJson total) {

    static SystemJson of(Weights.OfSystem system, Unit unit) {
      return new SystemJson(
          system.system().word(),
          estimate(system.base(), unit),
          estimate(system.worn(), unit),
          estimate(system.consumables(), unit),
          estimate(system.total(), unit));
    }
  }

  static EstimateJson estimate(Total total, Unit unit) {
    return estimate(total.estimate(), total, unit);
  }

  /** A figure that has the evidence of a total. */
  private static EstimateJson estimate(Estimate estimate, Total total, Unit unit) {
    return EstimateJson.of(
        estimate,
        total.basis(),
        total.unweighedLines(),
        total.missing().stream().map(Piece::code).toList(),
        unit);
  }

  /**
   * What somebody should look at before leaving.
   *
   * @param kind a word for programs
   * @param message a sentence for people
   * @param day of the trip
   */
  @JsonInclude(JsonInclude.Include.NON_EMPTY)
  record WarningJson(
      String kind,
      String message,
      List<String> parts,
      List<String> items,
      List<String> rigs,
      List<String> trips,
      @Nullable Integer day) {

    static WarningJson of(Warning warning) {
      return new WarningJson(
          warning.kind().word(),
          warning.message(),
          warning.parts(),
          warning.items(),
          warning.rigs(),
          warning.trips(),
          warning.day());
    }
  }
}
