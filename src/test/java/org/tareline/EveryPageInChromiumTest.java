package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
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

  /** What has no address of its own: it is led to by what somebody does. */
  @Test
  void pages_that_somebody_is_led_to_are_fit_for_everybody(TestServer server, Chromium chromium)
      throws Exception {
    TestLedger ledger = server.openSampleLedger();
    Page page = chromium.window(ledger, Screen.DESK, ColorScheme.LIGHT);
    page.navigate("/account/second-factor");
    page.getByText("Set it up").click();
    page.locator(".phone__qr").waitFor();
    assertFit(page);

    page.navigate("/exchange/table");
    page.locator("#text")
        .fill("Code;Name;Mass\nNEW-1;A strap of the sort that has a long name;38.5\nAID;Aid;12\n");
    page.getByText("Go on to its columns").click();
    page.locator("button[value=look]").click();
    page.locator("#problems-caption").waitFor();
    assertFit(page);

    page.navigate("/exchange");
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    try (ZipOutputStream files = new ZipOutputStream(zip)) {
      files.putNextEntry(new ZipEntry("parts.csv"));
      files.write("id,code,name\n1,STRAP,A strap\n".getBytes(StandardCharsets.UTF_8));
    }
    page.locator("#file")
        .setInputFiles(new FilePayload("ledger.zip", "application/zip", zip.toByteArray()));
    page.getByText("Try it").click();
    page.locator("#problems-caption").waitFor();
    assertFit(page);

    page.navigate("/");
    page.locator("#part").fill("TARP-4");
    page.locator("#readings").fill("431.2; 431.3; 431.2");
    page.locator("#readings").press("Enter");
    page.locator(".answer").waitFor();
    assertFit(page);

    // A form from before one signed in has not what shows where it is from.
    page.locator("[name=_csrf]").first().evaluate("field => field.form.submit(field.value = '')");
    page.getByText("Nothing was written: go back").waitFor();
    assertFit(page);

    String invitation =
        ledger
            .api()
            .post("/invitations", Map.of("role", "editor"))
            .expect(201)
            .json()
            .path("link")
            .asString();
    Page stranger = chromium.window(Screen.DESK, ColorScheme.LIGHT);
    stranger.navigate(invitation);
    assertFit(stranger);

    byte[] digest =
        MessageDigest.getInstance("SHA-256").digest("led-here".getBytes(StandardCharsets.UTF_8));
    server
        .database()
        .update(
            "insert into password_link (account_id, secret_hash, expires_at) select id, ?, created_at + interval '90' day from account where id = ?",
            HexFormat.of().formatHex(digest),
            ledger.member().accountId());
    assertThat(stranger.navigate("/new-password/led-here").status()).isEqualTo(200);
    assertFit(stranger);
  }

  private static void assertFit(Page page) {
    for (Screen screen : Screen.values()) {
      page.setViewportSize(screen.width(), screen.height());
      show(page, ColorScheme.LIGHT);
      assertThat(Chromium.sticksOut(page)).as("what sticks out at %s", screen).isEmpty();
      assertThat(Chromium.scrolls(page)).as("what scrolls sideways at %s", screen).isEmpty();
      assertThat(Chromium.axe(page)).as("what axe finds at %s", screen).isEmpty();
      show(page, ColorScheme.DARK);
      assertThat(Chromium.axeOfColours(page)).as("what axe finds at %s, dark", screen).isEmpty();
    }
  }

  @Test
  void a_table_wider_than_the_phone_is_told_with_its_headings_and_its_first_mass_in_a_column(
      Chromium chromium) {
    Page page = chromium.window(sample, Screen.PHONE, ColorScheme.LIGHT);
    page.navigate("/trips/MOOR-JUN");
    Locator table = page.locator("table:has(#carriers-caption)");
    assertThat(table.getAttribute("class")).contains("told");
    Locator row = table.locator("tbody tr").first();
    assertThat(row.locator("td").evaluateAll("all => all.map(cell => cell.dataset.heading)"))
        .isEqualTo(
            Arrays.asList(
                "Base",
                "Consumables",
                "Worn",
                "Heaviest pack",
                null,
                "Pack, % of body mass",
                "Skin-out, % of body mass"));
    // The ± is the heaviest pack's, and stays beside it.
    assertThat(row.locator("td:nth-of-type(5)").boundingBox().y)
        .isCloseTo(row.locator("td:nth-of-type(4)").boundingBox().y, within(6.0));
    assertThat(row.locator("td:nth-of-type(1)").boundingBox().y)
        .isLessThan(row.locator("td:nth-of-type(2)").boundingBox().y - 10);

    page.setViewportSize(Screen.DESK.width(), Screen.DESK.height());
    page.locator("table.told").first().waitFor(hidden());
  }

  private static Locator.WaitForOptions hidden() {
    return new Locator.WaitForOptions().setState(WaitForSelectorState.DETACHED);
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
