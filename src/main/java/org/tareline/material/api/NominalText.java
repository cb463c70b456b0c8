package org.tareline.material.api;

import org.jspecify.annotations.Nullable;
import org.tareline.site.json.TypedText;
import org.tareline.units.Kind;
import org.tareline.units.Quantity;
import org.tareline.units.UnreadableQuantity;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ValueDeserializer;

/**
 * As {@link TypedText}; and the answer to a mass per running length, {@code
 * {"value":"48.3","unit":"g/m2","typed":"2.1 oz/yd at 58 in"}}, may be sent back.
 */
final class NominalText extends ValueDeserializer<@Nullable String> {

  private static final TypedText QUANTITY = new TypedText();

  @Override
  public @Nullable String deserialize(JsonParser parser, DeserializationContext context) {
    if (parser.currentToken() != JsonToken.START_OBJECT) {
      return QUANTITY.deserialize(parser, context);
    }
    JsonNode object = context.readTree(parser);
    String typed = object.path("typed").asString("");
    String[] parts = typed.split(" at ", 2);
    if (parts.length == 2 && says(parts[0], parts[1], object)) {
      return typed;
    }
    JsonParser again = object.traverse(context);
    again.nextToken();
    return QUANTITY.deserialize(again, context);
  }

  /** Whether the value beside the text is still the one that the text says. */
  private static boolean says(String mass, String width, JsonNode object) {
    try {
      return Quantity.read(mass)
          .atWidth(Quantity.read(width, Kind.LENGTH, null))
          .in(Kind.AREA_DENSITY.base())
          .value()
          .equals(object.path("value").asString(""));
    } catch (UnreadableQuantity unreadable) {
      return false;
    }
  }
}
