package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.TestLedger;

@FeatureTest
class AssetsTest {

  @Test
  void every_script_sheet_and_icon_that_a_page_names_is_served(TestLedger ledger) {
    Document page = ledger.pages().get("/account").expect(200).page();
    List<String> named = new ArrayList<>(page.select("script[src]").eachAttr("src"));
    named.addAll(page.select("link[href]").eachAttr("href"));

    assertThat(named).hasSizeGreaterThan(3).anyMatch(path -> path.contains("htmx"));
    for (String path : named) {
      assertThat(ledger.pages().get(path).expect(200).body()).as(path).isNotEmpty();
    }
  }
}
