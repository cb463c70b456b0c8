package org.tareline.part.api;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.part.Calculation;
import org.tareline.part.LineWeighings;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.Weighings;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Weighings of what was cut for a part, before it is sewn together. */
@RestController
@RequestMapping("/api/v1/parts/{code}/cut-lines/{id}/weighings")
class LineWeighingResource {

  /**
   * A weighing of the pieces of a line, as it is sent.
   *
   * @param count of alike pieces on the pan; all of the line when left out
   */
  record LineWeighingRequest(
      @Nullable String scale,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @JsonDeserialize(using = TypedText.class) @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note) {

    Weighings.Entry entry() {
      return new Weighings.Entry(
          scale, tolerance, readings, null, tare, count, condition, weighedAt, note);
    }
  }

  /** The cut list of a part after a line of it was weighed. */
  record PartlyWeighed(String part, @Nullable CutListJson buildSheet, CalculatedJson calculated) {}

  private final LineWeighings weighings;
  private final Parts parts;

  LineWeighingResource(LineWeighings weighings, Parts parts) {
    this.weighings = weighings;
    this.parts = parts;
  }

  /** Logs a weighing; it is struck out by its id, under /weighings. */
  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  PartlyWeighed log(
      Member member,
      @PathVariable String code,
      @PathVariable UUID id,
      @RequestBody LineWeighingRequest request) {
    Part part = weighings.log(member, code, id, request.entry());
    Calculation calculation = parts.calculation(member, part).orElseThrow();
    return new PartlyWeighed(
        part.code(),
        CutListJson.of(part, calculation, Unit.GRAM),
        CalculatedJson.of(calculation, parts.evidence(member, part).onHand(), Unit.GRAM));
  }
}
