package org.tareline;

import java.util.List;
import java.util.Map;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * Every page there is, in the sample ledger: the one list that tests over all pages go through. A
 * new page is added here.
 */
final class EveryPage {

  private EveryPage() {}

  /**
   * The sample ledger, with a rig in it that was weighed whole and does not agree with its parts:
   * two digits of the reading are swapped. Since then the scale was checked.
   */
  static TestLedger sample(TestServer server) {
    TestLedger sample = server.openSampleLedger();
    // What is the whole server's is shown to the account that was made first.
    server
        .database()
        .update(
            "update account set created_at = (select min(created_at) from account) - interval '1' day where id = ?",
            sample.member().accountId());
    sample
        .api()
        .post(
            "/weighings",
            Map.of(
                "rig",
                "BRIDGE-3-SUMMER",
                "scope",
                "anchor-to-anchor",
                "scale",
                "BENCH",
                "readings",
                List.of("946.5 g")))
        .expect(201);
    sample
        .api()
        .post(
            "/scales/BENCH/checks",
            """
            {"weights":[{"nominal":"500","class":"M1","indication":"500.1"},
              {"nominal":"1 kg","tolerance":"0.1","indication":"1000.4"}]}
            """)
        .expect(201);
    sample
        .api()
        .post(
            "/parts",
            """
            {"code":"TRIAL-BODY","name":"A trial body","buildSheet":{"lines":[
              {"kind":"panel","shape":"parabolic-edges","name":"body","material":"RIP-40","length":"3 m","width":"1.4 m",
               "depth":"150 mm","lengthAllowance":"60 mm","widthAllowance":"40 mm"},
              {"kind":"panel","shape":"ellipse","name":"opening","material":"RIP-40","length":"300 mm","width":"200 mm","removed":true}]}}
            """)
        .expect(201);
    sample
        .api()
        .post(
            "/rigs",
            """
            {"code":"TRIAL","name":"A trial hang","lines":[{"part":"TRIAL-BODY","role":"body"},{"part":"B3-LEG","quantity":4,
             "role":"suspension"}]}
            """)
        .expect(201);
    sample
        .api()
        .post("/rigs/TRIAL/variants", "{\"code\":\"TRIAL-20\",\"replace\":{\"RIP-40\":\"RIP-20\"}}")
        .expect(201);
    return sample;
  }

  /** Pages that are shown to whoever has signed in. */
  static List<String> shown() {
    return List.of(
        "/",
        "/?part=PACK",
        "/parts",
        "/parts?text=tarp&system=rain&sort=mass",
        "/parts/new",
        "/parts/B3-BODY",
        "/parts/TQ-1",
        "/parts/B3-BODY/edit",
        "/materials",
        "/materials?kind=fabric&sort=mass&order=descending",
        "/materials/new",
        "/materials/RIP-40",
        "/materials/CORD-3",
        "/materials/DOWN-850",
        "/materials/RIP-40/edit",
        "/parts/TRIAL-BODY/cut-list",
        "/parts/TRIAL-BODY/cut-list/edit",
        "/parts/PACK/cut-list/edit",
        "/parts/TRIAL-BODY",
        "/parts/TRIAL-BODY/what-if",
        "/parts/PACK/what-if",
        "/parts/TRIAL-BODY/variants/new?replace=RIP-40&by=RIP-20",
        "/parts/TRIAL-BODY/beside?other=TRIAL-BODY-V2",
        "/rigs/TRIAL-20",
        "/rigs/TRIAL/what-if?replace=RIP-40",
        "/rigs/TRIAL/variants/new?replace=RIP-40&by=RIP-20",
        "/rigs",
        "/rigs?text=bridge&sort=mass",
        "/rigs/new",
        "/rigs/BRIDGE-3-SUMMER",
        "/rigs/BRIDGE-3-SUMMER?scope=anchor-to-anchor-bars-out",
        "/rigs/BRIDGE-4-PLAN",
        "/rigs/BRIDGE-3-SUMMER?scope=anchor-to-anchor&target=950",
        "/rigs/BRIDGE-3-SUMMER/statement?scope=anchor-to-anchor&target=1+kg",
        "/rigs/BRIDGE-4-PLAN/statement",
        "/rigs/BRIDGE-3-SUMMER/loads",
        "/rigs/GATHERED-2-SUMMER/loads",
        "/rigs/BRIDGE-4-PLAN/loads",
        "/rigs/BRIDGE-3-SUMMER/loads/edit",
        "/rigs/BRIDGE-4-PLAN/loads/edit",
        "/rigs/BRIDGE-3-SUMMER/set-ups/new",
        "/rigs/BRIDGE-3-SUMMER/total",
        "/rigs/BRIDGE-3-SUMMER/total?scope=anchor-to-anchor&role=body",
        "/rigs/BRIDGE-3-SUMMER/edit",
        "/side-by-side",
        "/side-by-side?rig=BRIDGE-3-SUMMER&rig=GATHERED-2-SUMMER",
        "/side-by-side?rig=BRIDGE-4-PLAN&rig=BRIDGE-3-SUMMER&scope=anchor-to-anchor",
        "/side-by-side?rig=TARP-4-SET&rig=TARP-2-SET&rig=BRIDGE-4-PLAN&scope=complete",
        "/trips/side-by-side",
        "/trips/side-by-side?trip=UPLAND-SEP&trip=MOOR-JUN",
        "/trips",
        "/trips?text=sep&sort=skin-out",
        "/trips/new",
        "/trips/UPLAND-SEP",
        "/trips/MOOR-JUN",
        "/trips/UPLAND-SEP?of=total-pack&target=9+kg",
        "/trips/UPLAND-SEP/total",
        "/trips/UPLAND-SEP/total?of=base&system=sleep",
        "/trips/UPLAND-SEP/edit",
        "/trips/UPLAND-SEP/copy",
        "/trips/UPLAND-SEP/packing-list",
        "/trips/UPLAND-SEP/packing-list?by=bag&show=left",
        "/trips/UPLAND-SEP/packing-list/phone",
        "/trips/UPLAND-SEP/afterwards",
        "/trips/MOOR-JUN/provisions",
        "/scales",
        "/scales?sort=capacity&order=descending",
        "/scales/BENCH",
        "/loads/line",
        "/loads/line?span=4+m&perLength=50+N/m&sag=20+cm",
        "/labels",
        "/labels?show=both",
        "/labels?show=both&codes=TQ-1,BRIDGE-3-SUMMER",
        "/weighing-well",
        "/account",
        "/account/second-factor",
        "/members",
        "/exchange/backups",
        "/exchange",
        "/exchange/table",
        "/settings");
  }

  /** A form that refuses to be sent empty. */
  record Form(String path, String form) {}

  static List<Form> refusing() {
    return List.of(
        new Form("/", "form.entry"),
        new Form("/parts/new", "main form"),
        new Form("/parts/B3-BODY", "form.event"),
        new Form("/materials/new", "main form"),
        new Form("/materials/RIP-40", "form.swatch"),
        new Form("/materials/RIP-40", "form.stock"),
        new Form("/rigs/new", "main form"),
        new Form("/trips/new", "main form"),
        new Form("/trips/UPLAND-SEP/afterwards", "form.happened"),
        new Form("/account", "form[action='/account/tokens']"),
        new Form("/trips/UPLAND-SEP/copy", "main form"),
        new Form("/exchange/table", "main form"),
        new Form("/scales", "main form"),
        new Form("/scales/BENCH", "form.check"),
        new Form("/scales/BENCH", "form.repeatability"));
  }

  /**
   * A form that is answered by a page where nothing is kept.
   *
   * @param typed names and values in turn; the button's last
   * @param answer what is found on the page that answers
   */
  record Answered(String path, String form, List<String> typed, String answer) {}

  static List<Answered> answering() {
    return List.of(
        new Answered(
            "/trips/MOOR-JUN/provisions",
            "main form",
            List.of(
                "food.mass",
                "3 kg",
                "food.energyPerMass",
                "4.4 kcal/g",
                "food.fat",
                "20",
                "pace.distance",
                "14 km",
                "pace.ascent",
                "900 m",
                "pace.body",
                "71",
                "pace.load",
                "14",
                "pace.speed",
                "8 km/h",
                "work",
                "pace"),
            ".reckoning"));
  }

  static final String NOT_THERE = "/nothing-is-here";
}
