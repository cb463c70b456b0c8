package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

@FeatureTest
class CirclesTest {

  private static String refusal(Answer answer) {
    return answer.expect(400).json().path("errors").path(0).path("detail").asString();
  }

  @Test
  void a_rig_in_itself_is_refused(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.rig("ALDER");

    assertThat(refusal(workshop.put("ALDER", rig("alder", 1, "other")))).contains("ALDER → ALDER");
    assertThat(ledger.api().get("/rigs/ALDER").json().path("revision").asInt()).isEqualTo(1);
    assertThat(ledger.api().get("/rigs/ALDER").json().path("lines")).isEmpty();
  }

  @Test
  void a_new_rig_in_itself_is_refused(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);

    assertThat(refusal(workshop.post("ALDER", rig("ALDER", 1, "other")))).contains("ALDER → ALDER");
    ledger.api().get("/rigs/ALDER").expect(404);
  }

  @Test
  void a_rig_in_itself_by_way_of_another_is_refused_and_the_path_named(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.unknown("BODY");
    workshop.rig("BIRCH", part("BODY", 1, "body"));
    workshop.rig("ALDER", rig("BIRCH", 1, "other"));

    Answer refused = workshop.put("BIRCH", part("BODY", 1, "body"), rig("ALDER", 3, "other"));

    assertThat(refusal(refused)).contains("BIRCH → ALDER → BIRCH");
    assertThat(RigResourceTest.pointers(refused)).containsExactly("#/lines/1/rig");
    assertThat(ledger.api().get("/rigs/BIRCH").json().path("lines")).hasSize(1);
    assertThat(ledger.api().get("/rigs/BIRCH").json().path("revision").asInt()).isEqualTo(1);
  }

  @Test
  void a_long_way_round_is_refused_and_named_whole(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.rig("D");
    workshop.rig("C", rig("D", 1, "other"));
    workshop.rig("B", rig("C", 1, "other"));
    workshop.rig("A", rig("B", 1, "other"));

    assertThat(refusal(workshop.put("D", rig("A", 1, "other")))).contains("D → A → B → C → D");
    assertThat(ledger.api().get("/rigs/D").json().path("lines")).isEmpty();
  }

  @Test
  void a_former_code_is_no_way_round(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.rig("OLD");
    ledger.api().put("/rigs/OLD", Workshop.body("YEW")).expect(200);

    assertThat(refusal(workshop.put("YEW", rig("OLD", 1, "other")))).contains("YEW → YEW");
  }

  @Test
  void two_edits_at_one_moment_make_no_circle_between_them(TestLedger ledger) throws Exception {
    Workshop workshop = new Workshop(ledger);
    for (int round = 0; round < 5; round++) {
      String first = "FIRST" + round;
      String second = "SECOND" + round;
      workshop.rig(first);
      workshop.rig(second);
      CyclicBarrier together = new CyclicBarrier(2);
      ExecutorService two = Executors.newFixedThreadPool(2);
      try {
        List<Callable<Integer>> edits =
            List.of(
                () -> {
                  together.await();
                  return workshop.put(first, rig(second, 1, "other")).status();
                },
                () -> {
                  together.await();
                  return workshop.put(second, rig(first, 1, "other")).status();
                });
        int taken = 0;
        for (Future<Integer> edit : two.invokeAll(edits)) {
          taken += edit.get() == 200 ? 1 : 0;
        }
        assertThat(taken).isEqualTo(1);
      } finally {
        two.shutdownNow();
      }
    }
    long bothWays =
        ledger
            .server()
            .count(
                "select count(*) from rig_line a join rig_line b on a.rig_id = b.child_rig_id and a.child_rig_id = b.rig_id where a.ledger_id = ?",
                ledger.member().ledgerId());
    assertThat(bothWays).isZero();
  }

  @Test
  void fifty_levels_are_taken_and_one_more_is_refused_at_either_end(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("PEG", "1 g", "0.1 g");
    workshop.rig("L50", part("PEG", 1, "stake"));
    for (int level = 49; level >= 1; level--) {
      workshop.rig("L" + level, rig("L" + (level + 1), 1, "other"));
    }
    workshop.rig("LOWER");

    assertThat(refusal(workshop.post("L0", rig("L1", 1, "other")))).contains("51 levels");
    assertThat(refusal(workshop.put("L50", rig("LOWER", 1, "other")))).contains("51 levels");
    assertThat(
            ledger
                .api()
                .get("/rigs/L1/roll-up")
                .expect(200)
                .json()
                .at("/estimate/mass/value")
                .asString())
        .isEqualTo("1");
  }

  @Test
  void a_rig_that_unfolds_to_too_many_lines_is_refused_also_when_its_insides_grow(
      TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("PEG", "1 g", "0 g");
    workshop.rig("D0", part("PEG", 1, "stake"));
    for (int level = 1; level <= 12; level++) {
      String inner = "D" + (level - 1);
      workshop.rig("D" + level, rig(inner, 1, "other"), rig(inner, 1, "other"));
    }
    assertThat(ledger.api().get("/rigs/D12/roll-up").expect(200).json().at("/estimate/mass/value"))
        .hasToString("\"4096\"");
    Answer wider = workshop.post("D13", rig("D12", 1, "other"), rig("D12", 1, "other"));

    assertThat(refusal(wider)).contains("20000 lines");
    Answer fuller =
        workshop.put(
            "D0",
            part("PEG", 1, "stake"),
            part("PEG", 1, "stake"),
            part("PEG", 1, "stake"),
            part("PEG", 1, "stake"));
    assertThat(refusal(fuller)).contains("20000 lines");
    assertThat(ledger.api().get("/rigs/D0").json().path("lines")).hasSize(1);
  }
}
