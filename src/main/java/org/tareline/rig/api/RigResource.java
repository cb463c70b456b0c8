package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
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
import org.tareline.rig.Forest;
import org.tareline.rig.HeldLine;
import org.tareline.rig.Reconciliations;
import org.tareline.rig.Rig;
import org.tareline.rig.RigVariants;
import org.tareline.rig.Rigs;
import org.tareline.rig.Scopes;
import org.tareline.rig.Targets;
import org.tareline.rig.ToWeigh;
import org.tareline.rollup.MassStatement;
import org.tareline.rollup.NextWeighings;
import org.tareline.rollup.RollUp;
import org.tareline.rollup.Scope;
import org.tareline.site.Faults;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.Listed;
import org.tareline.site.json.TypedText;
import org.tareline.units.Mass;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Rigs and their totals. */
@RestController
@RequestMapping("/api/v1/rigs")
class RigResource {

  /**
   * A rig as it is sent.
   *
   * @param code may be left out where the address names the rig already
   */
  @JsonIgnoreProperties({"revision", "variantOf", "variants"})
  record RigRequest(
      @Nullable String code,
      @Nullable String name,
      @Nullable List<@Nullable LineRequest> lines,
      @Nullable String note) {

    Rigs.Entry entry(@Nullable String knownCode) {
      List<Rigs.@Nullable LineEntry> entries = null;
      if (lines != null) {
        entries = new ArrayList<>();
        for (LineRequest line : lines) {
          entries.add(line == null ? null : line.entry());
        }
      }
      return new Rigs.Entry(code == null ? knownCode : code, name, entries, note);
    }
  }

  /**
   * A line as it is sent: a part or a rig, never both.
   *
   * @param id of the line it was; when left out, it is told by what it holds
   * @param quantity 1 when left out
   * @param role such as body; a word that is new is the ledger's own from then on
   */
  @JsonIgnoreProperties("name")
  record LineRequest(
      @Nullable String id,
      @Nullable String part,
      @Nullable String rig,
      @JsonDeserialize(using = TypedText.class) @Nullable String quantity,
      @Nullable String role) {

    Rigs.LineEntry entry() {
      return new Rigs.LineEntry(id, part, rig, quantity, role);
    }
  }

  private final Rigs rigs;
  private final Scopes scopes;
  private final Reconciliations reconciliations;
  private final ToWeigh toWeigh;
  private final RigVariants variants;

  RigResource(
      Rigs rigs,
      Scopes scopes,
      Reconciliations reconciliations,
      ToWeigh toWeigh,
      RigVariants variants) {
    this.rigs = rigs;
    this.scopes = scopes;
    this.reconciliations = reconciliations;
    this.toWeigh = toWeigh;
    this.variants = variants;
  }

  @GetMapping
  Listed<RigJson> all(Member member) {
    Map<Long, List<HeldLine>> lines = rigs.lines(member);
    return Listed.whole(
        rigs.all(member).stream()
            .map(rig -> RigJson.of(rig, lines.getOrDefault(rig.id(), List.of())))
            .toList());
  }

  /** A rig by its code, or by one that it once had. */
  @GetMapping("/{code}")
  RigJson one(Member member, @PathVariable String code, HttpServletResponse response) {
    return answer(member, rigs.get(member, code), response);
  }

  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  RigJson add(Member member, @RequestBody RigRequest request, HttpServletResponse response) {
    Rig rig = rigs.add(member, request.entry(null));
    response.setHeader(
        HttpHeaders.LOCATION,
        UriComponentsBuilder.fromPath("/api/v1/rigs")
            .pathSegment("{code}")
            .encode()
            .build(rig.code())
            .toString());
    return answer(member, rig, response);
  }

  /** Describes a rig anew. A line keeps its id, be it sent or not, and so stays the same line. */
  @PutMapping("/{code}")
  RigJson change(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody RigRequest request,
      HttpServletResponse response) {
    String known = rigs.get(member, code).code();
    Rig rig = rigs.change(member, code, request.entry(known), RevisionTag.expected(ifMatch));
    return answer(member, rig, response);
  }

  /**
   * The total of a rig, what it is made of, and what the scope leaves out.
   *
   * @param target a mass, such as 400 g, that the predicted mass is held against
   */
  @GetMapping("/{code}/roll-up")
  RollUpJson rollUp(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String unit,
      @RequestParam(required = false) @Nullable String target) {
    Unit asked = AnswerUnit.ofMass(unit);
    Faults faults = new Faults();
    Mass most = Targets.read(faults, target);
    faults.refuseIfAny();
    Rig rig = rigs.get(member, code);
    Scope counted = scopes.get(member, scope);
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp rollUp = forest.rollUp(rig.id(), counted);
    MassStatement statement =
        MassStatement.of(rollUp.leaves(), member.settings()::growthAllowance, most);
    return RollUpJson.of(
        rollUp, forest.revision(rig.id()), PredictedJson.of(statement, asked), asked);
  }

  /** The rig weighed whole, held against the sum of its parts, with what would explain a gap. */
  @GetMapping("/{code}/reconciliation")
  ReconciliationJson reconciliation(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String unit) {
    Unit asked = AnswerUnit.ofMass(unit);
    Rig rig = rigs.get(member, code);
    Scope counted = scopes.get(member, scope);
    Forest forest = rigs.forest(member, List.of(rig.id()));
    RollUp rollUp = forest.rollUp(rig.id(), counted);
    return ReconciliationJson.of(reconciliations.hold(member, rig, forest, rollUp), asked);
  }

  /** Which parts to weigh next, so that the total becomes surer. */
  @GetMapping("/{code}/next-weighings")
  NextWeighingsJson nextWeighings(
      Member member,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String scope,
      @RequestParam(required = false) @Nullable String scale,
      @RequestParam(required = false) @Nullable String unit) {
    Unit asked = AnswerUnit.ofMass(unit);
    RollUp rollUp = rigs.rollUps(member, List.of(code), scopes.get(member, scope)).get(0);
    return toWeigh
        .forTotal(member, rollUp, scale, NextWeighings.Which.ALL)
        .map(found -> NextWeighingsJson.of(found, asked))
        .orElseThrow(NextWeighingsJson::noScale);
  }

  private RigJson answer(Member member, Rig rig, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(rig.revision()));
    return RigJson.of(rig, variants.kin(member, rig), rigs.lines(member, rig));
  }
}
