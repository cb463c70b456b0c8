package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Member;
import org.tareline.material.StockEntries;
import org.tareline.material.StockEntry;
import org.tareline.site.Refusal;
import org.tareline.site.json.TypedText;
import tools.jackson.databind.annotation.JsonDeserialize;

/** What came to and went from the stock of a material. */
@RestController
@RequestMapping("/api/v1/materials/{code}/stock")
class StockResource {

  /**
   * A line as it is sent: one of the three amounts, a length, a count or, of a filling, a mass.
   *
   * @param counted so much there is, whatever was thought before
   * @param part code of the part that it was cut for
   * @param at an ISO 8601 date, or date and time; now when left out
   * @param key the sender's own name for it: the same again is answered, and not written twice
   */
  record StockRequest(
      @JsonDeserialize(using = TypedText.class) @Nullable String counted,
      @JsonDeserialize(using = TypedText.class) @Nullable String added,
      @JsonDeserialize(using = TypedText.class) @Nullable String cut,
      @Nullable String part,
      @Nullable String at,
      @Nullable String note,
      @Nullable String key) {

    StockEntries.Entry entry() {
      List<StockEntries.Entry> given = new ArrayList<>();
      given(given, StockEntry.Kind.COUNTED, counted);
      given(given, StockEntry.Kind.ADDED, added);
      given(given, StockEntry.Kind.CUT, cut);
      if (given.size() != 1) {
        throw Refusal.badInput("", "Give one of counted, added and cut.");
      }
      return given.get(0);
    }

    private void given(
        List<StockEntries.Entry> given, StockEntry.Kind kind, @Nullable String amount) {
      if (amount != null) {
        given.add(new StockEntries.Entry(kind, kind.word(), amount, part, at, note, key));
      }
    }
  }

  record VoidRequest(@Nullable String reason) {}

  /**
   * A line that was written or struck out.
   *
   * @param stock what there is after it; left out where it was never counted
   */
  record Outcome(
      @JsonUnwrapped StockEntryJson entry,
      String material,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable OnHandJson stock,
      List<String> notes) {

    static Outcome of(StockEntries.Outcome outcome) {
      return new Outcome(
          StockEntryJson.of(outcome.logged(), outcome.onHand().measure()),
          outcome.material().code(),
          OnHandJson.of(outcome.onHand()),
          outcome.notes());
    }
  }

  private final StockEntries stock;

  StockResource(StockEntries stock) {
    this.stock = stock;
  }

  /** Writes a line; answers 200 where its key came before. */
  @PostMapping
  ResponseEntity<Outcome> log(
      Member member, @PathVariable String code, @RequestBody StockRequest request) {
    StockEntries.Outcome outcome = stock.log(member, code, request.entry());
    return ResponseEntity.status(outcome.again() ? HttpStatus.OK : HttpStatus.CREATED)
        .body(Outcome.of(outcome));
  }

  /** Strikes a line out; it stays, with the reason. */
  @PostMapping("/{id}/void")
  Outcome strikeOut(
      Member member,
      @PathVariable String code,
      @PathVariable UUID id,
      @RequestBody VoidRequest request) {
    return Outcome.of(stock.strikeOut(member, code, id, request.reason()));
  }
}
