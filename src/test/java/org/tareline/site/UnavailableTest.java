package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.FilterChain;
import java.sql.SQLException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.transaction.support.SimpleTransactionStatus;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;
import org.thymeleaf.TemplateEngine;
import tools.jackson.databind.json.JsonMapper;

/** What is said of what was sent when the database fails at each moment of it. */
class UnavailableTest {

  private final Unavailable unavailable =
      new Unavailable(new TemplateEngine(), JsonMapper.builder().build());

  @AfterEach
  void forget() {
    RequestContextHolder.resetRequestAttributes();
  }

  @Test
  void before_its_end_nothing_was_written() throws Exception {
    assertThat(said("08006", () -> {})).contains("Nothing was written");
  }

  @Test
  void in_the_middle_of_its_end_it_is_not_known() throws Exception {
    assertThat(said("08006", () -> unavailable.beforeCommit(new SimpleTransactionStatus())))
        .contains("is not known")
        .contains("a key may be sent again");
  }

  @Test
  void two_in_each_others_way_were_taken_back() throws Exception {
    assertThat(said("40001", () -> unavailable.beforeCommit(new SimpleTransactionStatus())))
        .contains("Nothing was written");
  }

  @Test
  void after_its_end_it_was_kept() throws Exception {
    assertThat(
            said(
                "08006",
                () -> {
                  unavailable.beforeCommit(new SimpleTransactionStatus());
                  unavailable.afterCommit(new SimpleTransactionStatus(), null);
                  unavailable.beforeCommit(new SimpleTransactionStatus());
                }))
        .contains("had been kept");
  }

  @Test
  void a_connection_that_the_pool_gave_up_in_the_middle_hides_nothing() {
    SQLException rollingBack = new SQLException("Connection is closed");

    assertThat(DatabaseFailure.of(new IllegalStateException(rollingBack)))
        .isEqualTo(DatabaseFailure.AWAY);
    assertThat(DatabaseFailure.of(new SQLException("duplicate key", "23505"))).isNull();
  }

  private String said(String sqlState, Runnable before) throws Exception {
    MockHttpServletRequest request = new MockHttpServletRequest("POST", "/api/v1/weighings");
    MockHttpServletResponse response = new MockHttpServletResponse();
    RequestContextHolder.setRequestAttributes(new ServletRequestAttributes(request));
    FilterChain failing =
        (asked, answered) -> {
          before.run();
          throw new IllegalStateException(new SQLException("gone", sqlState));
        };

    unavailable.doFilter(request, response, failing);

    assertThat(response.getStatus()).isEqualTo(503);
    return response.getContentAsString();
  }
}
