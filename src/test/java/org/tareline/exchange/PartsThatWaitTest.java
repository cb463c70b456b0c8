package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.part.Parts;
import org.tareline.site.Faults;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import org.tareline.weighing.Placed;
import org.tareline.weighing.Weighing;
import org.tareline.weighing.Weighings;

/** The bench names the parts that were never weighed, by whichever way weighings come and go. */
@FeatureTest
class PartsThatWaitTest {

  @Test
  void a_part_waits_until_it_is_weighed_and_again_once_that_is_struck_out(
      TestLedger ledger, TestLedger copy) {
    fill(ledger);
    assertThat(waiting(ledger)).containsExactly("A", "B", "C");

    String weighed = weigh(ledger, "A", "dry");
    weigh(ledger, "B", "wet");
    assertThat(waiting(ledger)).containsExactly("B", "C");
    Parcel.of(ledger).putInto(copy).expect(200);
    assertThat(waiting(copy)).containsExactly("B", "C");

    ledger
        .api()
        .post("/weighings/{id}/void", Map.of("reason", "digits swapped"), weighed)
        .expect(200);
    assertThat(waiting(ledger)).containsExactly("A", "B", "C");
    Parcel.of(ledger).putInto(copy).expect(200);
    assertThat(waiting(copy)).containsExactly("A", "B", "C");

    weigh(ledger, "A", "aired");
    weigh(ledger, "B", "dry");
    assertThat(waiting(ledger)).containsExactly("C");
  }

  @Test
  void whoever_logs_a_weighing_or_strikes_one_out_need_not_tell(
      TestServer server, TestLedger ledger) {
    fill(ledger);
    Weighings weighings = server.bean(Weighings.class);
    long part = server.bean(Parts.class).get(ledger.member(), "B").id();
    Weighing read =
        weighings.read(
            ledger.member(),
            new Weighings.Entry("K1", null, List.of("118"), null, null, null, null, null, null),
            new Faults());

    Weighing logged = weighings.log(read, List.of(Placed.part(part, 1)));
    assertThat(marked(server, ledger, "waits = false and code = 'B'")).isEqualTo(1);

    weighings.strikeOut(ledger.member(), logged.uuid(), "digits swapped");
    assertThat(marked(server, ledger, "waits = false")).isZero();
    assertThat(waiting(ledger)).containsExactly("A", "B", "C");
  }

  @Test
  void no_part_is_passed_over_and_few_are_looked_at_for_nothing(
      TestServer server, TestLedger copy) {
    TestLedger sample = server.openSampleLedger();
    Parcel.of(sample).putInto(copy).expect(200);

    for (TestLedger ledger : List.of(sample, copy)) {
      assertThat(marked(server, ledger, "waits = false")).isPositive();
      assertThat(marked(server, ledger, "waits = true")).isPositive();
      assertThat(
              marked(server, ledger, "waits = case when " + WEIGHED + " then true else false end"))
          .isZero();
    }
  }

  private static final String WEIGHED =
      """
      exists (select 1 from weighing_subject o
        where o.kind = 'part' and o.subject_id = part.id and o.usable = true
          and not exists (select 1 from weighing_void v where v.weighing_id = o.weighing_id))
      """;

  private static long marked(TestServer server, TestLedger ledger, String how) {
    return server.count(
        "select count(*) from part where ledger_id = ? and " + how, ledger.member().ledgerId());
  }

  private static void fill(TestLedger ledger) {
    ledger
        .api()
        .post(
            "/scales",
            Map.of("code", "K1", "name", "Bench", "readability", "1 g", "capacity", "2 kg"))
        .expect(201);
    for (String code : List.of("A", "B", "C")) {
      ledger.api().post("/parts", Map.of("code", code, "name", "Part " + code)).expect(201);
    }
  }

  private static String weigh(TestLedger ledger, String part, String condition) {
    return ledger
        .api()
        .post(
            "/weighings",
            Map.of("part", part, "scale", "K1", "readings", List.of("118"), "condition", condition))
        .expect(201)
        .json()
        .path("id")
        .asString();
  }

  private static List<String> waiting(TestLedger ledger) {
    return ledger.pages().get("/").expect(200).page().select(".waiting .code").eachText();
  }
}
