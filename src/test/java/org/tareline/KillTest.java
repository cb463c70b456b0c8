package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;

/**
 * What was acknowledged is on disk. The server runs in a process of its own on its embedded
 * database, as it ships, and is killed with no chance to tidy up. With the delay that H2 has by
 * itself between a commit and the disk, the last weighings are lost and this fails.
 */
@Tag("process")
class KillTest {

  private static final String OWNER = "Ada";
  private static final String PASSWORD = "twelve letters";
  private static final int ENOUGH_TO_LOSE = 25;

  @TempDir private Path folder;
  private Process server;
  private int port;

  @BeforeEach
  void start() throws IOException, InterruptedException {
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    startAgain();
  }

  @AfterEach
  void kill() throws InterruptedException {
    server.destroyForcibly().waitFor();
  }

  private void startAgain() throws IOException, InterruptedException {
    ProcessBuilder command =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-Xmx256m",
            "-cp",
            System.getProperty("java.class.path"),
            TarelineApplication.class.getName());
    command.environment().keySet().removeIf(name -> name.startsWith("SPRING_"));
    command.environment().put("TARELINE_DATA_DIR", folder.toString());
    command.environment().put("TARELINE_FIRST_OWNER_NAME", OWNER);
    command.environment().put("TARELINE_FIRST_OWNER_PASSWORD", PASSWORD);
    command.environment().put("SERVER_PORT", String.valueOf(port));
    Path log = folder.resolve("log");
    server =
        command
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
            .start();
    Instant patience = Instant.now().plus(Duration.ofMinutes(2));
    while (!answers()) {
      if (!server.isAlive() || Instant.now().isAfter(patience)) {
        throw new AssertionError("The server did not start: " + Files.readString(log));
      }
      Thread.sleep(50);
    }
  }

  private boolean answers() {
    try (Socket there = new Socket("127.0.0.1", port)) {
      return there.isConnected();
    } catch (IOException notYet) {
      return false;
    }
  }

  private Api api() {
    return Api.at("http://127.0.0.1:" + port).signedInAs(OWNER, PASSWORD);
  }

  @Test
  void every_weighing_that_was_acknowledged_is_there_after_a_kill() throws Exception {
    api()
        .post(
            "/scales",
            Map.of("code", "K1", "name", "Bench", "readability", "0.1 g", "capacity", "5 kg"))
        .expect(201);
    api()
        .post("/parts", Map.of("code", "TP1", "name", "Tarp", "system", "rain", "owned", 1))
        .expect(201);

    Map<String, String> acknowledged = weighUntilKilled();
    assertThat(acknowledged).hasSizeGreaterThanOrEqualTo(ENOUGH_TO_LOSE);
    startAgain();

    Map<String, String> found = new LinkedHashMap<>();
    acknowledged.forEach(
        (key, id) -> {
          Answer again = api().post("/weighings", weighing(key));
          // 201 would be a new weighing: the first one was lost.
          if (again.status() == 200) {
            found.put(key, again.json().path("id").asString());
          }
        });
    assertThat(found).isEqualTo(acknowledged);
    assertThat(api().get("/parts/TP1").expect(200).json().path("evidence").findValuesAsString("id"))
        .containsAnyElementsOf(acknowledged.values());
  }

  private Map<String, String> weighUntilKilled() throws InterruptedException {
    Map<String, String> acknowledged = new ConcurrentHashMap<>();
    AtomicBoolean killed = new AtomicBoolean();
    ExecutorService atTheBench = Executors.newFixedThreadPool(2);
    for (String who : List.of("a", "b")) {
      atTheBench.execute(
          () -> {
            for (int i = 0; !killed.get(); i++) {
              String key = who + i;
              try {
                Answer answer = api().post("/weighings", weighing(key)).expect(201);
                acknowledged.put(key, answer.json().path("id").asString());
              } catch (AssertionError unanswered) {
                // The one on its way when the server died: nobody promised anything.
                return;
              }
            }
          });
    }
    Instant patience = Instant.now().plusSeconds(30);
    while (acknowledged.size() < ENOUGH_TO_LOSE && Instant.now().isBefore(patience)) {
      Thread.sleep(5);
    }
    server.destroyForcibly().waitFor();
    killed.set(true);
    atTheBench.shutdown();
    assertThat(atTheBench.awaitTermination(30, TimeUnit.SECONDS)).isTrue();
    return acknowledged;
  }

  private static Map<String, Object> weighing(String key) {
    return Map.of("part", "TP1", "scale", "K1", "readings", List.of("381.5 g"), "key", key);
  }
}
