package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.tareline.rig.Workshop.Line.part;

import org.junit.jupiter.api.Test;
import org.tareline.part.Part;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** By hand, as in {@link RollUpResourceTest}: within ±a, u = a/√3. */
@FeatureTest
class CompareResourceTest {

  private static final double K = 1.959964;

  private static double number(JsonNode node, String pointer) {
    return Double.parseDouble(node.at(pointer).asString());
  }

  private static JsonNode role(JsonNode comparison, String role) {
    return comparison
        .path("roles")
        .valueStream()
        .filter(one -> one.path("role").asString().equals(role))
        .findFirst()
        .orElseThrow();
  }

  /** Both hang the same body; the second has lighter straps and bars that the first lacks. */
  private static Workshop twoHangs(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("BODY", "200 g", "6 g");
    workshop.stated("WEBBING", "90 g", "3 g");
    workshop.stated("CORD", "30 g", "3 g");
    workshop.stated("BAR", "100 g", "3 g");
    workshop.rig("OLDER", part("BODY", 1, "body"), part("WEBBING", 1, "suspension"));
    workshop.rig(
        "NEWER",
        part("BODY", 1, "body"),
        part("CORD", 1, "suspension"),
        part("BAR", 2, "spreader bar"));
    return workshop;
  }

  @Test
  void the_second_is_told_from_the_first_in_total_and_by_role(TestLedger ledger) {
    twoHangs(ledger);

    JsonNode json =
        ledger.api().get("/compare?rig=older&rig=newer&scope=bars-out").expect(200).json();

    assertThat(json.path("scope").asString()).isEqualTo("bars-out");
    assertThat(json.path("first").asString()).isEqualTo("OLDER");
    assertThat(json.path("second").asString()).isEqualTo("NEWER");
    assertThat(json.at("/total/a/mass/value").asString()).isEqualTo("290");
    assertThat(json.at("/total/b/mass/value").asString()).isEqualTo("230");
    assertThat(json.at("/total/difference/mass/value").asString()).isEqualTo("-60");
    // The body is in both and cancels, error and all: u² = 3 + 3.
    assertThat(number(json, "/total/difference/standardUncertainty/value"))
        .isCloseTo(Math.sqrt(6), within(1e-9));
    assertThat(number(json, "/total/difference/expandedUncertainty/value"))
        .isCloseTo(K * Math.sqrt(6), within(1e-9));
    assertThat(json.at("/total/verdict").asString()).isEqualTo("lighter");
    assertThat(json.path("roles")).hasSize(2);
    assertThat(role(json, "suspension").path("verdict").asString()).isEqualTo("lighter");
    assertThat(number(role(json, "suspension"), "/difference/mass/value")).isEqualTo(-60);
    assertThat(role(json, "body").path("verdict").asString()).isEqualTo("undecided");
    assertThat(number(role(json, "body"), "/difference/mass/value")).isZero();
    assertThat(number(role(json, "body"), "/difference/standardUncertainty/value")).isZero();
    assertThat(role(json, "body").at("/a/basis").asString()).isEqualTo("estimated");
    assertThat(json.has("others")).isFalse();
  }

  @Test
  void a_role_that_one_side_lacks_is_null_there_and_counts_as_nothing(TestLedger ledger) {
    twoHangs(ledger);

    JsonNode json = ledger.api().get("/compare?rig=OLDER&rig=NEWER").expect(200).json();
    JsonNode bars = role(json, "spreader bar");

    assertThat(json.path("scope").asString()).isEqualTo("complete");
    assertThat(json.at("/total/verdict").asString()).isEqualTo("heavier");
    assertThat(bars.path("a").isNull()).isTrue();
    assertThat(bars.at("/b/mass/value").asString()).isEqualTo("200");
    assertThat(bars.at("/difference/mass/value").asString()).isEqualTo("200");
    assertThat(bars.path("verdict").asString()).isEqualTo("heavier");
    JsonNode back = ledger.api().get("/compare?rig=NEWER&rig=OLDER").expect(200).json();
    assertThat(role(back, "spreader bar").path("b").isNull()).isTrue();
    assertThat(role(back, "spreader bar").path("verdict").asString()).isEqualTo("lighter");
    assertThat(back.at("/total/verdict").asString()).isEqualTo("lighter");
  }

  @Test
  void a_difference_within_its_uncertainty_is_undecided(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.stated("A", "100 g", "3 g");
    workshop.stated("B", "104 g", "3 g");
    workshop.stated("C", "105 g", "3 g");
    workshop.rig("RA", part("A", 1, "body"));
    workshop.rig("RB", part("B", 1, "body"));
    workshop.rig("RC", part("C", 1, "body"));

    // U = 1.959964 × √6 g = 4.8009 g stands between 4 g and 5 g.
    assertThat(ledger.api().get("/compare?rig=RA&rig=RB").json().at("/total/verdict").asString())
        .isEqualTo("undecided");
    assertThat(ledger.api().get("/compare?rig=RA&rig=RC").json().at("/total/verdict").asString())
        .isEqualTo("heavier");
  }

  @Test
  void a_missing_mass_that_differs_leaves_it_undecided(TestLedger ledger) {
    Workshop workshop = twoHangs(ledger);
    workshop.unknown("NET");
    workshop.rig("NETTED", part("BODY", 1, "body"), part("NET", 1, "bug net"));
    workshop.rig(
        "NETTED TOO",
        part("BODY", 1, "body"),
        part("NET", 1, "bug net"),
        part("BAR", 1, "spreader bar"));

    JsonNode json = ledger.api().get("/compare?rig=OLDER&rig=NETTED").expect(200).json();

    assertThat(json.at("/total/verdict").asString()).isEqualTo("undecided");
    assertThat(json.at("/total/b/atLeast").asBoolean()).isTrue();
    assertThat(json.at("/total/b/missing")).hasToString("[\"NET\"]");
    assertThat(json.at("/total/a/atLeast").isMissingNode()).isTrue();
    assertThat(role(json, "bug net").path("verdict").asString()).isEqualTo("undecided");
    assertThat(role(json, "suspension").path("verdict").asString()).isEqualTo("lighter");
    JsonNode bothLack =
        ledger.api().get("/compare?rig={a}&rig={b}", "NETTED", "NETTED TOO").expect(200).json();
    assertThat(bothLack.at("/total/verdict").asString()).isEqualTo("heavier");
  }

  @Test
  void parts_weighed_on_one_scale_share_its_span_error(TestLedger ledger) {
    Workshop workshop = new Workshop(ledger);
    workshop.scaleWithSpan("SHED", "0.1 g", "1 %");
    Part a = workshop.unknown("A");
    Part b = workshop.unknown("B");
    workshop.weigh(a, "SHED", "200 g");
    workshop.weigh(b, "SHED", "201 g");
    workshop.rig("RA", part("A", 1, "body"));
    workshop.rig("RB", part("B", 1, "body"));

    JsonNode json = ledger.api().get("/compare?rig=RA&rig=RB").expect(200).json();

    // Each alone is unsure by more than 1 g, but of the span only that of the one gram remains.
    assertThat(number(json, "/total/a/expandedUncertainty/value")).isGreaterThan(2);
    double resolution = 4 * 0.01 / 12;
    double repeatability = 2 * 0.05 * 0.05;
    double span = Math.pow(1 * 0.01 / Math.sqrt(3), 2);
    assertThat(number(json, "/total/difference/standardUncertainty/value"))
        .isCloseTo(Math.sqrt(resolution + repeatability + span), within(1e-9));
    assertThat(json.at("/total/verdict").asString()).isEqualTo("heavier");
  }

  @Test
  void a_rig_against_itself_differs_by_exactly_nothing(TestLedger ledger) {
    twoHangs(ledger);

    JsonNode json = ledger.api().get("/compare?rig=OLDER&rig=OLDER").expect(200).json();

    assertThat(number(json, "/total/difference/mass/value")).isZero();
    assertThat(number(json, "/total/difference/expandedUncertainty/value")).isZero();
    assertThat(json.at("/total/verdict").asString()).isEqualTo("undecided");
  }

  @Test
  void more_than_two_are_each_compared_with_the_first(TestLedger ledger) {
    Workshop workshop = twoHangs(ledger);
    workshop.rig("BARE", part("BODY", 1, "body"));

    JsonNode json = ledger.api().get("/compare?rig=OLDER&rig=NEWER&rig=BARE").expect(200).json();

    assertThat(json.path("second").asString()).isEqualTo("NEWER");
    assertThat(json.path("others")).hasSize(1);
    assertThat(json.at("/others/0/second").asString()).isEqualTo("BARE");
    assertThat(json.at("/others/0/total/a/mass/value").asString()).isEqualTo("290");
    assertThat(json.at("/others/0/total/difference/mass/value").asString()).isEqualTo("-90");
    assertThat(json.at("/others/0/total/verdict").asString()).isEqualTo("lighter");
  }

  @Test
  void what_is_lighter_and_weaker_says_both_with_the_cautions(TestLedger ledger) {
    Api api = ledger.api();
    for (String[] one : new String[][] {{"THICK", "7 kN", "30 g"}, {"THIN", "3 kN", "10 g"}}) {
      api.post(
              "/parts",
              """
              {"code":"%s","name":"Line","system":"hang","strength":"%s","stated":{"mass":"%s","tolerance":"1 g"}}"""
                  .formatted((Object[]) one))
          .expect(201);
      api.post(
              "/rigs",
              "{\"code\":\"R-%1$s\",\"name\":\"Rig\",\"lines\":[{\"part\":\"%1$s\",\"role\":\"suspension\"}]}"
                  .formatted(one[0]))
          .expect(201);
    }
    String compared = "/compare?rig=R-THICK&rig=R-THIN";
    assertThat(api.get(compared).expect(200).json().has("strength")).isFalse();

    hang(api, "THICK");
    JsonNode one = api.get(compared).expect(200).json().path("strength");
    assertThat(one.path("verdict").asString()).isEqualTo("not-known");
    assertThat(one.path("b").isNull()).isTrue();

    hang(api, "THIN");
    JsonNode both = api.get(compared).expect(200).json();
    assertThat(both.at("/total/verdict").asString()).isEqualTo("lighter");
    assertThat(both.at("/strength/verdict").asString()).isEqualTo("weaker");
    assertThat(both.at("/strength/a/verdict").asString()).isEqualTo("meets");
    assertThat(both.at("/strength/b/verdict").asString()).isEqualTo("below");
    // 3 kN over 100 kg at 30°, 980.665 N.
    assertThat(Double.parseDouble(both.at("/strength/b/least/factor").asString()))
        .isCloseTo(3000 / 980.665, within(1e-8));
    assertThat(both.at("/strength/cautions")).hasSize(Cautions.ALL.size());

    // With something of unknown strength in the stronger, that may be the weaker of the two.
    api.post("/parts", "{\"code\":\"KNOB\",\"name\":\"Knob\",\"system\":\"hang\"}").expect(201);
    api.put(
            "/rigs/R-THICK",
            """
            {"name":"Rig","lines":[{"part":"THICK","role":"suspension"},{"part":"KNOB","role":"hardware"}]}""")
        .expect(200);
    hang(api, "THICK", ",{\"part\":\"KNOB\",\"where\":\"suspension\"}");
    assertThat(api.get(compared).expect(200).json().at("/strength/verdict").asString())
        .isEqualTo("not-known");
  }

  private static void hang(Api api, String part) {
    hang(api, part, "");
  }

  private static void hang(Api api, String part, String more) {
    api.put(
            "/rigs/R-" + part + "/loads/set-up",
            """
            {"lies":"100 kg","ends":[{"angle":"30 deg"},{"angle":"30 deg"}],
             "elements":[{"part":"%s","where":"suspension","termination":"as rated"}%s]}"""
                .formatted(part, more))
        .expect(200);
  }

  @Test
  void fewer_than_two_are_refused(TestLedger ledger) {
    twoHangs(ledger);

    Answer one = ledger.api().get("/compare?rig=OLDER").expect(400);
    assertThat(RigResourceTest.pointers(one)).containsExactly("#/rig");
    ledger.api().get("/compare").expect(400);
  }

  @Test
  void an_unknown_rig_is_named(TestLedger ledger, TestLedger theirs) {
    twoHangs(ledger);
    new Workshop(theirs).rig("THEIRS");

    Answer unknown = ledger.api().get("/compare?rig=OLDER&rig=GONE").expect(404);
    assertThat(unknown.json().path("detail").asString()).contains("GONE");
    ledger.api().get("/compare?rig=OLDER&rig=THEIRS").expect(404);
    ledger.api().get("/compare?rig=OLDER&rig=NEWER&scope=GONE").expect(404);
  }
}
