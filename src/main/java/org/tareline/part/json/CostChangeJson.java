package org.tareline.part.json;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tareline.part.CostChange;

/**
 * What a change does to the cost, by currency.
 *
 * @param before of all that has a price; null where nothing has
 * @param after of all that has a price; null where nothing has
 * @param difference after − before; null where one of the swapped materials has no price that says
 *     what it costs
 * @param unpriced codes of the materials of which that is so, swapped or not
 */
public record CostChangeJson(
    @Nullable List<MoneyJson> before,
    @Nullable List<MoneyJson> after,
    @Nullable List<MoneyJson> difference,
    List<String> unpriced) {

  public static CostChangeJson of(CostChange change) {
    return new CostChangeJson(
        MoneyJson.orNull(change.before()),
        MoneyJson.orNull(change.after()),
        MoneyJson.orNull(change.difference()),
        List.copyOf(change.unpriced()));
  }
}
