package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/**
 * Sends what the API's own description allows, and what it does not, to every operation of it: some
 * of it means something, most of it does not, and none of it may break the server.
 */
@FeatureTest
class ApiFuzzTest {

  private static final long SEED = 20_270_411L;
  private static final int ROUNDS = 30;

  /** What a field of the sample ledger could hold, in among what none should. */
  private static final List<String> TEXTS =
      List.of(
          "381 g",
          "13 1/4 oz",
          "1 lb 2.5 oz",
          "54 g/m²",
          "3.1 g/m",
          "4 ft 6 in",
          "2.4 mm",
          "28 deg",
          "5 %",
          "12 N/m",
          "1500 lbf",
          "70 GPa",
          "2 L",
          "6 °C",
          "9.80 EUR/m",
          "0.85",
          "1",
          "5",
          "B3-BODY",
          "TARP-4",
          "PACK",
          "POLE",
          "RIP-40",
          "RIP-20",
          "CORD-3",
          "BENCH",
          "KITCHEN",
          "BRIDGE-3-SUMMER",
          "STRAP-SET",
          "UPLAND-SEP",
          "anchor-to-anchor",
          "complete",
          "bars-out",
          "body",
          "hang",
          "fabric",
          "panel",
          "rectangle",
          "parabolic-edges",
          "seam",
          "length",
          "each",
          "fill",
          "base",
          "worn",
          "consumable",
          "dry",
          "damp",
          "made",
          "lent",
          "nylon",
          "weighed",
          "nominal",
          "editor",
          "line",
          "leg",
          "2027-05-08",
          "2027-04-11T19:30+02:00",
          "",
          " ",
          "0",
          "-1 g",
          "0 g",
          "NaN",
          "Infinity",
          "1e400 kg",
          "1,234 g",
          "1/0 oz",
          "99999999999999999999 kg",
          "0.00000000000000001 g",
          "±5 g",
          "null",
          "\u0000",
          "\uD800",
          "🪢",
          "<script>alert(1)</script>",
          "'; drop table part; --",
          "../../etc/passwd",
          "%00",
          "=1+1",
          "x".repeat(5_000),
          "9999-12-31",
          "0000-00-00",
          "00000000-0000-0000-0000-000000000000");

  private static final List<Object> NUMBERS =
      List.of(0, 1, 2, 3, 5, 30, -1, Integer.MAX_VALUE, Long.MIN_VALUE, 1e308, 0.5, 1e-300);

  private final Random random = new Random(SEED);

  private record Operation(String method, String path, JsonNode described) {}

  @Test
  void nothing_that_is_sent_breaks_the_server(TestServer server) {
    Api api = server.openSampleLedger().api();
    JsonNode description = server.pages().get("/api/openapi").expect(200).json();
    List<Operation> operations = operations(description);
    assertThat(operations).hasSizeGreaterThan(50);
    List<String> broken = new ArrayList<>();
    Map<Integer, Integer> answered = new TreeMap<>();
    for (int round = 0; round < ROUNDS; round++) {
      for (Operation operation : operations) {
        List<Object> values = new ArrayList<>();
        String path = path(operation, values);
        Object body = body(description, operation.described().path("requestBody"));
        Answer answer = send(api, operation.method(), path, body, values.toArray());
        answered.merge(answer.status() / 100, 1, Integer::sum);
        if (answer.status() >= 500) {
          broken.add(
              operation.method()
                  + " "
                  + path
                  + " "
                  + values
                  + " "
                  + body
                  + " answered "
                  + answer.body());
        }
      }
    }
    assertThat(broken).isEmpty();
    // It means something to the server often enough, and is refused often enough.
    assertThat(answered.get(2)).isGreaterThan(100);
    assertThat(answered.get(4)).isGreaterThan(1_000);
  }

  private static List<Operation> operations(JsonNode description) {
    List<Operation> operations = new ArrayList<>();
    description
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .properties()
                    .forEach(
                        method ->
                            operations.add(
                                new Operation(
                                    method.getKey().toUpperCase(Locale.ROOT),
                                    path.getKey(),
                                    method.getValue()))));
    // What ends the account's own standing in the ledger would leave nothing to ask.
    operations.removeIf(
        operation ->
            operation.path().contains("/members/") || operation.path().endsWith("/ledgers"));
    return operations;
  }

  private String path(Operation operation, List<Object> values) {
    StringBuilder path = new StringBuilder();
    int parameter = 0;
    for (String part : operation.path().substring("/api/v1".length()).split("(?=\\{)|(?<=\\})")) {
      if (part.startsWith("{")) {
        path.append("{p").append(parameter++).append('}');
        values.add(shortText());
      } else {
        path.append(part);
      }
    }
    char before = '?';
    for (JsonNode described : operation.described().path("parameters")) {
      if (described.path("in").asString().equals("query") && random.nextInt(3) > 0) {
        path.append(before)
            .append(described.path("name").asString())
            .append("={p")
            .append(parameter++)
            .append('}');
        values.add(shortText());
        before = '&';
      }
    }
    return path.toString();
  }

  /** An address has room for so much. */
  private String shortText() {
    String text = pick(TEXTS);
    return text.isEmpty() || text.length() > 1_000 ? "x" : text;
  }

  private @Nullable Object body(JsonNode description, JsonNode request) {
    if (request.isMissingNode()) {
      return null;
    }
    if (random.nextInt(40) == 0) {
      return pick(List.of("{", "[]", "null", "\"\"", "{\"a\":", "[[[[", "7"));
    }
    return value(description, request.path("content").path("application/json").path("schema"), 0);
  }

  private @Nullable Object value(JsonNode description, JsonNode schema, int depth) {
    JsonNode found = schema;
    if (schema.has("$ref")) {
      found = description.at(schema.path("$ref").asString().substring(1));
    }
    if (depth > 6 || random.nextInt(50) == 0) {
      return random.nextBoolean() ? null : pick(TEXTS);
    }
    JsonNode properties = found.path("properties");
    if (!properties.isMissingNode()) {
      Map<String, @Nullable Object> object = new LinkedHashMap<>();
      properties
          .properties()
          .forEach(
              property -> {
                if (random.nextInt(5) < 3) {
                  object.put(property.getKey(), value(description, property.getValue(), depth + 1));
                }
              });
      if (random.nextInt(40) == 0) {
        object.put("stray", 1);
      }
      return object;
    }
    return switch (found.path("type").asString("")) {
      case "array" -> {
        List<@Nullable Object> items = new ArrayList<>();
        for (int i = random.nextInt(4); i > 0; i--) {
          items.add(value(description, found.path("items"), depth + 1));
        }
        yield items;
      }
      case "integer", "number" -> random.nextInt(6) == 0 ? pick(TEXTS) : pick(NUMBERS);
      case "boolean" -> random.nextBoolean();
      case "object" -> {
        Map<String, @Nullable Object> map = new LinkedHashMap<>();
        for (int i = random.nextInt(3); i > 0; i--) {
          map.put(
              random.nextBoolean() ? String.valueOf(random.nextInt(8)) : pick(TEXTS),
              found.has("additionalProperties") && found.path("additionalProperties").isObject()
                  ? value(description, found.path("additionalProperties"), depth + 1)
                  : pick(TEXTS));
        }
        yield map;
      }
      default ->
          random.nextInt(12) == 0
              ? Map.of("value", pick(TEXTS), "unit", pick(List.of("g", "[oz_av]", "mm", "N", "")))
              : pick(TEXTS);
    };
  }

  private <T> T pick(List<? extends T> from) {
    return from.get(random.nextInt(from.size()));
  }

  private static Answer send(
      Api api, String method, String path, @Nullable Object body, Object[] values) {
    Object sent = body == null ? Map.of() : body;
    return switch (method) {
      case "GET" -> api.get(path, values);
      case "POST" -> api.post(path, sent, values);
      case "PUT" -> api.put(path, sent, values);
      case "DELETE" -> api.delete(path, values);
      default -> throw new AssertionError("no way to ask by " + method);
    };
  }
}
