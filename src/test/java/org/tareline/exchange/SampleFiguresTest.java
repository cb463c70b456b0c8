package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/**
 * What the sample ledger adds up to. The figures were worked out from the files by a program apart,
 * in fractions; the README quotes some of them.
 */
@FeatureTest
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SampleFiguresTest {

  private Api api;

  @BeforeAll
  void takeTheSampleIn(TestServer server) {
    api = server.openSampleLedger().api();
  }

  @ParameterizedTest
  @CsvSource({
    "BRIDGE-3-SUMMER, complete, 2665.49 ± 3.15",
    "BRIDGE-3-SUMMER, anchor-to-anchor, 964.49 ± 1.39",
    "BRIDGE-3-SUMMER, anchor-to-anchor-bars-out, 693.52 ± 1.16",
    "BRIDGE-3-SUMMER, quilts-only, 1136.70 ± 1.30",
    "GATHERED-2-SUMMER, complete, 2136.34 ± 2.47",
    "GATHERED-2-SUMMER, anchor-to-anchor, 654.71 ± 0.82",
    "GATHERED-2-SUMMER, anchor-to-anchor-bars-out, 654.71 ± 0.82",
    "GATHERED-2-SUMMER, roof-and-hang, 1026.62 ± 1.24"
  })
  void a_rig_of_the_sample_rolls_up_to(String rig, String scope, String grams) {
    JsonNode estimate = rollUp(rig, scope).get("estimate");

    assertThat(grams(estimate)).isEqualTo(grams);
    assertThat(estimate.get("basis").asString()).isEqualTo("weighed");
    assertThat(estimate.get("unweighedLines").asInt()).isZero();
    assertThat(estimate.has("missing")).isFalse();
  }

  @Test
  void anchor_to_anchor_leaves_out_what_is_no_part_of_the_hang() {
    assertThat(rollUp("GATHERED-2-SUMMER", "anchor-to-anchor").get("omitted"))
        .extracting(line -> line.get("role").asString())
        .containsExactlyInAnyOrder(
            "drip line", "underquilt", "top quilt", "pillow", "stuff sack", "tarp");
  }

  @Test
  void the_planned_rig_is_at_least_so_heavy_and_names_what_is_not_cut_yet() {
    JsonNode estimate = rollUp("BRIDGE-4-PLAN", "complete").get("estimate");

    assertThat(grams(estimate)).isEqualTo("286.26 ± 8.08");
    assertThat(estimate.get("basis").asString()).isEqualTo("mixed");
    assertThat(estimate.get("atLeast").asBoolean()).isTrue();
    assertThat(estimate.get("missing")).extracting(JsonNode::asString).containsExactly("B4-BODY");
  }

  @ParameterizedTest
  @CsvSource({
    "complete, -529.15 ± 1.09",
    "anchor-to-anchor, -309.78 ± 0.94",
    "anchor-to-anchor-bars-out, -38.82 ± 0.86"
  })
  void the_gathered_one_is_lighter_than_the_bridge_by(String scope, String grams) {
    JsonNode total = compare(scope).get("total");

    assertThat(grams(total.get("difference"))).isEqualTo(grams);
    assertThat(total.get("verdict").asString()).isEqualTo("lighter");
  }

  @Test
  void role_by_role_the_scales_cannot_tell_the_ridge_lines_apart_yet() {
    List<String> roles =
        StreamSupport.stream(compare("anchor-to-anchor-bars-out").get("roles").spliterator(), false)
            .map(
                role ->
                    role.get("role").asString()
                        + ": "
                        + grams(role.get("difference"))
                        + ", "
                        + role.get("verdict").asString())
            .toList();

    assertThat(roles)
        .containsExactlyInAnyOrder(
            "body: -114.73 ± 0.23, lighter",
            "suspension: -11.27 ± 0.16, lighter",
            "continuous loop: 0.00 ± 0.00, undecided",
            "tree strap: 0.00 ± 0.00, undecided",
            "hardware: 0.00 ± 0.00, undecided",
            "structural ridge line: -0.43 ± 0.81, undecided",
            "bug net: 87.62 ± 0.19, heavier");
  }

  @ParameterizedTest
  @CsvSource({
    "base, 5597.01 ± 16.14",
    "worn, 1747.95 ± 11.02",
    "consumables, 4306.22 ± 125.71",
    "totalPack, 9903.23 ± 126.74",
    "skinOut, 11651.18 ± 127.30"
  })
  void the_trip_of_the_sample_weighs(String total, String grams) {
    assertThat(grams(weights().get(total))).isEqualTo(grams);
  }

  @Test
  void the_pack_of_the_trip_weighs_at_least_so_much_for_one_thing_was_never_weighed() {
    assertThat(weights().get("totalPack").get("missing"))
        .extracting(JsonNode::asString)
        .containsExactly("HEAD-NET");
    assertThat(weights().get("warnings"))
        .extracting(warning -> warning.get("kind").asString())
        .containsOnly("cold-night", "not-weighed");
  }

  @Test
  void the_underquilt_of_the_sample_is_for_milder_nights_than_its_trip_expects() {
    assertThat(weights().get("warnings").get(0).get("message").asString())
        .isEqualTo(
            "Nights, below: Underquilt for the bridge is stated for nights down to 6 °C (the"
                + " maker's own figure), and a night of 4 °C is expected: 2 K too little.");
  }

  /**
   * By hand, morning to evening, in g: food 1200 to 600, 600 to 0, 1800 to 1200, 1200 to 600, 600
   * to 0; water 2000 to 500, 1500 to 0, 1500 to 500, 1500 to 0, 500 to 0; spirit 300 mL at 0.8 g/mL
   * are 240, and 40 less each day.
   */
  @Test
  void the_shared_trip_of_the_sample_is_by_day_what_its_consumables_are() {
    JsonNode weights = api.get("/trips/MOOR-JUN/weights").expect(200).json();
    double base = value(weights.get("base"));

    List<Long> mornings = new ArrayList<>();
    List<Long> evenings = new ArrayList<>();
    for (JsonNode day : weights.get("byDay")) {
      mornings.add(Math.round(value(day.get("start")) - base));
      evenings.add(Math.round(value(day.get("end")) - base));
    }
    assertThat(mornings).containsExactly(3440L, 2300L, 3460L, 2820L, 1180L);
    assertThat(evenings).containsExactly(1300L, 160L, 1820L, 680L, 40L);
    assertThat(weights.get("heaviest").get("day").asInt()).isEqualTo(3);
    assertThat(value(weights.get("byCarrier").get(0).get("base")))
        .isEqualTo(base - value(weights.get("byCarrier").get(1).get("base")), within(1e-6));
  }

  /** Two poles serve for two bars, and the tips and drip lines stay at home. */
  @Test
  void the_bars_of_the_shared_trip_are_counted_once_as_poles() {
    double whole =
        value(api.get("/rigs/BRIDGE-3-SUMMER/roll-up").expect(200).json().get("estimate"));
    double bars = value(api.get("/rigs/B3-BARS/roll-up").expect(200).json().get("estimate"));
    double drips = 2 * value(api.get("/parts/DRIP").expect(200).json().get("estimate"));
    double pack = value(api.get("/parts/PACK").expect(200).json().get("estimate"));

    assertThat(
            value(
                api.get("/trips/MOOR-JUN/weights")
                    .expect(200)
                    .json()
                    .get("byCarrier")
                    .get(0)
                    .get("base")))
        .isEqualTo(whole - bars - drips + pack, within(1e-6));
  }

  private static double value(JsonNode estimate) {
    return Double.parseDouble(estimate.get("mass").get("value").asString());
  }

  /**
   * By the areas and lengths of the cut lists, worked out apart in plain arithmetic with the plain
   * mean of the swatches; the surer ones count for a little more, which moves it below 0.01 g.
   */
  @ParameterizedTest
  @CsvSource({
    "B3-BODY, 433.25, true",
    "B3-LEG, 7.44, true",
    "B3-NET, 118.96, true",
    "G2-BODY, 318.78, true",
    "G2-SLING, 9.21, true",
    "G2-NET, 207.58, true",
    "G2-RIDGE, 11.59, true",
    "TARP-4, 405.58, true",
    "TARP-2, 256.52, true"
  })
  void a_cut_list_of_the_sample_comes_to(String part, double grams, boolean agrees) {
    JsonNode against =
        api.get("/parts/" + part).expect(200).json().path("calculatedAgainstWeighed");

    assertThat(number(against.at("/calculated/mass"), "value")).isCloseTo(grams, within(0.01));
    assertThat(against.path("agrees").asBoolean()).isEqualTo(agrees);
  }

  @Test
  void both_tarps_say_that_their_cloth_is_heavier_than_is_printed_and_both_bodies_say_nothing() {
    // 421.767 g over 405.583 g, and 266.467 g over 256.517 g, of the weighings and cut lists.
    JsonNode tarps = api.get("/materials/SIL-15").expect(200).json().path("learned");
    assertThat(tarps.path("parts"))
        .extracting(part -> part.path("code").asString() + " " + digits(part, "ratio"))
        .containsExactly("TARP-2 1.0388", "TARP-4 1.0399");
    assertThat(tarps.path("agree").asBoolean()).isTrue();
    assertThat(number(tarps, "value") - number(tarps, "expandedUncertainty")).isGreaterThan(1);

    JsonNode bodies = api.get("/materials/RIP-40").expect(200).json().path("learned");
    assertThat(bodies.path("parts"))
        .extracting(part -> part.path("code").asString() + " " + digits(part, "ratio"))
        .containsExactly("B3-BODY 1.0009", "G2-BODY 1.0004");
    assertThat(Math.abs(number(bodies, "value") - 1))
        .isLessThan(number(bodies, "expandedUncertainty"));
  }

  private static double number(JsonNode node, String field) {
    return Double.parseDouble(node.path(field).asString());
  }

  private static String digits(JsonNode node, String field) {
    return new BigDecimal(node.path(field).asString())
        .setScale(4, RoundingMode.HALF_EVEN)
        .toPlainString();
  }

  private JsonNode weights() {
    return api.get("/trips/UPLAND-SEP/weights").expect(200).json();
  }

  private JsonNode rollUp(String rig, String scope) {
    return api.get("/rigs/{rig}/roll-up?scope={scope}", rig, scope).expect(200).json();
  }

  private JsonNode compare(String scope) {
    return api.get("/compare?rig=BRIDGE-3-SUMMER&rig=GATHERED-2-SUMMER&scope={scope}", scope)
        .expect(200)
        .json();
  }

  private static String grams(JsonNode estimate) {
    return rounded(estimate.get("mass")) + " ± " + rounded(estimate.get("expandedUncertainty"));
  }

  private static String rounded(JsonNode quantity) {
    assertThat(quantity.get("unit").asString()).isEqualTo("g");
    return new BigDecimal(quantity.get("value").asString())
        .setScale(2, RoundingMode.HALF_EVEN)
        .toPlainString();
  }
}
