package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.abort;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Answer;
import org.tareline.testing.Pages;
import org.tareline.testing.Patience;
import org.tareline.testing.ServerProcess;
import org.tareline.testing.TestDatabase;
import tools.jackson.databind.JsonNode;

/**
 * The same server twice, in processes of their own, on one PostgreSQL: what one does the other
 * knows, and one may be killed in the middle of it.
 */
@Tag("process")
class TwoNodesTest {

  private static final int KILLS = 2;
  private static final int ENOUGH_TO_LOSE = 25;

  @TempDir private Path folder;
  private TestDatabase database;

  @BeforeEach
  void on_an_empty_postgresql() {
    database =
        TestDatabase.freshOnPostgresql()
            .orElseGet(
                () -> {
                  if ("true".equals(System.getenv("CI"))) {
                    throw new AssertionError("No PostgreSQL starts here");
                  }
                  return abort("No PostgreSQL starts here");
                });
  }

  private ServerProcess node() throws Exception {
    return new ServerProcess(
        folder,
        Map.of(
            "SPRING_DATASOURCE_URL", database.url(),
            "SPRING_DATASOURCE_USERNAME", database.user(),
            "SPRING_DATASOURCE_PASSWORD", database.password(),
            "TARELINE_SAMPLE_LEDGER", "true"));
  }

  @Test
  void what_one_does_the_other_knows_and_a_kill_loses_neither_a_session_nor_a_weighing()
      throws Exception {
    try (ServerProcess one = node();
        ServerProcess other = node()) {
      // Both find the database empty, migrate it and make the owner with the sample ledger.
      one.start();
      other.start();
      one.awaitReady();
      other.awaitReady();
      assertThat(count("select count(*) from account")).isEqualTo(1);
      assertThat(count("select count(*) from ledger")).isEqualTo(1);

      Pages browser = one.pages();
      browser.signIn(ServerProcess.OWNER, ServerProcess.PASSWORD).expect(302);
      browser.get("/parts").expect(200);
      browser.at(other.address()).get("/parts").expect(200);
      packedAtOneIsSeenAtTheOther(one, other);

      one.api().post("/scales", Benchwork.SCALE).expect(201);
      one.api().post("/parts", Benchwork.PART).expect(201);
      Map<String, String> acknowledged = new ConcurrentHashMap<>();
      Set<String> sent = ConcurrentHashMap.newKeySet();
      for (int kill = 1; kill <= KILLS; kill++) {
        ServerProcess killed = kill % 2 == 1 ? one : other;
        ServerProcess left = kill % 2 == 1 ? other : one;
        weighWhileOneIsKilled(killed, left, "kill " + kill, sent, acknowledged);
        browser.at(left.address()).get("/parts/TP1").expect(200);
        killed.start();
        killed.awaitReady();
      }

      assertThat(acknowledged.keySet()).isEqualTo(sent);
      assertThat(new HashSet<>(acknowledged.values())).hasSameSizeAs(sent);
      assertThat(
              count(
                  "select count(*) from weighing w join keyed_entry k on k.weighing_id = w.id"
                      + " where k.entry_key like 'kill %'"))
          .isEqualTo(sent.size());
      acknowledged.forEach(
          (key, id) ->
              assertThat(
                      one.api()
                          .post("/weighings", Benchwork.weighing(key))
                          .expect(200)
                          .json()
                          .path("id")
                          .asString())
                  .isEqualTo(id));

      // Signed out at one is signed out at the other.
      browser.submit(browser.get("/account"), "form[action=/sign-out]").expect(302);
      browser.at(other.address()).get("/parts").expect(302);
    }
  }

  private static void packedAtOneIsSeenAtTheOther(ServerProcess one, ServerProcess other) {
    String trip =
        one.api().get("/trips").expect(200).json().path("items").get(0).path("code").asString();
    JsonNode thing = firstThing(one, trip);
    assertThat(thing.path("state").asString()).isEqualTo("open");

    one.api()
        .post(
            "/trips/{code}/packing",
            Map.of(
                "checks",
                List.of(
                    Map.of("line", thing.path("line").asString(), "state", "packed", "key", "c1"))),
            trip)
        .expect(200);

    assertThat(firstThing(other, trip).path("state").asString()).isEqualTo("packed");
  }

  private static JsonNode firstThing(ServerProcess node, String trip) {
    return node.api().get("/trips/{code}/packing", trip).expect(200).json().path("things").get(0);
  }

  /** Each of two goes to the other node with what was not answered, under the same key. */
  private static void weighWhileOneIsKilled(
      ServerProcess killed,
      ServerProcess left,
      String round,
      Set<String> sent,
      Map<String, String> acknowledged)
      throws InterruptedException {
    int before = acknowledged.size();
    AtomicBoolean enough = new AtomicBoolean();
    ExecutorService atTheBench = Executors.newFixedThreadPool(2);
    for (String who : List.of("a", "b")) {
      atTheBench.execute(
          () -> {
            ServerProcess asked = who.equals("a") ? killed : left;
            for (int i = 0; !enough.get(); i++) {
              String key = round + who + i;
              sent.add(key);
              Answer answer;
              try {
                answer = asked.api().post("/weighings", Benchwork.weighing(key));
              } catch (AssertionError unanswered) {
                asked = left;
                answer = asked.api().post("/weighings", Benchwork.weighing(key));
              }
              assertThat(answer.status()).as(answer.body()).isIn(200, 201);
              acknowledged.put(key, answer.json().path("id").asString());
            }
          });
    }
    Patience.until(() -> acknowledged.size() >= before + ENOUGH_TO_LOSE);
    killed.kill();
    Patience.until(() -> acknowledged.size() >= before + 2 * ENOUGH_TO_LOSE);
    enough.set(true);
    atTheBench.shutdown();
    assertThat(atTheBench.awaitTermination(Patience.LONG.toSeconds(), TimeUnit.SECONDS)).isTrue();
    assertThat(acknowledged).hasSizeGreaterThanOrEqualTo(before + 2 * ENOUGH_TO_LOSE);
  }

  private long count(String sql) throws SQLException {
    try (Connection connection =
            DriverManager.getConnection(database.url(), database.user(), database.password());
        ResultSet found = connection.createStatement().executeQuery(sql)) {
      assertThat(found.next()).isTrue();
      return found.getLong(1);
    }
  }
}
