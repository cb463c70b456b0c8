package org.tareline.material.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.tareline.material.OnHand;
import org.tareline.site.json.QuantityJson;

/**
 * How much of a material is on hand; below nothing where more was cut than there was.
 *
 * @param unit a UCUM code: m, g, or 1 for pieces
 * @param typed as somebody typed it, where nothing came or went since
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record OnHandJson(String value, String unit, @Nullable String typed) {

  /** Null where it was never counted. */
  static @Nullable OnHandJson of(@Nullable OnHand onHand) {
    BigDecimal amount = onHand == null ? null : onHand.amount();
    if (onHand == null || amount == null) {
      return null;
    }
    QuantityJson exact = QuantityJson.of(amount, onHand.measure().unit());
    return new OnHandJson(exact.value(), exact.unit(), onHand.typed());
  }
}
