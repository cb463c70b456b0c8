package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.ThrowableProxyUtil;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.security.web.FilterChainProxy;
import org.tareline.testing.Answer;
import org.tareline.testing.Api;
import org.tareline.testing.FeatureTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

/** What strangers and their browsers are told, and what the log is not told. */
@FeatureTest
class SecurityTest {

  @Autowired private TestClock clock;

  private final ListAppender<ILoggingEvent> log = new ListAppender<>();

  @BeforeEach
  void listen() {
    log.start();
    logger(org.slf4j.Logger.ROOT_LOGGER_NAME).addAppender(log);
  }

  @AfterEach
  void stopListening() {
    logger(org.slf4j.Logger.ROOT_LOGGER_NAME).detachAppender(log);
  }

  private static Logger logger(String name) {
    return (Logger) LoggerFactory.getLogger(name);
  }

  /** All that was logged meanwhile, with the errors that were logged. */
  private String logged() {
    return log.list.stream()
        .map(
            event ->
                event.getFormattedMessage()
                    + (event.getThrowableProxy() == null
                        ? ""
                        : ThrowableProxyUtil.asString(event.getThrowableProxy())))
        .collect(Collectors.joining("\n"));
  }

  @Test
  void every_answer_says_what_a_browser_may_do_with_it(TestLedger ledger, TestServer server) {
    List<Answer> answers =
        List.of(
            ledger.pages().get("/account").expect(200),
            ledger.pages().get("/nothing-is-here").expect(404),
            server.pages().get("/sign-in").expect(200),
            server.pages().get("/account").expect(302),
            server.pages().get("/shared/none").expect(404),
            server.pages().get("/assets/tareline.css").expect(200),
            ledger.api().get("/scales").expect(200),
            ledger.api().get("/nothing-is-here").expect(404),
            server.api().get("/scales").expect(401));
    for (Answer answer : answers) {
      String what = answer.asked().getPath();
      assertThat(answer.header("Content-Security-Policy"))
          .as(what)
          .contains("default-src 'none'")
          .contains("frame-ancestors 'none'")
          .doesNotContain("unsafe");
      assertThat(answer.header("X-Content-Type-Options")).as(what).isEqualTo("nosniff");
      assertThat(answer.header("Referrer-Policy")).as(what).isEqualTo("same-origin");
      assertThat(answer.header("Cross-Origin-Opener-Policy")).as(what).isEqualTo("same-origin");
      assertThat(answer.header("Cross-Origin-Resource-Policy")).as(what).isEqualTo("same-origin");
      assertThat(answer.header("Permissions-Policy")).as(what).contains("camera=()");
      assertThat(answer.header("Access-Control-Allow-Origin")).as(what).isNull();
      assertThat(answer.header("Server")).as(what).isNull();
      assertThat(answer.header("X-Powered-By")).as(what).isNull();
      if (!what.startsWith("/assets/")) {
        assertThat(answer.header("Cache-Control")).as(what).contains("no-store");
      }
    }
  }

  @Test
  void a_download_has_a_name_made_here_and_is_kept_by_no_cache(TestLedger ledger) {
    Map<String, String> names =
        Map.of(
            "/parts.csv", "parts\\.csv",
            "/rigs.csv", "rigs\\.csv",
            "/materials.csv", "materials\\.csv",
            "/exchange/ledger.zip", "tareline-[0-9-]{10}\\.zip");
    names.forEach(
        (path, name) -> {
          Answer file = ledger.pages().get(path + "?filename=x.html").expect(200);
          assertThat(file.header("Content-Disposition"))
              .as(path)
              .startsWith("attachment;")
              .containsPattern("[\"'?]" + name)
              .doesNotContain("html");
          assertThat(file.header("Cache-Control")).as(path).contains("no-store");
        });
  }

  @Test
  void over_tls_a_browser_is_told_to_stay_there(TestServer server) throws Exception {
    for (boolean secure : new boolean[] {true, false}) {
      MockHttpServletRequest request = new MockHttpServletRequest("GET", "/sign-in");
      request.setSecure(secure);
      MockHttpServletResponse response = new MockHttpServletResponse();

      server.bean(FilterChainProxy.class).doFilter(request, response, new MockFilterChain());

      assertThat(response.getHeader("Strict-Transport-Security"))
          .isEqualTo(secure ? "max-age=31536000 ; includeSubDomains" : null);
    }
  }

  @Test
  void more_json_than_is_taken_in_at_once_is_refused_in_words(TestLedger ledger) {
    String part = "{\"code\":\"%s\",\"name\":\"Tarp\"}%s";
    ledger.api().post("/parts", part.formatted("FITS", " ".repeat(4_000_000))).expect(201);

    Answer refused =
        ledger.api().post("/parts", part.formatted("BIG", " ".repeat(4 * 1024 * 1024))).expect(413);

    assertThat(refused.header("Content-Type")).startsWith("application/problem+json");
    assertThat(refused.json().path("detail").asString()).contains("larger than 4 MB");
    ledger.api().get("/parts/BIG").expect(404);
  }

  @Test
  void an_address_written_otherwise_opens_no_other_door(
      TestLedger ledger, TestLedger reader, TestServer server) throws Exception {
    Members members = server.bean(Members.class);
    String invitation = members.invite(ledger.member(), "reader", null).path();
    members.accept(invitation.substring("/invitation/".length()), reader.member());
    String counted = "select count(*) from invitation where ledger_id = ?";
    long before = server.count(counted, ledger.member().ledgerId());
    List<String> opened = new ArrayList<>();
    for (String path :
        List.of(
            "/api/v1/invitations",
            "/api/v1/invitations/",
            "/api/v1//invitations",
            "/api/v1/./invitations",
            "/api/v1/parts/../invitations",
            "/api/v1/parts/..%2Finvitations",
            "/api/v1/parts/..;/invitations",
            "/api/v1/invitations;a=b",
            "/api/v1/%69nvitations",
            "/api/v1/%2569nvitations",
            "/api/v1/INVITATIONS",
            "/api/v1/invitations.json",
            "/api/v1/invitations%00",
            "/shared/..%2f..%2fapi/v1/invitations")) {
      for (String method : List.of("POST", "PUT", "PATCH", "TRACE", "SEARCH")) {
        HttpRequest request =
            HttpRequest.newBuilder(URI.create(server.address() + path))
                .method(method, BodyPublishers.ofString("{\"role\":\"owner\"}"))
                .header("Content-Type", "application/json")
                .header("X-Ledger", ledger.member().ledger().toString())
                .header("X-HTTP-Method-Override", "POST")
                .header("X-Original-URL", "/api/v1/scales")
                .header("Authorization", basic(reader))
                .build();
        int status = status(request);
        if (status < 400 || status >= 500) {
          opened.add(method + " " + path + " answered " + status);
        }
      }
    }
    assertThat(opened).isEmpty();
    assertThat(server.count(counted, ledger.member().ledgerId())).isEqualTo(before);
    assertThat(logged()).contains("Refused: account " + reader.member().accountId() + ", reader");
  }

  private static String basic(TestLedger who) {
    return "Basic "
        + Base64.getEncoder()
            .encodeToString((who.name() + ':' + who.password()).getBytes(StandardCharsets.UTF_8));
  }

  private static int status(HttpRequest request) throws IOException, InterruptedException {
    return HttpClient.newBuilder()
        .version(HttpClient.Version.HTTP_1_1)
        .build()
        .send(request, HttpResponse.BodyHandlers.discarding())
        .statusCode();
  }

  @Test
  void fields_that_no_form_has_change_nothing_and_too_many_are_refused(
      TestLedger ledger, TestLedger reader, TestServer server) {
    Members members = server.bean(Members.class);
    String invitation = members.invite(ledger.member(), "reader", null).path();
    members.accept(invitation.substring("/invitation/".length()), reader.member());
    String roles = "select count(*) from member where account_id = ? and role = 'OWNER'";
    Pages pages = reader.pages();
    String csrf = pages.get("/account").page().select("[name=_csrf]").get(0).val();

    pages
        .forge(
            "/account/mass-style",
            "_csrf",
            csrf,
            "style",
            "OUNCES",
            "role",
            "OWNER",
            "member.role",
            "OWNER",
            "ledgerId",
            String.valueOf(ledger.member().ledgerId()),
            "accountId",
            "1",
            "passwordHash",
            "{noop}mine")
        .expect(303);

    assertThat(server.count(roles, reader.member().accountId())).isEqualTo(1);
    reader.api().get("/parts").expect(200);

    String[] many = new String[50_002];
    for (int i = 0; i < many.length; i += 2) {
      many[i] = "f" + i;
      many[i + 1] = "";
    }
    many[0] = "_csrf";
    many[1] = csrf;
    assertThat(pages.forge("/account/mass-style", many).status()).isBetween(400, 499);
  }

  @Test
  void what_breaks_is_told_to_the_log_and_by_its_reference_to_whoever_asked(
      TestLedger ledger, TestServer server) {
    ledger.pages().get("/account").expect(200);
    String token = secret(ledger.api().post("/tokens", Map.of("name", "script")), "token");
    server
        .database()
        .update(
            "update account set mass_style = 'NO SUCH STYLE' where id = ?",
            ledger.member().accountId());

    Answer page = ledger.pages().get("/account").expect(500);
    Answer problem =
        server.api().with("Authorization", "Bearer " + token).get("/parts").expect(500);

    assertThat(page.page().select("main").text())
        .contains("Something broke on our side")
        .containsPattern("[0-9a-f]{8}");
    for (String body : List.of(page.body(), problem.body())) {
      assertThat(body)
          .doesNotContain("NO SUCH STYLE")
          .doesNotContain("Exception")
          .doesNotContain("org.")
          .doesNotContain("select ");
    }
    String reference = problem.json().path("detail").asString().replaceAll(".*reference |\\.$", "");
    assertThat(reference).matches("[0-9a-f]{8}");
    assertThat(logged()).contains("Reference " + reference).contains("NO SUCH STYLE");
  }

  @Test
  void nobody_writes_lines_of_their_own_into_the_log(TestLedger ledger) {
    String forged = "\r\nSigned in: account 1 from 192.0.2.1";
    ledger.pages().get("/parts?page={p}&sort={p}", forged, forged);
    ledger.pages().get("/labels?show={p}", forged);
    ledger.pages().forge("/account/ledger", "id", forged);
    ledger.api().get("/convert?quantity={q}&to={q}", forged, forged);
    ledger.api().post("/parts", Map.of("code", forged, "name", forged, "owned", forged));
    ledger.api().with("X-Ledger", "x").delete("/tokens/{id}", "no id").expect(404);
    Answer mistyped = ledger.api().delete("/tokens/{id}", "no id");
    assertThat(mistyped.status()).isBetween(400, 404);

    assertThat(log.list)
        .extracting(ILoggingEvent::getFormattedMessage)
        .noneMatch(message -> message.contains("\nSigned in") || message.contains("\rSigned in"));
  }

  @Test
  void a_guess_at_the_present_password_costs_a_wait_but_nobody_is_locked_out(TestLedger ledger) {
    clock.stop();
    Pages pages = ledger.pages();
    Answer page = pages.get("/account");
    for (int i = 0; i < 6; i++) {
      page = change(pages, page, "a guess of " + i, "another sentence").expect(422);
    }

    Answer told = change(pages, page, ledger.password(), "another sentence").expect(422);

    assertThat(told.page().select(".errors").text()).contains("Wait ");
    ledger.api().get("/parts").expect(200);
  }

  private static Answer change(Pages pages, Answer page, String present, String password) {
    return pages.submit(
        page, "form[action=/account/password]", "present", present, "password", password);
  }

  @Test
  void the_log_says_who_signed_in_and_never_a_secret(
      TestLedger ledger, TestLedger guest, TestServer server) {
    String wrong = "a wrong sentence of somebody";
    server.api(ledger.name(), wrong).get("/scales").expect(401);
    server.pages().signIn(ledger.name(), wrong).expect(422);
    // Some type it where the name should be.
    server.pages().signIn(ledger.password(), wrong).expect(422);
    ledger.pages().get("/account").expect(200);
    String hash =
        server
            .database()
            .queryForObject(
                "select password_hash from account where id = ?",
                String.class,
                ledger.member().accountId());
    String token = secret(ledger.api().post("/tokens", Map.of("name", "script")), "token");
    Api script = server.api().with("Authorization", "Bearer " + token);
    script.get("/parts").expect(200);
    script.post("/tokens", Map.of("name", "another")).expect(403);
    script.post("/parts", "{\"code\":" + token).expect(400);
    server.api().with("Authorization", "Bearer " + token + "x").get("/parts").expect(401);
    ledger.api().post("/parts", Map.of("code", "P", "name", "P")).expect(201);
    ledger
        .api()
        .post(
            "/rigs",
            "{\"code\":\"R\",\"name\":\"R\",\"lines\":[{\"part\":\"P\",\"role\":\"body\"}]}")
        .expect(201);
    String link =
        secret(ledger.api().post("/share-links", Map.of("page", "/rigs/R/statement")), "link");
    server.pages().get(URI.create(link).getPath()).expect(200);
    String invitation = secret(ledger.api().post("/invitations", Map.of("role", "reader")), "link");
    guest.pages().get(URI.create(invitation).getPath()).expect(200);
    Pages pages = ledger.pages();
    String changed = "quite another sentence";
    change(pages, pages.get("/account"), wrong, changed).expect(422);
    change(pages, pages.get("/account"), ledger.password(), changed).expect(303);

    String logged = logged();
    String account = "account " + ledger.member().accountId();
    assertThat(logged)
        .contains("A sign-in from 127.0.0.1 was refused")
        .contains("Signed in: " + account + " from 127.0.0.1")
        .contains("Changed its password: " + account);
    for (String secret :
        List.of(
            wrong,
            ledger.password(),
            changed,
            String.valueOf(hash),
            token,
            lastOf(link),
            lastOf(invitation))) {
      assertThat(secret).hasSizeGreaterThan(12);
      assertThat(logged).doesNotContain(secret);
    }
  }

  private static String secret(Answer made, String field) {
    return made.expect(201).json().path(field).asString();
  }

  private static String lastOf(String link) {
    return link.substring(link.lastIndexOf('/') + 1);
  }
}
