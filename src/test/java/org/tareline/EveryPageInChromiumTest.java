package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** Every page at both widths, light and dark: axe has nothing to say and nothing sticks out. */
@BrowserTest
class EveryPageInChromiumTest {

  private static TestLedger sample;

  @BeforeAll
  static void open(TestServer server) {
    sample = EveryPage.sample(server);
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#shown")
  void a_page_is_fit_for_everybody(String path, Chromium chromium) {
    Page page = chromium.window(sample, Screen.DESK, ColorScheme.LIGHT);
    assertThat(page.navigate(path).status()).isEqualTo(200);
    assertFit(page);
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#refusing")
  void a_page_that_refuses_is_fit_for_everybody_and_has_the_focus_on_what_is_wrong(
      EveryPage.Form form, Chromium chromium) {
    Page page = chromium.window(sample, Screen.DESK, ColorScheme.LIGHT);
    page.navigate(form.path());
    // A form may be folded away.
    page.locator("details:has(" + form.form() + ")")
        .evaluateAll("all => all.forEach(folded => folded.open = true)");
    page.locator(form.form()).locator("button[type=submit]:not([name])").first().click();
    // The summary has the focus: where the page is swapped in, a moment after it is there.
    page.locator(".errors:focus").waitFor();

    assertThat(page.title()).startsWith("Error: ");
    assertFit(page);
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#answering")
  void a_page_that_answers_a_form_is_fit_for_everybody(EveryPage.Answered form, Chromium chromium) {
    Page page = chromium.window(sample, Screen.DESK, ColorScheme.LIGHT);
    page.navigate(form.path());
    page.locator("main details").evaluateAll("all => all.forEach(folded => folded.open = true)");
    int button = form.typed().size() - 2;
    for (int i = 0; i < button; i += 2) {
      page.locator("[name='" + form.typed().get(i) + "']").fill(form.typed().get(i + 1));
    }
    page.locator(
            "button[name='%s'][value='%s']"
                .formatted(form.typed().get(button), form.typed().get(button + 1)))
        .click();
    page.locator(form.answer()).first().waitFor();

    assertThat(page.url()).doesNotContain("?");
    assertFit(page);
  }

  @Test
  void the_pages_of_whoever_has_not_signed_in_are_fit_for_everybody(Chromium chromium) {
    Page page = chromium.window(Screen.DESK, ColorScheme.LIGHT);
    assertThat(page.navigate("/sign-in").status()).isEqualTo(200);
    assertFit(page);
  }

  @Test
  void the_page_that_says_there_is_no_such_page_is_fit_for_everybody(Chromium chromium) {
    Page page = chromium.window(sample, Screen.DESK, ColorScheme.LIGHT);
    assertThat(page.navigate(EveryPage.NOT_THERE).status()).isEqualTo(404);
    assertFit(page);
  }

  private static void assertFit(Page page) {
    for (Screen screen : Screen.values()) {
      page.setViewportSize(screen.width(), screen.height());
      show(page, ColorScheme.LIGHT);
      assertThat(Chromium.sticksOut(page)).as("what sticks out at %s", screen).isEmpty();
      assertThat(Chromium.axe(page)).as("what axe finds at %s", screen).isEmpty();
      show(page, ColorScheme.DARK);
      assertThat(Chromium.axeOfColours(page)).as("what axe finds at %s, dark", screen).isEmpty();
    }
  }

  private static void show(Page page, ColorScheme scheme) {
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
  }

  @Test
  void axe_and_the_ruler_find_what_is_wrong(Chromium chromium) {
    Page page = chromium.window(Screen.PHONE, ColorScheme.LIGHT);
    page.setContent(
        """
        <html lang="en"><title>Wrong</title>
        <meta name="viewport" content="width=device-width, initial-scale=1"><main><h1>Wrong</h1>
        <p style="width: 500px; color: #aaa; background: #fff">Grey on white and wide</p>
        <input></main></html>
        """);

    assertThat(Chromium.sticksOut(page)).anySatisfy(found -> assertThat(found).startsWith("<p"));
    assertThat(Chromium.axe(page))
        .anySatisfy(found -> assertThat(found).startsWith("color-contrast"))
        .anySatisfy(found -> assertThat(found).startsWith("label"));
    assertThat(Chromium.axeOfColours(page))
        .singleElement()
        .satisfies(found -> assertThat(found).startsWith("color-contrast"));
  }
}
