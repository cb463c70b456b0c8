package org.tareline.part;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.ledger.Member;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.material.StockEntry;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.Refusal;

/** Takes what was cut for a part off the stock of its materials. */
@Service
public class Cuts {

  private static final int MOST = 1000;

  /**
   * That a part was cut, as somebody typed it.
   *
   * @param quantity how many of it; 1 when left out
   * @param amounts what went of a material for all of them, where that is not what the cut list
   *     says; of one of which nothing went it is 0
   * @param at an ISO 8601 date, or date and time; now when left out
   * @param key the sender's own name for it: the same again is not written twice
   */
  public record Entry(
      @Nullable String quantity,
      List<Amount> amounts,
      @Nullable String at,
      @Nullable String note,
      @Nullable String key) {}

  /** So much of a material. */
  public record Amount(@Nullable String material, @Nullable String amount) {}

  private final Parts parts;
  private final StockEntries stock;

  Cuts(Parts parts, StockEntries stock) {
    this.parts = parts;
    this.stock = stock;
  }

  /**
   * Takes what its cut list needs off the stock of every material of it.
   *
   * @return what became of each material, in the order of the cut list
   * @throws org.tareline.site.NotThere if there is no such part
   * @throws Refusal if it has no cut list, or an amount is not known or cannot be read; nothing has
   *     been written then
   */
  @Transactional
  public List<StockEntries.Outcome> log(Member member, String code, Entry entry) {
    Part part = parts.get(member, code);
    Calculation calculation =
        parts
            .calculation(member, part)
            .orElseThrow(
                () ->
                    Refusal.of(
                        Refusal.Kind.CONFLICT, "", part.code() + " has no cut list to cut by."));
    Faults faults = new Faults();
    int quantity = faults.wholeNumber("quantity", entry.quantity(), "how many", 1, MOST, 1);
    List<Need> needs = Need.of(calculation);
    Map<String, Integer> typed = new HashMap<>();
    for (int i = 0; i < entry.amounts().size(); i++) {
      String material = entry.amounts().get(i).material();
      String key = material == null ? "" : Codes.key(material);
      if (needs.stream().noneMatch(need -> Codes.key(need.material().code()).equals(key))) {
        faults.add(
            "amounts[" + i + "].material",
            "Name a material of the cut list of " + part.code() + ".");
      } else if (typed.put(key, i) != null) {
        faults.add("amounts[" + i + "].material", "Name each material once.");
      }
    }
    List<StockEntries.Outcome> outcomes = new ArrayList<>();
    for (Need need : needs) {
      Integer at = typed.get(Codes.key(need.material().code()));
      String amount = at == null ? null : entry.amounts().get(at).amount();
      String field = at == null ? "amounts" : "amounts[" + at + "].amount";
      if (amount == null || amount.isBlank()) {
        amount = needed(need, quantity);
        if (amount == null) {
          faults.add(
              field,
              "Say how much was cut of "
                  + need.material().code()
                  + ": its usable width is not known, or panels are too wide for it.");
          continue;
        }
      }
      if (!amount.strip().matches("0+([.,]0+)?( .*)?")) {
        StockEntry.Kind kind = StockEntry.Kind.CUT;
        StockEntries.Entry line =
            new StockEntries.Entry(
                kind, field, amount, part.code(), entry.at(), entry.note(), entry.key());
        StockEntries.Outcome outcome =
            faults.gather(() -> stock.log(member, need.material().code(), line));
        if (outcome != null) {
          outcomes.add(outcome);
        }
      }
    }
    faults.refuseIfAny();
    return outcomes;
  }

  private static @Nullable String needed(Need need, int quantity) {
    OnHand.Measure measure = need.material().measure().orElse(null);
    BigDecimal one = need.fromStock().orElse(null);
    return one == null || measure == null
        ? null
        : one.multiply(BigDecimal.valueOf(quantity)).toPlainString() + " " + measure.unit();
  }
}
