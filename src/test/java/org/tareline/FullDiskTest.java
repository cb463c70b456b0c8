package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FullDisk;
import org.tareline.testing.Pages;
import org.tareline.testing.Patience;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * The disk of the embedded database fills up while the server works, and has room again. H2 closes
 * its database then; the server is not started anew.
 */
@Tag("process")
class FullDiskTest {

  /** Of ones that fit into what the file has free inside, before one does not. */
  private static final int MOST_THAT_STILL_FIT = 500;

  @TempDir private Path folder;

  @AfterEach
  void make_room() {
    FullDisk.makeRoom();
  }

  @Test
  void a_full_disk_is_said_loses_nothing_and_is_got_over() throws Exception {
    TestDatabase onIt = TestDatabase.onH2(FullDisk.scheme() + folder.resolve("tareline"));
    try (TestServer server =
        TestServer.startOn(onIt, "spring.datasource.hikari.connection-timeout=1000")) {
      TestLedger ledger = server.openLedger();
      Api api = ledger.api();
      api.post("/scales", Benchwork.SCALE).expect(201);
      api.post("/parts", Benchwork.PART).expect(201);
      Pages pages = ledger.pages();
      Answer form = pages.get("/parts/new").expect(200);
      Map<String, String> acknowledged = new LinkedHashMap<>();
      for (int i = 0; i < 10; i++) {
        weigh(api, "before " + i, acknowledged).expect(201);
      }

      FullDisk.fillUp();
      TreeSet<Integer> answered = new TreeSet<>();
      int full = 0;
      Answer refused = weigh(api, "full 0", acknowledged);
      while (refused.status() == 201 && full < MOST_THAT_STILL_FIT) {
        refused = weigh(api, "full " + ++full, acknowledged);
      }
      refused.expect(507);
      assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
      assertThat(refused.header("Retry-After")).isEqualTo("60");
      assertThat(refused.json().path("detail").asString())
          .startsWith("The server's disk is full, or cannot be written to.");
      for (int i = 0; i < 3; i++) {
        Answer later = weigh(api, "later " + i, acknowledged);
        answered.add(later.status());
        assertThat(later.header("Retry-After")).isNotNull();
      }
      Answer kept = pages.submit(form, "main form", "code", "TYPED", "name", "Kept as typed");
      answered.add(kept.status());
      assertThat(answered).isSubsetOf(503, 507);
      assertThat(kept.page().select("input[name=name]").val()).isEqualTo("Kept as typed");

      FullDisk.makeRoom();
      Patience.until(() -> api.get("/parts").status() == 200);
      pages.submit(kept, "main form").expect(303);
      api.get("/parts/TYPED").expect(200);
      acknowledged.forEach(
          (key, id) -> {
            Answer again = api.post("/weighings", Benchwork.weighing(key)).expect(200);
            assertThat(again.json().path("id").asString()).isEqualTo(id);
          });
      for (String sentBefore : List.of("full " + full, "later 0", "later 1", "later 2")) {
        assertThat(weigh(api, sentBefore, acknowledged).status()).isIn(200, 201);
      }
      assertThat(server.count("select count(distinct weighing_id) from keyed_entry"))
          .isEqualTo(10 + full + 1 + 3)
          .isEqualTo(server.count("select count(*) from weighing"));
    }
  }

  private static Answer weigh(Api api, String key, Map<String, String> acknowledged) {
    Answer answer = api.post("/weighings", Benchwork.weighing(key));
    if (answer.status() == 201) {
      acknowledged.put(key, answer.json().path("id").asString());
    }
    return answer;
  }
}
