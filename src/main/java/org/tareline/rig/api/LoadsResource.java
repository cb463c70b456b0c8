package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.rig.Cautions;
import org.tareline.rig.HangEntry;
import org.tareline.rig.HangFigures;
import org.tareline.rig.HangReader;
import org.tareline.rig.LineFigures;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/**
 * Loads of a hang that is not kept. Figures may carry a ±, as {@code 28 deg ± 2 deg}; forces are at
 * standard gravity, 9.80665 m/s². Nothing is written.
 */
@RestController
@RequestMapping("/api/v1/loads")
class LoadsResource {

  /**
   * A hang as it is sent.
   *
   * @param load of all that hangs: a mass, or its weight as a force
   * @param dynamicAllowance 1 or more; 1 when left out
   * @param designFactor 1 or more; 5 when left out, the lower bound of Cordage Institute CI 1401
   * @param ends two
   * @param bodyEdge span and sag of the long edge of a body; may be left out
   */
  record HangRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String load,
      @JsonDeserialize(using = TypedText.class) @Nullable String dynamicAllowance,
      @JsonDeserialize(using = TypedText.class) @Nullable String designFactor,
      @Nullable List<@Nullable EndRequest> ends,
      @Nullable List<@Nullable ElementRequest> elements,
      @Nullable EdgeRequest bodyEdge) {

    HangEntry entry() {
      List<HangEntry.@Nullable EndEntry> endEntries = null;
      if (ends != null) {
        endEntries = new ArrayList<>();
        for (EndRequest end : ends) {
          endEntries.add(end == null ? null : end.entry());
        }
      }
      List<HangEntry.@Nullable ElementEntry> elementEntries = null;
      if (elements != null) {
        elementEntries = new ArrayList<>();
        for (ElementRequest element : elements) {
          elementEntries.add(element == null ? null : element.entry());
        }
      }
      return new HangEntry(
          load,
          dynamicAllowance,
          designFactor,
          endEntries,
          elementEntries,
          bodyEdge == null ? null : new HangEntry.EdgeEntry(bodyEdge.span(), bodyEdge.sag()));
    }
  }

  /**
   * An end as it is sent: an angle above the horizontal, or the run and rise that make it, measured
   * from the load point.
   *
   * @param bodyAngle of the body's end as loaded, where a ridge line is tied at the apex
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record EndRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String angle,
      @JsonDeserialize(using = TypedText.class) @Nullable String run,
      @JsonDeserialize(using = TypedText.class) @Nullable String rise,
      @JsonDeserialize(using = TypedText.class) @Nullable String bodyAngle,
      @Nullable BarRequest bar) {

    static EndRequest of(HangEntry.EndEntry end) {
      HangEntry.BarEntry bar = end.bar();
      return new EndRequest(
          end.angle(),
          end.run(),
          end.rise(),
          end.bodyAngle(),
          bar == null
              ? null
              : new BarRequest(
                  bar.length(),
                  bar.leg(),
                  bar.apexDistance(),
                  bar.edgeAngle(),
                  bar.outerDiameter(),
                  bar.wall(),
                  bar.modulus(),
                  bar.yield()));
    }

    HangEntry.EndEntry entry() {
      return new HangEntry.EndEntry(angle, run, rise, bodyAngle, bar == null ? null : bar.entry());
    }
  }

  /**
   * A spreader bar as it is sent.
   *
   * @param leg length of a leg, more than half the bar; or
   * @param apexDistance from the apex to the bar
   * @param edgeAngle by which the body's edge converges towards the axis at the bar
   * @param wall a rod when left out
   * @param modulus of elasticity, such as 70 GPa
   * @param yield stress, such as 276 MPa; may be left out
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record BarRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String length,
      @JsonDeserialize(using = TypedText.class) @Nullable String leg,
      @JsonDeserialize(using = TypedText.class) @Nullable String apexDistance,
      @JsonDeserialize(using = TypedText.class) @Nullable String edgeAngle,
      @JsonDeserialize(using = TypedText.class) @Nullable String outerDiameter,
      @JsonDeserialize(using = TypedText.class) @Nullable String wall,
      @JsonDeserialize(using = TypedText.class) @Nullable String modulus,
      @JsonDeserialize(using = TypedText.class) @Nullable String yield) {

    HangEntry.BarEntry entry() {
      return new HangEntry.BarEntry(
          length, leg, apexDistance, edgeAngle, outerDiameter, wall, modulus, yield);
    }
  }

  /**
   * Something that has to hold, as it is sent.
   *
   * @param strength new and by itself; not known when left out
   * @param strengthKind minimum-breaking, average-break or working-load-limit; the first when left
   *     out
   * @param termination what its ends leave of that, from 0 to 1; 1 when left out
   * @param where line, tree strap, suspension, leg, ridge line, bar or body edge; line when left
   *     out
   */
  record ElementRequest(
      @Nullable String name,
      @JsonDeserialize(using = TypedText.class) @Nullable String strength,
      @Nullable String strengthKind,
      @JsonDeserialize(using = TypedText.class) @Nullable String termination,
      @Nullable String where) {

    HangEntry.ElementEntry entry() {
      return new HangEntry.ElementEntry(name, strength, strengthKind, termination, where);
    }
  }

  record EdgeRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String span,
      @JsonDeserialize(using = TypedText.class) @Nullable String sag) {}

  /**
   * A shallow line as it is sent.
   *
   * @param perLength load for each metre of the span, or the mass of that
   * @param sag or
   * @param horizontal pull
   */
  record ShallowLineRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String span,
      @JsonDeserialize(using = TypedText.class) @Nullable String perLength,
      @JsonDeserialize(using = TypedText.class) @Nullable String sag,
      @JsonDeserialize(using = TypedText.class) @Nullable String horizontal) {}

  /**
   * A shallow line worked out.
   *
   * @param horizontal pull at its lowest point
   * @param greatest pull at its supports
   * @param length of the line itself
   */
  record ShallowLineJson(
      RangeJson horizontal,
      RangeJson greatest,
      RangeJson sag,
      RangeJson length,
      List<String> cautions) {

    static ShallowLineJson of(LineFigures figures) {
      return new ShallowLineJson(
          RangeJson.of(figures.horizontal(), Unit.NEWTON),
          RangeJson.of(figures.greatest(), Unit.NEWTON),
          RangeJson.of(figures.sag(), Unit.METRE),
          RangeJson.of(figures.length(), Unit.METRE),
          Cautions.ALL);
    }
  }

  /** What the ends, bars and lines of a hang carry, and how many times stronger they are. */
  @PostMapping("/hang")
  HangJson hang(@RequestBody HangRequest request) {
    return HangJson.of(HangReader.figures(request.entry(), HangFigures.LOWER_BOUND));
  }

  /** A line with a load spread over its span, as a parabola. */
  @PostMapping("/shallow-line")
  ShallowLineJson shallowLine(@RequestBody ShallowLineRequest request) {
    return ShallowLineJson.of(
        HangReader.shallowLine(
            request.span(), request.perLength(), request.sag(), request.horizontal()));
  }
}
