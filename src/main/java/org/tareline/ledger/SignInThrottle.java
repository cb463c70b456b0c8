package org.tareline.ledger;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Slows down whoever guesses passwords. Failures are counted by name and address together, so that
 * a stranger who guesses at an owner's name does not lock the owner out of another address. Kept in
 * memory and bounded.
 */
final class SignInThrottle {

  /**
   * Failures that are free; from then on each costs a wait, doubling from one second to fifteen
   * minutes.
   */
  private static final int FREE_FAILURES = 5;

  private static final Duration LONGEST_WAIT = Duration.ofMinutes(15);
  private static final int MOST_KEPT = 10_000;

  private record Failures(int count, Instant waitUntil) {}

  private final Clock clock;
  private final Map<String, Failures> failures =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Failures> eldest) {
          return size() > MOST_KEPT;
        }
      };

  SignInThrottle(Clock clock) {
    this.clock = clock;
  }

  /**
   * How long is still to be waited before the next try is looked at; zero when it may be made now.
   */
  synchronized Duration wait(String nameKey, String address) {
    Failures failed = failures.get(subject(nameKey, address));
    if (failed == null) {
      return Duration.ZERO;
    }
    Duration left = Duration.between(clock.instant(), failed.waitUntil());
    return left.isNegative() ? Duration.ZERO : left;
  }

  synchronized void failed(String nameKey, String address) {
    failures.merge(
        subject(nameKey, address),
        new Failures(1, clock.instant()),
        (before, first) -> {
          int count = before.count() + 1;
          int doublings = Math.min(Math.max(count - FREE_FAILURES, 0), 20);
          Duration wait =
              doublings == 0 ? Duration.ZERO : Duration.ofSeconds(1L << (doublings - 1));
          return new Failures(
              count, clock.instant().plus(wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait));
        });
  }

  synchronized void succeeded(String nameKey, String address) {
    failures.remove(subject(nameKey, address));
  }

  private static String subject(String nameKey, String address) {
    return network(address) + ' ' + nameKey;
  }

  /** Of an IPv6 address the first 64 bits: whoever has one address of them has them all. */
  static String network(String address) {
    if (address.indexOf(':') < 0) {
      return address;
    }
    try {
      byte[] bytes = InetAddress.getByName(address).getAddress();
      return bytes.length == 16
          ? HexFormat.of().formatHex(bytes, 0, 8)
          : InetAddress.getByAddress(bytes).getHostAddress();
    } catch (UnknownHostException notAnAddress) {
      return address;
    }
  }
}
