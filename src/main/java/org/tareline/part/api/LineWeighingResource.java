package org.tareline.part.api;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.part.Calculation;
import org.tareline.part.LineWeighings;
import org.tareline.part.Part;
import org.tareline.part.Parts;
import org.tareline.site.json.TypedText;
import org.tareline.units.Unit;
import org.tareline.weighing.KeyedEntries;
import org.tareline.weighing.Weighings;
import tools.jackson.databind.annotation.JsonDeserialize;
import tools.jackson.databind.json.JsonMapper;

/** Weighings of what was cut for a part, before it is sewn together. */
@RestController
@RequestMapping("/api/v1/parts/{code}/cut-lines/{id}/weighings")
class LineWeighingResource {

  /**
   * A weighing of the pieces of a line, as it is sent.
   *
   * @param count of alike pieces on the pan; all of the line when left out
   * @param key the sender's, so that it may be sent again and is kept once
   */
  record LineWeighingRequest(
      @Nullable String scale,
      @JsonDeserialize(using = TypedText.class) @Nullable String tolerance,
      @JsonDeserialize(contentUsing = TypedText.class) @Nullable List<@Nullable String> readings,
      @JsonDeserialize(using = TypedText.class) @Nullable String tare,
      @Nullable String count,
      @Nullable String condition,
      @Nullable String weighedAt,
      @Nullable String note,
      @Nullable String key) {

    Weighings.Entry entry() {
      return new Weighings.Entry(
          scale, tolerance, readings, null, tare, count, condition, weighedAt, note);
    }
  }

  /** The cut list of a part after a line of it was weighed. */
  record PartlyWeighed(String part, @Nullable CutListJson buildSheet, CalculatedJson calculated) {}

  private final LineWeighings weighings;
  private final Parts parts;
  private final KeyedEntries keyed;
  private final JsonMapper json;

  LineWeighingResource(LineWeighings weighings, Parts parts, KeyedEntries keyed, JsonMapper json) {
    this.weighings = weighings;
    this.parts = parts;
    this.keyed = keyed;
    this.json = json;
  }

  /** Logs a weighing; it is struck out by its id, under /weighings. */
  @PostMapping
  ResponseEntity<String> log(
      Member member,
      @PathVariable String code,
      @PathVariable UUID id,
      @RequestBody LineWeighingRequest request) {
    KeyedEntries.Answer answer =
        keyed.once(
            member,
            request.key(),
            id + json.writeValueAsString(request),
            () -> {
              LineWeighings.Entered entered = weighings.log(member, code, id, request.entry());
              return new KeyedEntries.Logged(
                  entered.weighing(), json.writeValueAsString(answer(member, entered.part())));
            });
    return ResponseEntity.status(answer.again() ? HttpStatus.OK : HttpStatus.CREATED)
        .contentType(MediaType.APPLICATION_JSON)
        .body(answer.text());
  }

  private PartlyWeighed answer(Member member, Part part) {
    Calculation calculation = parts.calculation(member, part).orElseThrow();
    return new PartlyWeighed(
        part.code(),
        CutListJson.of(part, calculation, Unit.GRAM),
        CalculatedJson.of(calculation, parts.evidence(member, part).onHand(), Unit.GRAM));
  }
}
