package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;
import org.tareline.testing.Answer;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestClock;
import org.tareline.testing.TestLedger;
import org.tareline.testing.TestServer;

@EmptyServerTest
class CallsTest {

  private static TestServer server;

  @BeforeAll
  static void start() {
    server =
        TestServer.startEmpty(
            "tareline.calls-per-minute=20", "tareline.metrics.token=a token of CallsTest");
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  @Test
  void more_calls_in_a_minute_than_an_account_may_make_are_told_to_wait_and_others_are_not() {
    // The minute does not end before it is told to.
    server.bean(TestClock.class).stop();
    TestLedger busy = server.openLedger();
    TestLedger other = server.openLedger();
    for (int i = 0; i < 20; i++) {
      busy.api().get("/parts").expect(200);
    }

    Answer told = busy.api().get("/parts").expect(429);
    int wait = Integer.parseInt(String.valueOf(told.header("Retry-After")));
    assertThat(wait).isBetween(1, 61);
    assertThat(told.header("Content-Type")).startsWith("application/problem+json");
    assertThat(told.json().path("detail").asString()).contains("Too many");
    other.api().get("/parts").expect(200);

    server.bean(TestClock.class).pass(Duration.ofSeconds(wait));
    busy.api().get("/parts").expect(200);
  }

  @Test
  void a_stranger_is_counted_by_the_address_and_told_so_by_a_page() {
    server.bean(TestClock.class).stop();
    server.bean(TestClock.class).pass(Duration.ofMinutes(2));
    Pages stranger = server.pages();
    Answer last = stranger.get("/shared/none");
    for (int i = 0; i < 20; i++) {
      assertThat(last.status()).isEqualTo(404);
      last = stranger.get("/shared/none");
    }

    assertThat(last.status()).isEqualTo(429);
    assertThat(last.header("Retry-After")).matches("\\d+");
    assertThat(last.page().select("main").text()).contains("Too many");
  }

  @Test
  void wrong_passwords_for_ever_other_names_are_counted_by_the_address_before_they_are_looked_at() {
    TestLedger inside = server.openLedger();
    Pages signedIn = inside.pages();
    server.bean(TestClock.class).pass(Duration.ofMinutes(2));
    // One that is good costs its address nothing, however often.
    for (int i = 0; i < 5; i++) {
      inside.api().get("/parts").expect(200);
    }
    for (String name : List.of("anne", "bert")) {
      server.api(name, "a wrong password").get("/parts").expect(401);
    }

    Answer told = server.api("cleo", "a wrong password").get("/parts").expect(429);
    int wait = Integer.parseInt(String.valueOf(told.header("Retry-After")));
    assertThat(wait).isBetween(1, 61);
    assertThat(told.json().path("detail").asString()).contains("from this address");
    inside.api().get("/parts").expect(429);
    signedIn.get("/parts").expect(200);

    server.bean(TestClock.class).pass(Duration.ofSeconds(wait));
    inside.api().get("/parts").expect(200);
    server.api("cleo", "a wrong password").get("/parts").expect(401);
  }

  @Test
  void the_log_says_once_an_hour_who_uses_the_api_and_what_was_refused_but_not_what_was_typed() {
    ListAppender<ILoggingEvent> log = new ListAppender<>();
    log.start();
    Logger logger = (Logger) LoggerFactory.getLogger(Calls.class);
    logger.addAppender(log);
    try {
      TestLedger ledger = server.openLedger();
      double before = refused();
      ledger.api().get("/parts").expect(200);
      ledger.api().get("/parts").expect(200);
      ledger.api().post("/parts", Map.of("code", "a typed thing", "owned", "x")).expect(400);
      server.bean(TestClock.class).pass(Duration.ofHours(1).plusSeconds(1));
      ledger.api().get("/parts").expect(200);

      String account = "account " + ledger.member().accountId();
      assertThat(log.list)
          .extracting(ILoggingEvent::getFormattedMessage)
          .containsExactly(
              "Uses the API: " + account + " from 127.0.0.1",
              "Refused with 400: POST /api/v1/parts",
              "Uses the API: " + account + " from 127.0.0.1");
      assertThat(refused()).isEqualTo(before + 1);
    } finally {
      logger.detachAppender(log);
    }
  }

  private static double refused() {
    return server
        .pages()
        .with("Authorization", "Bearer a token of CallsTest")
        .get("/metrics")
        .expect(200)
        .body()
        .lines()
        .filter(line -> line.startsWith("tareline_refused_total{status=\"400\"}"))
        .mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
        .sum();
  }
}
