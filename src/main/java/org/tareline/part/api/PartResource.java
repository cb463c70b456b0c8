package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.part.Comfort;
import org.tareline.part.PackedSize;
import org.tareline.part.Part;
import org.tareline.part.PartMass;
import org.tareline.part.PartVariants;
import org.tareline.part.Parts;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.Listed;
import org.tareline.site.json.MarkedText;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Parts. */
@RestController
@RequestMapping("/api/v1/parts")
class PartResource {

  private static final int PAGE = 500;

  /**
   * A part as it is sent. A bare number is in grams.
   *
   * @param code may be left out where the address names the part already
   * @param system {@code other} when left out
   * @param owned 1 when left out
   * @param fibre what it is made of, where that is known: nylon, polyester, hmpe, cotton, wool or
   *     down
   * @param strength what it holds, new and by itself, such as 7 kN; not known when left out, unless
   *     the cord or webbing of its cut list says it
   * @param strengthKind minimum-breaking, average-break or working-load-limit; the first when left
   *     out
   * @param comfortTemperature how cold a night it is stated for; not known when left out
   * @param packedVolume the room it takes in a pack, such as 4.5 L; 0 L of the pack itself
   * @param packedLength the longest that it is when packed, such as 62 cm
   */
  @JsonIgnoreProperties({
    "calculated",
    "calculatedAgainstWeighed",
    "lent",
    "revision",
    "variantOf",
    "variants",
    "estimate",
    "pieces",
    "evidence",
    "olderEvidence"
  })
  record PartRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable String system,
      @Nullable String owned,
      @Nullable StatedRequest stated,
      @Nullable String fibre,
      @JsonDeserialize(using = TypedText.class) @Nullable String strength,
      @Nullable String strengthKind,
      @Nullable ComfortRequest comfortTemperature,
      @JsonDeserialize(using = TypedText.class) @Nullable String packedVolume,
      @JsonDeserialize(using = TypedText.class) @Nullable String packedLength,
      @Nullable String note,
      @Nullable CutListRequest buildSheet) {

    Parts.Entry entry(@Nullable String knownCode) {
      return new Parts.Entry(
          code == null ? knownCode : code,
          name,
          system,
          owned,
          stated == null ? null : stated.entry(),
          fibre,
          new Parts.StrengthEntry(strength, strengthKind),
          comfortTemperature == null
              ? null
              : new Comfort.Entry(
                  comfortTemperature.temperature(),
                  comfortTemperature.kind(),
                  comfortTemperature.insulates()),
          new PackedSize.Entry(packedVolume, packedLength),
          note,
          buildSheet == null ? new Parts.SheetEntry(null, List.of()) : buildSheet.entry());
    }
  }

  /**
   * A stated or guessed mass as it is sent.
   *
   * @param tolerance such as {@code 5 %} or {@code 2 g}; the ledger's own when left out
   */
  record StatedRequest(
      @Schema(implementation = String.class) @JsonDeserialize(using = MarkedText.Reader.class)
          @Nullable MarkedText mass,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance) {

    Parts.StatedEntry entry() {
      return mass == null
          ? new Parts.StatedEntry(null, tolerance)
          : new Parts.StatedEntry(mass.text(), tolerance, mass.mark());
    }
  }

  /**
   * How cold a night a thing is stated for, as it is sent.
   *
   * @param temperature with its unit
   * @param kind comfort, limit or extreme as ISO 23537-1 has them, or maker's own; the last when
   *     left out
   * @param insulates above, below or worn; of a line of a rig its role says it when left out
   */
  record ComfortRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String temperature,
      @Nullable String kind,
      @Nullable String insulates) {}

  private final Parts parts;
  private final PartVariants variants;

  PartResource(Parts parts, PartVariants variants) {
    this.parts = parts;
    this.variants = variants;
  }

  /** Parts by code, without their evidence. */
  @GetMapping
  Listed<PartJson> all(
      Member member,
      @RequestParam(defaultValue = "") String after,
      @RequestParam(required = false) @Nullable String unit) {
    Unit asked = AnswerUnit.ofMass(unit);
    List<Part> found = parts.after(member, after, PAGE + 1);
    List<Part> page = found.subList(0, Math.min(found.size(), PAGE));
    Map<Long, PartMass> masses = parts.masses(member, page);
    return new Listed<>(
        page.stream()
            .map(part -> PartJson.of(part, masses.getOrDefault(part.id(), PartMass.UNKNOWN), asked))
            .toList(),
        found.size() > PAGE ? next(page.get(PAGE - 1), unit) : null);
  }

  private static String next(Part last, @Nullable String unit) {
    UriComponentsBuilder address =
        UriComponentsBuilder.fromPath("/api/v1/parts").queryParam("after", "{after}");
    if (unit != null) {
      address.queryParam("unit", "{unit}");
    }
    return address.encode().build(last.code(), unit).toString();
  }

  /** A part by its code, or by one that it once had. */
  @GetMapping("/{code}")
  PartJson one(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String unit,
      HttpServletResponse response) {
    Unit asked = AnswerUnit.ofMass(unit);
    return answer(member, parts.get(member, code), asked, response);
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  PartJson add(Member member, @RequestBody PartRequest request, HttpServletResponse response) {
    Part part = parts.add(member, request.entry(null));
    response.setHeader(
        HttpHeaders.LOCATION,
        UriComponentsBuilder.fromPath("/api/v1/parts")
            .pathSegment("{code}")
            .encode()
            .build(part.code())
            .toString());
    return answer(member, part, Unit.GRAM, response);
  }

  /** Describes a part anew; what is left out is taken back to what it would be in a new one. */
  @PutMapping("/{code}")
  PartJson change(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody PartRequest request,
      HttpServletResponse response) {
    String known = parts.get(member, code).code();
    Part part = parts.change(member, code, request.entry(known), RevisionTag.expected(ifMatch));
    return answer(member, part, Unit.GRAM, response);
  }

  private PartJson answer(Member member, Part part, Unit unit, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(part.revision()));
    return PartJson.of(part, parts.evidence(member, part), variants.kin(member, part), unit);
  }
}
