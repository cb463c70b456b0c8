package org.tareline.weighing.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.net.URI;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.evidence.Repeatability;
import org.tareline.evidence.SpanFit;
import org.tareline.ledger.Member;
import org.tareline.site.NotThere;
import org.tareline.site.json.Listed;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.CheckReading;
import org.tareline.weighing.ScaleCheck;
import org.tareline.weighing.ScaleChecks;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Checks of a scale: of its span by check weights, and of its repeatability by one load. */
@RestController
@RequestMapping("/api/v1/scales/{code}")
class ScaleCheckResource {

  /** A check weight. A bare number is in the unit of the scale. */
  record WeightRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String nominal,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonProperty("class") @Nullable String weightClass,
      @JsonDeserialize(using = TypedText.class) @Nullable String indication) {}

  /** Check weights put on at one time. */
  record CheckRequest(
      @Nullable List<@Nullable WeightRequest> weights,
      @Nullable String checkedAt,
      @Nullable String note) {

    ScaleChecks.SpanEntry entry() {
      List<ScaleChecks.@Nullable WeightEntry> entries = new ArrayList<>();
      for (WeightRequest weight : weights == null ? List.<@Nullable WeightRequest>of() : weights) {
        entries.add(
            weight == null
                ? null
                : new ScaleChecks.WeightEntry(
                    weight.nominal(),
                    weight.tolerance(),
                    weight.weightClass(),
                    weight.indication()));
      }
      return new ScaleChecks.SpanEntry(entries, checkedAt, note);
    }
  }

  /** Readings of one load, taken off and put on again. */
  record RepeatabilityRequest(
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @Nullable String testedAt,
      @Nullable String note) {

    ScaleChecks.RepeatabilityEntry entry() {
      return new ScaleChecks.RepeatabilityEntry(readings, testedAt, note);
    }
  }

  record VoidRequest(@Nullable String reason) {}

  /**
   * A check of the span.
   *
   * @param slope what is read for each gram on the scale: readings made under this check are
   *     divided by it
   * @param fromScatter whether the points scatter about the line more than tolerances, steps and
   *     repeatability explain, so that the scatter itself is the uncertainty
   * @param inForceSince left out where it was struck out
   * @param inForceUntil when the next check took over; left out while none has
   * @param weighings how many that stand rest on it
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record CheckJson(
      String id,
      String scale,
      String checkedAt,
      String enteredAt,
      @Nullable String note,
      boolean voided,
      @Nullable String voidReason,
      @Nullable String inForceSince,
      @Nullable String inForceUntil,
      long weighings,
      String slope,
      String standardUncertainty,
      String expandedUncertainty,
      String degreesOfFreedom,
      boolean fromScatter,
      List<PointJson> points) {

    static CheckJson of(ScaleChecks.Held held) {
      ScaleCheck check = held.check();
      SpanFit fit = held.scale().fit(check);
      List<PointJson> points = new ArrayList<>();
      for (int i = 0; i < fit.points().size(); i++) {
        points.add(PointJson.of(check.readings().get(i), fit, i));
      }
      boolean voided = check.voidReason().isPresent();
      return new CheckJson(
          check.uuid().toString(),
          held.scale().code(),
          check.checkedAt().toString(),
          check.enteredAt().toString(),
          check.note().orElse(null),
          voided,
          check.voidReason().orElse(null),
          voided ? null : check.checkedAt().toString(),
          voided ? null : textOrNull(held.until()),
          held.weighings(),
          QuantityJson.plain(fit.slope()),
          QuantityJson.plain(fit.standardUncertainty()),
          QuantityJson.plain(fit.expandedUncertainty()),
          ScaleResource.degrees(fit.degreesOfFreedom()),
          fit.fromScatter(),
          points);
    }
  }

  /**
   * A check weight.
   *
   * @param tolerance half-width, exactly; typed, or by its class
   * @param deviation indication − nominal
   * @param residual indication − slope × nominal
   * @param standardUncertainty of the deviation
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record PointJson(
      TypedQuantityJson nominal,
      QuantityJson tolerance,
      @Nullable String toleranceTyped,
      @JsonProperty("class") @Nullable String weightClass,
      TypedQuantityJson indication,
      QuantityJson deviation,
      QuantityJson residual,
      QuantityJson standardUncertainty) {

    static PointJson of(CheckReading reading, SpanFit fit, int index) {
      SpanFit.Point point = fit.points().get(index);
      return new PointJson(
          TypedQuantityJson.of(point.nominal(), reading.nominalTyped(), Unit.GRAM),
          QuantityJson.of(point.halfWidth(), Unit.GRAM),
          reading.toleranceTyped().orElse(null),
          reading.weightClass().orElse(null),
          TypedQuantityJson.of(point.indication(), reading.typed(), Unit.GRAM),
          QuantityJson.of(point.deviation(), Unit.GRAM),
          QuantityJson.of(fit.residuals().get(index), Unit.GRAM),
          QuantityJson.of(fit.deviations().get(index).standardUncertainty(), Unit.GRAM));
    }
  }

  /**
   * A check of repeatability.
   *
   * @param repeatability s of the readings, which counts for readings made under this check
   * @param degreesOfFreedom one less than the readings
   * @param inForceSince left out where it was struck out
   * @param inForceUntil when the next took over; left out while none has
   * @param weighings how many that stand were made under it
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record RepeatabilityJson(
      String id,
      String scale,
      String testedAt,
      String enteredAt,
      @Nullable String note,
      boolean voided,
      @Nullable String voidReason,
      @Nullable String inForceSince,
      @Nullable String inForceUntil,
      long weighings,
      List<String> readings,
      QuantityJson repeatability,
      String degreesOfFreedom) {

    static RepeatabilityJson of(ScaleChecks.Held held) {
      ScaleCheck check = held.check();
      Repeatability found = check.repeatability();
      boolean voided = check.voidReason().isPresent();
      return new RepeatabilityJson(
          check.uuid().toString(),
          held.scale().code(),
          check.checkedAt().toString(),
          check.enteredAt().toString(),
          check.note().orElse(null),
          voided,
          check.voidReason().orElse(null),
          voided ? null : check.checkedAt().toString(),
          voided ? null : textOrNull(held.until()),
          held.weighings(),
          check.readings().stream().map(CheckReading::typed).toList(),
          QuantityJson.of(found.standardDeviation(), Unit.GRAM),
          ScaleResource.degrees(found.degreesOfFreedom()));
    }
  }

  private final ScaleChecks checks;

  ScaleCheckResource(ScaleChecks checks) {
    this.checks = checks;
  }

  @GetMapping("/checks")
  Listed<CheckJson> checks(Member member, @PathVariable String code) {
    return Listed.whole(
        checks.all(member, code, ScaleCheck.Kind.SPAN).stream().map(CheckJson::of).toList());
  }

  @GetMapping("/checks/{id}")
  CheckJson check(Member member, @PathVariable String code, @PathVariable String id) {
    return CheckJson.of(checks.get(member, code, ScaleCheck.Kind.SPAN, uuid(id)));
  }

  @PostMapping("/checks")
  ResponseEntity<CheckJson> check(
      Member member, @PathVariable String code, @RequestBody CheckRequest request) {
    CheckJson made = CheckJson.of(checks.log(member, code, request.entry()));
    return ResponseEntity.created(address(made.scale(), "checks", made.id())).body(made);
  }

  @PostMapping("/checks/{id}/void")
  CheckJson voidCheck(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestBody VoidRequest request) {
    return CheckJson.of(
        checks.strikeOut(member, code, ScaleCheck.Kind.SPAN, uuid(id), request.reason()));
  }

  @GetMapping("/repeatability")
  Listed<RepeatabilityJson> repeatabilities(Member member, @PathVariable String code) {
    return Listed.whole(
        checks.all(member, code, ScaleCheck.Kind.REPEATABILITY).stream()
            .map(RepeatabilityJson::of)
            .toList());
  }

  @GetMapping("/repeatability/{id}")
  RepeatabilityJson repeatability(
      Member member, @PathVariable String code, @PathVariable String id) {
    return RepeatabilityJson.of(checks.get(member, code, ScaleCheck.Kind.REPEATABILITY, uuid(id)));
  }

  @PostMapping("/repeatability")
  ResponseEntity<RepeatabilityJson> repeatability(
      Member member, @PathVariable String code, @RequestBody RepeatabilityRequest request) {
    RepeatabilityJson made = RepeatabilityJson.of(checks.log(member, code, request.entry()));
    return ResponseEntity.created(address(made.scale(), "repeatability", made.id())).body(made);
  }

  @PostMapping("/repeatability/{id}/void")
  RepeatabilityJson voidRepeatability(
      Member member,
      @PathVariable String code,
      @PathVariable String id,
      @RequestBody VoidRequest request) {
    return RepeatabilityJson.of(
        checks.strikeOut(member, code, ScaleCheck.Kind.REPEATABILITY, uuid(id), request.reason()));
  }

  private static URI address(String scale, String kind, String id) {
    return UriComponentsBuilder.fromPath("/api/v1/scales")
        .pathSegment("{scale}", "{kind}", "{id}")
        .encode()
        .buildAndExpand(scale, kind, id)
        .toUri();
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("check");
    }
  }

  private static @Nullable String textOrNull(@Nullable Object value) {
    return value == null ? null : value.toString();
  }
}
