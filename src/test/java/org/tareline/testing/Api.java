package org.tareline.testing;

import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * A small client of the JSON API. Paths are what stands behind {@code /api/v1} and may have places
 * for values: {@code get("/convert?quantity={q}&to={u}", "13 1/4 oz", "g")}. A body is JSON as
 * text, sent as it is, or anything that can be written as JSON.
 */
public final class Api {

  private final String address;
  private final Map<String, String> headers;

  private Api(String address, Map<String, String> headers) {
    this.address = address;
    this.headers = headers;
  }

  /** The API of a server at an address such as {@code http://127.0.0.1:8080}, to a stranger. */
  public static Api at(String address) {
    return new Api(address, Map.of());
  }

  /** The same client with one more header on every request. */
  public Api with(String header, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(header, value);
    return new Api(address, more);
  }

  public Api signedInAs(String name, String password) {
    return with(
        "Authorization",
        "Basic "
            + Base64.getEncoder()
                .encodeToString((name + ':' + password).getBytes(StandardCharsets.UTF_8)));
  }

  public Answer get(String path, Object... values) {
    return send(path, values, HttpRequest.newBuilder().GET());
  }

  public Answer post(String path, Object body, Object... values) {
    return send(
        path, values, HttpRequest.newBuilder().POST(BodyPublishers.ofString(Answer.json(body))));
  }

  public Answer put(String path, Object body, Object... values) {
    return send(
        path, values, HttpRequest.newBuilder().PUT(BodyPublishers.ofString(Answer.json(body))));
  }

  public Answer delete(String path, Object... values) {
    return send(path, values, HttpRequest.newBuilder().DELETE());
  }

  private Answer send(String path, Object[] values, HttpRequest.Builder request) {
    request
        .uri(
            UriComponentsBuilder.fromUriString(address + "/api/v1" + path)
                .encode()
                .buildAndExpand(values)
                .toUri())
        .timeout(Patience.LONG)
        .header("Content-Type", "application/json");
    headers.forEach(request::setHeader);
    return Answer.to(request.build());
  }
}
