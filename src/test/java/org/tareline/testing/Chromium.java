package org.tareline.testing;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.ConsoleMessage;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Cookie;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;

/**
 * A test's Chromium. Everything it complains about (a breach of the content security policy, an
 * error in a script, an asset that is not there) fails the test at its end.
 */
public final class Chromium {

  private final Browser browser;
  private final TestServer server;
  private final List<BrowserContext> opened = new ArrayList<>();
  private final List<String> complaints = new CopyOnWriteArrayList<>();
  private final List<String> expected = new ArrayList<>();

  Chromium(Browser browser, TestServer server) {
    this.browser = browser;
    this.server = server;
  }

  /**
   * A new window, signed in as {@link TestLedger#pages} is, with nothing shown yet; paths are
   * relative to the server.
   */
  public Page window(TestLedger ledger, Screen screen, ColorScheme scheme) {
    Page page = window(screen, scheme);
    page.context()
        .addCookies(
            ledger.pages().cookies().entrySet().stream()
                .map(
                    cookie ->
                        new Cookie(cookie.getKey(), cookie.getValue()).setUrl(server.address()))
                .toList());
    return page;
  }

  /** A new window of somebody who has not signed in. */
  public Page window(Screen screen, ColorScheme scheme) {
    boolean phone = screen == Screen.PHONE;
    BrowserContext context =
        browser.newContext(
            new Browser.NewContextOptions()
                .setBaseURL(server.address())
                .setViewportSize(screen.width(), screen.height())
                .setHasTouch(phone)
                .setIsMobile(phone)
                .setColorScheme(scheme)
                .setLocale("en-GB"));
    opened.add(context);
    Page page = context.newPage();
    page.setDefaultTimeout(Patience.LONG.toMillis());
    page.onConsoleMessage(this::listen);
    page.onPageError(error -> complaints.add(page.url() + ": " + error));
    page.onResponse(this::look);
    return page;
  }

  /** A complaint that the test is about: it fails without it. */
  public void expect(String complaint) {
    expected.add(complaint);
  }

  private void listen(ConsoleMessage message) {
    // What could not be loaded is looked at as a response: a page may well answer 404 or 422.
    if (message.type().equals("error") && !message.text().startsWith("Failed to load resource")) {
      complaints.add(message.location() + ": " + message.text());
    }
  }

  private void look(Response response) {
    boolean asset = !response.request().isNavigationRequest() && response.status() != 422;
    if (response.status() >= 500 || (asset && response.status() >= 400)) {
      complaints.add(response.url() + " answered " + response.status());
    }
  }

  /** What axe finds wrong with what is shown; nothing, one hopes. */
  public static List<String> axe(Page page) {
    // Off by itself, and part of WCAG 2.2 AA (2.5.8).
    return violations(page, Map.of("rules", Map.of("target-size", Map.of("enabled", true))));
  }

  /** What axe finds wrong with the colours of what is shown. */
  public static List<String> axeOfColours(Page page) {
    return violations(page, Map.of("runOnly", List.of("color-contrast", "link-in-text-block")));
  }

  /** Axe is put into each page once, for it is half a megabyte, and says what is wrong alone. */
  @SuppressWarnings("unchecked")
  private static List<String> violations(Page page, Map<String, Object> options) {
    if (!(Boolean) page.evaluate("'axe' in window")) {
      page.evaluate(AxeBuilder.getAxeScript());
    }
    return (List<String>)
        page.evaluate(
            """
            async (options) => {
              const found = await axe.run(document, { ...options, resultTypes: ["violations"] });
              return found.violations.flatMap(({ id, nodes }) =>
                nodes.map(({ target, html }) => `${id} at ${target}: ${html}`));
            }
            """,
            options);
  }

  /** What sticks out of the page to the right, so that the whole page scrolls sideways. */
  @SuppressWarnings("unchecked")
  public static List<String> sticksOut(Page page) {
    return (List<String>)
        page.evaluate(
            """
            () => {
              const root = document.documentElement;
              if (root.scrollWidth <= root.clientWidth) return [];
              const scrolls = (element) => element && element !== root
                  && (getComputedStyle(element).overflowX !== "visible" || scrolls(element.parentElement));
              return ["a page of " + root.scrollWidth + " px"].concat(
                [...document.body.querySelectorAll("*")]
                  .filter((element) => element.getBoundingClientRect().right > root.clientWidth + 0.5
                      && !scrolls(element.parentElement))
                  .map((element) => element.cloneNode(false).outerHTML
                      + " to " + element.getBoundingClientRect().right));
            }
            """);
  }

  /** What scrolls sideways by itself, once the page knows how wide its window is. */
  @SuppressWarnings("unchecked")
  public static List<String> scrolls(Page page) {
    return (List<String>)
        page.evaluate(
            """
            async () => {
              await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
              return [...document.body.querySelectorAll("*")]
                .filter((element) => ["auto", "scroll"].includes(getComputedStyle(element).overflowX)
                    && element.scrollWidth > element.clientWidth + 1)
                .map((element) => element.cloneNode(false).outerHTML
                    + " by " + (element.scrollWidth - element.clientWidth));
            }
            """);
  }

  void close() {
    opened.forEach(BrowserContext::close);
    for (String complaint : expected) {
      if (!complaints.removeIf(made -> made.contains(complaint))) {
        throw new AssertionError("The browser did not complain: " + complaint);
      }
    }
    if (!complaints.isEmpty()) {
      throw new AssertionError("The browser complains: " + String.join("\n", complaints));
    }
  }
}
