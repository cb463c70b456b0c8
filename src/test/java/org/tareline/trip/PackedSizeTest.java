package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** How much room things take, and whether they go into the packs. */
@FeatureTest
class PackedSizeTest {

  private TestLedger ledger;

  @BeforeEach
  void own(TestLedger fresh) {
    ledger = fresh;
    part("QUILT", "sleep", "\"packedVolume\":\"7 L\"");
    part("BAR", "hang", "\"packedVolume\":\"300 mL\",\"packedLength\":\"81 cm\",\"owned\":\"4\"");
    part("BODY", "hang", "\"packedVolume\":\"275 cu in\",\"packedLength\":\"12 in\"");
    part("PACK", "pack", "\"packedVolume\":\"0 L\"");
    part("POLE", "other", "\"packedLength\":\"64 cm\",\"owned\":\"2\"");
    part("POT", "cook", "\"owned\":\"1\"");
    new Workshop(ledger).rig("HANG", "hang system", 1, "BODY", 2, "BAR");
  }

  private void part(String code, String system, String size) {
    ledger
        .api()
        .post(
            "/parts",
            "{\"code\":\"%s\",\"name\":\"the %s\",\"system\":\"%s\",%s}"
                .formatted(code, code.toLowerCase(), system, size))
        .expect(201);
  }

  private void trip(String carriers, String lines) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\"T\",\"name\":\"A trip\",\"carriers\":[%s],\"lines\":[%s]}"
                .formatted(carriers, lines))
        .expect(201);
  }

  private JsonNode weights() {
    return ledger.api().get("/trips/T/weights").expect(200).json();
  }

  private List<String> warnings() {
    return weights()
        .path("warnings")
        .valueStream()
        .filter(warning -> !warning.path("kind").asString().equals("not-weighed"))
        .map(warning -> warning.path("kind").asString() + ": " + warning.path("message").asString())
        .toList();
  }

  @Test
  void a_part_says_how_much_room_it_takes_exactly_and_as_typed() {
    JsonNode body = ledger.api().get("/parts/BODY").expect(200).json();

    // The cubic inch is 16.387064 mL (NIST HB 44, App. C).
    assertThat(body.path("packedVolume"))
        .isEqualTo(json("{\"value\":\"4506.4426\",\"unit\":\"mL\",\"typed\":\"275 cu in\"}"));
    assertThat(body.path("packedLength"))
        .isEqualTo(json("{\"value\":\"0.3048\",\"unit\":\"m\",\"typed\":\"12 in\"}"));
    assertThat(ledger.api().get("/parts/POT").json().has("packedVolume")).isFalse();

    JsonNode sentBack = ledger.api().put("/parts/BODY", body.toString()).expect(200).json();
    assertThat(sentBack.path("packedVolume")).isEqualTo(body.path("packedVolume"));
    assertThat(
            ledger
                .server()
                .count(
                    "select count(*) from part where code = 'BODY' and ledger_id = ? "
                        + "and packed_volume_ml = 4506.4426 and packed_length_nm = 304800000",
                    ledger.member().ledgerId()))
        .isEqualTo(1);
  }

  private static JsonNode json(String text) {
    return tools.jackson.databind.json.JsonMapper.shared().readTree(text);
  }

  @Test
  void a_size_that_is_none_is_refused_at_its_field_and_nothing_moves() {
    JsonNode before = ledger.api().get("/parts/BAR").json();

    JsonNode problem =
        ledger
            .api()
            .put(
                "/parts/BAR",
                "{\"name\":\"bar\",\"packedVolume\":\"-1 L\",\"packedLength\":\"81 L\"}")
            .expect(400)
            .json();
    assertThat(problem.path("errors").findValuesAsString("pointer"))
        .containsExactly("#/packedVolume", "#/packedLength");
    assertThat(
            ledger
                .api()
                .post(
                    "/trips",
                    """
                    {"code":"X","name":"x","carriers":[{"code":"A","packVolume":"0 L"},{"code":"B","packLength":"52"}]}
                    """)
                .expect(400)
                .json()
                .path("errors")
                .findValuesAsString("pointer"))
        .containsExactly("#/carriers/0/packVolume", "#/carriers/1/packLength");

    assertThat(ledger.api().get("/parts/BAR").json()).isEqualTo(before);
    ledger.api().get("/trips/X").expect(404);
  }

  @Test
  void base_and_consumables_are_summed_rig_by_rig_and_what_is_worn_is_not() {
    trip(
        "{\"code\":\"ANN\",\"packVolume\":\"15 L\",\"packLength\":\"90 cm\"}",
        """
        {"rig":"HANG"},{"part":"PACK"},{"part":"QUILT","quantity":1},{"part":"POLE","quantity":2,"carry":"worn"}
        """);

    JsonNode packed = weights().path("packed");
    assertThat(packed).hasSize(1);
    JsonNode ann = packed.get(0);
    // 4506.4426 + 2 × 300 + 0 + 7000
    assertThat(ann.path("volume")).isEqualTo(json("{\"value\":\"12106.4426\",\"unit\":\"mL\"}"));
    assertThat(ann.path("carrier").asString()).isEqualTo("ANN");
    assertThat(ann.path("fits").asBoolean()).isTrue();
    assertThat(ann.has("atLeast")).isFalse();
    assertThat(ann.path("tooLong")).isEmpty();
    assertThat(ann.path("withoutLength").asInt()).isEqualTo(2);
    assertThat(warnings()).isEmpty();
  }

  @Test
  void what_is_not_known_is_never_a_yes() {
    trip("{\"code\":\"ANN\",\"packVolume\":\"15 L\"}", "{\"rig\":\"HANG\"},{\"part\":\"POT\"}");

    JsonNode ann = weights().path("packed").get(0);
    assertThat(ann.path("fits").isNull()).isTrue();
    assertThat(ann.path("atLeast").asBoolean()).isTrue();
    assertThat(ann.path("withoutVolume").toString()).isEqualTo("[\"POT\"]");
    assertThat(warnings()).isEmpty();
  }

  @Test
  void with_nobody_named_there_is_a_sum_and_no_pack() {
    trip("", "{\"part\":\"QUILT\"}");

    JsonNode all = weights().path("packed").get(0);
    assertThat(all.path("volume").path("value").asString()).isEqualTo("7000");
    assertThat(all.has("carrier")).isFalse();
    assertThat(all.path("fits").isNull()).isTrue();
  }

  @Test
  void what_does_not_go_in_is_said_of_whom_and_by_how_much_though_not_all_is_known() {
    trip(
        """
        {"code":"ANN","name":"Ann","packVolume":"200 cu in","packLength":"2 ft"},{"code":"BEA","name":"Bea","packVolume":"9 L"}
        """,
        """
        {"rig":"HANG"},{"part":"POT"},{"part":"QUILT","carrier":"BEA"}
        """);

    JsonNode ann = weights().path("packed").get(0);
    assertThat(ann.path("fits").asBoolean(true)).isFalse();
    assertThat(ann.path("tooLong"))
        .isEqualTo(json("[{\"part\":\"BAR\",\"name\":\"the bar\",\"packed\":\"81 cm\"}]"));
    assertThat(weights().path("packed").get(1).path("fits").asBoolean()).isTrue();
    // (4506.4426 + 600) mL / 16.387064 mL = 311.61… cu in
    assertThat(warnings())
        .containsExactly(
            "does-not-fit: What Ann is to pack is at least 312\u00a0cu in by the sum of packed volumes, "
                + "112\u00a0cu in more than the pack takes.",
            "too-long: BAR, the bar, is 81 cm long packed, and the pack of Ann takes 2 ft.");
  }

  @Test
  void what_stays_at_home_and_what_is_stood_in_for_takes_no_room() {
    trip(
        "{\"code\":\"ANN\",\"packVolume\":\"15 L\",\"packLength\":\"70 cm\"}",
        """
        {"rig":"HANG","leftAtHome":["BODY"]},
        {"part":"POLE","quantity":2,"carry":"worn","standsInFor":[{"rig":"HANG","part":"BAR"},{"rig":"HANG","part":"BAR"}]}
        """);

    JsonNode ann = weights().path("packed").get(0);
    assertThat(ann.path("volume").path("value").asString()).isEqualTo("0");
    assertThat(ann.path("tooLong")).isEmpty();
    assertThat(warnings()).isEmpty();
  }

  @Test
  void the_pages_take_and_show_it_and_a_refusal_keeps_what_was_typed() {
    Pages pages = ledger.pages();
    Answer refused =
        pages
            .submit(
                pages.get("/parts/POT/edit"),
                "form.form--narrow",
                "packedVolume",
                "a lot",
                "packedLength",
                "16 cm")
            .expect(422);
    assertThat(refused.page().select("[name=packedVolume]").val()).isEqualTo("a lot");
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#packedVolume");
    Answer saved = pages.submit(refused, "form.form--narrow", "packedVolume", "1.3 L");
    assertThat(pages.follow(saved).page().select("h1 + p").text())
        .endsWith("packed 1.3 L, 16 cm long");

    trip("", "{\"rig\":\"HANG\"},{\"part\":\"POT\"}");
    Answer named =
        pages.submit(
            pages.get("/trips/T/edit"),
            "form[action$=/edit]",
            "carriers[0].code",
            "ANN",
            "carriers[0].packVolume",
            "6 L",
            "carriers[0].packLength",
            "60 cm");
    Document shown = pages.follow(named).page();
    assertThat(shown.select("[aria-labelledby=pack-title] li").eachText())
        .containsExactly(
            "ANN: 6.41 L for a pack of 6 L; it does not go in, by the sum. "
                + "Too long for 60 cm: the bar (81 cm).");
    assertThat(shown.select(".caution p").eachText())
        .containsExactly(
            "What ANN is to pack is 6.41 L by the sum of packed volumes, 0.406 L more than the pack takes.",
            "BAR, the bar, is 81 cm long packed, and the pack of ANN takes 60 cm.");
  }

  @Test
  void a_trip_made_after_another_has_the_same_packs() {
    trip("{\"code\":\"ANN\",\"packVolume\":\"15 L\",\"packLength\":\"70 cm\"}", "");

    ledger.api().post("/trips/T/copies", Map.of("code", "U")).expect(201);

    assertThat(ledger.api().get("/trips/U").json().path("carriers"))
        .isEqualTo(ledger.api().get("/trips/T").json().path("carriers"));
  }
}
