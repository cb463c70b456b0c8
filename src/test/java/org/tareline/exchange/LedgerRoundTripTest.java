package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.tareline.site.Sha256;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A ledger that was taken out and put in elsewhere is the same ledger, to the last byte. */
@FeatureTest
class LedgerRoundTripTest {

  @Test
  void out_in_and_out_again_is_the_same_to_the_last_byte(TestServer server, TestLedger empty) {
    TestLedger full = FullLedger.open(server);
    Parcel first = Parcel.of(full);
    assertThat(first.rows())
        .as("every file has a row, or this shows nothing")
        .allSatisfy(
            (file, text) -> assertThat(text.split("\r\n").length).as(file).isGreaterThan(1));

    Parcel.Reply tried = first.tryInto(empty).expect(200);
    assertThat(tried.json().path("total").asInt()).isZero();
    assertThat(tried.inAll("added")).isGreaterThan(500);
    assertThat(Parcel.of(empty).rows().get("parts.csv"))
        .as("tried, not done")
        .doesNotContain("\r\n3");
    assertThat(server.count("select count(*) from part where ledger_id = ?", ledger(empty)))
        .isZero();

    Parcel.Reply done = first.putInto(empty).expect(200);

    assertThat(done.json().path("tables")).isEqualTo(tried.json().path("tables"));
    Parcel second = Parcel.of(empty);
    first.rows().forEach((file, text) -> assertThat(second.rows()).containsEntry(file, text));
    assertThat(second.rows()).isEqualTo(first.rows());
    assertThat(withoutTime(second)).isEqualTo(withoutTime(first));

    Parcel.Reply again = first.putInto(empty).expect(200);
    assertThat(again.inAll("added") + again.inAll("changed")).isZero();
    assertThat(again.inAll("unchanged")).isEqualTo(rows(first));
    assertThat(Parcel.of(empty).rows()).isEqualTo(first.rows());
  }

  @Test
  void what_it_weighs_and_what_is_struck_out_is_the_same_there(
      TestServer server, TestLedger empty) {
    TestLedger full = FullLedger.open(server);
    Parcel.of(full).putInto(empty).expect(200);

    for (String path :
        List.of(
            "/rigs/BRIDGE-3-SUMMER/roll-up?scope=anchor-to-anchor-bars-out",
            "/rigs/BRIDGE-3-SUMMER/reconciliation?scope=anchor-to-anchor",
            "/compare?rig=BRIDGE-3-SUMMER&rig=GATHERED-2-SUMMER&scope=anchor-to-anchor",
            "/trips/UPLAND-SEP/weights",
            "/trips/UPLAND-SEP/packing",
            "/trips/UPLAND-SEP/afterwards",
            "/rigs/BRIDGE-3-SUMMER/loads",
            "/scales/BENCH",
            "/materials/RIP-40",
            "/parts/TRIAL-BODY",
            "/parts/PEG",
            "/settings")) {
      assertThat(empty.api().get(path).expect(200).json())
          .as(path)
          .isEqualTo(full.api().get(path).expect(200).json());
    }
  }

  @Test
  void an_entry_that_is_sent_again_after_a_restore_is_not_written_twice(
      TestServer server, TestLedger empty) {
    TestLedger full = FullLedger.open(server);
    String sentAgain =
        """
        {"rig":"BRIDGE-3-SUMMER","scope":"anchor-to-anchor","scale":"BENCH","readings":["946.5 g"],"key":"whole-1"}
        """;
    String answered = full.api().post("/weighings", sentAgain).expect(200).body();
    Parcel.of(full).putInto(empty).expect(200);

    assertThat(empty.api().post("/weighings", sentAgain).expect(200).body()).isEqualTo(answered);
  }

  @Test
  void a_thing_of_the_history_is_told_by_who_made_it_and_nobody_can_sign_in_as_them(
      TestServer server, TestLedger empty) {
    TestLedger full = FullLedger.open(server);
    Parcel.of(full).putInto(empty).expect(200);

    assertThat(
            server
                .database()
                .queryForList(
                    "select distinct a.name from weighing w join account a on a.id = w.entered_by where w.ledger_id = ?",
                    String.class,
                    ledger(empty)))
        .containsExactly(full.name());
    assertThat(
            server.count(
                "select count(*) from weighing where ledger_id = ? and entered_by = ?",
                ledger(empty),
                full.member().accountId()))
        .as("another ledger's account is not taken for the one of that name")
        .isZero();
    server.pages().signIn("{never}", "{never}").expect(422);
  }

  @Test
  void the_manifest_says_how_many_rows_there_are_and_what_they_digest_to(TestServer server)
      throws Exception {
    Parcel parcel = Parcel.of(server.openSampleLedger());
    JsonNode manifest =
        JsonMapper.builder()
            .build()
            .readTree(Objects.requireNonNull(parcel.files().get(Manifest.FILE)));

    assertThat(manifest.path("files")).hasSize(LedgerTables.ALL.size());
    for (JsonNode entry : manifest.path("files")) {
      String text = String.valueOf(parcel.files().get(entry.path("file").asString()));
      assertThat(entry.path("sha256").asString()).isEqualTo(Sha256.hex(text));
    }
    // Cells of the sample have no line ends in them, so that its lines are its rows.
    assertThat(manifest.path("files").toString()).contains("\"file\":\"parts.csv\",\"rows\":55");
    assertThat(parcel.files().get("parts.csv")).contains("stated [g],stated,");
  }

  @Test
  void another_ledger_is_not_touched(TestServer server, TestLedger empty, TestLedger bystander) {
    Map<String, String> before = Parcel.of(bystander).rows();
    Parcel full = Parcel.of(FullLedger.open(server));
    full.putInto(empty).expect(200);

    assertThat(Parcel.of(bystander).rows()).isEqualTo(before);
  }

  private static long ledger(TestLedger ledger) {
    return ledger.member().ledgerId();
  }

  private static String withoutTime(Parcel parcel) {
    return String.valueOf(parcel.files().get(Manifest.FILE))
        .replaceFirst("\"exportedAt\" : \"[^\"]+\"", "");
  }

  private static int rows(Parcel parcel) {
    int rows = 0;
    for (JsonNode entry :
        JsonMapper.builder()
            .build()
            .readTree(Objects.requireNonNull(parcel.files().get(Manifest.FILE)))
            .path("files")) {
      rows += entry.path("rows").asInt();
    }
    return rows;
  }
}
