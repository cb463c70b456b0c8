package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class ScopeResourceTest {

  private static List<String> codes(TestLedger ledger) {
    return ledger
        .api()
        .get("/scopes")
        .expect(200)
        .json()
        .path("items")
        .valueStream()
        .map(scope -> scope.path("code").asString())
        .toList();
  }

  @Test
  void a_new_ledger_has_the_five_that_exist_from_the_start(TestLedger ledger) {
    assertThat(codes(ledger))
        .containsExactly(
            "complete",
            "bars-out",
            "anchor-to-anchor",
            "anchor-to-anchor-bars-out",
            "hammock-only");
    JsonNode hammock = ledger.api().get("/scopes/hammock-only").expect(200).json();
    assertThat(hammock.path("counts")).hasToString("[\"body\"]");
    assertThat(hammock.has("leavesOut")).isFalse();
    JsonNode barsOut = ledger.api().get("/scopes/bars-out").expect(200).json();
    assertThat(barsOut.path("leavesOut")).hasToString("[\"spreader bar\"]");
    assertThat(ledger.api().get("/scopes/complete").json().path("leavesOut")).isEmpty();
  }

  @Test
  void a_ledger_adds_its_own_by_what_it_leaves_out_or_by_what_it_counts(
      TestLedger ledger, TestLedger other) {
    Answer made =
        ledger
            .api()
            .post(
                "/scopes",
                """
                {"code":"dry-night","name":"Dry night","leavesOut":["Tarp","guy line","STAKE"]}""")
            .expect(201);
    assertThat(made.header("Location")).isEqualTo("/api/v1/scopes/dry-night");
    assertThat(made.json().path("leavesOut")).hasToString("[\"tarp\",\"guy line\",\"stake\"]");
    ledger
        .api()
        .post(
            "/scopes",
            """
            {"code":"roof","name":"Roof","counts":["tarp","peak pole"]}""")
        .expect(201);

    assertThat(codes(ledger)).hasSize(7).endsWith("dry-night", "roof");
    assertThat(codes(other)).hasSize(5);
    other.api().get("/scopes/roof").expect(404);
  }

  @Test
  void both_ways_or_neither_are_refused(TestLedger ledger) {
    for (String body :
        List.of(
            """
            {"code":"x","name":"X"}""",
            """
            {"code":"x","name":"X","leavesOut":[]}""",
            """
            {"code":"x","name":"X","leavesOut":["tarp"],"counts":["body"]}""")) {
      assertThat(RigResourceTest.pointers(ledger.api().post("/scopes", body).expect(400)))
          .containsExactly("#/leavesOut");
    }
    assertThat(codes(ledger)).hasSize(5);
  }

  @Test
  void a_taken_code_and_an_empty_role_are_refused(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scopes",
            """
            {"code":"Complete","name":"X","leavesOut":["tarp"]}""")
        .expect(409);
    Answer empty =
        ledger
            .api()
            .post(
                "/scopes",
                """
                {"code":"x","name":"","leavesOut":["tarp"," "]}""")
            .expect(400);
    assertThat(RigResourceTest.pointers(empty)).containsExactly("#/name", "#/leavesOut/1");
    assertThat(codes(ledger)).hasSize(5);
  }
}
