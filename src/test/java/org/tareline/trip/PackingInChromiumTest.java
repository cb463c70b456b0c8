package org.tareline.trip;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Cookie;
import com.microsoft.playwright.options.ReducedMotion;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;
import tools.jackson.databind.JsonNode;

/** Packing with a telephone in the hand: with others, without a network, by keyboard alone. */
@BrowserTest
class PackingInChromiumTest {

  private static final String LIST = "/trips/FELL/packing-list";

  private TestLedger ledger;

  @BeforeEach
  void pack(TestLedger ledger) {
    this.ledger = ledger;
    Workshop workshop = new Workshop(ledger);
    workshop.part("BODY", "Hang body", "hang", 1, null);
    workshop.part("BAR", "Head bar", "hang", 2, null);
    workshop.part("TARP", "Tarp", "rain", 1, null);
    workshop.rig("HANG", "Hang system", 1, "BODY", 2, "BAR");
    ledger
        .api()
        .post(
            "/trips",
            """
            {"code":"FELL","name":"Four nights","lines":[{"rig":"HANG"},{"part":"TARP"},
              {"item":{"name":"Oats","system":"food"},"carry":"consumable"}]}
            """)
        .expect(201);
  }

  private Page phone(Chromium chromium) {
    Page page = chromium.window(ledger, Screen.PHONE, ColorScheme.LIGHT);
    page.navigate(LIST);
    return page;
  }

  private static Locator box(Page page, String name) {
    return page.getByRole(AriaRole.CHECKBOX, new Page.GetByRoleOptions().setName(name));
  }

  private static Locator fetch(Page page, String name) {
    return page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("to fetch " + name));
  }

  private static void assertSaid(Page page, String words) {
    assertThat(page.locator("[data-exchange]")).containsText(words);
  }

  private static void untilKept(Page page) {
    assertSaid(page, "This page opens here without a network, too.");
  }

  private List<String> states() {
    return ledger
        .api()
        .get("/trips/FELL/packing")
        .expect(200)
        .json()
        .path("things")
        .findValuesAsString("state");
  }

  private List<String> written() {
    return ledger
        .server()
        .database()
        .queryForList(
            "select state from packing_check where ledger_id = ? order by checked_at, id",
            String.class,
            ledger.member().ledgerId());
  }

  @Test
  void a_tap_checks_off_at_once_and_the_server_has_it(Chromium chromium) {
    Page page = phone(chromium);
    box(page, "Hang body").tap();
    assertThat(box(page, "Hang body")).isChecked();
    fetch(page, "Tarp").tap();
    assertThat(page.locator(".packing__left")).hasText("3 of 4 still to pack, 1 of them to fetch");
    assertSaid(page, "No check waits.");

    assertThat(states()).containsExactly("packed", "open", "to fetch", "open");
    // What is packed has gone to the end of its group.
    assertThat(page.locator("section").first().locator("[data-name]").last()).hasText("Hang body");
    assertThat(Chromium.axe(page)).isEmpty();
    assertThat(Chromium.sticksOut(page)).isEmpty();
    for (Locator target : page.locator(".packing__list button").all()) {
      BoundingBox size = target.boundingBox();
      assertThat(size.height).isGreaterThanOrEqualTo(44);
      assertThat(size.width).isGreaterThanOrEqualTo(44);
    }
  }

  @Test
  void with_the_network_cut_checks_are_kept_in_their_order_and_sent_when_it_is_back(
      Chromium chromium) {
    Page page = phone(chromium);
    untilKept(page);
    page.context().setOffline(true);
    box(page, "Hang body").tap();
    box(page, "Tarp").tap();
    box(page, "Tarp").tap();
    fetch(page, "Tarp").tap();
    assertSaid(page, "4 checks wait to be sent.");
    assertSaid(page, "The server does not answer");
    assertThat(written()).as("the premise: nothing arrives").isEmpty();

    // The page is closed and opened again, still without a network.
    page.reload();
    assertThat(page.locator("h1")).hasText("Packing list: Four nights");
    assertThat(box(page, "Hang body")).isChecked();
    assertThat(box(page, "Tarp")).not().isChecked();
    assertThat(fetch(page, "Tarp")).hasAttribute("aria-pressed", "true");
    assertThat(page.locator(".packing__left")).hasText("3 of 4 still to pack, 1 of them to fetch");
    box(page, "Oats").tap();
    assertSaid(page, "5 checks wait to be sent.");

    page.context().setOffline(false);
    assertSaid(page, "No check waits.");
    assertThat(written()).containsExactly("packed", "packed", "open", "to fetch", "packed");
    // Nobody is told of what they took back themselves.
    assertThat(page.locator("[data-said]")).isHidden();
    assertThat(states()).containsExactly("packed", "open", "to fetch", "packed");
    assertThat(page.locator(".packing__left")).hasText("2 of 4 still to pack, 1 of them to fetch");
    page.reload();
    assertThat(box(page, "Oats")).isChecked();
  }

  @Test
  void what_was_checked_is_there_after_the_tab_was_closed(Chromium chromium) {
    Page page = phone(chromium);
    untilKept(page);
    BrowserContext browser = page.context();
    browser.setOffline(true);
    box(page, "Tarp").tap();
    assertSaid(page, "1 check waits to be sent.");
    page.close();
    browser.setOffline(false);

    Page again = browser.newPage();
    again.navigate(LIST);
    assertSaid(again, "No check waits.");
    assertThat(states().get(2)).isEqualTo("packed");
  }

  @Test
  void two_who_pack_see_each_others_checks_within_seconds(Chromium chromium) {
    Page one = phone(chromium);
    Page other = phone(chromium);
    box(one, "Tarp").tap();
    assertThat(box(other, "Tarp")).isChecked();
    fetch(other, "Oats").tap();
    assertThat(fetch(one, "Oats")).hasAttribute("aria-pressed", "true");

    // One loses the network; the later of their checks counts, though it arrives first.
    one.context().setOffline(true);
    box(one, "Oats").tap();
    assertSaid(one, "1 check waits to be sent.");
    box(other, "Oats").tap();
    box(other, "Oats").tap();
    assertSaid(other, "No check waits.");
    one.context().setOffline(false);
    assertSaid(one, "No check waits.");
    assertThat(one.locator("[data-said]")).containsText("Oats: ");
    assertThat(one.locator("[data-said]")).containsText("checked it later, and that counts: open.");
    assertThat(box(one, "Oats")).not().isChecked();
    assertThat(states().get(3)).isEqualTo("open");
  }

  @Test
  void what_is_put_on_the_trip_or_taken_off_meanwhile_is_told_in_words(Chromium chromium) {
    Page page = phone(chromium);
    untilKept(page);
    page.context().setOffline(true);
    box(page, "Oats").tap();
    assertSaid(page, "1 check waits to be sent.");
    JsonNode lines = ledger.api().get("/trips/FELL").json().path("lines");
    ledger
        .api()
        .put(
            "/trips/FELL",
            "{\"code\":\"FELL\",\"name\":\"Four nights\",\"lines\":[%s,%s,{\"item\":{\"name\":\"Rope\"}}]}"
                .formatted(lines.path(0), lines.path(1)))
        .expect(200);
    page.context().setOffline(false);

    assertThat(page.locator("[data-said]")).containsText("Put on the trip meanwhile: Rope.");
    assertThat(page.locator("[data-said]")).containsText("Taken off the trip meanwhile: Oats.");
    assertThat(page.locator("[data-said]")).containsText("Oats: It is not on the trip now.");
    assertThat(box(page, "Rope")).not().isChecked();
    assertThat(box(page, "Oats")).hasCount(0);
    assertThat(page.locator("[data-left]")).hasText("4");
    assertSaid(page, "No check waits.");
  }

  @Test
  void it_is_done_by_keyboard_alone(Chromium chromium) {
    Page page = chromium.window(ledger, Screen.DESK, ColorScheme.DARK);
    page.navigate(LIST);
    Locator body = box(page, "Hang body");
    for (int presses = 0; presses < 60 && !isFocused(body); presses++) {
      page.keyboard().press("Tab");
    }
    page.keyboard().press("Space");
    assertThat(body).isChecked();
    assertThat(body).isFocused();
    page.keyboard().press("Tab");
    page.keyboard().press("Tab");
    assertThat(box(page, "Head bar")).isFocused();
    page.keyboard().press("Enter");
    assertThat(box(page, "Head bar")).isChecked();
    page.keyboard().press("Tab");
    page.keyboard().press("Tab");
    page.keyboard().press("Tab");
    assertThat(fetch(page, "Tarp")).isFocused();
    page.keyboard().press("Space");
    assertThat(fetch(page, "Tarp")).hasAttribute("aria-pressed", "true");
    assertSaid(page, "No check waits.");
    assertThat(states()).containsExactly("packed", "packed", "to fetch", "open");
    assertThat(Chromium.axe(page)).isEmpty();
  }

  private static boolean isFocused(Locator locator) {
    return (Boolean) locator.evaluate("element => element === document.activeElement");
  }

  @Test
  void only_what_is_left_is_shown_where_that_is_wanted(Chromium chromium) {
    Page page = phone(chromium);
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Still to pack")).tap();
    box(page, "Tarp").tap();
    assertThat(box(page, "Tarp")).isHidden();
    assertThat(page.locator("section:visible")).hasCount(2);
    assertThat(page.url()).endsWith("?show=left");
    page.reload();
    assertThat(box(page, "Tarp")).isHidden();
    assertThat(box(page, "Oats")).isVisible();
    page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Everything")).tap();
    assertThat(box(page, "Tarp")).isChecked();
  }

  @Test
  void who_signs_out_leaves_no_page_behind_and_checks_wait_for_the_same_account(
      TestServer server, TestLedger stranger, Chromium chromium) {
    Page page = phone(chromium);
    untilKept(page);
    page.context().setOffline(true);
    box(page, "Tarp").tap();
    assertSaid(page, "1 check waits to be sent.");
    page.reload();
    // The premise: it is there.
    assertThat(page.locator("h1")).hasText("Packing list: Four nights");
    page.route("**/checks**", route -> route.abort());
    page.context().setOffline(false);
    page.navigate("/account");
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign out")).tap();
    page.waitForURL("**/sign-in?out");
    page.evaluate("async () => { while ((await caches.keys()).length) await 0; }");

    page.context().setOffline(true);
    assertThatNothingIsThere(page);
    page.context().setOffline(false);
    page.unroute("**/checks**");
    signIn(page, stranger);
    assertThat(page.navigate(LIST).status()).isEqualTo(404);
    stranger
        .api()
        .post(
            "/trips",
            "{\"code\":\"FELL\",\"name\":\"Other\",\"lines\":[{\"item\":{\"name\":\"Tea\"}}]}")
        .expect(201);
    page.navigate(LIST);
    assertSaid(page, "No check waits.");
    untilKept(page);
    page.context().setOffline(true);
    page.reload();
    assertThat(page.locator("h1")).hasText("Packing list: Other");
    page.context().setOffline(false);
    assertThat(written()).isEmpty();

    page.navigate("/account");
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign out")).tap();
    page.waitForURL("**/sign-in?out");
    signIn(page, ledger);
    page.navigate(LIST);
    assertSaid(page, "No check waits.");
    assertThat(written()).containsExactly("packed");
  }

  private static void signIn(Page page, TestLedger as) {
    page.navigate("/sign-in");
    page.locator("#name").fill(as.name());
    page.locator("#password").fill(as.password());
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Sign in")).click();
    page.waitForURL(url -> !url.contains("sign-in"));
  }

  private static void assertThatNothingIsThere(Page page) {
    try {
      page.navigate(LIST);
    } catch (PlaywrightException noAnswer) {
      assertThat(noAnswer.getMessage()).contains("ERR_");
      return;
    }
    throw new AssertionError("A page was shown: " + page.title());
  }

  @Test
  void a_session_that_is_over_is_told_and_the_check_goes_out_after_signing_in(Chromium chromium) {
    Page page = phone(chromium);
    assertSaid(page, "No check waits.");
    page.context().clearCookies();
    box(page, "Tarp").tap();
    chromium.expect(
        "checks?owner=" + page.locator("main").getAttribute("data-owner") + " answered 403");
    assertSaid(page, "sign in again");
    assertSaid(page, "1 check waits to be sent.");
    assertThat(written()).isEmpty();

    Page elsewhere = page.context().newPage();
    signIn(elsewhere, ledger);
    assertSaid(page, "No check waits.");
    assertThat(written()).containsExactly("packed");
  }

  @Test
  void it_works_without_scripts(TestServer server, Chromium chromium) {
    Page scripted = phone(chromium);
    Browser browser = scripted.context().browser();
    try (BrowserContext plain =
        browser.newContext(
            new Browser.NewContextOptions()
                .setBaseURL(server.address())
                .setViewportSize(360, 740)
                // Who goes on to a place on the page is there at once, and the next click as well.
                .setReducedMotion(ReducedMotion.REDUCE)
                .setJavaScriptEnabled(false))) {
      plain.addCookies(
          scripted.context().cookies().stream()
              .map(cookie -> new Cookie(cookie.name, cookie.value).setUrl(server.address()))
              .toList());
      Page page = plain.newPage();
      page.navigate(LIST);
      box(page, "Tarp").click();
      assertThat(box(page, "Tarp")).isChecked();
      assertThat(page.url()).as("where it goes on").contains("#group-");
      fetch(page, "Oats").click();
      assertThat(page.locator(".packing__left"))
          .hasText("3 of 4 still to pack, 1 of them to fetch");
    }
    assertThat(states()).containsExactly("open", "open", "packed", "to fetch");
  }

  @ParameterizedTest
  @ValueSource(strings = {"A4", "Letter"})
  void the_long_list_of_the_sample_prints_on_one_sheet(
      String paper, TestServer server, Chromium chromium) {
    Page page = chromium.window(server.openSampleLedger(), Screen.DESK, ColorScheme.LIGHT);
    page.navigate("/trips/UPLAND-SEP/packing-list");
    assertThat(page.locator("li.packing__thing").count()).isGreaterThan(40);

    String pdf =
        new String(page.pdf(new Page.PdfOptions().setFormat(paper)), StandardCharsets.ISO_8859_1);
    assertThat(Pattern.compile("/Type /Page\\b").matcher(pdf).results().count()).isEqualTo(1);
  }
}
