package org.tareline.trip.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.rollup.Assembly;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.trip.HeldToTarget;
import org.tareline.units.MassStyle;
import org.tareline.units.Unit;

/**
 * The base weight held against what it is to be at most.
 *
 * @param margin target minus base, as far as that is known
 * @param verdict {@code within}, {@code over}, or {@code undecided} where the margin is within its
 *     uncertainty or something has no mass yet
 * @param words the same as a sentence
 */
record TargetJson(TypedQuantityJson mass, EstimateJson margin, String verdict, String words) {

  static TargetJson of(HeldToTarget held, MassStyle style, Unit unit) {
    return new TargetJson(
        TypedQuantityJson.of(held.target().mass(), held.target().typed(), unit),
        EstimateJson.of(held.margin(), unit),
        held.verdict(),
        held.words(style));
  }

  /**
   * A thing in the pack that is worth a look; each reason that it has.
   *
   * @param line id of the line that carries it
   * @param rig code of the rig that the line carries; left out where it is the line's own thing
   * @param part left out of a free item
   * @param mass of all of it; left out where nobody knows it
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ThingJson(
      String line,
      @Nullable String rig,
      @Nullable String part,
      String name,
      long quantity,
      @Nullable EstimateJson mass,
      @Nullable LargestJson largest,
      @Nullable LeastUsedJson leastUsed,
      @Nullable LighterJson lighterOwned) {

    static List<ThingJson> of(HeldToTarget held, Unit unit) {
      return held.lookAtFirst().stream()
          .map(
              of -> {
                Assembly rig = of.thing().rig();
                return new ThingJson(
                    of.thing().line().id(),
                    rig == null ? null : rig.code(),
                    of.thing().code(),
                    of.thing().piece().name(),
                    of.thing().quantity(),
                    of.mass() == null ? null : EstimateJson.of(of.mass(), unit),
                    of.share() == null
                        ? null
                        : new LargestJson(QuantityJson.plain(of.share().doubleValue())),
                    of.useless() == null
                        ? null
                        : new LeastUsedJson(of.useless().trips(), of.useless().unused()),
                    LighterJson.of(of.lighter(), unit));
              })
          .toList();
    }
  }

  /** One of the largest masses; its share of the base weight, 0 to 1. */
  record LargestJson(String shareOfBase) {}

  /**
   * Not used on half of its trips or more.
   *
   * @param trips on which it was along and it is known what came of it
   */
  record LeastUsedJson(int trips, int unused) {}

  /**
   * A lighter part that is owned and at hand.
   *
   * @param strength of what carries load: {@code weaker}, {@code not known}, {@code not weaker}; it
   *     comes before grams
   * @param sameRole whether it stands in rigs as the other does; else it is for the same system
   * @param saves more than its own uncertainty
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record LighterJson(
      @Nullable String strength, String part, String name, boolean sameRole, EstimateJson saves) {

    static @Nullable LighterJson of(HeldToTarget.@Nullable Lighter lighter, Unit unit) {
      return lighter == null
          ? null
          : new LighterJson(
              lighter.strength() == null ? null : lighter.strength().word(),
              lighter.part().code(),
              lighter.part().name(),
              lighter.sameRole(),
              EstimateJson.of(lighter.saves(), unit));
    }
  }
}
