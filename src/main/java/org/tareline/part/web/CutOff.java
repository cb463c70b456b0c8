package org.tareline.part.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.tareline.material.StockEntries;
import org.tareline.part.Cuts;

/**
 * That a part was cut, as typed.
 *
 * @param amounts what went of each material, by its place in the list
 */
record CutOff(String quantity, List<Cuts.Amount> amounts, String at, String note) {

  private static final int MOST = 300;

  static CutOff empty() {
    return new CutOff("", List.of(), "", "");
  }

  static CutOff of(Map<String, String> sent) {
    List<Cuts.Amount> amounts = new ArrayList<>();
    for (int i = 0; i < MOST && sent.containsKey("amounts[" + i + "].material"); i++) {
      amounts.add(
          new Cuts.Amount(
              sent.get("amounts[" + i + "].material"),
              sent.getOrDefault("amounts[" + i + "].amount", "")));
    }
    return new CutOff(
        sent.getOrDefault("quantity", ""),
        amounts,
        sent.getOrDefault("at", ""),
        sent.getOrDefault("note", ""));
  }

  /** What was typed of a material. */
  public String typed(int place) {
    String typed = place < amounts.size() ? amounts.get(place).amount() : null;
    return typed == null ? "" : typed;
  }

  Cuts.Entry entry() {
    return new Cuts.Entry(quantity, amounts, at, note, null);
  }

  /** What became of it, as sentences. */
  static String done(List<StockEntries.Outcome> outcomes) {
    return outcomes.isEmpty()
        ? "Nothing was taken off the stock."
        : "Taken off the stock: "
            + outcomes.stream()
                .map(
                    outcome ->
                        outcome.material().code()
                            + " "
                            + outcome.onHand().measure().words(outcome.logged().entry().amount())
                            + (outcome.onHand().amount() == null
                                ? ""
                                : ", leaves " + outcome.onHand().words())
                            + (outcome.onHand().overdrawn() ? ": more than there was" : ""))
                .collect(Collectors.joining("; "))
            + ".";
  }
}
