package org.tareline.label;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.QrReader;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** Labels as a browser shows and prints them. */
@BrowserTest
class LabelsInChromiumTest {

  /** A CSS pixel is 1/96 in (CSS Values 4, 6.2). */
  private static final double PIXELS_IN_A_MILLIMETRE = 96 / 25.4;

  @Test
  void a_phone_reads_the_code_off_a_dark_screen(TestServer server, Chromium chromium)
      throws IOException {
    TestLedger sample = server.openSampleLedger();
    Page page = chromium.window(sample, Screen.PHONE, ColorScheme.DARK);
    page.navigate("/labels?show=both&codes=TQ-1");

    byte[] png = page.locator(".label").screenshot();
    BufferedImage picture = ImageIO.read(new ByteArrayInputStream(png));
    int width = picture.getWidth();
    int height = picture.getHeight();
    String read = QrReader.read(width, height, picture.getRGB(0, 0, width, height, null, 0, width));

    assertThat(read).isEqualTo(server.address() + "/?part=TQ-1");
  }

  @ParameterizedTest
  @CsvSource({"A4, 24", "Letter, 21"})
  void so_many_labels_fit_a_sheet_and_each_keeps_its_size(
      String paper, int fit, TestLedger ledger, Chromium chromium) {
    StringBuilder codes = new StringBuilder();
    ledger.api().post("/parts", "{\"code\":\"PEG\",\"name\":\"Peg\"}").expect(201);
    for (int i = 0; i < fit; i++) {
      codes.append("PEG,");
    }
    Page page = chromium.window(ledger, Screen.DESK, ColorScheme.LIGHT);

    page.navigate("/labels?show=parts&codes=" + codes);
    assertThat(sheets(page, paper)).isEqualTo(1);
    page.navigate("/labels?show=parts&codes=" + codes + "PEG");
    assertThat(sheets(page, paper)).isEqualTo(2);

    page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
    Locator label = page.locator(".label").first();
    BoundingBox box = label.boundingBox();
    assertThat(box.width / PIXELS_IN_A_MILLIMETRE).isCloseTo(70, within(0.1));
    assertThat(box.height / PIXELS_IN_A_MILLIMETRE).isCloseTo(37, within(0.1));
    assertThat(page.locator("form").first().isVisible()).as("the form on paper").isFalse();
  }

  private static long sheets(Page page, String paper) {
    String pdf =
        new String(page.pdf(new Page.PdfOptions().setFormat(paper)), StandardCharsets.ISO_8859_1);
    return Pattern.compile("/Type /Page\\b").matcher(pdf).results().count();
  }
}
