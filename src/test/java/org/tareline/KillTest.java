package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Answer;
import org.tareline.testing.Patience;
import org.tareline.testing.ServerProcess;

/**
 * What was acknowledged is on disk. The server runs in a process of its own on its embedded
 * database, as it ships, and is killed again and again with no chance to tidy up. With the delay
 * that H2 has by itself between a commit and the disk, the last weighings are lost and this fails.
 */
@Tag("process")
class KillTest {

  private static final int KILLS = 2;
  private static final int ENOUGH_TO_LOSE = 25;

  @TempDir private Path folder;

  @Test
  void every_weighing_that_was_acknowledged_is_there_once_after_each_kill() throws Exception {
    try (ServerProcess server = new ServerProcess(folder, Map.of())) {
      server.start();
      server.awaitReady();
      server.api().post("/scales", Benchwork.SCALE).expect(201);
      server.api().post("/parts", Benchwork.PART).expect(201);

      Map<String, String> acknowledged = new ConcurrentHashMap<>();
      for (int kill = 1; kill <= KILLS; kill++) {
        int before = acknowledged.size();
        weighUntilKilled(server, "kill " + kill, acknowledged, before + ENOUGH_TO_LOSE);
        assertThat(acknowledged).hasSizeGreaterThanOrEqualTo(before + ENOUGH_TO_LOSE);
        server.start();
        server.awaitReady();
        // 201 would be a new weighing: the first one was lost.
        acknowledged.forEach(
            (key, id) -> {
              Answer again = server.api().post("/weighings", Benchwork.weighing(key)).expect(200);
              assertThat(again.json().path("id").asString()).isEqualTo(id);
            });
      }
      assertThat(
              server
                  .api()
                  .get("/parts/TP1")
                  .expect(200)
                  .json()
                  .path("evidence")
                  .findValuesAsString("id"))
          .containsAnyElementsOf(acknowledged.values());
    }
  }

  private static void weighUntilKilled(
      ServerProcess server, String round, Map<String, String> acknowledged, int enough)
      throws InterruptedException {
    AtomicBoolean killed = new AtomicBoolean();
    ExecutorService atTheBench = Executors.newFixedThreadPool(2);
    for (String who : List.of("a", "b")) {
      atTheBench.execute(
          () -> {
            for (int i = 0; !killed.get(); i++) {
              String key = round + who + i;
              try {
                Answer answer =
                    server.api().post("/weighings", Benchwork.weighing(key)).expect(201);
                acknowledged.put(key, answer.json().path("id").asString());
              } catch (AssertionError unanswered) {
                // The one on its way when the server died: nobody promised anything.
                return;
              }
            }
          });
    }
    Patience.until(() -> acknowledged.size() >= enough);
    server.kill();
    killed.set(true);
    atTheBench.shutdown();
    assertThat(atTheBench.awaitTermination(Patience.LONG.toSeconds(), TimeUnit.SECONDS)).isTrue();
  }
}
