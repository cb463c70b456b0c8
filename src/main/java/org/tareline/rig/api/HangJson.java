package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.rig.Cautions;
import org.tareline.rig.HangFigures;
import org.tareline.site.json.QuantityJson;
import org.tareline.statics.Assessment;
import org.tareline.statics.Hang;
import org.tareline.units.Range;
import org.tareline.units.Unit;

/**
 * What a hang carries.
 *
 * @param load all that hangs, as a force, its dynamic allowance included
 * @param ridgeLine left out where no body angle was given
 * @param bodyEdge left out where it was not asked about
 * @param least of the elements whose factor is known; null where none is
 * @param verdict meets, below or not known
 * @param notes what is to be known of these figures
 * @param cautions what is to be known of all such figures
 */
record HangJson(
    RangeJson load,
    String designFactor,
    List<EndJson> ends,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable RidgeJson ridgeLine,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable EdgeJson bodyEdge,
    List<ElementJson> elements,
    @Nullable LeastJson least,
    String verdict,
    List<String> notes,
    List<String> cautions) {

  /**
   * One end.
   *
   * @param angle of the suspension above the horizontal
   * @param bodyPull along the body, its legs and its bar
   * @param bar left out where there is none
   */
  record EndJson(
      RangeJson angle,
      RangeJson tension,
      RangeJson horizontal,
      RangeJson vertical,
      RangeJson bodyPull,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable BarJson bar) {

    static EndJson of(Hang.End end, Hang.EndLoads loads) {
      return new EndJson(
          RangeJson.of(end.angle(), Unit.DEGREE),
          newtons(loads.tension()),
          newtons(loads.horizontal()),
          newtons(loads.vertical()),
          newtons(loads.bodyPull()),
          loads.bar() == null ? null : BarJson.of(loads.bar()));
    }
  }

  /**
   * A bar and its legs.
   *
   * @param bucklingLoad null where its section is not known
   * @param factor that over the compression; null where either is not known or nothing presses it
   * @param factorLow left out, with factorHigh, where nothing that was given carries a ±
   * @param slenderness null where its section is not known
   * @param tooStocky left out where Euler's formula holds
   */
  record BarJson(
      RangeJson legTension,
      RangeJson compression,
      @Nullable RangeJson bucklingLoad,
      @Nullable String factor,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String factorLow,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String factorHigh,
      @Nullable String slenderness,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Boolean tooStocky) {

    static BarJson of(Hang.BarLoads bar) {
      Range factor = bar.factor();
      return new BarJson(
          newtons(bar.legTension()),
          newtons(bar.compression()),
          RangeJson.orNull(bar.bucklingLoad(), Unit.NEWTON),
          factor == null ? null : QuantityJson.plain(factor.nominal()),
          factor == null ? null : RangeJson.low(factor),
          factor == null ? null : RangeJson.high(factor),
          bar.strut() == null ? null : QuantityJson.plain(bar.strut().slenderness()),
          bar.stocky() ? true : null);
    }
  }

  /** A ridge line; slack, it carries nothing. */
  record RidgeJson(RangeJson tension, boolean slack) {}

  /** One of the two edges of a body: the pull at its lowest point, and at its ends. */
  record EdgeJson(RangeJson horizontal, RangeJson greatest) {}

  /**
   * An element.
   *
   * @param load null where the hang does not say
   * @param factor strength times termination over load; null where one of them is not known or
   *     nothing is carried
   * @param factorLow left out, with factorHigh, where nothing that was given carries a ±
   * @param against what its factor is held against: the design factor, or 1 for a working load
   *     limit
   * @param verdict meets, below or not known
   */
  record ElementJson(
      String name,
      @Nullable RangeJson load,
      @Nullable String factor,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String factorLow,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String factorHigh,
      String against,
      String verdict) {

    static ElementJson of(Assessment.Checked checked) {
      Range factor = checked.factor();
      boolean ends = factor != null && !Double.isInfinite(factor.nominal());
      return new ElementJson(
          checked.element().name(),
          RangeJson.orNull(checked.load(), Unit.NEWTON),
          factor == null || !ends ? null : QuantityJson.plain(factor.nominal()),
          factor == null ? null : RangeJson.low(factor),
          factor == null ? null : RangeJson.high(factor),
          QuantityJson.plain(checked.wanted()),
          checked.verdict().word());
    }
  }

  /** The element with the least factor. */
  record LeastJson(String name, String factor) {

    static @Nullable LeastJson of(HangFigures figures) {
      Assessment.Checked least = figures.assessment().least();
      return least == null || least.factor() == null
          ? null
          : new LeastJson(least.element().name(), QuantityJson.plain(least.factor().nominal()));
    }
  }

  static HangJson of(HangFigures figures) {
    Hang.Loads loads = figures.loads();
    Range ridge = loads.ridge();
    Range edge = figures.edge();
    Range edgeHorizontal = figures.edgeHorizontal();
    List<EndJson> ends = new ArrayList<>();
    ends.add(EndJson.of(figures.hang().first(), loads.first()));
    ends.add(EndJson.of(figures.hang().second(), loads.second()));
    return new HangJson(
        newtons(figures.hang().load()),
        QuantityJson.plain(figures.designFactor()),
        ends,
        ridge == null ? null : new RidgeJson(newtons(ridge), loads.slack()),
        edge == null || edgeHorizontal == null
            ? null
            : new EdgeJson(newtons(edgeHorizontal), newtons(edge)),
        figures.assessment().checked().stream().map(ElementJson::of).toList(),
        LeastJson.of(figures),
        figures.assessment().verdict().word(),
        figures.notes(),
        Cautions.ALL);
  }

  private static RangeJson newtons(Range force) {
    return RangeJson.of(force, Unit.NEWTON);
  }
}
