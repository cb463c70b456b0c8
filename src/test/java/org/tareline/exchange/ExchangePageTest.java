package org.tareline.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.tareline.ledger.Members;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.Patience;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class ExchangePageTest {

  private static final String UPLOAD = "form[action=/exchange/import]";

  /** Looks again until it does not run any more, as the page asks one to. */
  private static Answer settled(Pages pages, Answer sent) throws InterruptedException {
    Answer[] page = {pages.follow(sent.expect(303)).expect(200)};
    Patience.until(
        () -> {
          Element again = page[0].page().selectFirst("a:contains(Look again)");
          if (again != null) {
            page[0] = pages.click(again).expect(200);
          }
          return again == null;
        });
    return page[0];
  }

  @Test
  void a_ledger_is_tried_and_then_taken_in(TestServer server, TestLedger ledger) throws Exception {
    Pages pages = ledger.pages();
    Parcel sample = Parcel.of(server.openSampleLedger());

    Answer tried =
        settled(
            pages,
            pages.upload(pages.get("/exchange"), UPLOAD, "file", "sample.zip", sample.zip()));
    assertThat(tried.page().select("[role=status]").text()).startsWith("This would add ");
    assertThat(tried.page().select("main").text()).contains("sample.zip");
    assertThat(tried.page().select("th:contains(parts.csv) + td").text()).isEqualTo("55");
    ledger.api().get("/parts/TARP-4").expect(404);

    Answer done = settled(pages, pages.submit(tried, "main form"));

    assertThat(done.page().select("[role=status]").text()).startsWith("Added ");
    assertThat(done.page().select("main form")).isEmpty();
    ledger.api().get("/parts/TARP-4").expect(200);
  }

  @Test
  void what_stands_in_the_way_is_listed_and_nothing_can_be_taken(
      TestServer server, TestLedger ledger) throws Exception {
    Pages pages = ledger.pages();
    Parcel bad = Parcel.of(server.openSampleLedger()).with("parts.csv", ",hang,", ",flight,");

    Answer tried =
        settled(pages, pages.upload(pages.get("/exchange"), UPLOAD, "file", "bad.zip", bad.zip()));

    assertThat(tried.page().select("[role=status]").text())
        .contains("in the way", "Nothing was written");
    assertThat(
            tried
                .page()
                .select("caption:contains(in the way)")
                .parents()
                .select("tbody tr")
                .get(0)
                .text())
        .startsWith("parts.csv 2 system");
    assertThat(tried.page().select("main form")).isEmpty();
    pages
        .forge(
            tried.asked().getPath(),
            "_csrf",
            pages.get("/exchange").page().select("[name=_csrf]").val())
        .expect(303);
    ledger.api().get("/parts/TARP-4").expect(404);
  }

  @Test
  void no_file_is_said_at_the_field_and_no_zip_is_said_too(TestLedger ledger) throws Exception {
    Pages pages = ledger.pages();

    Answer none = pages.upload(pages.get("/exchange"), UPLOAD, "file", "", new byte[0]).expect(422);
    Answer noZip =
        settled(
            pages,
            pages.upload(
                pages.get("/exchange"),
                UPLOAD,
                "file",
                "a.zip",
                "a".getBytes(StandardCharsets.UTF_8)));

    assertThat(none.page().select("#file-error").text()).contains("Choose the zip");
    assertThat(noZip.page().select("main").text()).contains("not a zip");
  }

  @Test
  void an_import_is_its_members_alone_and_a_reader_sees_only_the_way_out(
      TestServer server, TestLedger ledger, TestLedger reader) throws Exception {
    Pages pages = ledger.pages();
    Answer mine =
        settled(
            pages,
            pages.upload(
                pages.get("/exchange"),
                UPLOAD,
                "file",
                "a.zip",
                "a".getBytes(StandardCharsets.UTF_8)));
    String path = mine.asked().getPath();

    reader.pages().get(path).expect(404);
    Members members = server.bean(Members.class);
    String invitation = members.invite(ledger.member(), "reader", null).path();
    members.accept(invitation.substring("/invitation/".length()), reader.member());
    Pages guest = reader.pages();
    guest
        .submit(
            guest.get("/account"),
            "form[action=/account/ledger]",
            "id",
            ledger.member().ledger().toString())
        .expect(303);
    Answer page = guest.get("/exchange").expect(200);

    assertThat(page.page().select("main form")).isEmpty();
    assertThat(page.page().select("a[href=/exchange/ledger.zip]")).hasSize(1);
    assertThat(guest.get("/exchange/ledger.zip").expect(200).header("Content-Type"))
        .isEqualTo("application/zip");
    guest.get(path).expect(403);
    guest.get("/exchange/table").expect(403);
  }

  @Test
  void more_than_is_taken_in_is_refused_with_the_limit_on_the_page_and_at_the_api() {
    try (TestServer small = TestServer.startEmpty("tareline.import.limit=1MB")) {
      TestLedger ledger = small.openLedger();
      Pages pages = ledger.pages();
      byte[] over = new byte[1_500_000];
      byte[] farOver = new byte[20_000_000];

      Answer refused =
          pages.upload(pages.get("/exchange"), UPLOAD, "file", "a.zip", over).expect(422);
      assertThat(refused.page().select("#file-error").text()).contains("larger than 1 MB");
      Answer torn =
          pages.upload(pages.get("/exchange"), UPLOAD, "file", "a.zip", farOver).expect(413);
      assertThat(torn.page().select("h1").text()).contains("1 MB of a file");
      Answer table =
          pages
              .upload(
                  pages.get("/exchange/table"),
                  "form[action=/exchange/table]",
                  "file",
                  "a.csv",
                  "code\n".repeat(400_000).getBytes(StandardCharsets.UTF_8))
              .expect(422);
      assertThat(table.page().select("#file-error, #text-error").text())
          .contains("1000000 characters");

      assertThat(Parcel.send(ledger, over, "").expect(413).json().path("detail").asString())
          .contains("larger than 1 MB");
      assertThat(Parcel.send(ledger, farOver, "").expect(413).json().path("detail").asString())
          .contains("larger than 1 MB");
      String boundary = "a-boundary";
      String form =
          "--%1$s\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.zip\"\r\n\r\n%2$s\r\n--%1$s--\r\n"
              .formatted(boundary, "x".repeat(5_000_000));
      assertThat(
              ledger
                  .api()
                  .with("Content-Type", "multipart/form-data; boundary=" + boundary)
                  .post("/import", form)
                  .expect(413)
                  .json()
                  .path("detail")
                  .asString())
          .contains("larger than 1 MB");
    }
  }
}
