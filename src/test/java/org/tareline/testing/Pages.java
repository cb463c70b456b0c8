package org.tareline.testing;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.net.HttpCookie;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jsoup.Connection;
import org.jsoup.helper.HttpConnection;
import org.jsoup.nodes.Element;
import org.jsoup.nodes.FormElement;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * A browser without scripts: it keeps cookies and submits the forms of the pages it was shown, so
 * that what a form carries (its token against forged requests, its revision) is what the server put
 * there. It does not follow redirects unless asked to.
 */
public final class Pages {

  private final String address;
  private final Map<String, String> cookies = new LinkedHashMap<>();
  private final Map<String, String> headers = new LinkedHashMap<>();

  Pages(String address) {
    this.address = address;
  }

  /** Sends one more header with every request from now on. */
  public Pages with(String header, String value) {
    headers.put(header, value);
    return this;
  }

  /** The same browser at another server, to which it takes its cookies. */
  public Pages at(String otherAddress) {
    Pages there = new Pages(otherAddress);
    there.cookies.putAll(cookies);
    return there;
  }

  /** Signs in by the form. */
  public Answer signIn(String name, String password) {
    return submit(
        get("/sign-in").expect(200), "form[action=/sign-in]", "name", name, "password", password);
  }

  /** Asks for a page. Its path may have places for values. */
  public Answer get(String path, Object... values) {
    return send(uri(path, values), HttpRequest.newBuilder().GET());
  }

  /** Follows a link of a page, and redirects. */
  public Answer click(Element link) {
    return follow(
        send(URI.create(address).resolve(link.absUrl("href")), HttpRequest.newBuilder().GET()));
  }

  /** Asks for a page and follows redirects. */
  public Answer open(String path, Object... values) {
    return follow(get(path, values));
  }

  /** Goes where an answer sends, and on, until there is a page. */
  public Answer follow(Answer answer) {
    Answer last = answer;
    for (int hops = 0; hops < 10; hops++) {
      String location = last.header("Location");
      if (location == null) {
        return last;
      }
      last = send(last.asked().resolve(location), HttpRequest.newBuilder().GET());
    }
    throw new AssertionError("Too many redirects from " + answer.asked());
  }

  /**
   * Fills in a form of a page and sends it.
   *
   * @param form a selector that finds exactly one form
   * @param namesAndValues fields to fill in over what the page shows, name and value in turn; each
   *     must be on the form, and one named twice is sent twice
   */
  public Answer submit(Answer page, String form, String... namesAndValues) {
    List<Element> found = page.page().select(form);
    if (found.size() != 1 || !(found.get(0) instanceof FormElement shown)) {
      throw new AssertionError(
          found.size() + " forms found by " + form + " on " + page.asked() + ": " + page.body());
    }
    Map<String, List<String>> filledIn = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      String name = namesAndValues[i];
      if (shown.elements().stream().noneMatch(control -> control.attr("name").equals(name))) {
        throw new AssertionError("No field " + name + " in " + shown);
      }
      filledIn.computeIfAbsent(name, key -> new ArrayList<>()).add(namesAndValues[i + 1]);
    }
    List<Connection.KeyVal> fields = new ArrayList<>();
    for (Connection.KeyVal field : shown.formData()) {
      if (!filledIn.containsKey(field.key())) {
        fields.add(field);
      }
    }
    filledIn.forEach(
        (name, values) ->
            values.forEach(value -> fields.add(HttpConnection.KeyVal.create(name, value))));
    URI action = page.asked().resolve(shown.attr("action"));
    return "post".equalsIgnoreCase(shown.attr("method"))
        ? send(action, formRequest(fields))
        : send(
            action.resolve(action.getPath() + "?" + encoded(fields)),
            HttpRequest.newBuilder().GET());
  }

  /** Sends a form of a page with a file in one of its fields, and else what the page shows. */
  public Answer upload(Answer page, String form, String field, String fileName, byte[] bytes) {
    if (!(page.page().select(form).first() instanceof FormElement shown)) {
      throw new AssertionError("No form found by " + form + " on " + page.asked());
    }
    String boundary = "a-boundary-that-is-in-no-test";
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (Connection.KeyVal each : shown.formData()) {
      if (!each.key().equals(field)) {
        part(body, boundary, "name=\"" + each.key() + '"', each.value().getBytes(UTF_8));
      }
    }
    part(body, boundary, "name=\"" + field + "\"; filename=\"" + fileName + '"', bytes);
    body.writeBytes(("--" + boundary + "--\r\n").getBytes(UTF_8));
    return send(
        page.asked().resolve(shown.attr("action")),
        HttpRequest.newBuilder()
            .header("Content-Type", "multipart/form-data; boundary=" + boundary)
            .POST(BodyPublishers.ofByteArray(body.toByteArray())));
  }

  private static void part(
      ByteArrayOutputStream body, String boundary, String disposition, byte[] bytes) {
    body.writeBytes(
        ("--" + boundary + "\r\nContent-Disposition: form-data; " + disposition + "\r\n\r\n")
            .getBytes(UTF_8));
    body.writeBytes(bytes);
    body.writeBytes("\r\n".getBytes(UTF_8));
  }

  /** Sends fields to an address with nothing taken from any form: what a forger would send. */
  public Answer forge(String path, String... namesAndValues) {
    List<Connection.KeyVal> fields = new ArrayList<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      fields.add(HttpConnection.KeyVal.create(namesAndValues[i], namesAndValues[i + 1]));
    }
    return send(uri(path), formRequest(fields));
  }

  /** The cookies it holds, by name. */
  public Map<String, String> cookies() {
    return Map.copyOf(cookies);
  }

  private static HttpRequest.Builder formRequest(List<Connection.KeyVal> fields) {
    return HttpRequest.newBuilder()
        .header("Content-Type", "application/x-www-form-urlencoded")
        .POST(BodyPublishers.ofString(encoded(fields)));
  }

  private static String encoded(List<Connection.KeyVal> fields) {
    return fields.stream()
        .map(
            field ->
                URLEncoder.encode(field.key(), StandardCharsets.UTF_8)
                    + '='
                    + URLEncoder.encode(field.value(), StandardCharsets.UTF_8))
        .collect(Collectors.joining("&"));
  }

  private URI uri(String path, Object... values) {
    return UriComponentsBuilder.fromUriString(address + path)
        .encode()
        .buildAndExpand(values)
        .toUri();
  }

  private Answer send(URI uri, HttpRequest.Builder request) {
    request.uri(uri).timeout(Patience.LONG);
    headers.forEach(request::setHeader);
    if (!cookies.isEmpty()) {
      request.setHeader(
          "Cookie",
          cookies.entrySet().stream()
              .map(cookie -> cookie.getKey() + '=' + cookie.getValue())
              .collect(Collectors.joining("; ")));
    }
    Answer answer = Answer.to(request.build());
    for (String set : answer.headers("Set-Cookie")) {
      for (HttpCookie cookie : HttpCookie.parse(set)) {
        if (cookie.getMaxAge() == 0) {
          cookies.remove(cookie.getName());
        } else {
          cookies.put(cookie.getName(), cookie.getValue());
        }
      }
    }
    return answer;
  }
}
