package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * Pictures of every page of the sample ledger at both widths, light and dark, under {@code
 * target/screenshots}, for somebody to look at. Run by hand.
 */
@BrowserTest
@Tag("screenshots")
class Screenshots {

  private static final Path FOLDER = Path.of("target", "screenshots");

  @Test
  void of_every_page(Chromium chromium, TestServer server) throws Exception {
    TestLedger sample = EveryPage.sample(server);
    List<String> paths = new ArrayList<>(EveryPage.shown());
    paths.add(EveryPage.NOT_THERE);
    for (Screen screen : Screen.values()) {
      for (ColorScheme scheme : new ColorScheme[] {ColorScheme.LIGHT, ColorScheme.DARK}) {
        Path folder = FOLDER.resolve((screen + "-" + scheme).toLowerCase(Locale.ROOT));
        take(chromium.window(screen, scheme), "/sign-in", folder);
        Page page = chromium.window(sample, screen, scheme);
        for (String path : paths) {
          take(page, path, folder);
        }
        for (EveryPage.Form form : EveryPage.refusing()) {
          page.navigate(form.path());
          page.locator(form.form()).locator("button[type=submit]").first().click();
          page.locator(".errors").waitFor();
          picture(page, form.path() + " refused", folder);
        }
        try (var pictures = Files.list(folder)) {
          assertThat(pictures).hasSizeGreaterThan(paths.size());
        }
      }
    }
  }

  private static void take(Page page, String path, Path folder) {
    page.navigate(path);
    picture(page, path, folder);
  }

  private static void picture(Page page, String path, Path folder) {
    String name = path.equals("/") ? "bench" : path.substring(1).replaceAll("[^\\w-]+", "-");
    page.screenshot(
        new Page.ScreenshotOptions().setPath(folder.resolve(name + ".png")).setFullPage(true));
  }
}
