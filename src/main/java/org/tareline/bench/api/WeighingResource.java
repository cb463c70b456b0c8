package org.tareline.bench.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.net.URI;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.bench.Bench;
import org.tareline.evidence.Basis;
import org.tareline.evidence.Estimate;
import org.tareline.evidence.Verdict;
import org.tareline.ledger.Member;
import org.tareline.material.Material;
import org.tareline.part.PartMass;
import org.tareline.rig.Moved;
import org.tareline.site.NotThere;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.KeyedEntries;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;
import org.tareline.weighing.json.FlaggedReadingJson;
import org.tareline.weighing.json.WeighingJson;
import tools.jackson.databind.annotation.JsonDeserialize;
import tools.jackson.databind.json.JsonMapper;

/** Weighings as the API takes and voids them. */
@RestController
@RequestMapping("/api/v1/weighings")
class WeighingResource {

  /**
   * A weighing as it is sent: of a part, of a rig, or of parts together.
   *
   * @param scope code of what is counted of the rig; all of it when left out
   * @param parts what lay on the pan together, two parts or more
   * @param piece label of the piece, where pieces of a part are weighed one by one
   * @param before readings of what a thing was sewn onto, before it was: its mass is then the
   *     difference
   */
  record WeighingRequest(
      @Nullable String part,
      @Nullable String rig,
      @Nullable String scope,
      @Nullable List<@Nullable SeveralRequest> parts,
      @Nullable String piece,
      @Nullable String scale,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> before,
      @JsonDeserialize(using = TypedText.class) @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String key) {

    Bench.Entry entry() {
      List<Bench.@Nullable Several> several = null;
      if (parts != null) {
        several = new ArrayList<>();
        for (SeveralRequest each : parts) {
          several.add(each == null ? null : new Bench.Several(each.part(), each.quantity()));
        }
      }
      return new Bench.Entry(
          part,
          false,
          rig,
          scope,
          several,
          piece,
          new Weighings.Entry(
              scale, tolerance, readings, before, tare, count, condition, weighedAt, note),
          null,
          null,
          true);
    }
  }

  /**
   * So many of a part, with others.
   *
   * @param quantity 1 when left out
   */
  record SeveralRequest(
      @Nullable String part, @JsonDeserialize(using = TypedText.class) @Nullable String quantity) {}

  /**
   * What became of it.
   *
   * @param part code; left out of a rig and of parts together
   * @param rig code of a rig weighed whole
   * @param scope what is counted of the rig
   * @param parts those that lay on the pan together
   * @param estimate the mass of one piece, of one rig, or of all on the pan, by this weighing
   * @param counts whether it is now what the mass of a part comes from
   * @param before what the part was known to weigh
   * @param change by how much it is heavier than it was known to be
   * @param rolledUp what the parts of the rig come to
   * @param residual whole minus parts
   * @param agrees whether that is within its own expanded uncertainty; null where a part of the rig
   *     has no mass yet
   * @param rigs those whose totals moved
   * @param flaggedReadings readings that stand apart from the others; they count all the same
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record WeighingAnswer(
      String id,
      @Nullable String part,
      @Nullable String piece,
      @Nullable String rig,
      @Nullable String scope,
      @Nullable List<PartAnswer> parts,
      String weighedAt,
      EstimateJson estimate,
      boolean counts,
      @Nullable EstimateJson before,
      @Nullable EstimateJson change,
      @Nullable EstimateJson rolledUp,
      @Nullable EstimateJson residual,
      @Nullable Boolean agrees,
      List<MovedRig> rigs,
      List<FlaggedReadingJson> flaggedReadings,
      List<String> notes) {}

  /**
   * A part that lay on the pan with others.
   *
   * @param estimate what one of it is known to weigh now; null where nothing is known
   * @param counts whether that is by this weighing, the others taken off
   */
  record PartAnswer(String part, int quantity, @Nullable EstimateJson estimate, boolean counts) {}

  /** A rig whose total moved. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record MovedRig(
      String rig,
      @Nullable EstimateJson before,
      EstimateJson after,
      EstimateJson change,
      boolean atLeast) {}

  /**
   * A weighing that is kept, and what it is of.
   *
   * @param revision of the rig when it was weighed
   * @param material code of what a swatch was cut from
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record KeptWeighing(
      @Nullable String part,
      @Nullable String rig,
      @Nullable String scope,
      @Nullable Integer revision,
      @Nullable List<PartAnswer> parts,
      @Nullable String material,
      @JsonUnwrapped WeighingJson weighing) {}

  record VoidRequest(@Nullable String reason) {}

  /**
   * A weighing that was struck out.
   *
   * @param partEstimate what the part is known to weigh now; null when nothing is
   */
  record VoidAnswer(
      String id,
      boolean voided,
      String reason,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String part,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String rig,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable List<PartAnswer> parts,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String material,
      @Nullable EstimateJson partEstimate,
      List<MovedRig> rigs) {}

  private final Bench bench;
  private final KeyedEntries keyed;
  private final JsonMapper json;

  WeighingResource(Bench bench, KeyedEntries keyed, JsonMapper json) {
    this.bench = bench;
    this.keyed = keyed;
    this.json = json;
  }

  @PostMapping
  ResponseEntity<String> log(Member member, @RequestBody WeighingRequest request) {
    KeyedEntries.Answer answer =
        keyed.once(
            member,
            request.key(),
            json.writeValueAsString(request),
            () -> {
              Bench.Outcome outcome = bench.log(member, request.entry(), false);
              return new KeyedEntries.Logged(
                  outcome.weighing(), json.writeValueAsString(answer(outcome)));
            });
    return (answer.again()
            ? ResponseEntity.ok()
            : ResponseEntity.created(
                URI.create(
                    "/api/v1/weighings/" + json.readTree(answer.text()).get("id").stringValue())))
        .contentType(MediaType.APPLICATION_JSON)
        .body(answer.text());
  }

  /** A weighing as it is kept. */
  @GetMapping("/{id}")
  KeptWeighing one(
      Member member,
      @PathVariable String id,
      @RequestParam(required = false) @Nullable String unit) {
    Bench.Kept kept = bench.kept(member, uuid(id));
    Bench.Whole whole = kept.whole();
    return new KeptWeighing(
        part(kept.things()),
        whole == null ? null : whole.rig().code(),
        whole == null ? null : whole.scope().code(),
        kept.logged().placed().revision(),
        parts(kept.things(), kept.logged().weighing()),
        code(kept.material()),
        WeighingJson.of(kept.logged(), kept.estimate(), kept.counts(), AnswerUnit.ofMass(unit)));
  }

  @PostMapping("/{id}/void")
  VoidAnswer strikeOut(Member member, @PathVariable String id, @RequestBody VoidRequest request) {
    Bench.Outcome outcome = bench.strikeOut(member, uuid(id), request.reason());
    Bench.Whole whole = outcome.whole();
    return new VoidAnswer(
        outcome.weighing().uuid().toString(),
        true,
        String.valueOf(request.reason()).strip(),
        part(outcome.things()),
        whole == null ? null : whole.rig().code(),
        parts(outcome.things(), outcome.weighing()),
        code(outcome.material()),
        outcome.things().size() == 1 ? estimate(outcome.things().get(0).after()) : null,
        outcome.moved().stream().map(WeighingResource::moved).toList());
  }

  /** The code of the part, where one lay on the pan. */
  private static @Nullable String part(List<Bench.Weighed> things) {
    return things.size() == 1 ? things.get(0).part().code() : null;
  }

  private static @Nullable List<PartAnswer> parts(List<Bench.Weighed> things, Weighing weighing) {
    return things.size() < 2
        ? null
        : things.stream()
            .map(
                thing ->
                    new PartAnswer(
                        thing.part().code(),
                        thing.placed().quantity(),
                        estimate(thing.after()),
                        thing.counts(weighing)))
            .toList();
  }

  private static @Nullable String code(@Nullable Material material) {
    return material == null ? null : material.code();
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("weighing");
    }
  }

  private static WeighingAnswer answer(Bench.Outcome outcome) {
    Weighing weighing = outcome.weighing();
    Bench.Whole whole = outcome.whole();
    Bench.Weighed only = outcome.things().size() == 1 ? outcome.things().get(0) : null;
    Estimate residual = outcome.residual();
    return new WeighingAnswer(
        weighing.uuid().toString(),
        part(outcome.things()),
        only == null ? null : only.placed().piece(),
        whole == null ? null : whole.rig().code(),
        whole == null ? null : whole.scope().code(),
        parts(outcome.things(), weighing),
        weighing.weighedAt().toString(),
        EstimateJson.of(outcome.estimate(), Basis.WEIGHED, 0, List.of(), Unit.GRAM),
        outcome.things().stream().anyMatch(thing -> thing.counts(weighing)),
        only == null ? null : estimate(only.before()),
        only == null ? null : orNull(only.change(weighing)),
        whole == null ? null : orNull(whole.parts().estimate()),
        orNull(residual),
        residual == null || whole == null || whole.parts().atLeast()
            ? null
            : Verdict.of(residual) == Verdict.UNDECIDED,
        outcome.moved().stream().map(WeighingResource::moved).toList(),
        FlaggedReadingJson.of(weighing, Unit.GRAM),
        outcome.notes());
  }

  private static @Nullable EstimateJson estimate(PartMass mass) {
    return mass.estimate() == null
        ? null
        : EstimateJson.of(
            mass.estimate(),
            mass.basis(),
            mass.basis() == Basis.WEIGHED ? 0 : 1,
            List.of(),
            Unit.GRAM);
  }

  private static @Nullable EstimateJson orNull(@Nullable Estimate estimate) {
    return estimate == null ? null : EstimateJson.of(estimate, Unit.GRAM);
  }

  private static MovedRig moved(Moved moved) {
    return new MovedRig(
        moved.code(),
        orNull(moved.before()),
        EstimateJson.of(moved.after(), Unit.GRAM),
        EstimateJson.of(moved.change(), Unit.GRAM),
        moved.atLeast());
  }
}
