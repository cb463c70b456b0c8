package org.tareline.exchange;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A zip of a ledger in a test: its files by name, as text. */
record Parcel(Map<String, String> files) {

  private static final HttpClient CLIENT = HttpClient.newHttpClient();

  /** What was answered to a parcel that was sent. */
  record Reply(int status, JsonNode json) {

    Reply expect(int expected) {
      if (status != expected) {
        throw new AssertionError("answered " + status + ": " + json.toPrettyString());
      }
      return this;
    }

    int of(String file, String what) {
      for (JsonNode table : json.path("tables")) {
        if (table.path("file").asString().equals(file)) {
          return table.path(what).asInt();
        }
      }
      throw new AssertionError("nothing is said of " + file + " in " + json);
    }

    int inAll(String what) {
      int sum = 0;
      for (JsonNode table : json.path("tables")) {
        sum += table.path(what).asInt();
      }
      return sum;
    }

    /** Such as {@code parts.csv 3 owned}. */
    String problem(int at) {
      JsonNode problem = json.path("problems").path(at);
      return problem.path("file").asString()
          + " "
          + problem.path("line").asInt()
          + " "
          + problem.path("column").asString();
    }

    String reason(int at) {
      return json.path("problems").path(at).path("reason").asString();
    }
  }

  /** Takes a ledger out. */
  static Parcel of(TestLedger ledger) {
    HttpResponse<byte[]> answer = send(ledger, "/export", HttpRequest.newBuilder().GET());
    if (answer.statusCode() != 200) {
      throw new AssertionError("the export answered " + answer.statusCode());
    }
    Map<String, String> files = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(answer.body()))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        files.put(entry.getName(), new String(zip.readAllBytes(), StandardCharsets.UTF_8));
      }
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
    return new Parcel(files);
  }

  /** By hand: without a manifest, and with some text in place of another. */
  Parcel with(String file, String text, String replacement) {
    Map<String, String> changed = new LinkedHashMap<>(files);
    changed.remove(Manifest.FILE);
    String before = String.valueOf(changed.get(file));
    if (!before.contains(text)) {
      throw new AssertionError(file + " has no " + text + ":\n" + before);
    }
    changed.put(file, before.replace(text, replacement));
    return new Parcel(changed);
  }

  /** The files alone, without the manifest, which has a time in it. */
  Map<String, String> rows() {
    Map<String, String> rows = new LinkedHashMap<>(files);
    rows.remove(Manifest.FILE);
    return rows;
  }

  byte[] zip() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes, StandardCharsets.UTF_8)) {
      for (Map.Entry<String, String> file : files.entrySet()) {
        zip.putNextEntry(new ZipEntry(file.getKey()));
        zip.write(file.getValue().getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
    return bytes.toByteArray();
  }

  Reply tryInto(TestLedger ledger) {
    return send(ledger, zip(), "?dryRun=true");
  }

  Reply putInto(TestLedger ledger) {
    return send(ledger, zip(), "");
  }

  static Reply send(TestLedger ledger, byte[] zip, String how) {
    HttpResponse<byte[]> answer =
        send(
            ledger,
            "/import" + how,
            HttpRequest.newBuilder()
                .header("Content-Type", "application/zip")
                .POST(HttpRequest.BodyPublishers.ofByteArray(zip)));
    return new Reply(answer.statusCode(), JsonMapper.builder().build().readTree(answer.body()));
  }

  private static HttpResponse<byte[]> send(
      TestLedger ledger, String path, HttpRequest.Builder request) {
    try {
      return CLIENT.send(
          request
              .uri(URI.create(ledger.server().address() + "/api/v1" + path))
              .timeout(Duration.ofSeconds(120))
              .header(
                  "Authorization",
                  "Basic "
                      + Base64.getEncoder()
                          .encodeToString(
                              (ledger.name() + ':' + ledger.password())
                                  .getBytes(StandardCharsets.UTF_8)))
              .build(),
          HttpResponse.BodyHandlers.ofByteArray());
    } catch (IOException unanswered) {
      throw new UncheckedIOException(unanswered);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new AssertionError(interrupted);
    }
  }
}
