package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

@FeatureTest
class RigWhatIfTest {

  private TestLedger ledger;
  private Api api;

  /** Two of a rig of two bodies, a tarp that was weighed, and a net of which nobody knows more. */
  @BeforeEach
  void aNestedRig(TestLedger fresh) {
    ledger = fresh;
    api = fresh.api();
    post(
        "/materials",
        "'code':'CLOTH','name':'Cloth','kind':'fabric','nominal':'40 g/m²','tolerance':'5 %','width':'1.5 m','price':'12 EUR/m'");
    post(
        "/materials",
        "'code':'LIGHT','name':'Light','kind':'fabric','nominal':'30 g/m²','tolerance':'5 %','width':'1.5 m','price':'10 EUR/m'");
    post(
        "/materials",
        "'code':'CORD','name':'Cord','kind':'cord','nominal':'1.4 g/m','tolerance':'10 %'");
    post("/materials", "'code':'SPARE','name':'Spare','kind':'cord','nominal':'1 g/m'");
    part("BODY", panel("3 m", "1 m") + ",{'kind':'length','material':'CORD','length':'4.4 m'}");
    part("TARP", panel("2 m", "1 m"));
    post("/parts", "'code':'NET','name':'Net','stated':{'mass':'100 g','tolerance':'6 g'}");
    post("/scales", "'code':'K1','name':'Bench','readability':'0.1 g','capacity':'5 kg'");
    post("/weighings", "'part':'TARP','scale':'K1','readings':['85 g']");
    post(
        "/rigs",
        "'code':'INNER','name':'Inner','lines':[{'part':'BODY','quantity':2,'role':'body'}]");
    post(
        "/rigs",
        "'code':'OUTER','name':'Outer','note':'For two','lines':[{'rig':'INNER','quantity':2,'role':'other'},"
            + "{'part':'TARP','role':'tarp'},{'part':'NET','role':'bug net'}]");
  }

  @Test
  void every_part_of_the_material_is_calculated_anew_and_what_stays_cancels() {
    JsonNode whatIf = ask("OUTER", "", "'replace':{'CLOTH':'LIGHT'}").expect(200).json();

    // Four bodies of 3 m² and a tarp of 2 m², 10 g/m² lighter; 4.4 m of cord are 6.16 g.
    assertThat(grams(whatIf.at("/before/mass"))).isCloseTo(4 * 126.16 + 85 + 100, within(1e-9));
    assertThat(grams(whatIf.at("/difference/mass"))).isCloseTo(-140, within(1e-9));
    assertThat(grams(whatIf.at("/after/mass"))).isCloseTo(4 * 96.16 + 65 + 100, within(1e-9));
    assertThat(whatIf.path("verdict").asString()).isEqualTo("lighter");
    // One error for all of a cloth, over 14 m²; one of cutting for each part, four times for the
    // bodies with their 8 m of edges, once for the tarp with its 6 m; the scale and the net cancel.
    double u =
        Math.sqrt(
            (Math.pow(14 * 40 * 0.05, 2)
                    + Math.pow(14 * 30 * 0.05, 2)
                    + Math.pow(4 * 8 * 10 * 0.003, 2)
                    + Math.pow(6 * 10 * 0.003, 2))
                / 3);
    assertThat(grams(whatIf.at("/difference/standardUncertainty"))).isCloseTo(u, within(1e-9));
    // On a roll of 1.5 m: 3 m for each body at 12 and at 10 EUR, and 2 m for the tarp.
    assertThat(whatIf.at("/cost/difference/0/amount").asString()).isEqualTo("-28.00");
    assertThat(whatIf.path("withoutCutList").toString()).isEqualTo("[\"NET\"]");

    JsonNode body = part(whatIf, "BODY");
    assertThat(body.path("count").asInt()).isEqualTo(4);
    assertThat(grams(body.at("/difference/mass"))).isCloseTo(-120, within(1e-9));
    assertThat(body.path("how").asString()).startsWith("By the cut list");
    JsonNode tarp = part(whatIf, "TARP");
    assertThat(grams(tarp.at("/before/mass"))).isEqualTo(85);
    assertThat(grams(tarp.at("/after/mass"))).isEqualTo(65);
    assertThat(tarp.at("/before/basis").asString()).isEqualTo("weighed");
    assertThat(grams(tarp.at("/calculated/before/mass"))).isEqualTo(80);
    assertThat(tarp.path("how").asString()).startsWith("Weighed");
    assertThat(whatIf.at("/strength/0/verdict").asString()).isEqualTo("not-known");
  }

  @Test
  void a_scope_counts_here_as_it_does_in_a_total() {
    JsonNode whatIf =
        ask("OUTER", "?scope=hammock-only", "'replace':{'CLOTH':'LIGHT'}").expect(400).json();
    assertThat(whatIf.at("/errors/0/detail").asString()).contains("counted");

    post(
        "/rigs",
        "'code':'ONE','name':'One','lines':[{'part':'BODY','role':'body'},{'part':'TARP','role':'tarp'}]");
    JsonNode one =
        ask("ONE", "?scope=hammock-only", "'replace':{'CLOTH':'LIGHT'}").expect(200).json();
    assertThat(grams(one.at("/difference/mass"))).isCloseTo(-30, within(1e-9));
    assertThat(one.path("parts")).hasSize(1);
    assertThat(one.path("scope").asString()).isEqualTo("hammock-only");
  }

  @Test
  void a_part_can_stand_in_for_a_part_with_another_material_at_once() {
    post("/parts", "'code':'NET-2','name':'Net 2','stated':{'mass':'80 g','tolerance':'3 g'}");
    part("FLY", panel("2 m", "2 m"));

    JsonNode whatIf =
        ask("OUTER", "", "'replace':{'CLOTH':'LIGHT'},'replaceParts':{'NET':'NET-2','TARP':'FLY'}")
            .expect(200)
            .json();

    // The net 20 g lighter; 4 m² at 30 g/m² for a tarp that weighs 85 g; the bodies as before.
    assertThat(grams(whatIf.at("/difference/mass"))).isCloseTo(-20 + 35 - 120, within(1e-9));
    assertThat(part(whatIf, "FLY").path("count").asInt()).isEqualTo(1);
    assertThat(whatIf.at("/exchanged/1/replaced").asString()).isEqualTo("NET");
    assertThat(grams(whatIf.at("/exchanged/1/difference/standardUncertainty")))
        .isCloseTo(Math.hypot(6, 3) / Math.sqrt(3), within(1e-9));
    assertThat(whatIf.at("/exchanged/1/strength").asString()).isEqualTo("not-known");
    assertThat(whatIf.at("/cost/difference").isNull()).isTrue();
  }

  @Test
  void what_nobody_has_weighed_is_not_nothing() {
    post("/parts", "'code':'NEXT','name':'Next'");

    JsonNode whatIf = ask("OUTER", "", "'replaceParts':{'NET':'NEXT'}").expect(200).json();

    assertThat(whatIf.path("difference").isNull()).isTrue();
    assertThat(whatIf.path("after").isNull()).isTrue();
    assertThat(whatIf.path("verdict").asString()).isEqualTo("undecided");
  }

  @ParameterizedTest(name = "{0}: {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          'replace':{'NONE':'LIGHT'}       | #/replace/NONE      | no material NONE
          'replace':{'SPARE':'CORD'}       | #/replace/SPARE     | no part of OUTER
          'replace':{'CLOTH':'CORD'}       | #/replace/CLOTH     | BODY: CORD is cord
          'replace':{'CLOTH':'CLOTH'}      | #/replace/CLOTH     | by itself
          'replaceParts':{'NONE':'NET'}    | #/replaceParts/NONE | no part NONE
          'replaceParts':{'NET':'NONE'}    | #/replaceParts/NET  | no part NONE
          'replaceParts':{'NET':'net'}     | #/replaceParts/NET  | by itself
          'replaceParts':{'NET':null}      | #/replaceParts/NET  | Give the part
          'replaceParts':{'IDLE':'NET'}    | #/replaceParts/IDLE | nothing is IDLE
          """)
  void what_cannot_be_is_refused_and_nothing_moves(String body, String pointer, String said) {
    part("IDLE", panel("1 m", "1 m"));
    List<Long> before = counts();

    for (Answer refused :
        List.of(ask("OUTER", "", body), variant("OUTER", "'code':'O2'," + body))) {
      assertThat(refused.expect(400).json().path("errors"))
          .anySatisfy(
              error -> {
                assertThat(error.path("pointer").asString()).isEqualTo(pointer);
                assertThat(error.path("detail").asString()).containsIgnoringCase(said);
              });
    }
    assertThat(counts()).isEqualTo(before);
  }

  @Test
  void nothing_to_replace_another_ledgers_rig_and_a_scope_that_is_none_are_refused(
      TestLedger other) {
    ask("OUTER", "", "'replace':{}").expect(400);
    ask("NONE", "", "'replace':{'CLOTH':'LIGHT'}").expect(404);
    ask("OUTER", "?scope=none", "'replace':{'CLOTH':'LIGHT'}").expect(404);
    other.api().post("/rigs/OUTER/what-if", "{\"replace\":{\"CLOTH\":\"LIGHT\"}}").expect(404);
    other.api().post("/rigs/OUTER/variants", "{\"code\":\"O2\"}").expect(404);
  }

  @Test
  void it_writes_nothing_and_takes_as_many_statements_for_many_parts_as_for_few() {
    StringBuilder lines = new StringBuilder();
    for (int i = 0; i < 30; i++) {
      part("P" + i, panel("3 m", "1 m") + ",{'kind':'length','material':'CORD','length':'1 m'}");
      lines.append("{'part':'P").append(i).append("','role':'body'},");
    }
    post(
        "/rigs",
        "'code':'MIDDLE','name':'Middle','lines':[" + lines + "{'part':'TARP','role':'tarp'}]");
    post(
        "/rigs",
        "'code':'BIG','name':'Big','lines':[{'rig':'MIDDLE','role':'other'},{'rig':'OUTER','role':'other'}]");
    ask("OUTER", "", "'replace':{'CLOTH':'LIGHT'}").expect(200);

    List<String> few =
        ledger.statements(() -> ask("OUTER", "", "'replace':{'CLOTH':'LIGHT'}").expect(200));
    List<String> many =
        ledger.statements(() -> ask("BIG", "", "'replace':{'CLOTH':'LIGHT'}").expect(200));

    assertThat(few)
        .isNotEmpty()
        .noneMatch(sql -> sql.strip().toLowerCase().matches("(?s)(insert|update|delete|merge).*"));
    assertThat(many).hasSameSizeAs(few);
  }

  @Test
  void a_copy_shares_what_it_holds_and_both_know_it() {
    Answer made = variant("OUTER", "'code':'OUTER 2'").expect(201);

    assertThat(made.header("Location")).isEqualTo("/api/v1/rigs/OUTER%202");
    JsonNode copy = get("OUTER 2");
    assertThat(made.json()).isEqualTo(copy);
    assertThat(copy.path("variantOf").asString()).isEqualTo("OUTER");
    assertThat(copy.path("name").asString()).isEqualTo("Outer (variant)");
    assertThat(copy.path("note").asString()).isEqualTo("For two");
    JsonNode outer = get("OUTER");
    assertThat(outer.path("variants").toString()).isEqualTo("[\"OUTER 2\"]");
    for (int i = 0; i < 3; i++) {
      for (String field : List.of("rig", "part", "quantity", "role")) {
        assertThat(copy.at("/lines/" + i).path(field))
            .isEqualTo(outer.at("/lines/" + i).path(field));
      }
      assertThat(copy.at("/lines/" + i + "/id")).isNotEqualTo(outer.at("/lines/" + i + "/id"));
    }
    JsonNode compared = api.get("/compare?rig=OUTER&rig=OUTER 2").expect(200).json();
    assertThat(grams(compared.at("/total/difference/standardUncertainty"))).isZero();
    api.put("/rigs/{code}", copy.toString().replace("OUTER 2", "PAIR"), "OUTER 2").expect(200);
    assertThat(get("OUTER").path("variants").toString()).isEqualTo("[\"PAIR\"]");
    assertThat(get("PAIR").path("variantOf").asString()).isEqualTo("OUTER");
  }

  @Test
  void a_what_if_that_is_kept_makes_variants_of_all_that_changes() {
    post("/parts", "'code':'BODY-V2','name':'Somebody else'");

    JsonNode kept =
        variant(
                "OUTER",
                "'code':'OUTER-L','name':'Light','replace':{'CLOTH':'LIGHT'},'partCodes':{'tarp':'FLY'}")
            .expect(201)
            .json();

    assertThat(kept.at("/lines/0/rig").asString()).isEqualTo("INNER-V2");
    assertThat(kept.at("/lines/0/quantity").asInt()).isEqualTo(2);
    assertThat(kept.at("/lines/1/part").asString()).isEqualTo("FLY");
    assertThat(kept.at("/lines/2/part").asString()).isEqualTo("NET");
    JsonNode inner = get("INNER-V2");
    assertThat(inner.path("variantOf").asString()).isEqualTo("INNER");
    assertThat(inner.at("/lines/0/part").asString()).isEqualTo("BODY-V3");
    assertThat(inner.at("/lines/0/role").asString()).isEqualTo("body");
    JsonNode body = api.get("/parts/BODY-V3").expect(200).json();
    assertThat(body.path("variantOf").asString()).isEqualTo("BODY");
    assertThat(body.path("owned").asInt()).isZero();
    assertThat(body.at("/buildSheet/lines/0/material").asString()).isEqualTo("LIGHT");
    assertThat(api.get("/parts/FLY").json().path("variantOf").asString()).isEqualTo("TARP");
    // The bodies are calculated now as then; the tarp was weighed, and its variant is not: 60 g.
    assertThat(grams(api.get("/rigs/OUTER-L/roll-up").json().at("/estimate/mass")))
        .isCloseTo(4 * 96.16 + 60 + 100, within(1e-9));
    assertThat(get("OUTER").at("/lines/1/part").asString()).isEqualTo("TARP");
    assertThat(get("INNER").at("/lines/0/part").asString()).isEqualTo("BODY");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          'code':'INNER'                                   | 409 | #/code
          'code':'O2','partCodes':{'TARP':'NET'}           | 409 | #/partCodes/TARP
          'code':'O2','partCodes':{'TARP':'X','BODY':'x'}  | 409 | #/partCodes/TARP
          'code':'O2','rigCodes':{'INNER':'OUTER'}         | 409 | #/rigCodes/INNER
          'code':'O2','rigCodes':{'INNER':'o2'}            | 409 | #/rigCodes/INNER
          'code':'O2','partCodes':{'NET':'N2'}             | 400 | #/partCodes/NET
          'code':'O2','partCodes':{'TARP':'!'}             | 400 | #/partCodes/TARP
          'name':'Nameless'                                | 400 | #/code
          """)
  void a_code_that_will_not_do_is_refused_and_nothing_is_made(
      String body, int status, String pointer) {
    List<Long> before = counts();

    Answer refused = variant("OUTER", body + ",'replace':{'CLOTH':'LIGHT'}").expect(status);

    assertThat(refused.json().path("errors").toString()).contains("\"" + pointer + "\"");
    assertThat(counts()).isEqualTo(before);
  }

  private List<Long> counts() {
    return List.of("part", "rig", "rig_line", "cut_line", "revision").stream()
        .map(
            table ->
                ledger
                    .server()
                    .count(
                        "select count(*) from " + table + " where ledger_id = ?",
                        ledger.member().ledgerId()))
        .toList();
  }

  @Test
  void what_would_no_longer_hold_as_it_is_hung_is_said_before_what_it_weighs() {
    post(
        "/materials",
        "'code':'STRONG','name':'Strong','kind':'cord','nominal':'3 g/m','strength':'5 kN'");
    post(
        "/materials",
        "'code':'THIN','name':'Thin','kind':'cord','nominal':'1 g/m','strength':'2 kN'");
    part("LINE", "{'kind':'length','material':'STRONG','length':'3 m'}");
    post(
        "/parts", "'code':'RATED','name':'Rated','strength':'3 kN','strengthKind':'average-break'");
    post(
        "/rigs",
        "'code':'HUNG','name':'Hung','lines':[{'part':'LINE','quantity':2,'role':'suspension'}]");
    assertThat(
            ask("HUNG", "", "'replace':{'STRONG':'THIN'}")
                .expect(200)
                .json()
                .path("loads")
                .isNull())
        .isTrue();
    api.put(
            "/rigs/HUNG/loads/set-up",
            json(
                "'lies':'80 kg','ends':[{'angle':'30 deg'},{'angle':'30 deg'}],"
                    + "'elements':[{'part':'LINE','where':'suspension','termination':'as rated'}]"))
        .expect(200);

    Answer answer = ask("HUNG", "", "'replace':{'STRONG':'THIN'}").expect(200);

    // 80 kg at 30 degrees pull 784.532 N at each end: 5 kN are 6.373 times that, 2 kN 2.549 times.
    JsonNode loads = answer.json().path("loads");
    assertThat(loads.at("/before/verdict").asString()).isEqualTo("meets");
    assertThat(loads.at("/before/least/factor").asDouble()).isCloseTo(6.3732, within(1e-4));
    assertThat(loads.at("/after/verdict").asString()).isEqualTo("below");
    assertThat(loads.at("/after/least/factor").asDouble()).isCloseTo(2.5493, within(1e-4));
    assertThat(loads.path("dropsBelow").asBoolean()).isTrue();
    assertThat(loads.path("words").asString())
        .isEqualTo(
            "Below the design factor: LINE would be 2.54 times stronger than its load, wanted 5.");
    assertThat(loads.path("cautions").size()).isPositive();
    assertThat(answer.body().indexOf("dropsBelow"))
        .isLessThan(answer.body().indexOf("\"difference\""));
    assertThat(
            ledger
                .pages()
                .get("/rigs/HUNG/what-if?replace=STRONG")
                .expect(200)
                .page()
                .select("main")
                .text())
        .contains("Below the design factor: LINE would be 2.54 times");

    JsonNode other = ask("HUNG", "", "'replaceParts':{'LINE':'RATED'}").expect(200).json();
    assertThat(other.at("/exchanged/0/strength").asString()).isEqualTo("not-comparable");
    assertThat(other.at("/loads/after/least/factor").asDouble()).isCloseTo(3.8239, within(1e-4));
    JsonNode unknown = ask("HUNG", "", "'replace':{'STRONG':'SPARE'}").expect(200).json();
    assertThat(unknown.at("/loads/after/verdict").asString()).isEqualTo("not known");
    assertThat(unknown.at("/loads/words").asString())
        .isEqualTo("Not known whether it holds: what LINE would hold.");
  }

  private static String panel(String length, String width) {
    return "{'kind':'panel','shape':'rectangle','material':'CLOTH','length':'"
        + length
        + "','width':'"
        + width
        + "'}";
  }

  private void part(String code, String lines) {
    post(
        "/parts",
        "'code':'" + code + "','name':'" + code + "','buildSheet':{'lines':[" + lines + "]}");
  }

  private void post(String path, String body) {
    api.post(path, json(body)).expect(201);
  }

  private Answer ask(String rig, String query, String body) {
    return api.post("/rigs/" + rig + "/what-if" + query, json(body));
  }

  private Answer variant(String rig, String body) {
    return api.post("/rigs/" + rig + "/variants", json(body));
  }

  private JsonNode get(String rig) {
    return api.get("/rigs/{code}", rig).expect(200).json();
  }

  private static String json(String body) {
    return "{" + body.replace('\'', '"') + "}";
  }

  private static JsonNode part(JsonNode whatIf, String code) {
    for (JsonNode part : whatIf.path("parts")) {
      if (part.path("part").asString().equals(code)) {
        return part;
      }
    }
    throw new AssertionError("No part " + code + " in " + whatIf);
  }

  private static double grams(JsonNode quantity) {
    assertThat(quantity.path("unit").asString()).isEqualTo("g");
    return Double.parseDouble(quantity.path("value").asString());
  }
}
