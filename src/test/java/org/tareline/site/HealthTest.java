package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** What a balancer asks. That it turns down without a database is in {@link OutageTest}. */
@FeatureTest
class HealthTest {

  @ParameterizedTest
  @ValueSource(strings = {"", "/liveness", "/readiness"})
  void says_that_the_server_is_well_and_nothing_else(String group, TestServer server) {
    Answer health = server.pages().get("/actuator/health" + group).expect(200);

    assertThat(health.json().path("status").asString()).isEqualTo("UP");
    assertThat(health.json().propertyNames()).isSubsetOf("status", "groups");
    assertThat(health.headers("Set-Cookie")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "/env", "/heapdump", "/metrics", "/prometheus", "/sessions"})
  void the_servers_inside_is_for_nobody(String endpoint, TestLedger ledger) {
    ledger.pages().get("/actuator" + endpoint).expect(403);
    assertThat(ledger.server().pages().get("/actuator" + endpoint).expect(302).header("Location"))
        .endsWith("/sign-in");
  }

  @Test
  void there_are_no_metrics_where_no_token_was_set(TestServer server) {
    server.pages().with("Authorization", "Bearer ").get("/metrics").expect(404);
    server.pages().get("/metrics").expect(404);
  }
}
