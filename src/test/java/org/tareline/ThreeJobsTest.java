package org.tareline;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;

/**
 * What Tareline is for, from the bench to the result: at a desk with the keyboard and nothing else,
 * and on a phone by touch.
 */
@BrowserTest
class ThreeJobsTest {

  private TestLedger ledger;

  @BeforeEach
  void twoHangSystemsThatShareTheirStraps(TestLedger fresh) {
    ledger = fresh;
    post(
        "/scales",
        Map.of("code", "K1", "name", "Bench scale", "readability", "1 g", "capacity", "5 kg"));
    post("/parts", Map.of("code", "GB", "name", "Gathered body", "system", "hang", "owned", 1));
    post("/parts", Map.of("code", "BB", "name", "Bridge body", "system", "hang", "owned", 1));
    post("/parts", Map.of("code", "ST", "name", "Strap", "system", "hang", "owned", 2));
    post(
        "/parts",
        Map.of(
            "code",
            "TP",
            "name",
            "Small tarp",
            "system",
            "rain",
            "owned",
            1,
            "stated",
            Map.of("mass", "250 g")));
    weigh("GB", "310 g");
    weigh("BB", "405 g");
    weigh("ST", "52 g");
    rig("GATHERED", "Gathered hang", "GB");
    rig("BRIDGE", "Bridge hang", "BB");
  }

  private void post(String path, Object body) {
    ledger.api().post(path, body).expect(201);
  }

  private void weigh(String part, String reading) {
    post("/weighings", Map.of("part", part, "scale", "K1", "readings", List.of(reading)));
  }

  private void rig(String code, String name, String body) {
    post(
        "/rigs",
        Map.of(
            "code",
            code,
            "name",
            name,
            "lines",
            List.of(
                Map.of("part", body, "quantity", 1, "role", "body"),
                Map.of("part", "ST", "quantity", 2, "role", "tree strap"))));
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void a_weighing_is_logged_by_keyboard_from_signing_in_to_the_next_one(
      ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(Screen.DESK, scheme);
    page.navigate("/");
    assertThat(page.locator("#name")).isFocused();
    type(page, ledger.name());
    page.keyboard().press("Tab");
    type(page, ledger.password());
    page.keyboard().press("Enter");

    // One: the part, by some letters.
    assertThat(page.locator("#part")).isFocused();
    type(page, "small");
    page.getByRole(AriaRole.OPTION).first().waitFor();
    page.keyboard().press("ArrowDown");
    page.keyboard().press("Enter");
    assertThat(page.locator("#part")).hasValue("TP");
    // Two: the reading. The scale is the last one used.
    page.keyboard().press("Tab");
    assertThat(page.locator("#readings")).isFocused();
    assertFocusIsSeen(page);
    type(page, "261");
    page.keyboard().press("Enter");

    assertThat(page.locator(".answer__mass")).hasText(Pattern.compile("^261\\.0\\sg ± .*"));
    assertThat(page.locator("#part")).isFocused();
    assertThat(page.locator("#part")).hasValue("");
    assertThat(page.locator("tbody tr").first()).containsText("TP");
    assertThat(Chromium.axe(page)).isEmpty();
  }

  @Test
  void what_matches_half_of_what_is_typed_cannot_be_taken_for_the_whole(Chromium chromium) {
    Page page = chromium.window(ledger, Screen.DESK, ColorScheme.LIGHT);
    page.clock().install();
    List<Route> held = new ArrayList<>();
    page.route("**/suggestions?text=s", held::add);
    page.navigate("/");
    page.locator("#part").focus();
    page.clock().pauseAt(new Date(System.currentTimeMillis() + 60_000));
    // The beginning of the strap's code as well.
    type(page, "s");
    page.clock().runFor(1_000);
    page.waitForCondition(() -> held.size() == 1);
    type(page, "mall");

    Response late = page.waitForResponse("**/suggestions?text=s", () -> held.get(0).resume());
    assertThat(late.text()).contains("ST").contains("TP");
    page.evaluate("() => fetch('/assets/icon.svg').then((answer) => answer.text())");
    assertThat(page.locator("[role=option]")).hasCount(0);
    page.clock().runFor(1_000);
    assertThat(page.locator("[role=option]")).hasText(Pattern.compile("TP.*"));
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void a_weighing_is_logged_by_touch(ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.PHONE, scheme);
    page.navigate("/");
    page.locator(".waiting a").filter(containing("Small tarp")).tap();
    assertThat(page.locator("#part")).hasValue("TP");
    page.locator("#readings").tap();
    type(page, "261");
    page.getByRole(AriaRole.BUTTON, named("Log the weighing")).tap();

    assertThat(page.locator(".answer__mass")).hasText(Pattern.compile("^261\\.0\\sg ± .*"));
    assertFitForAPhone(page);
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void a_packing_list_is_built_by_keyboard(ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.DESK, scheme);
    page.navigate("/");
    // Away from the field that has the focus, or the letters would go into it.
    enter(page, page.getByRole(AriaRole.LINK, linkNamed("Trips")));
    enter(page, page.getByRole(AriaRole.LINK, linkNamed("New trip")));
    fill(page, page.getByLabel("Name").first(), "Two nights");
    fill(page, page.getByLabel("Code").first(), "TWO");
    Locator things = page.getByLabel("Part or rig", exactly());
    tabTo(page, things.nth(0));
    type(page, "bridge");
    page.getByRole(AriaRole.OPTION).filter(containing("Bridge hang")).waitFor();
    page.keyboard().press("ArrowUp");
    page.keyboard().press("Enter");
    assertThat(things.nth(0)).hasValue("BRIDGE");
    fill(page, page.getByLabel("Bag or pocket").nth(0), "Hang bag");
    fill(page, things.nth(1), "TP");
    fill(page, page.getByLabel("Item", exactly()).first(), "Oats");
    fill(page, page.getByLabel("Mass each").first(), "240 g");
    page.keyboard().press("Enter");

    assertThat(page.locator("h1")).hasText("Two nights");
    enter(page, page.getByRole(AriaRole.LINK, linkContaining("acking list")).first());
    assertThat(page.locator("h1")).containsText("Two nights");
    assertThat(page.locator("main")).containsText("Hang bag");
    Locator oats = page.getByRole(AriaRole.CHECKBOX, named("Oats"));
    tabTo(page, oats);
    page.keyboard().press("Space");
    assertThat(oats).isChecked();
    assertThat(Chromium.axe(page)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void a_packing_list_is_built_by_touch(ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.PHONE, scheme);
    page.navigate("/");
    page.getByRole(AriaRole.LINK, linkNamed("Trips")).tap();
    page.getByRole(AriaRole.LINK, linkNamed("New trip")).tap();
    tapAndType(page, page.getByLabel("Name").first(), "Two nights");
    tapAndType(page, page.getByLabel("Code").first(), "TWO");
    Locator things = page.getByLabel("Part or rig", exactly());
    tapAndType(page, things.nth(0), "bridge");
    page.getByRole(AriaRole.OPTION).filter(containing("Bridge hang")).tap();
    assertThat(things.nth(0)).hasValue("BRIDGE");
    tapAndType(page, page.getByLabel("Bag or pocket").nth(0), "Hang bag");
    tapAndType(page, page.getByLabel("Item", exactly()).first(), "Oats");
    page.locator("main form button[type=submit]").first().tap();

    assertThat(page.locator("h1")).hasText("Two nights");
    assertFitForAPhone(page);
    page.getByRole(AriaRole.LINK, linkContaining("acking list")).first().tap();
    Locator oats = page.getByRole(AriaRole.CHECKBOX, named("Oats"));
    oats.tap();
    assertThat(oats).isChecked();
    assertFitForAPhone(page);
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void two_rigs_are_compared_by_keyboard(ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.DESK, scheme);
    page.navigate("/");
    enter(page, page.getByRole(AriaRole.LINK, linkNamed("Side by side")));
    Locator rigs = page.locator("main form input[name=rig]");
    tabTo(page, rigs.nth(0));
    type(page, "gath");
    page.getByRole(AriaRole.OPTION).filter(containing("Gathered hang")).waitFor();
    page.keyboard().press("ArrowDown");
    page.keyboard().press("Enter");
    fill(page, rigs.nth(1), "BRIDGE");
    page.keyboard().press("Enter");

    assertTheBridgeIsHeavier(page);
    assertThat(Chromium.axe(page)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(names = {"LIGHT", "DARK"})
  void two_rigs_are_compared_by_touch(ColorScheme scheme, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.PHONE, scheme);
    page.navigate("/");
    page.getByRole(AriaRole.LINK, linkNamed("Side by side")).tap();
    Locator rigs = page.locator("main form input[name=rig]");
    tapAndType(page, rigs.nth(0), "gath");
    page.getByRole(AriaRole.OPTION).filter(containing("Gathered hang")).tap();
    tapAndType(page, rigs.nth(1), "BRIDGE");
    page.getByRole(AriaRole.BUTTON, named("Compare")).tap();

    assertTheBridgeIsHeavier(page);
    assertFitForAPhone(page);
  }

  private static void assertTheBridgeIsHeavier(Page page) {
    assertThat(page.locator(".quote"))
        .hasText(Pattern.compile("^BRIDGE is heavier than GATHERED by 95\\.0\\sg ± .*"));
    // Both hang from the same straps, and the chart says what makes the difference.
    assertThat(page.locator("tbody tr").filter(containing("tree strap"))).containsText("same");
    assertThat(page.locator("figcaption").first()).containsText("body");
  }

  private static void type(Page page, String text) {
    page.keyboard().type(text);
  }

  private static void fill(Page page, Locator field, String text) {
    tabTo(page, field);
    type(page, text);
  }

  private static void enter(Page page, Locator link) {
    tabTo(page, link);
    page.keyboard().press("Enter");
  }

  private static void tapAndType(Page page, Locator field, String text) {
    field.tap();
    type(page, text);
  }

  /** Goes on by the Tab key until something has the focus; it can be seen to have it. */
  private static void tabTo(Page page, Locator wanted) {
    wanted.waitFor();
    for (int presses = 0; presses < 250; presses++) {
      if ((Boolean) wanted.evaluate("element => element === document.activeElement")) {
        assertFocusIsSeen(page);
        return;
      }
      page.keyboard().press("Tab");
    }
    throw new AssertionError("The Tab key does not lead to " + wanted);
  }

  private static void assertFocusIsSeen(Page page) {
    assertThat(
            (Boolean)
                page.evaluate(
                    """
                    () => {
                      const style = getComputedStyle(document.activeElement);
                      return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1;
                    }
                    """))
        .as("the focus is seen")
        .isTrue();
  }

  private static void assertFitForAPhone(Page page) {
    assertThat(Chromium.axe(page)).isEmpty();
    assertThat(Chromium.sticksOut(page)).isEmpty();
  }

  private static Locator.FilterOptions containing(String text) {
    return new Locator.FilterOptions().setHasText(text);
  }

  private static Page.GetByRoleOptions named(String name) {
    return new Page.GetByRoleOptions().setName(name);
  }

  private static Page.GetByRoleOptions linkNamed(String name) {
    return named(name).setExact(true);
  }

  private static Page.GetByRoleOptions linkContaining(String name) {
    return named(name).setExact(false);
  }

  private static Page.GetByLabelOptions exactly() {
    return new Page.GetByLabelOptions().setExact(true);
  }
}
