package org.tareline.part.api;

import jakarta.servlet.http.HttpServletResponse;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.part.Part;
import org.tareline.part.PartVariants;
import org.tareline.part.Parts;
import org.tareline.part.WhatIfs;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** What a part would be with other materials, and variants of it. */
@RestController
@RequestMapping("/api/v1/parts/{code}")
class WhatIfResource {

  /**
   * What is replaced.
   *
   * @param replace codes of materials by codes of those that they stand in for
   */
  record WhatIfRequest(@Nullable Map<String, @Nullable String> replace) {}

  /**
   * A variant.
   *
   * @param name that of the other part, marked as a variant, when left out
   * @param owned 0 when left out
   * @param replace as of a what-if; may be left out
   */
  record VariantRequest(
      @Nullable String code,
      @Nullable String name,
      @JsonDeserialize(using = TypedText.class) @Nullable String owned,
      @Nullable Map<String, @Nullable String> replace) {}

  private final Parts parts;
  private final WhatIfs whatIfs;
  private final PartVariants variants;

  WhatIfResource(Parts parts, WhatIfs whatIfs, PartVariants variants) {
    this.parts = parts;
    this.whatIfs = whatIfs;
    this.variants = variants;
  }

  /** Calculates the part with other materials in its cut list, and writes nothing. */
  @PostMapping("/what-if")
  WhatIfJson whatIf(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String unit,
      @RequestBody WhatIfRequest request) {
    Unit asked = AnswerUnit.ofMass(unit);
    Part part = parts.get(member, code);
    return WhatIfJson.of(
        whatIfs.of(member, part, parts.mass(member, part), request.replace()), asked);
  }

  /** Copies a part as a variant of it: its cut list, and neither weighings nor history. */
  @PostMapping("/variants")
  @ResponseStatus(HttpStatus.CREATED)
  PartJson variant(
      Member member,
      @PathVariable String code,
      @RequestBody VariantRequest request,
      HttpServletResponse response) {
    Part part =
        variants.add(
            member,
            code,
            new PartVariants.Entry(
                request.code(), request.name(), request.owned(), request.replace()));
    response.setHeader(
        HttpHeaders.LOCATION,
        UriComponentsBuilder.fromPath("/api/v1/parts")
            .pathSegment("{code}")
            .encode()
            .build(part.code())
            .toString());
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(part.revision()));
    return PartJson.of(part, parts.evidence(member, part), variants.kin(member, part), Unit.GRAM);
  }
}
