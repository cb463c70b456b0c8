package org.tareline.rig.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.rig.Cautions;
import org.tareline.rig.ComingIn;
import org.tareline.rig.HangEntry;
import org.tareline.rig.HangLoads;
import org.tareline.rig.RigLoad;
import org.tareline.rig.Rigs;
import org.tareline.site.NotThere;
import org.tareline.site.RevisionTag;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedText;
import org.tareline.statics.Assessment;
import org.tareline.units.Unit;
import tools.jackson.databind.annotation.JsonDeserialize;

/** How a rig is hung, and what it then carries. */
@RestController
@RequestMapping("/api/v1/rigs/{code}/loads")
class RigLoadsResource {

  /**
   * How a rig is hung, as it is sent and answered: what was typed, since a figure may carry a ±.
   *
   * @param lies mass of who lies in it
   * @param hangs mass of what hangs with them
   * @param designFactor the ledger's own when left out
   * @param ridgeLine its length and the flat length of the body, which set the angle of the body's
   *     ends
   * @param bodyEdge span and sag of the long edge of a body between two bars
   * @param gives what comes in besides the body and the lines
   * @param elements the parts that stand in the path of the load
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record HangSetUp(
      @JsonDeserialize(using = TypedText.class) @Nullable String lies,
      @JsonDeserialize(using = TypedText.class) @Nullable String hangs,
      @JsonDeserialize(using = TypedText.class) @Nullable String dynamicAllowance,
      @JsonDeserialize(using = TypedText.class) @Nullable String designFactor,
      @Nullable RidgeSetUp ridgeLine,
      LoadsResource.@Nullable EdgeRequest bodyEdge,
      @Nullable GivesSetUp gives,
      @Nullable List<LoadsResource.@Nullable EndRequest> ends,
      @Nullable List<@Nullable PartInPath> elements) {

    HangLoads.Entry entry() {
      List<HangEntry.@Nullable EndEntry> endEntries = null;
      if (ends != null) {
        endEntries = new ArrayList<>();
        for (LoadsResource.EndRequest end : ends) {
          endEntries.add(end == null ? null : end.entry());
        }
      }
      List<HangLoads.@Nullable PartEntry> partEntries = new ArrayList<>();
      if (elements != null) {
        for (PartInPath element : elements) {
          partEntries.add(element == null ? null : element.entry());
        }
      }
      return new HangLoads.Entry(
          lies,
          hangs,
          dynamicAllowance,
          designFactor,
          ridgeLine == null ? null : ridgeLine.length(),
          ridgeLine == null ? null : ridgeLine.flatLength(),
          bodyEdge == null ? null : bodyEdge.span(),
          bodyEdge == null ? null : bodyEdge.sag(),
          gives == null ? null : gives.tree(),
          gives == null ? null : gives.settling(),
          endEntries,
          partEntries);
    }

    static HangSetUp of(HangLoads.Entry entry) {
      List<LoadsResource.@Nullable EndRequest> ends = new ArrayList<>();
      if (entry.ends() != null) {
        entry
            .ends()
            .forEach(end -> ends.add(end == null ? null : LoadsResource.EndRequest.of(end)));
      }
      List<@Nullable PartInPath> elements = new ArrayList<>();
      if (entry.elements() != null) {
        entry
            .elements()
            .forEach(element -> elements.add(element == null ? null : PartInPath.of(element)));
      }
      return new HangSetUp(
          entry.lies(),
          entry.hangs(),
          entry.dynamicAllowance(),
          entry.designFactor(),
          entry.ridgeLength() == null
              ? null
              : new RidgeSetUp(entry.ridgeLength(), entry.flatLength()),
          entry.edgeSpan() == null
              ? null
              : new LoadsResource.EdgeRequest(entry.edgeSpan(), entry.edgeSag()),
          entry.treeGives() == null && entry.settles() == null
              ? null
              : new GivesSetUp(entry.treeGives(), entry.settles()),
          ends,
          elements);
    }
  }

  /** A structural ridge line, with the length of the body when it lies flat. */
  record RidgeSetUp(
      @JsonDeserialize(using = TypedText.class) @Nullable String length,
      @JsonDeserialize(using = TypedText.class) @Nullable String flatLength) {}

  /**
   * What gives way under the load.
   *
   * @param tree how far each comes in where the strap sits
   * @param settling by how much the knots and the line of one end settle and creep
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record GivesSetUp(
      @JsonDeserialize(using = TypedText.class) @Nullable String tree,
      @JsonDeserialize(using = TypedText.class) @Nullable String settling) {}

  /**
   * A part in the path of the load.
   *
   * @param part code
   * @param where line, tree strap, suspension, leg, ridge line, bar or body edge
   * @param termination spliced, sewn, knotted or as rated; its strength is not known when left out
   * @param terminationFactor what that leaves, where it is known better than by the word
   * @param terminationSource where that comes from
   * @param length of one such line
   * @param breakingStretch how much longer it is when it breaks, such as 3.5 %
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record PartInPath(
      @Nullable String part,
      @Nullable String where,
      @Nullable String termination,
      @JsonDeserialize(using = TypedText.class) @Nullable String terminationFactor,
      @Nullable String terminationSource,
      @JsonDeserialize(using = TypedText.class) @Nullable String length,
      @JsonDeserialize(using = TypedText.class) @Nullable String breakingStretch) {

    HangLoads.PartEntry entry() {
      return new HangLoads.PartEntry(
          part, where, termination, terminationFactor, terminationSource, length, breakingStretch);
    }

    static PartInPath of(HangLoads.PartEntry entry) {
      return new PartInPath(
          entry.part(),
          entry.where(),
          entry.termination(),
          entry.terminationFactor(),
          entry.terminationSource(),
          entry.length(),
          entry.breakingStretch());
    }
  }

  /**
   * What is known of a part in the path of the load.
   *
   * @param strength new and by itself; null where it is not known
   * @param material code of the material that says so; left out where the part itself does
   * @param terminationFactor what its ends leave; null where that is not known
   * @param gone true, or left out: the rig no longer holds the part
   */
  record KnownJson(
      String part,
      String name,
      String where,
      @Nullable QuantityJson strength,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String strengthKind,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String material,
      @Nullable String terminationFactor,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String terminationSource,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Boolean gone) {

    static KnownJson of(RigLoad.InPath one) {
      return new KnownJson(
          one.part(),
          one.name(),
          one.place().word(),
          one.strength() == null
              ? null
              : new QuantityJson(
                  one.strength().force().in(Unit.NEWTON).value(), Unit.NEWTON.ucum()),
          one.strength() == null ? null : one.strength().kind().word(),
          one.strength() == null ? null : one.strength().material(),
          one.factor(),
          one.source(),
          one.gone() ? true : null);
    }
  }

  /**
   * The loads of a rig.
   *
   * @param hung null where nobody has said how it is hung; then there are no figures either
   * @param nothingSaidOf codes of parts that carry load by their role and that the set-up leaves
   *     out
   */
  record LoadsJson(
      String rig,
      String name,
      int revision,
      @Nullable HangSetUp hung,
      List<KnownJson> parts,
      List<String> nothingSaidOf,
      ComesInJson comesIn,
      @JsonUnwrapped HangJson figures) {}

  /**
   * By how much the ends come in under the load, both together; null where nothing is said of it.
   *
   * @param body by taking its curve
   * @param lines by their stretch
   * @param total of what is known
   * @param atLeast whether something is not known, so that the total is more
   * @param ridgeLineLonger by how much a ridge line stretches
   */
  record ComesInJson(
      @Nullable RangeJson body,
      @Nullable RangeJson lines,
      @Nullable RangeJson trees,
      @Nullable RangeJson settling,
      @Nullable RangeJson total,
      boolean atLeast,
      @Nullable RangeJson ridgeLineLonger) {

    static ComesInJson of(ComingIn comingIn) {
      return new ComesInJson(
          RangeJson.orNull(comingIn.body(), Unit.METRE),
          RangeJson.orNull(comingIn.lines(), Unit.METRE),
          RangeJson.orNull(comingIn.trees(), Unit.METRE),
          RangeJson.orNull(comingIn.settling(), Unit.METRE),
          RangeJson.orNull(comingIn.total(), Unit.METRE),
          comingIn.atLeast(),
          RangeJson.orNull(comingIn.ridgeLineLonger(), Unit.METRE));
    }
  }

  /** The same where there are no figures. */
  record NoLoadsJson(
      String rig,
      String name,
      int revision,
      @Nullable HangSetUp hung,
      List<String> nothingSaidOf,
      String verdict,
      List<String> cautions) {}

  private final Rigs rigs;
  private final HangLoads loads;

  RigLoadsResource(Rigs rigs, HangLoads loads) {
    this.rigs = rigs;
    this.loads = loads;
  }

  @GetMapping
  Object of(Member member, @PathVariable String code, HttpServletResponse response) {
    return answer(loads.of(member, rigs.get(member, code)), response);
  }

  /** How a rig is hung. */
  @GetMapping("/set-up")
  HangSetUp setUp(Member member, @PathVariable String code, HttpServletResponse response) {
    RigLoad load = loads.of(member, rigs.get(member, code));
    if (load.hung() == null) {
      throw new NotThere("word of how " + load.rig().code() + " is hung");
    }
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(load.revision()));
    return HangSetUp.of(load.hung());
  }

  /** Says how a rig is hung, in place of what was said before. */
  @PutMapping("/set-up")
  HangSetUp hang(
      Member member,
      @PathVariable String code,
      @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
      @RequestBody HangSetUp request,
      HttpServletResponse response) {
    loads.hang(member, code, request.entry(), RevisionTag.expected(ifMatch));
    return setUp(member, code, response);
  }

  private static Object answer(RigLoad load, HttpServletResponse response) {
    response.setHeader(HttpHeaders.ETAG, RevisionTag.of(load.revision()));
    if (load.figures() == null || load.hung() == null) {
      return new NoLoadsJson(
          load.rig().code(),
          load.rig().name(),
          load.revision(),
          null,
          load.unsaid(),
          Assessment.Verdict.NOT_KNOWN.word(),
          Cautions.ALL);
    }
    return new LoadsJson(
        load.rig().code(),
        load.rig().name(),
        load.revision(),
        HangSetUp.of(load.hung()),
        load.elements().stream().map(KnownJson::of).toList(),
        load.unsaid(),
        ComesInJson.of(ComingIn.of(load.hung(), load.figures(), load.elements())),
        HangJson.of(load.figures()));
  }
}
