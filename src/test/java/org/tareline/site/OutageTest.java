package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.springframework.core.env.Environment;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.Pages;
import org.tareline.testing.Patience;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** The database fails, and is well again: clear answers meanwhile, and no server started anew. */
@EmptyServerTest
class OutageTest {

  private static final String SCALE =
      "{\"code\":\"S\",\"name\":\"S\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}";
  private static final String PART = "{\"code\":\"P\",\"name\":\"Peg\"}";
  private static final String NOTHING_WRITTEN = "Nothing was written: send it again in a while.";

  private static Map<String, Object> weighing(String key) {
    return Map.of("part", "P", "scale", "S", "readings", List.of("5 g"), "key", key);
  }

  @Test
  void with_every_connection_in_use_it_says_so_keeps_what_was_typed_and_goes_on_afterwards()
      throws SQLException {
    try (TestServer server =
        TestServer.startEmpty("spring.datasource.hikari.maximum-pool-size=2")) {
      TestLedger ledger = server.openLedger();
      Api api = ledger.api();
      api.post("/scales", SCALE).expect(201);
      api.post("/parts", PART).expect(201);
      Pages pages = ledger.pages();
      Answer form = pages.get("/parts/new").expect(200);
      Pages stranger = server.pages();
      Answer toSignIn = stranger.get("/sign-in").expect(200);
      Answer refused;
      HikariDataSource pool = pool(server);
      long patience = pool.getConnectionTimeout();
      try (Connection one = pool.getConnection();
          Connection two = pool.getConnection()) {
        assertThat(one).isNotSameAs(two);
        pool.setConnectionTimeout(500);
        assertThat(api.get("/parts").expect(503).json().path("detail").asString())
            .isEqualTo(
                "The database cannot be reached just now. Nothing is lost: ask again in a while.");
        Answer atApi = api.post("/weighings", weighing("k")).expect(503);
        assertThat(atApi.header("Content-Type")).startsWith("application/problem+json");
        assertThat(atApi.header("Retry-After")).isEqualTo("5");
        assertThat(atApi.json().path("detail").asString()).endsWith(NOTHING_WRITTEN);
        assertThat(server.api(ledger.name(), "not remembered, so looked up").get("/parts").status())
            .isEqualTo(503);

        Answer reading = pages.get("/parts?q={q}", "a\"b").expect(503);
        assertThat(reading.page().select("h1").text()).contains("cannot be reached");
        assertThat(reading.page().select("main a").attr("href")).isEqualTo("/parts?q=a%22b");
        refused =
            pages
                .submit(form, "main form", "code", "TYPED", "name", "Kept \"as typed\" <b>")
                .expect(503);
        assertThat(refused.page().select("main").text()).contains(NOTHING_WRITTEN);
        assertThat(refused.page().select("input[name=name]").val())
            .isEqualTo("Kept \"as typed\" <b>");
        Answer signIn =
            stranger.submit(toSignIn, "form[action=/sign-in]", "name", "x", "password", "a secret");
        assertThat(signIn.expect(503).body()).doesNotContain("a secret");
        server.pages().get("/actuator/health/readiness").expect(503);
        server.pages().get("/actuator/health/liveness").expect(200);
      } finally {
        pool.setConnectionTimeout(patience);
      }

      server.pages().get("/actuator/health/readiness").expect(200);
      Element button = refused.page().select("main form button").get(0);
      assertThat(button.text()).isEqualTo("Send it again");
      pages.submit(refused, "main form").expect(303);
      assertThat(api.get("/parts/TYPED").expect(200).json().path("name").asString())
          .isEqualTo("Kept \"as typed\" <b>");
      api.post("/weighings", weighing("k")).expect(201);
    }
  }

  @Test
  void a_database_that_goes_and_comes_back_ends_no_session_and_needs_no_new_server()
      throws Exception {
    try (TestServer server =
        TestServer.startEmpty("spring.datasource.hikari.connection-timeout=1000")) {
      TestLedger ledger = server.openLedger();
      ledger.pages().get("/parts").expect(200);

      if (TestDatabase.onPostgresql()) {
        String url = server.bean(Environment.class).getRequiredProperty("spring.datasource.url");
        String name = url.substring(url.lastIndexOf('/') + 1);
        asAdministrator(server, "alter database " + name + " allow_connections false");
        asAdministrator(
            server,
            "select pg_terminate_backend(pid) from pg_stat_activity where datname = '"
                + name
                + "'");
        ledger.api().get("/parts").expect(503);
        ledger.pages().get("/parts").expect(503);
        server.pages().get("/actuator/health/readiness").expect(503);
        asAdministrator(server, "alter database " + name + " allow_connections true");
      } else {
        server.database().execute("shutdown immediately");
      }

      Patience.until(() -> ledger.api().get("/parts").status() != 503);
      ledger.pages().get("/parts").expect(200);
      ledger.api().post("/parts", PART).expect(201);
      server.pages().get("/actuator/health/readiness").expect(200);
    }
  }

  private static HikariDataSource pool(TestServer server) throws SQLException {
    return server.bean(DataSource.class).unwrap(HikariDataSource.class);
  }

  private static void asAdministrator(TestServer server, String sql) throws SQLException {
    Environment settings = server.bean(Environment.class);
    String url = settings.getRequiredProperty("spring.datasource.url");
    try (Connection connection =
            DriverManager.getConnection(
                url.substring(0, url.lastIndexOf('/') + 1) + "postgres",
                settings.getProperty("spring.datasource.username"),
                settings.getProperty("spring.datasource.password"));
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
