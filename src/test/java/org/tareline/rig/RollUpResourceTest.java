package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rig.Workshop.Line.part;
import static org.tareline.rig.Workshop.Line.rig;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tareline.rig.Workshop.Line;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/**
 * By hand: a stated mass within ±a has u = a/√3 (JCGM 100:2008, 4.3.7), so the body of 200 g ± 6 g
 * has u² = 12 g², two straps of 30 g ± 3 g have u² = (2 × √3 g)² = 12 g² and two bars of 100 g ± 3
 * g the same.
 */
@FeatureTest
class RollUpResourceTest {

  private static final double K = 1.959964;

  private static double number(JsonNode node, String pointer) {
    return Double.parseDouble(node.at(pointer).asString());
  }

  private static Workshop hang(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("BODY", "200 g", "6 g");
    workshop.stated("STRAP", "30 g", "3 g");
    workshop.stated("BAR", "100 g", "3 g");
    workshop.rig("KIT", part("STRAP", 2, "tree strap"));
    workshop.rig(
        "HANG",
        part("BODY", 1, "body"),
        rig("KIT", 1, "suspension"),
        part("BAR", 2, "spreader bar"));
    return workshop;
  }

  @Test
  void the_complete_total_is_what_a_hand_computes(TestLedger ledger) {
    hang(ledger);

    JsonNode rollUp = ledger.api().get("/rigs/hang/roll-up").expect(200).json();

    assertThat(rollUp.path("rig").asString()).isEqualTo("HANG");
    assertThat(rollUp.path("scope").asString()).isEqualTo("complete");
    assertThat(rollUp.path("revision").asInt()).isEqualTo(1);
    assertThat(rollUp.at("/estimate/mass/value").asString()).isEqualTo("460");
    assertThat(rollUp.at("/estimate/mass/unit").asString()).isEqualTo("g");
    assertThat(number(rollUp, "/estimate/standardUncertainty/value")).isCloseTo(6, within(1e-9));
    assertThat(number(rollUp, "/estimate/expandedUncertainty/value"))
        .isCloseTo(6 * K, within(1e-9));
    assertThat(rollUp.at("/estimate/coverageFactor").asString()).isEqualTo("1.959964");
    assertThat(rollUp.at("/estimate/effectiveDegreesOfFreedom").asString()).isEqualTo("infinite");
    assertThat(rollUp.at("/estimate/basis").asString()).isEqualTo("estimated");
    assertThat(rollUp.at("/estimate/unweighedLines").asInt()).isEqualTo(3);
    assertThat(rollUp.at("/estimate/atLeast").isMissingNode()).isTrue();
    assertThat(rollUp.path("omitted")).isEmpty();
  }

  @Test
  void the_breakdown_says_what_each_line_adds_and_how_much_of_the_doubt_is_its(TestLedger ledger) {
    hang(ledger);

    JsonNode lines = ledger.api().get("/rigs/HANG/roll-up").expect(200).json().path("lines");

    assertThat(lines).hasSize(3);
    JsonNode kit = lines.path(1);
    assertThat(kit.path("rig").asString()).isEqualTo("KIT");
    assertThat(kit.has("part")).isFalse();
    assertThat(kit.path("role").asString()).isEqualTo("suspension");
    assertThat(kit.at("/estimate/mass/value").asString()).isEqualTo("60");
    assertThat(number(kit, "/estimate/standardUncertainty/value"))
        .isCloseTo(Math.sqrt(12), within(1e-9));
    assertThat(number(kit, "/shareOfMass")).isCloseTo(60.0 / 460, within(1e-12));
    assertThat(number(kit, "/shareOfVariance")).isCloseTo(12.0 / 36, within(1e-12));
    JsonNode strap = kit.path("lines").path(0);
    assertThat(strap.path("part").asString()).isEqualTo("STRAP");
    assertThat(strap.path("quantity").asInt()).isEqualTo(2);
    assertThat(strap.path("estimate")).isEqualTo(kit.path("estimate"));
    assertThat(strap.has("lines")).isFalse();
    double ofMass = 0;
    double ofVariance = 0;
    for (JsonNode line : lines) {
      ofMass += number(line, "/shareOfMass");
      ofVariance += number(line, "/shareOfVariance");
    }
    assertThat(ofMass).isCloseTo(1, within(1e-12));
    assertThat(ofVariance).isCloseTo(1, within(1e-12));
    assertThat(lines.path(0).path("line").asString())
        .isEqualTo(
            ledger.api().get("/rigs/HANG").json().path("lines").path(0).path("id").asString());
  }

  @Test
  void a_scope_leaves_out_bars_and_says_so(TestLedger ledger) {
    hang(ledger);

    JsonNode rollUp = ledger.api().get("/rigs/HANG/roll-up?scope=bars-out").expect(200).json();

    assertThat(rollUp.path("scope").asString()).isEqualTo("bars-out");
    assertThat(rollUp.at("/estimate/mass/value").asString()).isEqualTo("260");
    assertThat(number(rollUp, "/estimate/standardUncertainty/value"))
        .isCloseTo(Math.sqrt(24), within(1e-9));
    assertThat(rollUp.path("omitted")).hasSize(1);
    JsonNode bar = rollUp.path("omitted").path(0);
    assertThat(bar.path("path")).hasToString("[\"HANG\"]");
    assertThat(bar.path("part").asString()).isEqualTo("BAR");
    assertThat(bar.path("role").asString()).isEqualTo("spreader bar");
    assertThat(bar.path("quantity").asInt()).isEqualTo(2);
  }

  @Test
  void a_nested_line_left_out_is_found_by_its_path(TestLedger ledger) {
    hang(ledger);
    Workshop workshop = new Workshop(ledger);
    workshop.rig("CAMP", rig("HANG", 3, "body"));
    ledger
        .api()
        .post(
            "/scopes",
            """
            {"code":"no-straps","name":"Straps out","leavesOut":["Tree Strap"]}""")
        .expect(201);

    JsonNode rollUp = ledger.api().get("/rigs/CAMP/roll-up?scope=no-straps").expect(200).json();

    assertThat(rollUp.at("/estimate/mass/value").asString()).isEqualTo("1200");
    JsonNode omitted = rollUp.path("omitted").path(0);
    assertThat(omitted.path("path")).hasToString("[\"CAMP\",\"HANG\",\"KIT\"]");
    assertThat(omitted.path("count").asInt()).isEqualTo(6);
  }

  @Test
  void what_has_no_mass_is_null_and_makes_the_total_a_least_one(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.unknown("NET");
    workshop.rig("INNER", part("NET", 1, "bug net"));
    workshop.rig("WHOLE", rig("HANG", 1, "body"), rig("INNER", 1, "bug net"));

    JsonNode rollUp = ledger.api().get("/rigs/WHOLE/roll-up").expect(200).json();

    assertThat(rollUp.at("/estimate/mass/value").asString()).isEqualTo("460");
    assertThat(rollUp.at("/estimate/atLeast").asBoolean()).isTrue();
    assertThat(rollUp.at("/estimate/missing")).hasToString("[\"NET\"]");
    assertThat(rollUp.at("/estimate/unweighedLines").asInt()).isEqualTo(4);
    JsonNode inner = rollUp.path("lines").path(1);
    assertThat(inner.path("estimate").isNull()).isTrue();
    assertThat(inner.path("basis").isNull()).isTrue();
    assertThat(inner.at("/lines/0/estimate").isNull()).isTrue();
    assertThat(rollUp.at("/lines/0/estimate/missing").isMissingNode()).isTrue();
  }

  @Test
  void weighed_parts_on_one_scale_make_a_mixed_total_with_the_rest(TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.scale("BENCH", "1 g");
    workshop.weigh(workshop.stated("NET", "90 g", "5 g"), "BENCH", "120 g");
    workshop.rig("WHOLE", rig("HANG", 1, "body"), part("NET", 1, "bug net"));

    JsonNode rollUp = ledger.api().get("/rigs/WHOLE/roll-up").expect(200).json();

    assertThat(rollUp.at("/estimate/mass/value").asString()).isEqualTo("580");
    assertThat(rollUp.at("/estimate/basis").asString()).isEqualTo("mixed");
    assertThat(rollUp.at("/estimate/unweighedLines").asInt()).isEqualTo(3);
    // Repeatability 0.05 g of one reading, and 1/√12 g for the load and once more for the zero.
    assertThat(number(rollUp, "/estimate/standardUncertainty/value"))
        .isCloseTo(Math.sqrt(36 + 0.0025 + 2.0 / 12), within(1e-9));
    assertThat(rollUp.at("/lines/1/basis").asString()).isEqualTo("weighed");
  }

  @Test
  void the_answer_is_in_the_unit_that_is_asked_for(TestLedger ledger) {
    hang(ledger);

    JsonNode inOunces = ledger.api().get("/rigs/HANG/roll-up?unit=oz").expect(200).json();

    assertThat(inOunces.at("/estimate/mass/unit").asString()).isEqualTo("[oz_av]");
    // 1 oz is 28.349523125 g exactly (NIST HB 44 App. C).
    assertThat(number(inOunces, "/estimate/mass/value"))
        .isCloseTo(460 / 28.349523125, within(1e-12));
    Answer refused = ledger.api().get("/rigs/HANG/roll-up?unit=mm").expect(400);
    assertThat(RigResourceTest.pointers(refused)).containsExactly("#/unit");
    ledger.api().get("/rigs/HANG/roll-up?unit=stones").expect(400);
  }

  @Test
  void a_scope_or_rig_that_is_not_there_is_404_and_named(TestLedger ledger) {
    hang(ledger);

    Answer answer = ledger.api().get("/rigs/HANG/roll-up?scope=summit").expect(404);

    assertThat(answer.json().path("detail").asString()).contains("summit");
    ledger.api().get("/rigs/GONE/roll-up").expect(404);
  }

  @Test
  void the_number_of_sql_statements_does_not_depend_on_the_size_or_depth_of_the_tree(
      TestLedger ledger) {
    Workshop workshop = hang(ledger);
    workshop.scale("BENCH", "0.1 g");
    List<Line> stakes = new ArrayList<>();
    for (int i = 0; i < 150; i++) {
      workshop.weigh(workshop.stated("STAKE" + i, "9 g", "1 g"), "BENCH", "10 g");
      stakes.add(part("STAKE" + i, 1, "stake"));
    }
    workshop.rig("DEEP0", stakes.toArray(Line[]::new));
    for (int level = 1; level < 12; level++) {
      workshop.rig("DEEP" + level, rig("DEEP" + (level - 1), 1, "other"), part("BODY", 1, "body"));
    }
    // One that is weighed and one that is not: what is not is looked for in cut lists.
    workshop.stated("PEG", "9 g", "1 g");
    workshop.rig("SMALL", part("STAKE0", 1, "stake"), part("PEG", 1, "stake"));
    workshop.rig("LARGE", rig("DEEP11", 1, "other"), rig("HANG", 1, "body"));

    List<String> small =
        ledger.statements(() -> ledger.api().get("/rigs/SMALL/roll-up").expect(200));
    List<String> large =
        ledger.statements(() -> ledger.api().get("/rigs/LARGE/roll-up").expect(200));

    assertThat(small).isNotEmpty();
    assertThat(large).as("%s", large).hasSameSizeAs(small);
    assertThat(ledger.api().get("/rigs/LARGE/roll-up").json().at("/estimate/mass/value").asString())
        .isEqualTo(String.valueOf(150 * 10 + 11 * 200 + 460));
  }
}
