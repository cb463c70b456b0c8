package org.tareline.part.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
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
import org.tareline.part.Cuts;
import org.tareline.site.json.QuantityJson;
import org.tareline.site.json.TypedText;
import tools.jackson.databind.annotation.JsonDeserialize;

/** Parts that were cut, and what that took off the stock of their materials. */
@RestController
@RequestMapping("/api/v1/parts/{code}/cuts")
class CutsResource {

  /**
   * That a part was cut, as it is sent.
   *
   * @param quantity how many of it; 1 when left out
   * @param amounts what went of a material, where that is not what the cut list says
   * @param at an ISO 8601 date, or date and time; now when left out
   * @param key the sender's own name for it: the same again is answered, and not written twice
   */
  record CutRequest(
      @Nullable String quantity,
      @Nullable List<AmountRequest> amounts,
      @Nullable String at,
      @Nullable String note,
      @Nullable String key) {

    Cuts.Entry entry() {
      return new Cuts.Entry(
          quantity,
          amounts == null
              ? List.of()
              : amounts.stream()
                  .map(each -> new Cuts.Amount(each.material(), each.amount()))
                  .toList(),
          at,
          note,
          key);
    }
  }

  /**
   * So much of a material.
   *
   * @param amount for all that was cut; 0 where nothing of it went
   */
  record AmountRequest(
      @Nullable String material,
      @JsonDeserialize(using = TypedText.class) @Nullable String amount) {}

  /** What it took of each material. */
  record CutJson(String part, List<TakenJson> taken) {}

  /**
   * What it took of one.
   *
   * @param id of the line in the record of the material's stock, by which it is struck out there
   * @param stock what is left; left out where it was never counted
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record TakenJson(
      String id,
      String material,
      QuantityJson amount,
      @Nullable QuantityJson stock,
      List<String> notes) {

    static TakenJson of(StockEntries.Outcome outcome) {
      String unit = outcome.onHand().measure().unit();
      return new TakenJson(
          outcome.logged().entry().uuid().toString(),
          outcome.material().code(),
          QuantityJson.of(outcome.logged().entry().amount(), unit),
          outcome.onHand().amount() == null
              ? null
              : QuantityJson.of(outcome.onHand().amount(), unit),
          outcome.notes());
    }
  }

  private final Cuts cuts;

  CutsResource(Cuts cuts) {
    this.cuts = cuts;
  }

  /** Takes what its cut list needs off the stock; answers 200 where its key came before. */
  @PostMapping
  ResponseEntity<CutJson> log(
      Member member, @PathVariable String code, @RequestBody CutRequest request) {
    List<StockEntries.Outcome> outcomes = cuts.log(member, code, request.entry());
    boolean again = !outcomes.isEmpty() && outcomes.stream().allMatch(StockEntries.Outcome::again);
    return ResponseEntity.status(again ? HttpStatus.OK : HttpStatus.CREATED)
        .body(new CutJson(code, outcomes.stream().map(TakenJson::of).toList()));
  }
}
