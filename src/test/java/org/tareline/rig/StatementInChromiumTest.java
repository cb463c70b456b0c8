package org.tareline.rig;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestServer;

/** A weight statement on paper. */
@BrowserTest
class StatementInChromiumTest {

  /** The hang of the sample ledger has eleven lines from anchor to anchor. */
  @ParameterizedTest
  @ValueSource(strings = {"A4", "Letter"})
  void a_hang_prints_on_one_sheet(String paper, TestServer server, Chromium chromium) {
    Page page = chromium.window(server.openSampleLedger(), Screen.DESK, ColorScheme.LIGHT);
    page.navigate("/rigs/BRIDGE-3-SUMMER/statement?scope=anchor-to-anchor&target=1+kg");
    assertThat(page.locator(".statement__lines tbody tr").count()).isEqualTo(11);

    String pdf =
        new String(page.pdf(new Page.PdfOptions().setFormat(paper)), StandardCharsets.ISO_8859_1);

    assertThat(Pattern.compile("/Type /Page\\b").matcher(pdf).results().count()).isEqualTo(1);
  }
}
