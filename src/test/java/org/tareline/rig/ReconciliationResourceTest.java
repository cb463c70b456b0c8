package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** The rig of these tests: a body of 300 g, six stakes of 9 g and a tarp of 181 g, all weighed. */
@FeatureTest
class ReconciliationResourceTest {

  private static Workshop hang(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.scale("BENCH", "0.1 g");
    workshop.weigh(workshop.unknown("BODY"), "BENCH", "300 g");
    workshop.weigh(workshop.unknown("STAKE"), "BENCH", "9 g");
    workshop.weigh(workshop.unknown("TARP"), "BENCH", "181 g");
    workshop.rig("BAG", part("STAKE", 6, "stake"));
    workshop.rig("HANG", part("BODY", 1, "body"), part("TARP", 1, "tarp"), rig("BAG", 1, "stake"));
    return workshop;
  }

  private static JsonNode weighWhole(TestLedger ledger, String reading, String condition) {
    return ledger
        .api()
        .post(
            "/weighings",
            Map.of(
                "rig",
                "HANG",
                "scope",
                "complete",
                "scale",
                "BENCH",
                "readings",
                List.of(reading),
                "condition",
                condition))
        .expect(201)
        .json();
  }

  private static JsonNode reconciliation(TestLedger ledger) {
    return ledger.api().get("/rigs/hang/reconciliation").expect(200).json();
  }

  private static double number(JsonNode node, String pointer) {
    return Double.parseDouble(node.at(pointer).asString());
  }

  @Test
  void a_rig_never_weighed_whole_says_so(TestLedger ledger) {
    hang(ledger);

    JsonNode answer = reconciliation(ledger);

    assertThat(answer.path("rig").asString()).isEqualTo("HANG");
    assertThat(answer.path("scope").asString()).isEqualTo("complete");
    assertThat(answer.path("whole").isNull()).isTrue();
    assertThat(answer.path("agrees").isNull()).isTrue();
    assertThat(answer.path("residual").isNull()).isTrue();
    assertThat(answer.at("/rolledUp/mass/value").asString()).isEqualTo("535");
    assertThat(answer.path("explanations")).isEmpty();
    assertThat(answer.path("notes").path(0).asString()).contains("not been weighed whole");
  }

  @Test
  void a_whole_that_is_the_sum_of_its_parts_agrees(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "535.1 g", "dry");

    JsonNode answer = reconciliation(ledger);

    assertThat(answer.path("agrees").asBoolean()).isTrue();
    assertThat(answer.at("/residual/mass/value").asString()).isEqualTo("0.1");
    // Four weighings, of which the stake counts six times: 0.05² and 2 × 0.1²/12 g² for each
    // (JCGM 100:2008, 4.2.3 and F.2.2.1).
    double u = Math.sqrt((1 + 1 + 1 + 36) * (0.0025 + 0.02 / 12));
    assertThat(number(answer, "/residual/standardUncertainty/value")).isCloseTo(u, within(1e-9));
    assertThat(number(answer, "/zeta")).isCloseTo(0.1 / u, within(1e-9));
    assertThat(answer.path("explanations")).isEmpty();
    assertThat(answer.at("/weighing/readings/0").asString()).isEqualTo("535.1 g");
    assertThat(answer.path("changedSince").asBoolean()).isFalse();
  }

  @Test
  void swapped_digits_are_told_with_the_weighing_to_look_at(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "472 g", "dry"); // with a tarp of 118 g

    JsonNode answer = reconciliation(ledger);

    assertThat(answer.path("agrees").asBoolean()).isFalse();
    assertThat(answer.path("agrees").isNull()).isFalse();
    JsonNode first = answer.path("explanations").path(0);
    assertThat(first.path("kind").asString()).isEqualTo("digits");
    assertThat(first.path("part").asString()).isEqualTo("TARP");
    assertThat(first.has("rig")).isFalse();
    assertThat(first.at("/residual/mass/value").asString()).isEqualTo("0");
    JsonNode tarp = ledger.api().get("/parts/TARP").expect(200).json();
    assertThat(first.path("weighing").asString()).isEqualTo(tarp.at("/evidence/0/id").asString());
    assertThat(first.path("line").asString())
        .isEqualTo(
            ledger.api().get("/rigs/HANG").json().path("lines").path(1).path("id").asString());
    // Nothing was changed by looking.
    assertThat(tarp.at("/estimate/mass/value").asString()).isEqualTo("181");
  }

  @Test
  void a_stake_or_the_whole_bag_left_off_is_told(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "526 g", "dry");
    assertThat(reconciliation(ledger).at("/explanations/0/part").asString()).isEqualTo("STAKE");
    weighWhole(ledger, "481 g", "dry");

    List<String> about =
        reconciliation(ledger)
            .path("explanations")
            .valueStream()
            .filter(each -> each.path("kind").asString().equals("missing"))
            .map(each -> each.path("rig").asString() + each.path("part").asString())
            .toList();

    assertThat(about).startsWith("BAG", "STAKE");
  }

  @Test
  void a_dry_weighing_counts_before_a_damp_one_and_a_damp_one_is_said(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "580 g", "damp");

    JsonNode damp = reconciliation(ledger);

    assertThat(damp.at("/explanations/0/kind").asString()).isEqualTo("damp");
    assertThat(damp.at("/explanations/0/rig").asString()).isEqualTo("HANG");
    assertThat(damp.path("notes").toString()).contains("damp when it was weighed whole");
    weighWhole(ledger, "535 g", "dry");
    weighWhole(ledger, "590 g", "wet");
    JsonNode dry = reconciliation(ledger);
    assertThat(dry.at("/whole/mass/value").asString()).isEqualTo("535");
    assertThat(dry.path("notes")).isEmpty();
  }

  @Test
  void a_part_repaired_between_the_two_weighings_is_told(TestLedger ledger) {
    hang(ledger);
    ledger
        .api()
        .post("/parts/TARP/events", Map.of("kind", "repaired", "note", "a patch"))
        .expect(201);
    weighWhole(ledger, "547 g", "dry");

    JsonNode first = reconciliation(ledger).path("explanations").path(0);

    assertThat(first.path("kind").asString()).isEqualTo("changed");
    assertThat(first.path("part").asString()).isEqualTo("TARP");
    assertThat(first.path("sentence").asString())
        .startsWith("TARP was repaired after it was weighed");
  }

  @Test
  void another_scope_asks_for_a_weighing_of_its_own(TestLedger ledger) {
    hang(ledger);
    weighWhole(ledger, "535 g", "dry");

    JsonNode answer =
        ledger.api().get("/rigs/HANG/reconciliation?scope=hammock-only").expect(200).json();

    assertThat(answer.path("whole").isNull()).isTrue();
  }

  @Test
  void a_rig_saved_since_is_said_be_it_the_whole_or_one_in_it(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    weighWhole(ledger, "535 g", "dry");
    workshop.put("BAG", part("STAKE", 7, "stake")).expect(200);

    JsonNode nested = reconciliation(ledger);

    assertThat(nested.path("changedSince").asBoolean()).isTrue();
    assertThat(nested.path("notes").path(0).asString()).startsWith("BAG in it has been saved");
    workshop.put("HANG", part("BODY", 1, "body")).expect(200);
    JsonNode itself = reconciliation(ledger);
    assertThat(itself.path("changedSince").asBoolean()).isTrue();
    assertThat(itself.path("notes").path(0).asString()).contains("at revision 1 and is at 2 now");
    assertThat(itself.at("/rolledUp/mass/value").asString()).isEqualTo("300");
  }

  @Test
  void a_part_without_a_mass_leaves_it_open_and_is_named(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("NET");
    workshop.put("HANG", part("BODY", 1, "body"), part("NET", 1, "bug net")).expect(200);
    weighWhole(ledger, "350 g", "dry");

    JsonNode answer = reconciliation(ledger);

    assertThat(answer.path("agrees").isNull()).isTrue();
    assertThat(answer.path("whole").isNull()).isFalse();
    assertThat(answer.at("/rolledUp/atLeast").asBoolean()).isTrue();
    assertThat(answer.path("notes").toString()).contains("NET has no mass", "cannot be told");
  }

  @Test
  void a_weighing_that_was_struck_out_does_not_count(TestLedger ledger) {
    hang(ledger);
    String id = weighWhole(ledger, "472 g", "dry").path("id").asString();
    ledger.api().post("/weighings/{id}/void", Map.of("reason", "mistyped"), id).expect(200);

    assertThat(reconciliation(ledger).path("whole").isNull()).isTrue();
  }

  @Test
  void what_is_not_there_is_not_found(TestLedger ledger) {
    hang(ledger);
    ledger.api().get("/rigs/NONE/reconciliation").expect(404);
    ledger.api().get("/rigs/HANG/reconciliation?scope=none").expect(404);
  }

  @Test
  void it_reads_in_as_many_statements_whatever_the_size(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    weighWhole(ledger, "472 g", "dry");
    reconciliation(ledger);
    int few = ledger.server().statements(() -> reconciliation(ledger)).size();
    List<Workshop.Line> lines = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      workshop.weigh(workshop.unknown("P" + i), "BENCH", "5" + i + " g");
      lines.add(part("P" + i, 1, "hardware"));
    }
    workshop.rig("BOX", lines.toArray(Workshop.Line[]::new));
    workshop.put("HANG", part("BODY", 1, "body"), rig("BOX", 1, "stake")).expect(200);
    assertThat(ledger.server().statements(() -> reconciliation(ledger))).hasSize(few);
  }
}
