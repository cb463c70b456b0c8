package org.tareline.testing;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What the server answered. */
public record Answer(URI asked, int status, java.net.http.HttpHeaders headers, String body) {

  private static final HttpClient CLIENT =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .followRedirects(HttpClient.Redirect.NEVER)
          .connectTimeout(Patience.LONG)
          .build();
  private static final JsonMapper JSON = JsonMapper.builder().build();

  static Answer to(HttpRequest request) {
    try {
      HttpResponse<String> response =
          CLIENT.send(request, HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
      return new Answer(request.uri(), response.statusCode(), response.headers(), response.body());
    } catch (IOException unanswered) {
      throw new AssertionError("The server did not answer " + request, unanswered);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new AssertionError(interrupted);
    }
  }

  static String json(Object body) {
    return body instanceof String typed ? typed : JSON.writeValueAsString(body);
  }

  /** The first header of this name, or null. */
  public @Nullable String header(String name) {
    return headers.firstValue(name).orElse(null);
  }

  /** Every header of this name. */
  public List<String> headers(String name) {
    return headers.allValues(name);
  }

  /** The body as JSON. */
  public JsonNode json() {
    return JSON.readTree(body);
  }

  /** The body as a page. */
  public Document page() {
    return Jsoup.parse(body, asked.toString());
  }

  /** Itself, if the status is as expected; otherwise the test fails and shows the body. */
  public Answer expect(int expected) {
    if (status != expected) {
      throw new AssertionError(
          asked + " answered " + status + " and not " + expected + ": " + body);
    }
    return this;
  }
}
