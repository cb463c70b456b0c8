package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;
import org.tareline.material.OnHand;
import org.tareline.material.StockEntries;
import org.tareline.site.json.QuantityJson;

/**
 * A line of the record of a stock.
 *
 * @param kind counted, added or cut
 * @param typed the amount as typed
 * @param part code of the part that it was cut for
 * @param voidReason left out while it stands
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record StockEntryJson(
    String id,
    String kind,
    QuantityJson amount,
    String typed,
    @Nullable String part,
    String at,
    @Nullable String note,
    boolean voided,
    @Nullable String voidReason) {

  static StockEntryJson of(StockEntries.Logged logged, OnHand.Measure measure) {
    return new StockEntryJson(
        logged.entry().uuid().toString(),
        logged.entry().kind().word(),
        QuantityJson.of(logged.entry().amount(), measure.unit()),
        logged.entry().typed(),
        logged.part() == null ? null : logged.part().code(),
        logged.entry().happenedAt().toString(),
        logged.entry().note().orElse(null),
        logged.voidReason() != null,
        logged.voidReason());
  }
}
