package org.tareline.rig;

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
class RigWhatIfPagesTest {

  private TestLedger ledger;
  private Api api;
  private Pages pages;

  @BeforeEach
  void aRigInARig(TestLedger fresh) {
    ledger = fresh;
    api = fresh.api();
    pages = fresh.pages();
    post(
        "/materials",
        "'code':'CLOTH','name':'Cloth','kind':'fabric','nominal':'40 g/m²','strength':'500 N','width':'1.5 m','price':'12 EUR/m'");
    post(
        "/materials",
        "'code':'LIGHT','name':'Light','kind':'fabric','nominal':'30 g/m²','strength':'400 N','width':'1.5 m','price':'10 EUR/m'");
    part("BODY", "3 m");
    part("FLY.2", "2 m");
    post("/parts", "'code':'NET','name':'Net'");
    post("/scales", "'code':'K1','name':'Bench','readability':'0.1 g','capacity':'5 kg'");
    post("/weighings", "'part':'FLY.2','scale':'K1','readings':['85 g']");
    post(
        "/rigs",
        "'code':'INNER','name':'Inner','lines':[{'part':'BODY','quantity':2,'role':'body'}]");
    post(
        "/rigs",
        "'code':'OUTER','name':'Outer','lines':[{'rig':'INNER','role':'other'},{'part':'FLY.2','role':'tarp'},{'part':'NET','role':'bug net'}]");
  }

  @Test
  void the_whole_rig_stands_beside_what_it_would_be_and_each_part_says_its_share() {
    Document page = pages.get("/rigs/OUTER/what-if").expect(200).page();

    assertThat(page.select(".candidates tbody th").eachText().get(0)).isEqualTo("What it holds");
    assertThat(page.select("td.candidates__caution").text()).startsWith("Weaker");
    // Two bodies of 3 m² and a fly that was weighed; its 2 m² are 20 g lighter of the other cloth.
    assertThat(page.select(".candidates data").eachAttr("value")).containsExactly("325", "245");
    assertThat(page.select(".candidates tr:contains(2 × BODY) td").get(1).text())
        .startsWith("lighter by 60");
    assertThat(page.select(".candidates tr:contains(To buy) td").eachText())
        .containsExactly("8.000 m of the roll", "8.000 m of the roll");
    assertThat(page.select(".candidates tr:contains(Cost) td").get(1).text())
        .isEqualTo("80.00 EUR; 16.00 EUR less");
    assertThat(page.text())
        .contains("FLY.2: weighed")
        .contains("Total of what is known")
        .contains("nobody knows what they are made of: NET");

    Document tarps = pages.get("/rigs/OUTER/what-if?scope=hammock-only").expect(200).page();
    assertThat(tarps.text()).contains("No part that is counted has a cut list");
    assertThat(
            pages
                .get("/rigs/OUTER/what-if?replace=NONE")
                .expect(422)
                .page()
                .select(".errors a")
                .attr("href"))
        .isEqualTo("#replace");
  }

  @Test
  void it_is_kept_with_all_that_changes_and_stands_side_by_side_in_one_step() {
    Answer form = pages.get("/rigs/OUTER/variants/new?replace=CLOTH&by=LIGHT").expect(200);
    assertThat(form.page().select("fieldset input").eachAttr("value"))
        .containsExactly("BODY-V2", "FLY.2-V2", "INNER-V2");
    assertThat(form.page().select("p.caution").text()).startsWith("Weaker");

    Document refused =
        pages
            .submit(form, "main form", "partCodes.FLY%2E2", "NET", "name", "Mine")
            .expect(422)
            .page();
    assertThat(refused.select(".errors a").attr("href"))
        .isEqualTo("#" + refused.select("input[name=partCodes.FLY%2E2]").attr("id"));
    assertThat(refused.select("input[name=partCodes.FLY%2E2]").val()).isEqualTo("NET");
    assertThat(refused.select("#name").val()).isEqualTo("Mine");
    api.get("/parts/BODY-V2").expect(404);

    Answer done =
        pages
            .submit(form, "main form", "code", "LIGHT-ONE", "partCodes.FLY%2E2", "FLY.3")
            .expect(303);
    Document page = pages.follow(done).expect(200).page();
    assertThat(page.select("[role=status]").text()).contains("LIGHT-ONE");
    assertThat(page.text()).contains("INNER-V2").contains("FLY.3").contains("BODY-V2");
    Document both =
        pages.get(page.select("a:contains(the two side by side)").attr("href")).expect(200).page();
    assertThat(both.select(".pair h2").text()).contains("Outer (variant) against Outer");
    assertThat(
            pages.get("/rigs/OUTER").page().select("a[href*=side-by-side?rig=OUTER&rig=LIGHT-ONE]"))
        .hasSize(1);
  }

  @Test
  void a_plain_copy_asks_for_a_code_alone() {
    Answer form = pages.get("/rigs/INNER/variants/new").expect(200);
    assertThat(form.page().select("fieldset")).isEmpty();

    pages.submit(form, "main form").expect(303);

    assertThat(api.get("/rigs/INNER-V2").expect(200).json().at("/lines/0/part").asString())
        .isEqualTo("BODY");
  }

  private void part(String code, String length) {
    post(
        "/parts",
        "'code':'"
            + code
            + "','name':'"
            + code
            + "','buildSheet':{'lines':[{'kind':'panel','shape':'rectangle','material':'CLOTH','length':'"
            + length
            + "','width':'1 m'}]}");
  }

  private void post(String path, String body) {
    api.post(path, "{" + body.replace('\'', '"') + "}").expect(201);
  }
}
