package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** A server with the settings that one has behind a proxy, and with metrics. */
@EmptyServerTest
class OperatingTest {

  private static final String TOKEN = "a token of one's own";

  @Test
  void metrics_are_for_who_sends_the_token_and_a_proxy_is_believed() {
    try (TestServer server =
        TestServer.startEmpty(
            "tareline.metrics.token=" + TOKEN, "server.forward-headers-strategy=native")) {
      TestLedger ledger = server.openLedger();
      Api api = ledger.api();
      api.post(
              "/scales",
              Map.of("code", "S", "name", "S", "readability", "0.1 g", "capacity", "5 kg"))
          .expect(201);
      api.post("/parts", Map.of("code", "PRIVATE", "name", "Private part")).expect(201);
      double before = figure(metrics(server), "tareline_weighings_logged_total");
      Map<String, Object> weighing =
          Map.of("part", "PRIVATE", "scale", "S", "readings", List.of("5 g"), "key", "k");
      api.post("/weighings", weighing).expect(201);
      api.post("/weighings", weighing).expect(200);
      api.post(
              "/rigs",
              "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"PRIVATE\",\"quantity\":1,\"role\":\"body\"}]}")
          .expect(201);
      api.get("/rigs/R/roll-up").expect(200);

      server.pages().get("/metrics").expect(404);
      server.pages().with("Authorization", "Bearer " + TOKEN + "x").get("/metrics").expect(404);
      ledger.pages().get("/metrics").expect(404);
      String metrics = metrics(server);
      assertThat(figure(metrics, "tareline_weighings_logged_total")).isEqualTo(before + 1);
      assertThat(figure(metrics, "tareline_roll_up_seconds_count")).isPositive();
      assertThat(metrics)
          .contains("hikaricp_connections_active", "http_server_requests_seconds_count")
          .doesNotContain("PRIVATE", ledger.name());

      Answer beyond =
          server
              .pages()
              .with("X-Forwarded-Proto", "https")
              .with("X-Forwarded-Host", "gear.example")
              .get("/sign-in")
              .expect(200);
      assertThat(beyond.header("Set-Cookie"))
          .startsWith("__Host-tareline-form=")
          .contains("Secure", "HttpOnly", "Path=/;")
          .doesNotContain("Domain");
      Answer signedIn =
          server
              .pages()
              .with("X-Forwarded-Proto", "https")
              .with("X-Forwarded-Host", "gear.example")
              .signIn(ledger.name(), ledger.password())
              .expect(302);
      assertThat(signedIn.headers("Set-Cookie"))
          .anyMatch(
              cookie ->
                  cookie.startsWith("__Host-JSESSIONID=")
                      && cookie.matches(".*; Path=/;.*")
                      && cookie.contains("; Secure")
                      && !cookie.contains("Domain"));
      assertThat(
              server
                  .pages()
                  .with("X-Forwarded-Proto", "https")
                  .get("/parts")
                  .expect(302)
                  .header("Location"))
          .startsWith("https://");
      assertThat(server.pages().get("/sign-in").expect(200).header("Set-Cookie"))
          .doesNotContain("Secure");
    }
  }

  private static String metrics(TestServer server) {
    return server
        .pages()
        .with("Authorization", "Bearer " + TOKEN)
        .get("/metrics")
        .expect(200)
        .body();
  }

  private static double figure(String metrics, String name) {
    return metrics
        .lines()
        .filter(line -> line.startsWith(name + ' ') || line.startsWith(name + '{'))
        .mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' '))))
        .sum();
  }
}
