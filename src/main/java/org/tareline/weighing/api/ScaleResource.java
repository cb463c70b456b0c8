package org.tareline.weighing.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.net.URI;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedQuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.Scale;
import org.tareline.weighing.Scales;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Scales. */
@RestController
@RequestMapping("/api/v1/scales")
class ScaleResource {

  /**
   * A scale as it is sent. A bare number is in grams.
   *
   * @param spanTolerance such as {@code 0.1 %}
   */
  record ScaleRequest(
      @Nullable String code,
      @Nullable String name,
      @JsonDeserialize(using = TypedText.class) @Nullable String readability,
      @JsonDeserialize(using = TypedText.class) @Nullable String capacity,
      @JsonDeserialize(using = TypedText.class) @Nullable String repeatability,
      @Nullable String spanTolerance) {

    Scales.Entry entry() {
      return new Scales.Entry(code, name, readability, capacity, repeatability, spanTolerance);
    }
  }

  /**
   * A scale.
   *
   * @param unit the UCUM code of the unit it reads in, in which a bare reading is taken to be
   * @param repeatability left out where it is not known
   * @param spanTolerance as typed; left out where none is stated
   * @param spanFraction the same as an exact fraction of what is read
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record ScaleJson(
      String code,
      String name,
      String unit,
      TypedQuantityJson readability,
      TypedQuantityJson capacity,
      @Nullable TypedQuantityJson repeatability,
      @Nullable String spanTolerance,
      @Nullable String spanFraction) {

    static ScaleJson of(Scale scale) {
      return new ScaleJson(
          scale.code(),
          scale.name(),
          scale.unit().ucum(),
          TypedQuantityJson.of(scale.readability(), scale.readabilityTyped(), Unit.GRAM),
          TypedQuantityJson.of(scale.capacity(), scale.capacityTyped(), Unit.GRAM),
          TypedQuantityJson.orNull(scale.repeatability(), scale.repeatabilityTyped(), Unit.GRAM),
          scale.spanTyped(),
          scale.spanHalfWidth() == null
              ? null
              : scale.spanHalfWidth().stripTrailingZeros().toPlainString());
    }
  }

  private final Scales scales;

  ScaleResource(Scales scales) {
    this.scales = scales;
  }

  @GetMapping
  Listed<ScaleJson> all(Member member) {
    return Listed.whole(scales.all(member).stream().map(ScaleJson::of).toList());
  }

  @GetMapping("/{code}")
  ScaleJson one(Member member, @PathVariable String code) {
    return ScaleJson.of(scales.get(member, code));
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
    return ResponseEntity.created(address).body(ScaleJson.of(scale));
  }
}
