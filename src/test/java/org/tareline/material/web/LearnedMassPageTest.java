package org.tareline.material.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestLedger;

@FeatureTest
class LearnedMassPageTest {

  private static final String TAKE = "form[action=/materials/CLOTH/take-learned]";
  private static final String TAKE_BACK = "form[action=/materials/CLOTH/take-back-learned]";

  private Api api;
  private Pages pages;

  @BeforeEach
  void aPartThatCameOutHeavier(TestLedger ledger) {
    api = ledger.api();
    pages = ledger.pages();
    api.post(
            "/scales",
            "{\"code\":\"K1\",\"name\":\"Bench\",\"readability\":\"0.1 g\",\"capacity\":\"5 kg\",\"repeatability\":\"0.1 g\"}")
        .expect(201);
    api.post(
            "/materials",
            "{\"code\":\"CLOTH\",\"name\":\"Cloth\",\"kind\":\"fabric\",\"nominal\":\"40 g/m²\",\"tolerance\":\"5 %\"}")
        .expect(201);
    api.post(
            "/parts",
            """
            {"code":"BODY","name":"Body","buildSheet":{"cuttingTolerance":"0 mm","lines":[
              {"kind":"panel","shape":"rectangle","material":"CLOTH","length":"3 m","width":"1 m"}]}}""")
        .expect(201);
    assertThat(page().select("#lesson-title")).isEmpty();
    api.post("/weighings", "{\"part\":\"BODY\",\"scale\":\"K1\",\"readings\":[\"126 g\"]}")
        .expect(201);
  }

  private Document page() {
    return pages.get("/materials/CLOTH").expect(200).page();
  }

  @Test
  void what_a_part_says_is_offered_taken_and_taken_back() {
    Document before = page();
    assertThat(before.text())
        .contains("weighs 1.0500 ± 0.0018 times what its cut list comes to by what is printed")
        .contains("That is more than weighing and cutting explain.");
    assertThat(before.select(TAKE + " button").text())
        .isEqualTo("Let cut lists take 42.00 g/m² ± 0.07 g/m²");
    assertThat(before.select(TAKE_BACK)).isEmpty();

    Answer taken = pages.submit(pages.get("/materials/CLOTH"), TAKE).expect(303);
    Document after = pages.follow(taken).expect(200).page();

    assertThat(after.select("[role=status]").text())
        .isEqualTo("Cut lists take what its parts say from now on.");
    assertThat(after.select(".stand__mass data").val()).isEqualTo("42");
    assertThat(after.text())
        .contains("As parts of it weigh, because so it was chosen.")
        .contains("Cut lists use what was learned from one part")
        .contains("1.050 times what is printed");
    assertThat(after.select(TAKE)).as("what is in use already is not offered").isEmpty();
    assertThat(pages.get("/materials").expect(200).page().text()).contains("learned from parts");

    Document back =
        pages.follow(pages.submit(pages.get("/materials/CLOTH"), TAKE_BACK).expect(303)).page();
    assertThat(back.select(".stand__mass data").val()).isEqualTo("40");
    assertThat(back.select(TAKE)).hasSize(1);
  }

  @Test
  void an_edit_of_the_material_keeps_what_was_taken() {
    pages.submit(pages.get("/materials/CLOTH"), TAKE).expect(303);

    pages.submit(pages.get("/materials/CLOTH/edit"), "main form", "name", "The cloth").expect(303);

    assertThat(page().select(".stand__mass data").val()).isEqualTo("42");
    assertThat(page().select("h1").text()).isEqualTo("The cloth");
  }

  @Test
  void an_offer_made_before_somebody_elses_save_is_not_taken() {
    Answer opened = pages.get("/materials/CLOTH");
    api.put("/materials/CLOTH", "{\"name\":\"Hers\",\"kind\":\"fabric\",\"nominal\":\"41 g/m²\"}")
        .expect(200);

    Answer refused = pages.submit(opened, TAKE).expect(422);

    assertThat(refused.page().select(".errors").text()).contains("Somebody else has saved");
    assertThat(page().select(".stand__mass data").val()).isEqualTo("41");
  }
}
