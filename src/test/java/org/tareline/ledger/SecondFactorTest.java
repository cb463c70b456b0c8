package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.jsoup.nodes.Element;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.tareline.testing.Answer;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.QrReader;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestDatabase;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** The codes themselves are {@link TimeCodesTest}'s. */
@FeatureTest
class SecondFactorTest {

  private static final String PAGE = "/account/second-factor";
  private static final Duration STEP = Duration.ofSeconds(30);

  @Autowired private TestClock clock;

  @BeforeEach
  void at_the_beginning_of_a_step() {
    clock.stopAt(Instant.parse("2027-04-11T06:00:00Z"));
  }

  /** The secret as the database has it. */
  private static String kept(TestLedger ledger) {
    return String.valueOf(
        ledger
            .server()
            .database()
            .queryForObject(
                "select second_factor_secret from account where id = ?",
                String.class,
                ledger.member().accountId()));
  }

  private String code(TestLedger ledger) {
    return code(ledger, 0);
  }

  private String code(TestLedger ledger, int steps) {
    return TimeCodes.code(
        ledger.server().bean(Seal.class).open(kept(ledger)).orElseThrow(),
        TimeCodes.step(ledger.server().bean(TestClock.class).instant()) + steps,
        6);
  }

  /** Another than the good one, and than those of the steps beside it. */
  private String wrong(TestLedger ledger) {
    List<String> good = List.of(code(ledger, -1), code(ledger), code(ledger, 1));
    return Stream.of("000000", "000001", "000002", "000003")
        .filter(code -> !good.contains(code))
        .findFirst()
        .orElseThrow();
  }

  /** Sets it up in the account's browser. */
  private List<String> switchOn(TestLedger ledger) {
    Pages pages = ledger.pages();
    Answer begun = pages.follow(pages.submit(pages.get(PAGE), "form[action$=/begin]").expect(303));
    Answer on =
        pages.follow(
            pages.submit(begun, "form[action$=/confirm]", "code", code(ledger)).expect(303));
    return on.page().select("li.secret").eachText();
  }

  private static Answer signIn(Pages pages, TestLedger ledger, String code) {
    return pages.submit(
        pages.get("/sign-in"),
        "form[action=/sign-in]",
        "name",
        ledger.name(),
        "password",
        ledger.password(),
        "code",
        code);
  }

  private static boolean in(Answer answer) {
    return answer.status() == 302;
  }

  @Test
  void it_is_switched_on_by_a_code_of_the_device_that_read_the_page(TestLedger ledger) {
    Pages pages = ledger.pages();
    Answer begun = pages.follow(pages.submit(pages.get(PAGE), "form[action$=/begin]").expect(303));
    Element drawn = begun.page().select("svg.phone__qr").first();
    String read = QrReader.read(java.util.Objects.requireNonNull(drawn));
    String typed = begun.page().select("p.secret").text();
    assertThat(typed).matches("([A-Z2-7]{4} ){7}[A-Z2-7]{4}");
    assertThat(read)
        .startsWith("otpauth://totp/Tareline:maker%20")
        .contains("?secret=" + typed.replace(" ", "") + "&");

    Answer refused =
        pages.submit(begun, "form[action$=/confirm]", "code", wrong(ledger)).expect(422);
    assertThat(refused.page().select(".errors").text()).contains("the device shows now");
    assertThat(in(ledger.server().pages().signIn(ledger.name(), ledger.password()))).isTrue();

    Answer on =
        pages.follow(
            pages.submit(refused, "form[action$=/confirm]", "code", code(ledger)).expect(303));
    assertThat(on.page().select("li.secret")).hasSize(10);
    Answer later = pages.get(PAGE).expect(200);
    assertThat(later.page().select(".secret")).isEmpty();
    assertThat(later.body()).doesNotContain(typed);
  }

  @Test
  void signing_in_takes_a_code_each_time_another_one(TestLedger ledger, TestServer server) {
    switchOn(ledger);
    assertThat(in(signIn(server.pages(), ledger, ""))).isFalse();
    assertThat(in(signIn(server.pages(), ledger, wrong(ledger)))).isFalse();
    // That code was used to switch it on.
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isFalse();

    clock.pass(STEP);
    String good = code(ledger);
    clock.pass(STEP);
    assertThat(in(signIn(server.pages(), ledger, good))).isTrue();
    assertThat(in(signIn(server.pages(), ledger, good))).isFalse();
  }

  @Test
  void a_code_without_the_password_opens_nothing(TestLedger ledger, TestServer server) {
    switchOn(ledger);
    clock.pass(STEP);
    Pages pages = server.pages();
    Answer refused =
        pages.submit(
            pages.get("/sign-in"),
            "form[action=/sign-in]",
            "name",
            ledger.name(),
            "password",
            "a wrong password",
            "code",
            code(ledger));
    assertThat(in(refused)).isFalse();
    // Nor was the code used up by it.
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isTrue();
  }

  @Test
  void each_code_from_paper_stands_in_once(TestLedger ledger, TestServer server) {
    List<String> codes = switchOn(ledger);
    assertThat(codes).hasSize(10).doesNotHaveDuplicates();
    assertThat(codes).allMatch(code -> code.matches("[a-z2-7]{6}(-[a-z2-7]{6}){3}"));

    assertThat(in(signIn(server.pages(), ledger, codes.get(3).toUpperCase()))).isTrue();
    assertThat(in(signIn(server.pages(), ledger, codes.get(3)))).isFalse();
    Pages pages = server.pages();
    assertThat(in(signIn(pages, ledger, codes.get(7)))).isTrue();
    assertThat(pages.get(PAGE).page().select("main").text()).contains("8 of the ten codes");
    assertThat(
            server.count(
                "select count(*) from recovery_code where code_hash = ?",
                Secret.hash(codes.get(0).replace("-", ""))))
        .isEqualTo(1);
  }

  @Test
  void guesses_at_the_code_are_slowed_down_wherever_they_come_from(
      TestLedger ledger, TestServer server) {
    switchOn(ledger);
    clock.pass(STEP);
    SecondFactors codes = server.bean(SecondFactors.class);
    for (int i = 0; i < 6; i++) {
      assertThat(codes.accepts(ledger.member().accountId(), wrong(ledger))).isFalse();
    }

    Answer told = signIn(server.pages(), ledger, code(ledger)).expect(422);
    assertThat(told.page().select(".errors").text()).contains("Too many", "Wait");

    clock.pass(Duration.ofSeconds(2));
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isTrue();
  }

  @Test
  void a_password_alone_opens_nothing_at_the_api_and_a_token_does(
      TestLedger ledger, TestServer server) {
    String token =
        ledger
            .api()
            .post("/tokens", java.util.Map.of("name", "script"))
            .expect(201)
            .json()
            .path("token")
            .asString();
    switchOn(ledger);

    Answer refused = ledger.api().get("/parts").expect(401);
    assertThat(refused.json().path("detail").asString()).contains("second factor", "token");
    server.api().with("Authorization", "Bearer " + token).get("/parts").expect(200);
  }

  @Test
  void at_the_api_nothing_tells_whether_a_password_was_right_or_the_account_is_there(
      TestLedger ledger, TestServer server) {
    switchOn(ledger);

    Answer right = ledger.api().get("/parts").expect(401);
    Answer wrong = server.api(ledger.name(), "a wrong password").get("/parts").expect(401);
    Answer nobody = server.api("nobody of this name", "x").get("/parts").expect(401);

    for (Answer other : List.of(wrong, nobody)) {
      assertThat(other.body()).isEqualTo(right.body());
      assertThat(other.headers("WWW-Authenticate")).isEqualTo(right.headers("WWW-Authenticate"));
    }
  }

  @Test
  void at_the_api_a_right_password_and_a_wrong_one_are_the_same_work(
      TestLedger ledger, TestServer server) {
    switchOn(ledger);
    PasswordEncoder own = server.bean(PasswordEncoder.class);
    List<String> hashes = new ArrayList<>();
    PasswordEncoder noting =
        new PasswordEncoder() {
          @Override
          public @Nullable String encode(@Nullable CharSequence password) {
            return own.encode(password);
          }

          @Override
          public boolean matches(@Nullable CharSequence password, @Nullable String hash) {
            hashes.add(String.valueOf(hash));
            return own.matches(password, hash);
          }
        };
    PasswordSignIn byBasic =
        new SecurityRules()
            .byBasic(
                server.bean(UserDetailsService.class),
                noting,
                server.bean(SecondFactors.class),
                server.bean(Calls.class),
                clock);

    for (String password : List.of(ledger.password(), "a wrong password")) {
      assertThatThrownBy(
              () ->
                  byBasic.authenticate(
                      UsernamePasswordAuthenticationToken.unauthenticated(ledger.name(), password)))
          .isExactlyInstanceOf(BadCredentialsException.class);
    }

    String hash =
        server
            .database()
            .queryForObject(
                "select password_hash from account where id = ?",
                String.class,
                ledger.member().accountId());
    assertThat(hashes).hasSize(2).containsOnly(hashes.get(0)).doesNotContain(hash);
  }

  @Test
  void a_script_that_keeps_asking_with_a_password_does_not_keep_its_owner_from_signing_in(
      TestLedger ledger, TestServer server) {
    switchOn(ledger);
    for (int i = 0; i < 6; i++) {
      ledger.api().get("/parts").expect(401);
    }
    ledger.api().get("/parts").expect(429);

    clock.pass(STEP);
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isTrue();
  }

  @Test
  void switching_it_on_ends_the_other_sessions_and_a_changed_password_asks_for_no_code(
      TestLedger ledger) {
    Pages other = ledger.openBrowser();
    switchOn(ledger);
    other.get("/parts").expect(302);

    Pages pages = ledger.pages();
    pages
        .submit(
            pages.get("/account"),
            "form[action=/account/password]",
            "present",
            ledger.password(),
            "password",
            "another sentence of mine")
        .expect(303);
    pages.get("/parts").expect(200);
  }

  @Test
  void switching_it_off_takes_the_password_and_a_code(TestLedger ledger, TestServer server) {
    switchOn(ledger);
    clock.pass(STEP);
    Pages pages = ledger.pages();
    off(pages, "a wrong password", code(ledger)).expect(422);
    off(pages, ledger.password(), wrong(ledger)).expect(422);
    assertThat(in(server.pages().signIn(ledger.name(), ledger.password()))).isFalse();

    off(pages, ledger.password(), code(ledger)).expect(303);

    assertThat(in(server.pages().signIn(ledger.name(), ledger.password()))).isTrue();
    ledger.api().get("/parts").expect(200);
    assertThat(
            server.count(
                "select count(*) from account where id = ? and second_factor_secret is null",
                ledger.member().accountId()))
        .isEqualTo(1);
  }

  @Test
  void guesses_at_the_password_by_switching_it_off_are_slowed_down_too(TestLedger ledger) {
    switchOn(ledger);
    clock.pass(STEP);
    for (int i = 0; i < 6; i++) {
      off(ledger.pages(), "a wrong password " + i, code(ledger)).expect(422);
    }

    Answer told = off(ledger.pages(), ledger.password(), code(ledger)).expect(422);

    assertThat(told.page().select(".errors").text()).contains("Wait ");
    assertThat(in(ledger.server().pages().signIn(ledger.name(), ledger.password()))).isFalse();
  }

  private static Answer off(Pages pages, String password, String code) {
    return pages.submit(pages.get(PAGE), "form[action$=/off]", "present", password, "code", code);
  }

  @Test
  void a_secret_from_before_there_was_a_key_is_sealed_at_the_next_sign_in_with_it(
      TestLedger ledger, TestServer server) {
    switchOn(ledger);
    assertThat(kept(ledger)).hasSize(64);
    byte[] secret = server.bean(Seal.class).open(kept(ledger)).orElseThrow();
    server
        .database()
        .update(
            "update account set second_factor_secret = ? where id = ?",
            HexFormat.of().formatHex(secret),
            ledger.member().accountId());

    clock.pass(STEP);
    assertThat(in(signIn(server.pages(), ledger, wrong(ledger)))).isFalse();
    assertThat(kept(ledger)).isEqualTo(HexFormat.of().formatHex(secret));
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isTrue();

    assertThat(kept(ledger)).hasSize(64);
    assertThat(server.bean(Seal.class).open(kept(ledger))).hasValue(secret);
    clock.pass(STEP);
    assertThat(in(signIn(server.pages(), ledger, code(ledger)))).isTrue();
  }

  @Test
  void where_the_key_is_lost_the_page_says_so_and_a_code_from_paper_or_a_link_helps() {
    TestDatabase database = TestDatabase.fresh();
    TestLedger ledger;
    List<String> paper;
    try (TestServer server = TestServer.startOn(database)) {
      ledger = server.openLedger();
      paper = switchOn(ledger);
    }
    try (TestServer server =
        TestServer.startOn(
            database, "tareline.second-factor-key=AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=")) {
      for (int i = 0; i < 5; i++) {
        Answer refused = signIn(server.pages(), ledger, "123456").expect(422);
        assertThat(refused.page().select(".errors").text())
            .contains("cannot check the codes", "paper", "link");
      }
      assertThat(in(signIn(server.pages(), ledger, paper.get(0)))).isTrue();

      Pages stranger = server.pages();
      String link = server.bean(PasswordLinks.class).make(ledger.name());
      stranger
          .submit(stranger.get(link), "main form", "password", "another sentence", "lost", "true")
          .expect(303);
      server.api(ledger.name(), "another sentence").get("/parts").expect(200);
    }
  }

  @Test
  void where_it_is_required_nothing_else_is_shown_before_it_is_set_up() {
    try (TestServer server = TestServer.startEmpty("tareline.second-factor=required")) {
      TestLedger ledger = server.openLedger();
      Pages pages = ledger.pages();
      for (String path : List.of("/", "/parts", "/account", "/members")) {
        assertThat(pages.get(path).expect(302).header("Location")).as(path).endsWith(PAGE);
      }
      assertThat(ledger.api().get("/parts").expect(401).body()).contains("token");

      switchOn(ledger);

      pages.get("/parts").expect(200);
      pages.get("/account").expect(200);
    }
  }
}
