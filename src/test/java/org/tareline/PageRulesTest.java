package org.tareline;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Attribute;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** What holds on every page, whatever it shows. */
@FeatureTest
class PageRulesTest {

  private static TestLedger sample;

  @Autowired private TestClock clock;

  @BeforeAll
  static void open(TestServer server) {
    sample = EveryPage.sample(server);
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#shown")
  void a_page_keeps_the_rules(String path) {
    assertThat(breaches(sample.pages().get(path).expect(200).page())).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#refusing")
  void a_page_that_refuses_keeps_the_rules_and_links_to_what_is_wrong(EveryPage.Form form) {
    Pages pages = sample.pages();
    Document refused =
        pages.submit(pages.get(form.path()).expect(200), form.form()).expect(422).page();

    assertThat(breaches(refused)).isEmpty();
    assertThat(refused.title()).startsWith("Error: ");
    assertThat(refused.select(".errors a[href^=#]")).isNotEmpty();
    for (Element link : refused.select(".errors a[href^=#]")) {
      Element control = refused.getElementById(link.attr("href").substring(1));
      assertThat(control).as("what %s leads to", link).isNotNull();
      assertThat(control.attr("aria-invalid")).as("aria-invalid of %s", control).isEqualTo("true");
      assertThat(control.attr("aria-describedby")).contains(control.id() + "-error");
    }
  }

  @ParameterizedTest
  @MethodSource("org.tareline.EveryPage#answering")
  void a_page_that_answers_a_form_keeps_the_rules(EveryPage.Answered form) {
    Pages pages = sample.pages();
    Document answer =
        pages
            .submit(
                pages.get(form.path()).expect(200),
                form.form(),
                form.typed().toArray(String[]::new))
            .expect(200)
            .page();

    assertThat(answer.select(form.answer())).isNotEmpty();
    assertThat(breaches(answer)).isEmpty();
  }

  @Test
  void the_pages_of_whoever_has_not_signed_in_keep_the_rules(TestServer server) {
    assertThat(breaches(server.pages().get("/sign-in").expect(200).page())).isEmpty();
    assertThat(
            breaches(
                server
                    .pages()
                    .signIn("nobody of this name", "a wrong password")
                    .expect(422)
                    .page()))
        .isEmpty();
  }

  @Test
  void the_page_that_says_there_is_no_such_page_keeps_the_rules() {
    assertThat(breaches(sample.pages().get(EveryPage.NOT_THERE).expect(404).page())).isEmpty();
  }

  @Test
  void no_link_leads_nowhere() {
    Set<String> asked = new HashSet<>();
    for (String path : EveryPage.shown()) {
      for (Element link : sample.pages().get(path).expect(200).page().select("a[href^=/]")) {
        String leadsTo = link.attr("href").replaceAll("#.*", "");
        if (asked.add(leadsTo)) {
          assertThat(sample.pages().click(link).status()).as("%s on %s", link, path).isEqualTo(200);
        }
      }
    }
    assertThat(asked).hasSizeGreaterThan(20);
  }

  @ParameterizedTest
  @ValueSource(strings = {"tr-TR", "de-DE"})
  void pages_and_tables_say_the_same_on_a_machine_and_in_a_browser_of_another_language(
      String language) {
    clock.stopAt(Instant.parse("2026-11-20T10:00:00Z"));
    Locale before = Locale.getDefault();
    // In the same session, for the page of the account tells them apart.
    Pages foreign = sample.pages().at(sample.server().address()).with("Accept-Language", language);
    for (String path : EveryPage.shown()) {
      String expected = words(sample.pages().get(path).expect(200));
      Locale.setDefault(Locale.forLanguageTag(language));
      try {
        // The premise: a careless page would write a comma here.
        assertThat(String.format(Locale.getDefault(), "%.1f", 0.5)).isEqualTo("0,5");
        assertThat(words(foreign.get(path).expect(200))).as(path).isEqualTo(expected);
      } finally {
        Locale.setDefault(before);
      }
    }
  }

  private static String words(Answer page) {
    return page.page().select("main").text();
  }

  @Test
  void each_rule_can_fail() {
    Document page =
        Jsoup.parse(
            """
            <html><head><title> </title><style>p { color: red }</style></head><body>
            <h1>One</h1><h1>Two</h1>
            <p id="twice" style="color: red" onclick="alert()">a</p><p id="twice">b</p>
            <a href="#nowhere">c</a> <a></a> <button></button>
            <input id="bare"> <input aria-describedby="no-such-hint" aria-label="d">
            <label for="no-such-control">e</label>
            <table><tr><th>f</th><td>1</td></tr></table>
            <script>alert()</script> <img src="/g.png"> <svg role="img"></svg>
            </body></html>
            """);

    assertThat(breaches(page))
        .hasSize(17)
        .anySatisfy(breach -> assertThat(breach).startsWith("2 h1"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no title"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no language"))
        .anySatisfy(breach -> assertThat(breach).startsWith("id twice"))
        .anySatisfy(breach -> assertThat(breach).startsWith("leads nowhere: <a"))
        .anySatisfy(breach -> assertThat(breach).startsWith("leads nowhere: <input"))
        .anySatisfy(breach -> assertThat(breach).startsWith("leads nowhere: <label"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no label: <input id"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no words: <a"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no words: <button"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no words: <img"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no words: <svg"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no scope: <th"))
        .anySatisfy(breach -> assertThat(breach).startsWith("no caption"))
        .anySatisfy(breach -> assertThat(breach).startsWith("inline: <style"))
        .anySatisfy(breach -> assertThat(breach).startsWith("inline: <p"))
        .anySatisfy(breach -> assertThat(breach).startsWith("inline: <script"));
  }

  private static List<String> breaches(Document page) {
    List<String> breaches = new ArrayList<>();
    if (page.select("h1").size() != 1) {
      breaches.add(page.select("h1").size() + " h1");
    }
    if (page.title().isBlank()) {
      breaches.add("no title");
    }
    if (page.select("html[lang]").isEmpty()) {
      breaches.add("no language");
    }
    Set<String> ids = new HashSet<>();
    for (Element element : page.select("[id]")) {
      if (!ids.add(element.id())) {
        breaches.add("id twice: " + element.id());
      }
    }
    for (Element element : page.getAllElements()) {
      if (!ids.containsAll(referredTo(element))) {
        breaches.add("leads nowhere: " + outline(element));
      }
      if (isInline(element)) {
        breaches.add("inline: " + outline(element));
      }
    }
    for (Element control :
        page.select(
            "input:not([type=hidden]):not([type=submit]):not([type=button]), select, textarea")) {
      boolean labelled =
          control.hasAttr("aria-label")
              || control.hasAttr("aria-labelledby")
              || control.closest("label") != null
              || page.select("label").stream()
                  .anyMatch(label -> label.attr("for").equals(control.id()) && label.hasText());
      if (!labelled) {
        breaches.add("no label: " + outline(control));
      }
    }
    for (Element named : page.select("a, button, summary, svg[role=img], img:not([alt])")) {
      boolean hasWords =
          named.hasText() || named.hasAttr("aria-label") || named.hasAttr("aria-labelledby");
      if (!hasWords) {
        breaches.add("no words: " + outline(named));
      }
    }
    for (Element heading : page.select("th:not([scope])")) {
      breaches.add("no scope: " + outline(heading));
    }
    for (Element table : page.select("table")) {
      if (table.select("> caption").text().isBlank()) {
        breaches.add("no caption: " + table.text());
      }
    }
    return breaches;
  }

  private static Set<String> referredTo(Element element) {
    Set<String> ids = new HashSet<>();
    String link = element.attr("href");
    if (link.startsWith("#")) {
      ids.add(link.substring(1));
    }
    for (String by :
        List.of(
            "aria-labelledby",
            "aria-describedby",
            "aria-controls",
            "aria-owns",
            "aria-details",
            "aria-errormessage",
            "aria-activedescendant",
            "for",
            "form",
            "list",
            "headers")) {
      if (element.hasAttr(by)) {
        ids.addAll(List.of(element.attr(by).split("\\s+")));
      }
    }
    return ids;
  }

  private static boolean isInline(Element element) {
    boolean inScript = element.is("script:not([src]), style");
    boolean inAttribute = false;
    for (Attribute attribute : element.attributes()) {
      inAttribute |= attribute.getKey().equals("style") || attribute.getKey().startsWith("on");
    }
    return inScript || inAttribute;
  }

  private static String outline(Element element) {
    return element.shallowClone().outerHtml();
  }
}
