package org.tareline.weighing.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.net.URI;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
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
import org.tareline.evidence.Span;
import org.tareline.evidence.SpanFit;
import org.tareline.ledger.Member;
import org.tareline.site.json.Listed;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.ScaleCheck;
import org.tareline.weighing.Scales;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Scales. */
@RestController
@RequestMapping("/api/v1/scales")
class ScaleResource {

  /**
   * A scale as it is sent. A bare number is in grams.
   *
   * @param repeatabilityDegreesOfFreedom one less than the readings it was found from
   * @param spanTolerance such as {@code 0.1 %}; or else
   * @param accuracyClass of OIML R 76, whose permissible errors in service count, and
   * @param verificationInterval its e
   * @param checkEvery days
   */
  record ScaleRequest(
      @Nullable String code,
      @Nullable String name,
      @JsonDeserialize(using = TypedText.class) @Nullable String readability,
      @JsonDeserialize(using = TypedText.class) @Nullable String capacity,
      @JsonDeserialize(using = TypedText.class) @Nullable String repeatability,
      @JsonDeserialize(using = TypedText.class) @Nullable String repeatabilityDegreesOfFreedom,
      @Nullable String spanTolerance,
      @JsonProperty("class") @Nullable String accuracyClass,
      @JsonDeserialize(using = TypedText.class) @Nullable String verificationInterval,
      @JsonDeserialize(using = TypedText.class) @Nullable String checkEvery) {

    Scales.Entry entry() {
      return new Scales.Entry(
          code,
          name,
          readability,
          capacity,
          repeatability,
          repeatabilityDegreesOfFreedom,
          spanTolerance,
          accuracyClass,
          verificationInterval,
          checkEvery);
    }
  }

  /**
   * A scale: first what is stated of it, then what counts for a weighing made now.
   *
   * @param unit the UCUM code of the unit it reads in, in which a bare reading is taken to be
   * @param repeatability left out where it is not known
   * @param spanTolerance as typed; left out where none is stated
   * @param spanFraction the same as an exact fraction of what is read
   * @param accuracyClass of OIML R 76; left out where none is stated
   * @param minimumLoad below it the relative error of its class may be excessive
   * @param checkEvery days
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ScaleJson(
      String code,
      String name,
      String unit,
      TypedQuantityJson readability,
      TypedQuantityJson capacity,
      @Nullable TypedQuantityJson repeatability,
      @Nullable String repeatabilityDegreesOfFreedom,
      @Nullable String spanTolerance,
      @Nullable String spanFraction,
      @JsonProperty("class") @Nullable String accuracyClass,
      @Nullable TypedQuantityJson verificationInterval,
      @Nullable QuantityJson minimumLoad,
      int checkEvery,
      CalibrationJson inForce) {}

  /**
   * What counts for a weighing made now.
   *
   * @param repeatability left out where it is not known
   * @param slope what is read for each gram on the scale, by the newest check; left out before the
   *     first, when what is stated counts
   * @param check the id of that check
   * @param since when it was made
   * @param overdue whether a check is due
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record CalibrationJson(
      @Nullable QuantityJson repeatability,
      @Nullable String repeatabilityDegreesOfFreedom,
      @Nullable String slope,
      @Nullable String slopeStandardUncertainty,
      @Nullable String slopeDegreesOfFreedom,
      @Nullable String check,
      @Nullable String since,
      boolean overdue) {}

  private ScaleJson json(Member member, Scale scale) {
    Optional<Span.Permitted> permitted = scale.permitted();
    Integer degreesOfFreedom = scale.repeatabilityDegreesOfFreedom();
    return new ScaleJson(
        scale.code(),
        scale.name(),
        scale.unit().ucum(),
        TypedQuantityJson.of(scale.readability(), scale.readabilityTyped(), Unit.GRAM),
        TypedQuantityJson.of(scale.capacity(), scale.capacityTyped(), Unit.GRAM),
        TypedQuantityJson.orNull(scale.repeatability(), scale.repeatabilityTyped(), Unit.GRAM),
        degreesOfFreedom == null ? null : degreesOfFreedom.toString(),
        scale.spanTyped(),
        scale.spanHalfWidth() == null
            ? null
            : scale.spanHalfWidth().stripTrailingZeros().toPlainString(),
        permitted.map(each -> each.accuracyClass().name()).orElse(null),
        TypedQuantityJson.orNull(
            permitted.map(Span.Permitted::interval).orElse(null),
            scale.intervalTyped().orElse(null),
            Unit.GRAM),
        permitted
            .map(each -> each.accuracyClass().least(each.interval()))
            .map(least -> QuantityJson.of(least, Unit.GRAM))
            .orElse(null),
        scale.checkEveryDays(member.settings()),
        inForce(member, scale));
  }

  private CalibrationJson inForce(Member member, Scale scale) {
    Instant now = clock.instant();
    Repeatability repeatability = scale.repeatabilityAt(now);
    Optional<ScaleCheck> check = scale.inForce(ScaleCheck.Kind.SPAN, now);
    Optional<SpanFit> fit = check.map(scale::fit);
    return new CalibrationJson(
        repeatability == null
            ? null
            : QuantityJson.of(repeatability.standardDeviation(), Unit.GRAM),
        repeatability == null ? null : degrees(repeatability.degreesOfFreedom()),
        fit.map(each -> QuantityJson.plain(each.slope())).orElse(null),
        fit.map(each -> QuantityJson.plain(each.standardUncertainty())).orElse(null),
        fit.map(each -> degrees(each.degreesOfFreedom())).orElse(null),
        check.map(each -> each.uuid().toString()).orElse(null),
        check.map(each -> each.checkedAt().toString()).orElse(null),
        scales.overdue(member, scale).isPresent());
  }

  static String degrees(double degreesOfFreedom) {
    return Double.isInfinite(degreesOfFreedom) ? "infinite" : QuantityJson.plain(degreesOfFreedom);
  }

  private final Scales scales;
  private final Clock clock;

  ScaleResource(Scales scales, Clock clock) {
    this.scales = scales;
    this.clock = clock;
  }

  @GetMapping
  Listed<ScaleJson> all(Member member) {
    return Listed.whole(scales.all(member).stream().map(scale -> json(member, scale)).toList());
  }

  @GetMapping("/{code}")
  ScaleJson one(Member member, @PathVariable String code) {
    return json(member, scales.get(member, code));
  }

  @PostMapping
  ResponseEntity<ScaleJson> add(Member member, @RequestBody ScaleRequest request) {
    Scale scale = scales.add(member, request.entry());
    URI address =
        UriComponentsBuilder.fromPath("/api/v1/scales")
            .pathSegment("{code}")
            .encode()
            .buildAndExpand(scale.code())
            .toUri();
    return ResponseEntity.created(address).body(json(member, scale));
  }
}
