package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.UUID;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@FeatureTest
class SignInTest {

  @Autowired private TestClock clock;

  @Test
  void the_api_takes_name_and_password_with_each_request_and_sets_no_cookie(TestLedger ledger) {
    Answer answer = ledger.api().get("/nothing-is-here").expect(404);

    assertThat(answer.headers("Set-Cookie")).isEmpty();
    assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
  }

  @Test
  void a_wrong_password_at_the_api_is_a_problem_detail(TestLedger ledger, TestServer server) {
    Answer answer = server.api(ledger.name(), "a wrong password").get("/scales").expect(401);

    assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
    assertThat(answer.header("WWW-Authenticate")).isEqualTo("Basic realm=\"Tareline\"");
    assertThat(answer.json().path("status").asInt()).isEqualTo(401);
    assertThat(answer.json().path("detail").asString()).contains("HTTP Basic");
    assertThat(answer.headers("Set-Cookie")).isEmpty();
  }

  @Test
  void nobody_sees_the_api_without_signing_in(TestServer server) {
    Answer answer = server.api().get("/scales").expect(401);

    assertThat(answer.json().path("status").asInt()).isEqualTo(401);
  }

  @Test
  void after_five_wrong_passwords_even_the_right_one_has_to_wait(
      TestLedger ledger, TestServer server) {
    clock.stop();
    ledger.api().get("/nothing-is-here").expect(404);
    for (int i = 0; i < 6; i++) {
      server.api(ledger.name(), "a wrong password " + i).get("/scales").expect(401);
    }

    Answer told = ledger.api().get("/nothing-is-here").expect(429);
    int wait = Integer.parseInt(String.valueOf(told.header("Retry-After")));
    assertThat(wait).isBetween(1, 2);
    assertThat(told.json().path("detail").asString()).contains("Wait " + wait + " s");

    clock.pass(Duration.ofSeconds(wait));
    ledger.api().get("/nothing-is-here").expect(404);
  }

  @Test
  void one_name_is_made_to_wait_and_another_is_not(
      TestLedger guessedAt, TestLedger other, TestServer server) {
    clock.stop();
    for (int i = 0; i < 6; i++) {
      server.api(guessedAt.name(), "a wrong password " + i).get("/scales").expect(401);
    }

    guessedAt.api().get("/nothing-is-here").expect(429);
    other.api().get("/nothing-is-here").expect(404);
  }

  @Test
  void the_form_signs_in_and_out(TestLedger ledger, TestServer server) {
    Pages browser = server.pages();
    assertThat(browser.get("/account").expect(302).header("Location")).endsWith("/sign-in");

    browser.signIn(ledger.name(), ledger.password()).expect(302);
    Answer account = browser.get("/account").expect(200);
    assertThat(account.page().select("main").text()).contains(ledger.name());

    browser.submit(account, "form[action=/sign-out]").expect(302);
    browser.get("/account").expect(302);
  }

  @Test
  void the_form_says_that_a_password_is_wrong_but_not_which_of_the_two(
      TestLedger ledger, TestServer server) {
    String wrongPassword = refusalAtTheForm(server, ledger.name(), "a wrong password");
    String nobody = refusalAtTheForm(server, "nobody of this name", "a wrong password");

    assertThat(wrongPassword).contains("The name and the password do not go together");
    assertThat(nobody).isEqualTo(wrongPassword);
  }

  private static String refusalAtTheForm(TestServer server, String name, String password) {
    Pages browser = server.pages();
    Document refused = browser.signIn(name, password).expect(422).page();
    assertThat(refused.select("#name").val()).isEqualTo(name);
    assertThat(refused.select("#password").val()).isEmpty();
    return refused.select(".errors").text();
  }

  @Test
  void signing_in_gives_a_new_session_whose_cookie_no_script_can_read(
      TestLedger ledger, TestServer server) {
    Pages browser = server.pages();
    String before = sessionCookie(browser.signIn(ledger.name(), ledger.password()));
    String after = sessionCookie(browser.signIn(ledger.name(), ledger.password()));

    assertThat(after).contains("HttpOnly").contains("SameSite=Lax").contains("Path=/");
    assertThat(after).isNotEqualTo(before);
  }

  private static String sessionCookie(Answer signedIn) {
    return signedIn.expect(302).headers("Set-Cookie").stream()
        .filter(cookie -> cookie.startsWith("JSESSIONID="))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void a_password_of_64_characters_of_any_alphabet_counts_to_its_last_one(
      TestLedger ledger, TestServer server) {
    // Two bytes each in UTF-8: bcrypt would read the first 36 of them.
    String password = "дерево и верёвка ".repeat(4).substring(0, 63);
    assertThat(password).hasSize(63);
    Pages pages = ledger.pages();
    pages
        .submit(
            pages.get("/account"),
            "form[action=/account/password]",
            "present",
            ledger.password(),
            "password",
            password + 'я')
        .expect(303);

    server.api(ledger.name(), password + 'ю').get("/parts").expect(401);
    server.api(ledger.name(), password + 'я').get("/parts").expect(200);
    pages.get("/parts").expect(200);
    assertThat(hash(ledger, server)).startsWith("{pbkdf2@SpringSecurity_v5_8}");
  }

  @Test
  void a_hash_says_what_it_is_of_and_knows_its_password_alone(
      TestLedger ledger, TestServer server) {
    String password = "a sentence that was typed";
    Pages pages = ledger.pages();
    pages
        .submit(
            pages.get("/account"),
            "form[action=/account/password]",
            "present",
            ledger.password(),
            "password",
            password)
        .expect(303);

    // 2^10 rounds.
    assertThat(hash(ledger, server)).startsWith("{bcrypt}$2a$10$").doesNotContain(password);
    server.api(ledger.name(), password + 'x').get("/parts").expect(401);
    server.api(ledger.name(), password).get("/parts").expect(200);
  }

  private static String hash(TestLedger ledger, TestServer server) {
    return String.valueOf(
        server
            .database()
            .queryForObject(
                "select password_hash from account where id = ?",
                String.class,
                ledger.member().accountId()));
  }

  @Test
  void a_password_that_anybody_would_guess_is_refused_and_the_one_before_stays(TestLedger ledger) {
    Pages pages = ledger.pages();
    for (String guessed : new String[] {"password1234", "tareline-2026", ledger.name().repeat(3)}) {
      Answer refused =
          pages
              .submit(
                  pages.get("/account"),
                  "form[action=/account/password]",
                  "present",
                  ledger.password(),
                  "password",
                  guessed)
              .expect(422);
      assertThat(refused.page().select(".errors").text()).as(guessed).contains("harder to guess");
      assertThat(refused.body()).doesNotContain(guessed + '"');
    }
    ledger.api().get("/parts").expect(200);
  }

  @Test
  void a_field_for_a_password_hides_it_and_is_named_for_those_who_keep_passwords(
      TestLedger ledger, TestServer server) {
    assertThat(passwordFields(server.pages().get("/sign-in")))
        .containsExactly("password current-password");
    assertThat(passwordFields(ledger.pages().get("/account")))
        .containsExactly("present current-password", "password new-password");
  }

  private static java.util.List<String> passwordFields(Answer page) {
    return page
        .expect(200)
        .page()
        .select("input[name=password], input[name=present]")
        .select("[type=password]:not([maxlength]):not([onpaste])")
        .eachAttr("name")
        .stream()
        .map(
            name ->
                name + ' ' + page.page().select("input[name=" + name + ']').attr("autocomplete"))
        .toList();
  }

  @Test
  void signing_out_is_one_step_away_from_the_page_of_the_account(TestLedger ledger) {
    Answer page = ledger.pages().get("/parts").expect(200);
    assertThat(page.page().select("header a[href=/account]")).hasSize(1);
    assertThat(ledger.pages().get("/account").page().select("form[action=/sign-out] button"))
        .hasSize(1);
  }

  @Test
  void a_forged_post_is_refused_and_nothing_changes(TestLedger ledger) {
    Pages browser = ledger.pages();
    String before = browser.get("/account").expect(200).page().select("input[checked]").val();
    assertThat(before).isEqualTo("GRAMS");

    browser.forge("/account/mass-style", "style", "OUNCES").expect(403);

    assertThat(browser.get("/account").expect(200).page().select("input[checked]").val())
        .isEqualTo(before);
  }

  @Test
  void every_page_forbids_scripts_and_styles_that_are_not_ours(TestLedger ledger) {
    Answer page = ledger.pages().get("/account").expect(200);

    assertThat(page.header("Content-Security-Policy"))
        .isEqualTo(
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; worker-src 'self'; "
                + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'");
    assertThat(page.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(page.header("Referrer-Policy")).isEqualTo("same-origin");
  }

  @Test
  void another_ledger_named_by_the_header_is_not_there(
      TestLedger mine, TestLedger theirs, TestServer server) {
    mine.api().with("X-Ledger", uuid(mine, server)).get("/scales").expect(200);

    mine.api().with("X-Ledger", uuid(theirs, server)).get("/scales").expect(404);
    mine.api().with("X-Ledger", UUID.randomUUID().toString()).get("/scales").expect(404);
    mine.api().with("X-Ledger", "not an id").get("/scales").expect(404);
  }

  private static String uuid(TestLedger ledger, TestServer server) {
    return String.valueOf(
        server
            .database()
            .queryForObject(
                "select uuid from ledger where id = ?", UUID.class, ledger.member().ledgerId()));
  }
}
