package org.tareline.part.json;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.Need;

/**
 * Money in an answer.
 *
 * @param amount with two decimals
 * @param currency three letters
 */
public record MoneyJson(String amount, String currency) {

  public static MoneyJson of(Need.Cost cost) {
    return new MoneyJson(cost.amount().toPlainString(), cost.currency());
  }

  /** A sum, by currency; null where it is not known or nothing in it has a price. */
  static @Nullable List<MoneyJson> orNull(@Nullable List<Need.Cost> sum) {
    return sum == null || sum.isEmpty() ? null : sum.stream().map(MoneyJson::of).toList();
  }
}
