package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * Where every transaction is to be as if it were alone, as on distributed engines always, those
 * that write to one thing at a time are in each other's way, and are made again.
 */
@EmptyServerTest
class MadeAgainTest {

  private static final int WRITERS = 6;
  private static final int ROUNDS = 6;
  private static final int EACH = WRITERS * ROUNDS;

  private final AtomicInteger gaveUp = new AtomicInteger();

  @Test
  void writes_that_are_in_each_others_way_are_all_made_and_once() throws Exception {
    try (TestServer server =
        TestServer.startEmpty(
            "spring.datasource.hikari.transaction-isolation=TRANSACTION_SERIALIZABLE",
            "tareline.metrics.token=a token of one's own")) {
      TestLedger ledger = server.openLedger();
      Api api = ledger.api();
      api.post(
              "/scales",
              "{\"code\":\"S\",\"name\":\"S\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\"}")
          .expect(201);
      api.post("/parts", "{\"code\":\"P\",\"name\":\"Peg\",\"owned\":0}").expect(201);
      api.post(
              "/materials",
              "{\"code\":\"M\",\"name\":\"M\",\"kind\":\"cord\",\"nominal\":\"1 g/m\",\"stock\":\"5 m\"}")
          .expect(201);
      api.post("/rigs", rig(1)).expect(201);
      String line =
          api.post("/trips", "{\"code\":\"T\",\"name\":\"T\",\"lines\":[{\"part\":\"P\"}]}")
              .expect(201)
              .json()
              .at("/lines/0/id")
              .asString();

      ExecutorService atOnce = Executors.newFixedThreadPool(WRITERS);
      List<Callable<Void>> writers =
          IntStream.range(0, WRITERS)
              .mapToObj(writer -> (Callable<Void>) () -> write(ledger.api(), writer, line))
              .toList();
      for (Future<Void> written : atOnce.invokeAll(writers)) {
        written.get();
      }
      atOnce.shutdown();

      assertThat(gaveUp.get()).as("of %d", 7 * EACH).isLessThanOrEqualTo(EACH / 3);
      assertThat(server.count("select count(*) from part")).isEqualTo(1 + EACH);
      for (String kind : List.of("part", "rig")) {
        long id = server.count("select min(id) from " + kind);
        assertThat(server.count("select revision from " + kind + " where id = ?", id))
            .isEqualTo(1 + EACH);
        assertThat(
                server
                    .database()
                    .queryForList(
                        "select number from revision where kind = ? and subject_id = ? order by 1",
                        Integer.class,
                        kind,
                        id))
            .containsExactlyElementsOf(IntStream.rangeClosed(1, 1 + EACH).boxed().toList());
      }
      for (String table : List.of("packing_check", "scale_check", "weighing", "keyed_entry")) {
        assertThat(server.count("select count(*) from " + table)).as(table).isEqualTo(EACH);
      }
      assertThat(api.get("/materials/M").expect(200).json().at("/stock/value").asInt())
          .isEqualTo(5 + EACH);
      String metrics =
          server
              .pages()
              .with("Authorization", "Bearer a token of one's own")
              .get("/metrics")
              .expect(200)
              .body();
      if (TestDatabase.onPostgresql()) {
        assertThat(metrics).containsPattern("tareline_writes_again_total [1-9]");
      }
    }
  }

  private static Map<String, Object> rig(int quantity) {
    return Map.of(
        "code",
        "R",
        "name",
        "R",
        "lines",
        List.of(Map.of("part", "P", "quantity", quantity, "role", "body")));
  }

  private Void write(Api api, int writer, String line) throws Exception {
    Random order = new Random(writer);
    for (int round = 0; round < ROUNDS; round++) {
      int number = writer * ROUNDS + round;
      String key = "k" + number;
      List<Callable<Answer>> writes =
          new ArrayList<>(
              List.of(
                  () -> api.post("/parts", Map.of("code", "P" + number, "name", "Peg")),
                  () ->
                      api.put("/parts/P", Map.of("code", "P", "name", "Peg", "owned", number + 1)),
                  () -> api.put("/rigs/R", rig(number + 2)),
                  () ->
                      api.post(
                          "/trips/T/packing",
                          Map.of(
                              "checks",
                              List.of(Map.of("line", line, "state", "packed", "key", key)))),
                  () ->
                      api.post(
                          "/scales/S/checks",
                          "{\"weights\":[{\"nominal\":\"500 g\",\"class\":\"M1\",\"indication\":\"500.2\"}]}"),
                  () -> api.post("/materials/M/stock", "{\"added\":\"1 m\"}"),
                  () ->
                      api.post(
                          "/weighings",
                          Map.of(
                              "part", "P", "scale", "S", "readings", List.of("5 g"), "key", key))));
      Collections.shuffle(writes, order);
      for (Callable<Answer> each : writes) {
        untilAnswered(each);
      }
    }
    return null;
  }

  /** As the answer asks for: again after a while, for nothing was written. */
  private void untilAnswered(Callable<Answer> write) throws Exception {
    Answer answer = write.call();
    while (answer.status() == 503) {
      gaveUp.incrementAndGet();
      assertThat(answer.json().path("detail").asString()).contains("Nothing was written");
      Thread.sleep(1000 * Long.parseLong(String.valueOf(answer.header("Retry-After"))));
      answer = write.call();
    }
    assertThat(answer.status()).as(answer.body()).isIn(200, 201);
  }
}
