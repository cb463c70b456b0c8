package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

/** What holds for the whole API alike. */
@FeatureTest
class ApiHabitsTest {

  @Test
  void a_field_that_nobody_reads_is_refused_and_not_dropped(TestLedger ledger) {
    Answer refused =
        ledger
            .api()
            .post("/parts", Map.of("code", "TP1", "name", "Tarp", "sytem", "rain"))
            .expect(400);

    assertThat(refused.json().path("detail").asString()).contains("sytem");
    ledger.api().get("/parts/TP1").expect(404);
  }

  @Test
  void what_a_get_answers_can_be_put_back_as_it_is(TestLedger ledger) {
    Api api = ledger.api();
    api.post(
            "/parts",
            """
            {"code":"TP1","name":"Tarp","system":"rain","stated":{"mass":"13 1/4 oz","tolerance":"5 %"}}""")
        .expect(201);
    api.post(
            "/rigs",
            """
            {"code":"R","name":"Rain","lines":[{"part":"TP1","quantity":2,"role":"tarp"}]}""")
        .expect(201);
    api.post(
            "/trips",
            """
            {"code":"T","name":"Trip","starts":"2027-05-08","days":3,"lines":[{"rig":"R","carry":"base"},
             {"item":{"name":"Oats","system":"food","mass":"300 g"},"quantity":2,"carry":"consumable"}]}""")
        .expect(201);

    api.post(
            "/materials",
            """
            {"code":"M","name":"Cloth","kind":"fabric","nominal":"2.1 oz/yd","nominalWidth":"58 in","tolerance":"0.1 oz/yd",
             "width":"56 in","strength":"30 lbf","fibre":"nylon","price":"4 USD/yd","stock":"12 yd","use":"weighed"}""")
        .expect(201);
    api.post(
            "/materials/M/swatches",
            """
            {"length":"1 yd","width":"1 ft","tolerance":"1 g","readings":["12 g"]}""")
        .expect(201);

    for (String path : new String[] {"/parts/TP1", "/rigs/R", "/trips/T", "/materials/M"}) {
      Answer first = api.get(path).expect(200);
      Answer put =
          api.with("If-Match", String.valueOf(first.header("ETag")))
              .put(path, first.body())
              .expect(200);

      assertThat(put.header("ETag")).as(path).isEqualTo("\"2\"");
      assertThat(api.get(path).expect(200).body().replace("\"revision\":2", "\"revision\":1"))
          .as(path)
          .isEqualTo(first.body());
      api.with("If-Match", "\"1\"").put(path, first.body()).expect(412);
    }
  }

  @Test
  void a_method_that_an_address_has_not_and_an_address_that_is_not_there_are_problem_details(
      TestLedger ledger) {
    for (Answer answer :
        new Answer[] {
          ledger.api().delete("/parts").expect(405), ledger.api().get("/nothing").expect(404)
        }) {
      assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
      assertThat(answer.json().path("instance").asString()).startsWith("/api/v1/");
    }
  }

  @Test
  void the_api_describes_itself_without_signing_in(TestLedger ledger) {
    String described = ledger.server().pages().get("/api/openapi").expect(200).body();

    assertThat(described)
        .contains(
            "/api/v1/convert",
            "/api/v1/scales",
            "/api/v1/parts",
            "/api/v1/materials",
            "/api/v1/materials/{code}/swatches",
            "/api/v1/weighings",
            "/api/v1/scopes",
            "/api/v1/loads/hang",
            "/api/v1/loads/shallow-line")
        .contains("/api/v1/rigs/{code}/roll-up", "/api/v1/compare", "/api/v1/trips/{code}/weights");
  }
}
