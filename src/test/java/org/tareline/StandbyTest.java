package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.abort;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FreePort;
import org.tareline.testing.Patience;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestServer;

/**
 * A PostgreSQL with a synchronous standby: the primary is killed, the standby takes its place, and
 * the server goes on by itself.
 */
@Tag("process")
class StandbyTest {

  private static final int ENOUGH_TO_LOSE = 25;

  @TempDir private Path folder;

  @Test
  void what_was_acknowledged_is_at_the_standby_that_takes_over() throws Exception {
    Path first = folder.resolve("first");
    Path second = folder.resolve("second");
    start(first).close();
    copy(first, second);
    try (EmbeddedPostgres primary = start(first, "synchronous_standby_names = '*'");
        EmbeddedPostgres standby = startStandby(second, primary.getPort());
        TestServer server =
            TestServer.startOn(
                new TestDatabase(
                    "jdbc:postgresql://127.0.0.1:%d,127.0.0.1:%d/postgres?targetServerType=primary"
                        .formatted(primary.getPort(), standby.getPort()),
                    "postgres",
                    "postgres"),
                "spring.datasource.hikari.connection-timeout=1000")) {
      Api api = server.openLedger().api();
      api.post("/scales", Benchwork.SCALE).expect(201);
      api.post("/parts", Benchwork.PART).expect(201);
      Map<String, String> acknowledged = new ConcurrentHashMap<>();
      AtomicBoolean enough = new AtomicBoolean();
      ExecutorService atTheBench = Executors.newFixedThreadPool(2);
      for (String who : List.of("a", "b")) {
        atTheBench.execute(() -> weigh(api, who, acknowledged, enough));
      }
      Patience.until(() -> acknowledged.size() >= ENOUGH_TO_LOSE);
      long pid = Long.parseLong(Files.readAllLines(first.resolve("postmaster.pid")).get(0));
      ProcessHandle.of(pid).orElseThrow().destroyForcibly();
      Patience.until(() -> api.get("/parts").status() == 503);
      int before = acknowledged.size();
      try (Connection connection = standby.getPostgresDatabase().getConnection()) {
        connection.createStatement().execute("select pg_promote()");
      }
      Patience.until(() -> acknowledged.size() >= before + ENOUGH_TO_LOSE);
      enough.set(true);
      atTheBench.shutdown();
      assertThat(atTheBench.awaitTermination(Patience.LONG.toSeconds(), TimeUnit.SECONDS)).isTrue();

      assertThat(before).isGreaterThanOrEqualTo(ENOUGH_TO_LOSE);
      assertThat(acknowledged).hasSizeGreaterThanOrEqualTo(before + ENOUGH_TO_LOSE);
      assertThat(server.count("select count(*) from weighing")).isEqualTo(acknowledged.size());
      acknowledged.forEach(
          (key, id) -> {
            Answer again = api.post("/weighings", Benchwork.weighing(key)).expect(200);
            assertThat(again.json().path("id").asString()).isEqualTo(id);
          });
    }
  }

  /** Each entry until it is answered, under its key. */
  private static void weigh(
      Api api, String who, Map<String, String> acknowledged, AtomicBoolean enough) {
    for (int i = 0; !enough.get(); i++) {
      Answer answer;
      while ((answer = api.post("/weighings", Benchwork.weighing(who + i))).status() == 503) {
        assertThat(answer.header("Retry-After")).isNotNull();
      }
      assertThat(answer.status()).as(answer.body()).isIn(200, 201);
      acknowledged.put(who + i, answer.json().path("id").asString());
    }
  }

  private static EmbeddedPostgres startStandby(Path data, int primary) throws IOException {
    Files.createFile(data.resolve("standby.signal"));
    return start(
        data, "primary_conninfo = 'host=127.0.0.1 port=%d user=postgres'".formatted(primary));
  }

  private static EmbeddedPostgres start(Path data, String... settings) throws IOException {
    for (String setting : settings) {
      Files.writeString(
          data.resolve("postgresql.auto.conf"), setting + '\n', StandardOpenOption.APPEND);
    }
    try {
      return EmbeddedPostgres.builder()
          .setDataDirectory(data)
          .setCleanDataDirectory(false)
          .setPort(FreePort.next())
          .setPGStartupWait(Patience.LONG)
          // By itself this build for tests waits for nothing, and loses what it acknowledged last.
          .setServerConfig("synchronous_commit", "on")
          .start();
    } catch (IOException | RuntimeException cannotStart) {
      if ("true".equals(System.getenv("CI")) || settings.length > 0) {
        throw cannotStart;
      }
      return abort("No PostgreSQL starts here");
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(from.relativize(file)), StandardCopyOption.COPY_ATTRIBUTES);
      }
    }
  }
}
