package org.tareline.trip;

import static org.assertj.core.api.Assertions.assertThat;

import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.QrReader;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class PhonePageTest {

  @Test
  void the_code_leads_to_the_packing_list(TestLedger ledger, TestServer server) {
    ledger
        .api()
        .post(
            "/trips",
            "{\"code\":\"FELL 2\",\"name\":\"Fell\",\"lines\":[{\"item\":{\"name\":\"tea\"}}]}")
        .expect(201);

    Document page = ledger.pages().get("/trips/FELL 2/packing-list/phone").expect(200).page();

    String address = QrReader.read(page.expectFirst("svg.phone__qr"));
    assertThat(address).isEqualTo(server.address() + "/trips/FELL%202/packing-list");
    assertThat(page.expectFirst(".phone__address").text()).isEqualTo(address);
    ledger
        .pages()
        .get(address.substring(server.address().length()).replace("%20", " "))
        .expect(200);
    assertThat(page.select(".caution").text()).contains("this machine alone");
    assertThat(page.select("main").text())
        .contains("SERVER_ADDRESS", "SERVER_SSL_BUNDLE=web", "This page came without TLS");
  }

  @Test
  void another_ledgers_trip_has_none(TestLedger ledger, TestServer server) {
    ledger.api().post("/trips", "{\"code\":\"FELL\",\"name\":\"Fell\"}").expect(201);

    server.openLedger().pages().get("/trips/FELL/packing-list/phone").expect(404);
  }
}
