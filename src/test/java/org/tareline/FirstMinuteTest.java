package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Keyboard;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;

/** A ledger with nothing in it, and somebody who has never seen it. */
@BrowserTest
class FirstMinuteTest {

  @Test
  void the_first_part_and_scale_and_weighing_take_the_keyboard_alone_and_move_a_rigs_total(
      TestLedger ledger, Chromium chromium) {
    Page page = chromium.window(ledger, Screen.DESK, ColorScheme.LIGHT);
    page.navigate("/");
    Keyboard keys = page.keyboard();
    assertThat(focused(page)).isEqualTo("part");

    keys.type("ROOF");
    keys.press("Tab");
    keys.type("118.3");
    for (int field = 0; field < 7; field++) {
      keys.press("Tab");
    }
    assertThat(focused(page)).isEqualTo("newScale-readability");
    keys.type("0.1 g");
    keys.press("Tab");
    keys.type("2 kg");
    keys.press("Enter");

    // The name is all that is missing.
    page.locator("#newPart-name:focus").waitFor();
    keys.type("Roof");
    keys.press("Enter");
    page.locator(".answer").waitFor();
    assertThat(page.locator(".answer__mass").textContent()).startsWith("118.3").contains("±");
    page.locator("#part:focus").waitFor();

    ledger
        .api()
        .post(
            "/rigs",
            Map.of(
                "code",
                "HANG",
                "name",
                "Hang",
                "lines",
                List.of(Map.of("part", "ROOF", "quantity", 1, "role", "tarp"))))
        .expect(201);
    keys.type("ROOF");
    keys.press("Tab");
    keys.type("121.4");
    keys.press("Enter");
    page.locator(".answer li").waitFor();
    assertThat(page.locator(".answer li").textContent())
        .contains("HANG")
        .contains("121.4")
        .contains("heavier by 3.1")
        .contains("±");
  }

  @Test
  void a_weighing_from_a_notebook_makes_no_scale(TestLedger ledger) {
    ledger
        .api()
        .post("/parts", Map.of("code", "ROOF", "name", "Roof", "system", "rain"))
        .expect(201);

    ledger
        .pages()
        .submit(
            ledger.pages().get("/").expect(200),
            "form.entry",
            "part",
            "ROOF",
            "readings",
            "118 g",
            "tolerance",
            "2 g")
        .expect(303);

    assertThat(ledger.api().get("/scales").json().path("items")).isEmpty();
  }

  private static String focused(Page page) {
    return String.valueOf(page.evaluate("document.activeElement.id"));
  }
}
