package org.tareline.site.json;

import org.jspecify.annotations.Nullable;
import org.tareline.units.DecimalMark;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ValueDeserializer;

/**
 * A quantity in a request as {@link TypedText} has it, with what is known of its decimal mark: an
 * answer may have a text that does not read by itself, {@code
 * {"value":"1.234","unit":"g","typed":"1,234 g"}}, and when it is sent back the value beside it
 * tells.
 */
public record MarkedText(@Nullable String text, DecimalMark mark) {

  /** Reads it. */
  public static final class Reader extends ValueDeserializer<MarkedText> {

    private static final TypedText QUANTITY = new TypedText();

    @Override
    public MarkedText deserialize(JsonParser parser, DeserializationContext context) {
      if (parser.currentToken() != JsonToken.START_OBJECT) {
        return new MarkedText(QUANTITY.deserialize(parser, context), DecimalMark.POINT);
      }
      JsonNode object = context.readTree(parser);
      if (says(object, DecimalMark.COMMA) && !says(object, DecimalMark.POINT)) {
        return new MarkedText(object.path("typed").stringValue(), DecimalMark.COMMA);
      }
      JsonParser again = object.traverse(context);
      again.nextToken();
      return new MarkedText(QUANTITY.deserialize(again, context), DecimalMark.POINT);
    }

    private static boolean says(JsonNode object, DecimalMark mark) {
      return TypedText.say(
          object.path("typed").asString(""),
          object.path("value").asString(""),
          object.path("unit").asString(""),
          mark);
    }
  }
}
