package org.tareline.rig.api;

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
import org.tareline.rig.Rig;
import org.tareline.rig.RigVariants;
import org.tareline.rig.RigWhatIfs;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.units.Unit;

/** What a rig would be with other materials or parts, and variants of it. */
@RestController
@RequestMapping("/api/v1/rigs/{code}")
class RigWhatIfResource {

  /**
   * What is replaced.
   *
   * @param replace codes of materials by codes of those that they stand in for
   * @param replaceParts codes of parts by codes of those that they stand in for
   */
  record RigWhatIfRequest(
      @Nullable Map<String, @Nullable String> replace,
      @Nullable Map<String, @Nullable String> replaceParts) {}

  /**
   * A variant.
   *
   * @param name that of the other rig, marked as a variant, when left out
   * @param replace as of a what-if; may be left out
   * @param replaceParts as of a what-if; may be left out
   * @param partCodes codes for variants of the parts that change, by the codes of those; made up
   *     where left out
   * @param rigCodes the same for rigs in the rig
   */
  record RigVariantRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable Map<String, @Nullable String> replace,
      @Nullable Map<String, @Nullable String> replaceParts,
      @Nullable Map<String, @Nullable String> partCodes,
      @Nullable Map<String, @Nullable String> rigCodes) {}

  private final Rigs rigs;
  private final Scopes scopes;
  private final RigWhatIfs whatIfs;
  private final RigVariants variants;

  RigWhatIfResource(Rigs rigs, Scopes scopes, RigWhatIfs whatIfs, RigVariants variants) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.whatIfs = whatIfs;
    this.variants = variants;
  }

  /** Calculates the rig with other materials in the cut lists of its parts, and writes nothing. */
  @PostMapping("/what-if")
  RigWhatIfJson whatIf(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String unit,
      @RequestBody RigWhatIfRequest request) {
    Unit asked = AnswerUnit.ofMass(unit);
    Rig rig = rigs.get(member, code);
    return RigWhatIfJson.of(
        whatIfs.of(
            member,
            rig,
            scopes.get(member, scope),
            new RigWhatIfs.Entry(request.replace(), request.replaceParts())),
        asked);
  }

  /** Copies a rig as a variant of it, with variants of all in it that changes; or nothing. */
  @PostMapping("/variants")
  @ResponseStatus(HttpStatus.CREATED)
  RigJson variant(
      Member member,
      @PathVariable String code,
      @RequestBody RigVariantRequest request,
      HttpServletResponse response) {
    Rig rig =
        variants.add(
            member,
            code,
            new RigVariants.Entry(
                request.code(),
                request.name(),
                new RigWhatIfs.Entry(request.replace(), request.replaceParts()),
                request.partCodes(),
                request.rigCodes()));
    response.setHeader(
        HttpHeaders.LOCATION,
        UriComponentsBuilder.fromPath("/api/v1/rigs")
            .pathSegment("{code}")
            .encode()
            .build(rig.code())
            .toString());
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(rig.revision()));
    return RigJson.of(rig, variants.kin(member, rig), rigs.lines(member, rig));
  }
}
