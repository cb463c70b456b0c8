package org.tareline.exchange;

import java.util.List;
import java.util.Map;
import org.tareline.testing.Api;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** The sample ledger with something in every table that a ledger has. */
final class FullLedger {

  private FullLedger() {}

  static TestLedger open(TestServer server) {
    TestLedger ledger = server.openSampleLedger();
    Api api = ledger.api();
    api.put("/settings", "{\"growthAllowance\":{\"estimated\":\"25%\"},\"checkEvery\":180}")
        .expect(200);
    api.post(
            "/weighings",
            """
            {"rig":"BRIDGE-3-SUMMER","scope":"anchor-to-anchor","scale":"BENCH","readings":["946.5 g"],"key":"whole-1"}
            """)
        .expect(201);
    api.post(
            "/weighings",
            """
            {"parts":[{"part":"TARP-4"},{"part":"GUY","quantity":6}],"scale":"BENCH","readings":["520.0 g"]}
            """)
        .expect(201);
    api.post(
            "/weighings",
            "{\"part\":\"STAKE\",\"piece\":\"bent\",\"scale\":\"BENCH\",\"readings\":[\"14.1 g\"]}")
        .expect(201);
    api.post(
            "/weighings",
            """
            {"part":"SLEEVE","before":["430.0 g"],"scale":"BENCH","readings":["462.0 g"],"note":"=sewn on, with a \\"knot\\"\\nand more"}
            """)
        .expect(201);
    String check =
        api.post(
                "/scales/BENCH/checks",
                """
                {"weights":[{"nominal":"500","class":"M1","indication":"500.1"},
                  {"nominal":"1 kg","tolerance":"0.1","indication":"1000.4"}]}
                """)
            .expect(201)
            .json()
            .path("id")
            .asString();
    api.post("/scales/BENCH/checks/" + check + "/void", "{\"reason\":\"the wrong weight\"}")
        .expect(200);
    api.post("/scales/BENCH/repeatability", "{\"readings\":[\"200.0\",\"200.1\",\"200.0 g\"]}")
        .expect(201);
    api.post(
            "/parts",
            """
            {"code":"TRIAL-BODY","name":"A trial body","packedVolume":"1.5 L","packedLength":"30 cm","buildSheet":{"lines":[
              {"kind":"panel","shape":"rectangle","name":"body","material":"RIP-40","length":"3 m","width":"1.4 m"}]}}
            """)
        .expect(201);
    api.post(
            "/rigs",
            "{\"code\":\"TRIAL\",\"name\":\"A trial hang\",\"lines\":[{\"part\":\"TRIAL-BODY\",\"role\":\"body\"}]}")
        .expect(201);
    api.post("/rigs/TRIAL/variants", "{\"code\":\"TRIAL-20\",\"replace\":{\"RIP-40\":\"RIP-20\"}}")
        .expect(201);
    String line =
        api.get("/parts/TRIAL-BODY").expect(200).json().at("/buildSheet/lines/0/id").asString();
    api.post(
            "/parts/TRIAL-BODY/cut-lines/" + line + "/weighings",
            "{\"scale\":\"BENCH\",\"readings\":[\"171.2 g\"]}")
        .expect(201);
    String cut =
        api.post(
                "/materials/RIP-40/stock",
                "{\"cut\":\"1 m\",\"part\":\"TRIAL-BODY\",\"key\":\"k1\"}")
            .expect(201)
            .json()
            .path("id")
            .asString();
    api.post("/materials/RIP-40/stock/" + cut + "/void", "{\"reason\":\"not cut\"}").expect(200);
    api.post("/materials/RIP-40/stock", "{\"cut\":\"2 m\",\"part\":\"TRIAL-BODY\"}").expect(201);
    String hang = api.get("/trips/UPLAND-SEP").expect(200).json().at("/lines/0/id").asString();
    api.post(
            "/trips/UPLAND-SEP/packing",
            Map.of(
                "checks",
                List.of(
                    Map.of("line", hang, "part", "B3-BODY", "state", "packed", "key", "c1"),
                    Map.of("line", hang, "state", "to fetch", "key", "c2"))))
        .expect(200);
    api.put(
            "/trips/UPLAND-SEP/afterwards",
            Map.of(
                "things",
                List.of(Map.of("line", hang, "part", "B3-BODY", "outcome", "used")),
                "missed",
                List.of("A third spoon")))
        .expect(200);
    long id = ledger.member().ledgerId();
    // What takes more of a ledger to bring about than is of interest here.
    server
        .database()
        .update(
            "insert into scope_line (scope_id, ledger_id, line_uuid) select s.id, s.ledger_id, cast(? as uuid)"
                + " from scope s where s.ledger_id = ? and s.code_key = 'roof-and-hang'",
            api.get("/rigs/TRIAL").expect(200).json().at("/lines/0/id").asString(),
            id);
    server
        .database()
        .update(
            "update material set learned_grams = 46.250000000001, learned_uncertainty = 0.1, learned_freedom = 2.5,"
                + " learned_ratio = 1.05, learned_parts = 3, learned_against = 'nominal', learned_at = created_at"
                + " where ledger_id = ? and code = 'SIL-15'",
            id);
    return ledger;
  }
}
