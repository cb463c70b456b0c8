package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.tareline.testing.Answer;
import org.tareline.testing.EmptyServerTest;
import org.tareline.testing.Pages;
import org.tareline.testing.TestServer;

/** One server that nobody has visited yet: what is asked of it happens in this order. */
@EmptyServerTest
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class FirstVisitTest {

  private static TestServer server;

  @BeforeAll
  static void start() {
    server = TestServer.startEmpty();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private static long accounts() {
    return server.count("select count(*) from account");
  }

  @Test
  @Order(1)
  void whoever_comes_first_is_sent_to_make_the_owners_account() {
    Answer page = server.pages().open("/").expect(200);

    assertThat(page.asked().getPath()).isEqualTo("/first-visit");
    assertThat(page.page().select("h1").text()).isEqualTo("First visit");
    assertThat(page.page().select("[name=token]")).isEmpty();
  }

  @Test
  @Order(2)
  void from_behind_a_proxy_it_takes_the_token_of_the_log() {
    Pages stranger = server.pages().with("X-Forwarded-For", "192.0.2.7");
    Answer page = stranger.get("/first-visit").expect(200);
    assertThat(page.page().select("[name=token]")).hasSize(1);

    Answer refused =
        stranger
            .submit(
                page,
                "main form",
                "name",
                "stranger",
                "password",
                "a stranger's password",
                "token",
                "a guess")
            .expect(422);

    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#token");
    assertThat(refused.page().select("[name=name]").val()).isEqualTo("stranger");
    assertThat(refused.page().select("[name=password]").val()).isEmpty();
    assertThat(accounts()).isZero();
  }

  @Test
  @Order(3)
  void a_short_password_is_refused_and_the_name_kept() {
    Pages visitor = server.pages();
    Answer refused =
        visitor
            .submit(
                visitor.get("/first-visit"), "main form", "name", "Ada", "password", "elevenchars")
            .expect(422);

    assertThat(refused.page().title()).startsWith("Error: ");
    assertThat(refused.page().select(".errors a").attr("href")).isEqualTo("#password");
    assertThat(refused.page().select("[name=name]").val()).isEqualTo("Ada");
    assertThat(accounts()).isZero();
  }

  @Test
  @Order(4)
  void the_account_is_made_and_its_owner_is_signed_in_at_once() {
    Pages visitor = server.pages();
    Answer page = visitor.get("/first-visit").expect(200);
    visitor.submit(page, "main form", "name", "Ada", "password", "twelve letters").expect(302);

    assertThat(accounts()).isEqualTo(1);
    assertThat(visitor.get("/account").expect(200).page().select("main").text()).contains("Ada");
  }

  @Test
  @Order(5)
  void there_is_no_second_first_visit() {
    Pages late = server.pages();
    assertThat(late.get("/first-visit").expect(302).header("Location")).endsWith("/sign-in");
    assertThat(accounts()).isEqualTo(1);
  }
}
