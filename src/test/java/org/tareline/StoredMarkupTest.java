package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.UncategorizedSQLException;
import org.tareline.testing.BrowserTest;
import org.tareline.testing.Chromium;
import org.tareline.testing.Screen;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/**
 * Markup that was stored is shown as the text it is, on every page (OWASP ASVS 4.0.3, 5.3.3): it
 * makes no element, runs nothing, and is not even stopped by the content security policy, for it
 * never gets that far.
 */
@BrowserTest
class StoredMarkupTest {

  private static final String MARKUP =
      "\"'><img src=x onerror=\"window.broken=1\"><script>window.broken=1</script>${7*7}</title>";

  /** What is no free text: quantities as typed, digests, bodies of requests, codes. */
  private static final String NOT_FREE = ".*(_typed|_hash|code|code_key|_key|key|page)";

  @Test
  void markup_in_every_text_field_is_text_on_every_page(TestServer server, Chromium chromium) {
    TestLedger sample = EveryPage.sample(server);
    noted(sample);
    List<String> columns = fill(server, sample);
    assertThat(columns).contains("part.name", "part.note", "rig.name", "material.colour");
    Page page = chromium.window(sample, Screen.DESK, ColorScheme.LIGHT);
    page.addInitScript(
        "document.addEventListener('securitypolicyviolation', event => {"
            + "(window.violations ??= []).push(event.violatedDirective + ' ' + event.blockedURI)})");
    List<String> wrong = new ArrayList<>();
    int showing = 0;
    for (String path : EveryPage.shown()) {
      page.navigate(path);
      if (Boolean.TRUE.equals(page.evaluate("window.broken === 1"))
          || Boolean.TRUE.equals(page.evaluate("document.querySelector('img[src=x]') !== null"))) {
        wrong.add(path + " took it for markup");
      }
      Object violations = page.evaluate("(window.violations ?? []).join('; ')");
      if (!"".equals(violations)) {
        wrong.add(path + " was stopped: " + violations);
      }
      if (page.content().contains("&lt;script&gt;window.broken=1")) {
        showing++;
      }
    }
    assertThat(wrong).isEmpty();
    assertThat(showing).isGreaterThan(EveryPage.shown().size() / 2);
  }

  /** What is never changed once it is written comes in by the API. */
  private static void noted(TestLedger sample) {
    sample
        .api()
        .post(
            "/weighings",
            Map.of("part", "PACK", "scale", "BENCH", "readings", List.of("920 g"), "note", MARKUP))
        .expect(201);
    sample
        .api()
        .post("/parts/B3-BODY/events", Map.of("kind", "washed", "note", MARKUP))
        .expect(201);
    sample.api().post("/tokens", Map.of("name", MARKUP)).expect(201);
    sample.api().post("/invitations", Map.of("role", "reader", "note", MARKUP)).expect(201);
  }

  private static List<String> fill(TestServer server, TestLedger sample) {
    List<String> columns = new ArrayList<>();
    for (Map<String, Object> row :
        server
            .database()
            .queryForList(
                """
                select c.table_name t, c.column_name c from information_schema.columns c
                where lower(c.table_schema) = 'public' and upper(c.data_type) like '%CHAR%' and c.character_maximum_length >= 100
                  and exists (select 1 from information_schema.columns l
                    where l.table_schema = c.table_schema and l.table_name = c.table_name
                      and lower(l.column_name) = 'ledger_id')
                """)) {
      String table = String.valueOf(row.get("t")).toLowerCase(Locale.ROOT);
      String column = String.valueOf(row.get("c")).toLowerCase(Locale.ROOT);
      if (!column.matches(NOT_FREE) && changed(server, sample, table, column)) {
        columns.add(table + '.' + column);
      }
    }
    return columns;
  }

  /** Whether it is of the things that may be changed: others are written once and came in above. */
  private static boolean changed(
      TestServer server, TestLedger sample, String table, String column) {
    try {
      return server
              .database()
              .update(
                  "update "
                      + table
                      + " set "
                      + column
                      + " = ? where ledger_id = ? and 0 < "
                      + (column.equals("note") ? "1" : "char_length(" + column + ")"),
                  MARKUP,
                  sample.member().ledgerId())
          > 0;
    } catch (UncategorizedSQLException refused) {
      assertThat(refused).rootCause().hasMessageContaining("append-only");
      return false;
    }
  }
}
