package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
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
import org.tareline.material.CutFrom;
import org.tareline.material.Learning;
import org.tareline.material.Material;
import org.tareline.material.MaterialMass;
import org.tareline.material.Materials;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.material.Swatches;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedText;
import org.tareline.weighing.KeyedEntries;
import org.tareline.weighing.Weighings;
import tools.jackson.databind.annotation.JsonDeserialize;
import tools.jackson.databind.json.JsonMapper;

/** Materials and their swatches. */
@RestController
@RequestMapping("/api/v1/materials")
class MaterialResource {

  private static final int PAGE = 500;

  /**
   * A material as it is sent. Every quantity has its unit.
   *
   * @param code may be left out where the address names the material already
   * @param nominal per area of fabric, netting and sheet insulation, per length of cord, webbing,
   *     tape and thread, of one of hardware; or, of cloth, per running length with
   * @param nominalWidth the width that is for
   * @param tolerance such as {@code 5 %}, or in the unit of the nominal mass
   * @param fillPower of insulation that goes by it, in in³/oz
   * @param price such as {@code 12.50 EUR/m}
   * @param stock how much is on hand: a length, a count of hardware, a mass of a filling; where its
   *     record has begun, another amount than that comes to is noted there as counted
   * @param use {@code nominal} or {@code weighed}; by the swatches when left out; {@code learned}
   *     where that was taken and is to stay
   */
  @JsonIgnoreProperties({
    "revision",
    "weighed",
    "used",
    "learned",
    "swatches",
    "stockRecord",
    "usedIn"
  })
  record MaterialRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable String kind,
      @JsonDeserialize(using = NominalText.class) @Nullable String nominal,
      @JsonDeserialize(using = TypedText.class) @Nullable String nominalWidth,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(using = TypedText.class) @Nullable String fillPower,
      @JsonDeserialize(using = TypedText.class) @Nullable String width,
      @JsonDeserialize(using = TypedText.class) @Nullable String strength,
      @Nullable String strengthKind,
      @Nullable String fibre,
      @Nullable String price,
      @Nullable String colour,
      @Nullable String note,
      @JsonDeserialize(using = TypedText.class) @Nullable String stock,
      @Nullable String use) {

    Materials.Entry entry(@Nullable String knownCode) {
      return new Materials.Entry(
          code == null ? knownCode : code,
          name,
          kind,
          nominal,
          nominalWidth,
          tolerance,
          fillPower,
          width,
          strength,
          strengthKind,
          fibre,
          price,
          colour,
          note,
          stock,
          use);
    }
  }

  /**
   * A swatch as it is sent, with the weighing of it.
   *
   * @param length of what goes by area or by length
   * @param width of what goes by area
   * @param sizeError how far off each side may be; 1 mm when left out
   * @param count of alike pieces on the pan
   * @param place where on the roll it was cut
   * @param key the sender's, so that it may be sent again and is kept once
   */
  record SwatchRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String length,
      @JsonDeserialize(using = TypedText.class) @Nullable String width,
      @JsonDeserialize(using = TypedText.class) @Nullable String sizeError,
      @Nullable String scale,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @JsonDeserialize(using = TypedText.class) @Nullable String tare,
      @Nullable String count,
      @Nullable String place,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String key) {

    Swatches.Entry entry() {
      return new Swatches.Entry(
          length,
          width,
          sizeError,
          place,
          new Weighings.Entry(
              scale, tolerance, readings, null, tare, count, condition, weighedAt, note));
    }
  }

  /**
   * A swatch that was logged.
   *
   * @param material code
   * @param weighed what all swatches that count say now; left out where none does
   */
  record LoggedSwatch(
      String material,
      @JsonUnwrapped SwatchJson swatch,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable MassPerJson weighed) {}

  private final Materials materials;
  private final Swatches swatches;
  private final Learning learning;
  private final StockEntries stock;
  private final CutFrom cutFrom;
  private final KeyedEntries keyed;
  private final JsonMapper json;

  MaterialResource(
      Materials materials,
      Swatches swatches,
      Learning learning,
      StockEntries stock,
      CutFrom cutFrom,
      KeyedEntries keyed,
      JsonMapper json) {
    this.materials = materials;
    this.swatches = swatches;
    this.learning = learning;
    this.stock = stock;
    this.cutFrom = cutFrom;
    this.keyed = keyed;
    this.json = json;
  }

  /** Materials by code, without their swatches. */
  @GetMapping
  Listed<MaterialJson> all(Member member, @RequestParam(defaultValue = "") String after) {
    List<Material> found = materials.after(member, after, PAGE + 1);
    List<Material> page = found.subList(0, Math.min(found.size(), PAGE));
    Map<Long, MaterialMass> masses = materials.masses(member, page);
    Map<Long, OnHand> onHand = materials.onHand(member, page);
    return new Listed<>(
        page.stream()
            .map(
                material ->
                    MaterialJson.of(material, masses.get(material.id()), onHand.get(material.id())))
            .toList(),
        found.size() > PAGE
            ? UriComponentsBuilder.fromPath("/api/v1/materials")
                .queryParam("after", "{after}")
                .encode()
                .build(page.get(PAGE - 1).code())
                .toString()
            : null);
  }

  /** A material by its code, or by one that it once had. */
  @GetMapping("/{code}")
  MaterialJson one(Member member, @PathVariable String code, HttpServletResponse response) {
    return answer(member, materials.get(member, code), response);
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  MaterialJson add(
      Member member, @RequestBody MaterialRequest request, HttpServletResponse response) {
    Material material = materials.add(member, request.entry(null));
    response.setHeader(HttpHeaders.LOCATION, address(material));
    return answer(member, material, response);
  }

  /** Describes a material anew; what is left out is taken back to what it would be in a new one. */
  @PutMapping("/{code}")
  MaterialJson change(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody MaterialRequest request,
      HttpServletResponse response) {
    String known = materials.get(member, code).code();
    Material material =
        materials.change(member, code, request.entry(known), RevisionTag.expected(ifMatch));
    return answer(member, material, response);
  }

  /** Takes what parts that were weighed say of a material as the mass that cut lists use. */
  @PostMapping("/{code}/take-learned")
  MaterialJson takeLearned(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      HttpServletResponse response) {
    return answer(member, learning.take(member, code, RevisionTag.expected(ifMatch)), response);
  }

  /** Goes back to what was used before. */
  @PostMapping("/{code}/take-back-learned")
  MaterialJson takeBackLearned(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      HttpServletResponse response) {
    return answer(member, learning.takeBack(member, code, RevisionTag.expected(ifMatch)), response);
  }

  /** Logs a swatch; it is struck out by the id of its weighing, under /weighings. */
  @PostMapping("/{code}/swatches")
  ResponseEntity<String> log(
      Member member, @PathVariable String code, @RequestBody SwatchRequest request) {
    Material material = materials.get(member, code);
    KeyedEntries.Answer answer =
        keyed.once(
            member,
            request.key(),
            material.id() + json.writeValueAsString(request),
            () -> {
              Swatches.Weighed logged = swatches.log(member, code, request.entry());
              return new KeyedEntries.Logged(
                  logged.logged().weighing(),
                  json.writeValueAsString(answer(member, material, logged)));
            });
    return ResponseEntity.status(answer.again() ? HttpStatus.OK : HttpStatus.CREATED)
        .header(HttpHeaders.LOCATION, address(material))
        .contentType(MediaType.APPLICATION_JSON)
        .body(answer.text());
  }

  private LoggedSwatch answer(Member member, Material material, Swatches.Weighed logged) {
    MaterialMass known = materials.mass(member, material);
    return new LoggedSwatch(
        material.code(),
        SwatchJson.of(logged),
        known.weighed() == null
            ? null
            : MassPerJson.of(known.weighed(), known.swatches(), known.agree()));
  }

  private static String address(Material material) {
    return UriComponentsBuilder.fromPath("/api/v1/materials")
        .pathSegment("{code}")
        .encode()
        .build(material.code())
        .toString();
  }

  private MaterialJson answer(Member member, Material material, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(material.revision()));
    MaterialMass known = materials.mass(member, material);
    return MaterialJson.of(
        material,
        known,
        materials.onHand(member, List.of(material)).get(material.id()),
        LearnedJson.of(
            learning.of(member, material, known).orElse(null), material.taken().orElse(null)),
        swatches.of(member, material),
        stock.of(member, material),
        cutFrom.usesOf(member, material));
  }
}
