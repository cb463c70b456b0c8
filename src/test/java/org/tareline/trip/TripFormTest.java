package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import tools.jackson.databind.JsonNode;

/** The form of a trip: carriers, rigs unfolded, and consumables by day, without scripts. */
@FeatureTest
class TripFormTest {

  private static final String FORM = "main form";

  private TestLedger ledger;

  @BeforeEach
  void stock(TestLedger fresh) {
    ledger = fresh;
    Workshop workshop = new Workshop(ledger);
    workshop.weighed("BODY", "body", "hang", 1, "300 g");
    workshop.weighed("BAR", "bar", "hang", 2, "100 g");
    workshop.weighed("POLE", "pole", "other", 2, "250 g");
    workshop.rig("HANG", "hang system", 1, "BODY", 2, "BAR");
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"T","name":"t","days":4,"carriers":[{"code":"ANN","name":"Ann","bodyMass":"64 kg"},{"code":"BO"}],
             "lines":[{"rig":"HANG","leftAtHome":["BODY"]},
              {"part":"POLE","quantity":2,"carry":"worn","carrier":"BO","system":"rain",
               "standsInFor":[{"rig":"HANG","part":"BAR"}]},
              {"item":{"name":"water"},"taken":{"1":"2 L","3":"1 L"},"used":{"1":"1 L"}},
              {"item":{"name":"spirit","mass":"300 mL"},"density":"0.79","perDay":"50 mL"}]}
            """)
        .expect(201);
  }

  private JsonNode trip() {
    return ledger.api().get("/trips/T").expect(200).json();
  }

  @Test
  void what_the_form_was_given_it_gives_back() {
    JsonNode before = trip();

    ledger.pages().submit(ledger.pages().get("/trips/T/edit"), FORM).expect(303);

    JsonNode after = trip();
    assertThat(after.path("revision").asInt()).isEqualTo(2);
    assertThat(after.path("lines")).isEqualTo(before.path("lines"));
    assertThat(after.path("carriers")).isEqualTo(before.path("carriers"));
  }

  @Test
  void a_rig_unfolds_into_parts_that_can_stay_at_home() {
    Document page = ledger.pages().get("/trips/T/edit").expect(200).page();

    assertThat(page.select("[name=lines[0].leftAtHome]").eachAttr("value"))
        .containsExactly("BODY", "BAR");
    assertThat(page.select("[name=lines[0].leftAtHome][checked]").eachAttr("value"))
        .containsExactly("BODY");
    assertThat(page.select("[name=lines[1].leftAtHome]")).isEmpty();
    assertThat(page.select("details[open]")).hasSize(4);

    ledger
        .pages()
        .submit(ledger.pages().get("/trips/T/edit"), FORM, "lines[0].leftAtHome", "BAR")
        .expect(303);

    assertThat(trip().path("lines").get(0).path("leftAtHome").get(0).asString()).isEqualTo("BAR");
  }

  @Test
  void a_rig_just_typed_unfolds_before_it_is_saved() {
    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/trips/new"), FORM, "lines[0].thing", "HANG", "more", "rows")
            .expect(200)
            .page();

    assertThat(page.select("[name=lines[0].leftAtHome]").eachAttr("value"))
        .containsExactly("BODY", "BAR");
  }

  @Test
  void what_cannot_be_read_is_said_at_its_field_and_stays_typed() {
    JsonNode before = trip();

    Document page =
        ledger
            .pages()
            .submit(
                ledger.pages().get("/trips/T/edit"),
                FORM,
                "carriers[1].bodyMass",
                "heavy",
                "lines[1].carrier",
                "CY",
                "lines[1].standsInFor",
                "BAR",
                "lines[2].taken",
                "1: 2 L; 9: 1 L",
                "lines[3].perDay",
                "-5 g")
            .expect(422)
            .page();

    assertThat(page.select(".errors a").eachAttr("href"))
        .containsExactly(
            "#carriers-1-bodyMass",
            "#lines-1-carrier",
            "#lines-1-standsInFor",
            "#lines-2-taken",
            "#lines-3-perDay");
    for (String link : page.select(".errors a").eachAttr("href")) {
      assertThat(page.expectFirst(link).attr("aria-invalid")).as(link).isEqualTo("true");
    }
    assertThat(page.expectFirst("#lines-2-taken").val()).isEqualTo("1: 2 L; 9: 1 L");
    assertThat(page.expectFirst("#carriers-1-bodyMass").val()).isEqualTo("heavy");
    assertThat(page.expectFirst("#lines-1-standsInFor").val()).isEqualTo("BAR");
    assertThat(trip()).isEqualTo(before);
  }

  @Test
  void a_carrier_emptied_by_hand_is_taken_out() {
    ledger
        .pages()
        .submit(
            ledger.pages().get("/trips/T/edit"),
            FORM,
            "carriers[0].code",
            "",
            "carriers[0].name",
            "",
            "carriers[0].bodyMass",
            "")
        .expect(303);

    assertThat(trip().path("carriers").findValuesAsString("code")).containsExactly("BO");
  }
}
