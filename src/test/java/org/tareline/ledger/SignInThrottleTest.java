package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.tareline.testing.TestClock;

class SignInThrottleTest {

  private static final String OWNERS = "192.0.2.7";

  private final TestClock clock = new TestClock();
  private final SignInThrottle throttle = new SignInThrottle(clock);

  SignInThrottleTest() {
    clock.stopAt(Instant.parse("2027-04-11T06:00:00Z"));
  }

  private void fail(String name, String address, int times) {
    for (int i = 0; i < times; i++) {
      throttle.failed(name, address);
    }
  }

  @Test
  void a_stranger_who_guesses_for_hours_does_not_lock_the_owner_out() {
    fail("ada", "198.51.100.1", 1_000);

    assertThat(throttle.wait("ada", "198.51.100.1")).isPositive();
    assertThat(throttle.wait("ada", OWNERS)).isZero();
  }

  @Test
  void nor_do_guesses_at_one_name_slow_another_down() {
    fail("ada", OWNERS, 20);

    assertThat(throttle.wait("bea", OWNERS)).isZero();
  }

  @Test
  void five_are_free_and_then_the_wait_doubles_to_a_quarter_of_an_hour() {
    fail("ada", OWNERS, 5);
    assertThat(throttle.wait("ada", OWNERS)).isZero();
    for (int seconds = 1; seconds <= 512; seconds *= 2) {
      fail("ada", OWNERS, 1);
      assertThat(throttle.wait("ada", OWNERS)).isEqualTo(Duration.ofSeconds(seconds));
    }
    fail("ada", OWNERS, 50);
    assertThat(throttle.wait("ada", OWNERS)).isEqualTo(Duration.ofMinutes(15));

    clock.pass(Duration.ofMinutes(15));
    assertThat(throttle.wait("ada", OWNERS)).isZero();
  }

  @Test
  void the_right_password_makes_good_for_all_that_went_wrong() {
    fail("ada", OWNERS, 6);
    throttle.succeeded("ada", OWNERS);
    fail("ada", OWNERS, 5);

    assertThat(throttle.wait("ada", OWNERS)).isZero();
  }

  @Test
  void the_addresses_of_one_network_count_as_one_where_everybody_has_many() {
    fail("ada", "2001:db8:1:2::1", 3);
    fail("ada", "2001:db8:1:2:ffff::9", 3);

    assertThat(throttle.wait("ada", "2001:db8:1:2::77")).isPositive();
    assertThat(throttle.wait("ada", "2001:db8:1:3::1")).isZero();
    // The same machine as its other way of being written, and not with every other one.
    fail("ada", "::ffff:192.0.2.9", 6);
    assertThat(throttle.wait("ada", "192.0.2.9")).isPositive();
    assertThat(throttle.wait("ada", "::ffff:192.0.2.10")).isZero();
  }
}
