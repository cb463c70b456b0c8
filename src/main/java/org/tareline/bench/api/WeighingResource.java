package org.tareline.bench.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.net.URI;
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
import org.tareline.bench.KeyedEntries;
import org.tareline.evidence.Estimate;
import org.tareline.ledger.Member;
import org.tareline.part.PartMass;
import org.tareline.rig.Moved;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;
import org.tareline.site.json.AnswerUnit;
import org.tareline.site.json.EstimateJson;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.Weighings;
import org.tareline.weighing.json.WeighingJson;
import tools.jackson.databind.annotation.JsonDeserialize;
import tools.jackson.databind.json.JsonMapper;

/** Weighings as the API takes and voids them. */
@RestController
@RequestMapping("/api/v1/weighings")
class WeighingResource {

  /** A weighing as it is sent. */
  record WeighingRequest(
      @Nullable String part,
      @Nullable String rig,
      @Nullable String scale,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @JsonDeserialize(using = TypedText.class) @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String key) {

    Bench.Entry entry() {
      return new Bench.Entry(
          part,
          new Weighings.Entry(scale, tolerance, readings, tare, count, condition, weighedAt, note),
          null,
          null,
          true);
    }
  }

  /**
   * What became of it.
   *
   * @param estimate the mass of one piece by this weighing
   * @param counts whether it is now what the part's mass comes from
   * @param before what the part was known to weigh
   * @param change by how much it is heavier than it was known to be
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record WeighingAnswer(
      String id,
      String part,
      String weighedAt,
      EstimateJson estimate,
      boolean counts,
      @Nullable EstimateJson before,
      @Nullable EstimateJson change,
      List<MovedRig> rigs,
      List<String> notes) {}

  /** A rig whose total moved. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record MovedRig(
      String rig,
      @Nullable EstimateJson before,
      EstimateJson after,
      EstimateJson change,
      boolean atLeast) {}

  /** A weighing that is kept, and whose it is. */
  record WeighingOfPart(String part, @JsonUnwrapped WeighingJson weighing) {}

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
      String part,
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
    if (request.rig() != null) {
      throw Refusal.badInput("rig", "Weigh a part: a rig weighed whole is not kept yet.");
    }
    KeyedEntries.Answer answer =
        keyed.once(
            member,
            request.key(),
            json.writeValueAsString(request),
            signedIn -> bench.log(signedIn, request.entry(), false),
            outcome -> json.writeValueAsString(answer(outcome)));
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
  WeighingOfPart one(
      Member member,
      @PathVariable String id,
      @RequestParam(required = false) @Nullable String unit) {
    Bench.Kept kept = bench.kept(member, uuid(id));
    return new WeighingOfPart(
        kept.part().code(), WeighingJson.of(kept.logged(), kept.counts(), AnswerUnit.ofMass(unit)));
  }

  @PostMapping("/{id}/void")
  VoidAnswer strikeOut(Member member, @PathVariable String id, @RequestBody VoidRequest request) {
    Bench.Outcome outcome = bench.strikeOut(member, uuid(id), request.reason());
    return new VoidAnswer(
        outcome.weighing().uuid().toString(),
        true,
        String.valueOf(request.reason()).strip(),
        outcome.part().code(),
        estimate(outcome.after()),
        outcome.moved().stream().map(WeighingResource::moved).toList());
  }

  private static UUID uuid(String id) {
    try {
      return UUID.fromString(id);
    } catch (IllegalArgumentException notAnId) {
      throw new NotThere("weighing");
    }
  }

  private static WeighingAnswer answer(Bench.Outcome outcome) {
    return new WeighingAnswer(
        outcome.weighing().uuid().toString(),
        outcome.part().code(),
        outcome.weighing().weighedAt().toString(),
        EstimateJson.of(
            outcome.weighing().estimate(),
            org.tareline.evidence.Basis.WEIGHED,
            0,
            List.of(),
            Unit.GRAM),
        outcome.counts(),
        estimate(outcome.before()),
        orNull(outcome.change()),
        outcome.moved().stream().map(WeighingResource::moved).toList(),
        outcome.notes());
  }

  private static @Nullable EstimateJson estimate(PartMass mass) {
    return mass.estimate() == null
        ? null
        : EstimateJson.of(
            mass.estimate(), mass.basis(), mass.weighing() == null ? 1 : 0, List.of(), Unit.GRAM);
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
