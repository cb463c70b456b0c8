package org.tareline.site.json;

import org.jspecify.annotations.Nullable;
import org.tareline.units.DecimalMark;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.Unit;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ValueDeserializer;

/**
 * A quantity in a request, as text for the one reader of quantities: a string as a person would
 * type it, a bare number, or {@code {"value":"381.5","unit":"g"}}, where a {@code plusMinus} in the
 * same unit may stand too. Numbers come through digit by digit, never by way of a double.
 */
public final class TypedText extends ValueDeserializer<@Nullable String> {

  @Override
  public @Nullable String deserialize(JsonParser parser, DeserializationContext context) {
    JsonToken token = parser.currentToken();
    if (token == JsonToken.START_OBJECT) {
      JsonNode object = context.readTree(parser);
      String value = text(object.get("value"), context);
      String unit = text(object.get("unit"), context);
      JsonNode typed = object.get("typed");
      JsonNode plusMinus = object.get("plusMinus");
      if (plusMinus != null) {
        return value + " " + unit + " ± " + text(plusMinus, context) + " " + unit;
      }
      return typed != null
              && typed.isString()
              && say(typed.stringValue(), value, unit, DecimalMark.POINT)
          ? typed.stringValue()
          : value + " " + unit;
    }
    if (token == JsonToken.VALUE_STRING || token.isNumeric()) {
      return parser.getString();
    }
    return (String) context.handleUnexpectedToken(String.class, parser);
  }

  private static String text(@Nullable JsonNode node, DeserializationContext context) {
    if (node == null || !node.isString()) {
      return context.reportInputMismatch(
          String.class, "a quantity as an object has a \"value\" and a \"unit\", both strings");
    }
    return node.stringValue();
  }

  /**
   * Whether an answer's text, sent back, still says the value beside it; else the value was changed
   * and counts.
   */
  static boolean say(String typed, String value, String unit, DecimalMark mark) {
    try {
      Unit named = Unit.named(unit);
      Quantity read = Quantity.read(typed, named.kind(), named, mark);
      Quantity sent = Quantity.of(value, named);
      return named.kind() == Kind.MASS
          ? read.mass().equals(sent.mass())
          : read.in(named).value().equals(sent.in(named).value());
    } catch (IllegalArgumentException unreadable) {
      return false;
    }
  }
}
