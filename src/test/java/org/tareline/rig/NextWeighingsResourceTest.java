package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/**
 * By hand: a stated mass within ±a has u = a/√3 (JCGM 100:2008, 4.3.7), so the body of 200 g ± 6 g
 * has u² = 12 g² and two straps of 30 g ± 3 g have (2 × √3 g)² = 12 g²; the bar's ± 9 g make 27 g².
 */
@FeatureTest
class NextWeighingsResourceTest {

  private static final double K = 1.959964;

  /** u² of one reading: 0.05² for the readings and 2 × 0.1²/12 g² for load and zero. */
  private static final double ONE_READING = 0.0025 + 0.02 / 12;

  private static Workshop hang(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("BODY", "200 g", "6 g");
    workshop.stated("STRAP", "30 g", "3 g");
    workshop.stated("BAR", "100 g", "9 g");
    workshop.unknown("NET");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"));
    workshop.rig(
        "HANG",
        part("BODY", 1, "body"),
        rig("KIT", 1, "suspension"),
        part("BAR", 1, "spreader bar"),
        part("NET", 1, "bug net"));
    return workshop;
  }

  private static double number(JsonNode node, String pointer) {
    return Double.parseDouble(node.at(pointer).asString());
  }

  @Test
  void parts_are_ordered_by_their_share_with_what_weighing_them_would_leave(TestLedger ledger) {
    hang(ledger).scale("BENCH", "0.1 g");

    JsonNode next = ledger.api().get("/rigs/HANG/next-weighings").expect(200).json();

    assertThat(next.path("scale").asString()).isEqualTo("BENCH");
    assertThat(number(next, "/expandedUncertainty/value"))
        .isCloseTo(K * Math.sqrt(12 + 12 + 27), within(1e-9));
    assertThat(next.path("candidates").valueStream().map(each -> each.path("part").asString()))
        .containsExactly("BAR", "BODY", "STRAP");
    assertThat(number(next, "/candidates/0/shareOfVariance")).isCloseTo(27.0 / 51, within(1e-9));
    assertThat(number(next, "/candidates/0/expandedUncertaintyAfter/value"))
        .isCloseTo(K * Math.sqrt(24 + ONE_READING), within(1e-9));
    // The span and the repeatability are of one scale; it states no span.
    assertThat(number(next, "/candidates/2/expandedUncertaintyAfter/value"))
        .isCloseTo(K * Math.sqrt((1 + 1 + 4) * ONE_READING), within(1e-9));
    assertThat(next.path("notWeighed").path(0).asString()).isEqualTo("NET");
  }

  @Test
  void a_scope_leaves_out_what_need_not_be_weighed(TestLedger ledger) {
    hang(ledger).scale("BENCH", "0.1 g");

    JsonNode next =
        ledger.api().get("/rigs/HANG/next-weighings?scope=hammock-only&unit=oz").expect(200).json();

    assertThat(next.path("candidates").valueStream().map(each -> each.path("part").asString()))
        .containsExactly("BODY");
    assertThat(next.path("notWeighed")).isEmpty();
    assertThat(next.at("/expandedUncertainty/unit").asString()).isEqualTo("[oz_av]");
  }

  @Test
  void the_scale_can_be_named(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.scale("BENCH", "0.1 g");
    workshop.scale("KITCHEN", "1 g");

    JsonNode next = ledger.api().get("/rigs/HANG/next-weighings?scale=kitchen").expect(200).json();

    assertThat(next.path("scale").asString()).isEqualTo("KITCHEN");
    assertThat(number(next, "/candidates/0/expandedUncertaintyAfter/value"))
        .isCloseTo(K * Math.sqrt(24 + 0.0025 + 2.0 / 12), within(1e-9));
    ledger.api().get("/rigs/HANG/next-weighings?scale=none").expect(404);
  }

  @Test
  void a_ledger_without_a_scale_refuses_and_says_why(TestLedger ledger) {
    hang(ledger);

    JsonNode problem = ledger.api().get("/rigs/HANG/next-weighings").expect(400).json();

    assertThat(problem.toString()).contains("Put a scale into the ledger first", "#/scale");
    ledger.api().get("/compare/next-weighings?rig=HANG&rig=KIT").expect(400);
  }

  /** Half-width 2.25 % of what is nylon, rectangular: 0.0225 × 200 g/√3 for the body. */
  @Test
  void the_air_of_the_day_is_counted_where_a_fibre_is_named(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.scale("BENCH", "0.1 g");
    ledger
        .api()
        .put(
            "/parts/BODY",
            Map.of(
                "name",
                "the body",
                "stated",
                Map.of("mass", "200 g", "tolerance", "6 g"),
                "fibre",
                "nylon"))
        .expect(200);

    JsonNode next =
        ledger.api().get("/rigs/HANG/next-weighings?scope=hammock-only").expect(200).json();

    assertThat(number(next, "/candidates/0/expandedUncertaintyAfter/value"))
        .isCloseTo(K * Math.sqrt(Math.pow(0.0225 * 200, 2) / 3 + ONE_READING), within(1e-9));
  }

  @Test
  void for_a_difference_what_both_have_does_not_matter(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.scale("BENCH", "0.1 g");
    workshop.stated("LIGHT", "190 g", "12 g");
    workshop.rig("OTHER", part("LIGHT", 1, "body"), rig("KIT", 1, "suspension"));
    workshop.rig("ONE", part("BODY", 1, "body"), rig("KIT", 1, "suspension"));

    JsonNode next =
        ledger.api().get("/compare/next-weighings?rig=ONE&rig=OTHER").expect(200).json();

    assertThat(next.path("candidates").valueStream().map(each -> each.path("part").asString()))
        .containsExactly("LIGHT", "BODY");
    assertThat(number(next, "/expandedUncertainty/value"))
        .isCloseTo(K * Math.sqrt(12 + 48), within(1e-9));
    assertThat(number(next, "/candidates/0/expandedUncertaintyAfter/value"))
        .isCloseTo(K * Math.sqrt(12 + ONE_READING), within(1e-9));
    ledger.api().get("/compare/next-weighings?rig=ONE").expect(400);
    ledger.api().get("/compare/next-weighings?rig=ONE&rig=OTHER&rig=KIT").expect(400);
  }

  /** Basic 260 g, all stated, with 20 % allowed for it: predicted 312 g. */
  @Test
  void a_target_brings_the_predicted_mass_and_its_margin(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.rig("BARE", part("BODY", 1, "body"), rig("KIT", 1, "suspension"));

    JsonNode predicted =
        ledger.api().get("/rigs/BARE/roll-up?target=400 g").expect(200).json().path("predicted");

    assertThat(predicted.at("/basicMass/value").asString()).isEqualTo("260");
    assertThat(predicted.at("/growthAllowance/value").asString()).isEqualTo("52");
    assertThat(predicted.at("/predictedMass/value").asString()).isEqualTo("312");
    assertThat(predicted.at("/margin/value").asString()).isEqualTo("88");
    assertThat(predicted.at("/margin/unit").asString()).isEqualTo("g");
    assertThat(predicted.at("/marginOfTarget/value").asString()).isEqualTo("22");
    assertThat(predicted.at("/marginOfTarget/unit").asString()).isEqualTo("%");
    // 88/312 is 28.205 128 205 … %.
    assertThat(number(predicted, "/marginOfPredicted/value"))
        .isCloseTo(8800.0 / 312, within(1e-12));
    assertThat(ledger.api().get("/rigs/BARE/roll-up").expect(200).json().has("predicted"))
        .isFalse();
    ledger
        .api()
        .put("/settings", Map.of("growthAllowance", Map.of("estimated", "10 %")))
        .expect(200);
    assertThat(
            ledger
                .api()
                .get("/rigs/BARE/roll-up?target=280 g")
                .expect(200)
                .json()
                .at("/predicted/margin/value")
                .asString())
        .isEqualTo("-6");
  }

  @Test
  void a_target_that_cannot_be_read_is_refused_with_its_place(TestLedger ledger) {
    hang(ledger);
    for (String target : new String[] {"light", "0 g", "-5 g", "4 m"}) {
      assertThat(
              ledger
                  .api()
                  .get("/rigs/HANG/roll-up?target={target}", target)
                  .expect(400)
                  .json()
                  .toString())
          .contains("#/target");
    }
  }
}
