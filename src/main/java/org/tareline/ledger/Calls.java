package org.tareline.ledger;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.HandlerMapping;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.tareline.site.Meters;

/**
 * Counts calls: by account, or by the address of a stranger, in each minute. Beyond the limit they
 * are turned away. Notes in the log who uses the API, once an hour, and what was refused, without
 * anything that was typed. Kept in memory, bounded, for this server by itself.
 */
@Configuration(proxyBeanMethods = false)
class Calls implements WebMvcConfigurer, HandlerInterceptor {

  private static final Logger LOG = LoggerFactory.getLogger(Calls.class);
  private static final Duration MINUTE = Duration.ofMinutes(1);
  private static final Duration HOUR = Duration.ofHours(1);
  private static final int MOST_KEPT = 10_000;

  /**
   * How many calls a sign-in counts for until it is good: the hash of a password is slow on
   * purpose, and with a name of its own each time none of them waits for another.
   */
  private static final int CALLS_OF_A_SIGN_IN = 10;

  /** Lines in the log, from whomever, that a minute may have for what was refused. */
  private static final int REFUSALS_LOGGED = 60;

  private record Counted(Instant since, int count) {}

  private final int mostCalls;
  private final Clock clock;
  private final Map<String, Counted> counts =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Counted> eldest) {
          return size() > MOST_KEPT;
        }
      };

  Calls(@Value("${tareline.calls-per-minute}") int mostCalls, Clock clock) {
    this.mostCalls = mostCalls;
    this.clock = clock;
  }

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this).excludePathPatterns("/assets/**", "/webjars/**", "/actuator/**");
  }

  /** Counts one more, and says which of its window it is. */
  private Counted count(String what, Duration window) {
    return count(what, window, 1);
  }

  private synchronized Counted count(String what, Duration window, int more) {
    Instant now = clock.instant();
    return counts.merge(
        what,
        new Counted(now, more),
        (before, first) ->
            Duration.between(before.since(), now).compareTo(window) < 0
                ? new Counted(before.since(), before.count() + more)
                : first);
  }

  private static String stranger(String address) {
    return "stranger " + SignInThrottle.network(address);
  }

  /**
   * Counts a sign-in of a stranger, before the password is looked at.
   *
   * @return how long is to be waited before it is; zero where that is now
   */
  Duration signingIn(String address) {
    return left(count(stranger(address), MINUTE, CALLS_OF_A_SIGN_IN));
  }

  /** Takes that back: it was good and no stranger's, or could not be looked at. */
  void takeBack(String address) {
    count(stranger(address), MINUTE, -CALLS_OF_A_SIGN_IN);
  }

  /** How long is to be waited for the next minute; zero where the limit is not passed. */
  private Duration left(Counted calls) {
    return calls.count() > mostCalls
        ? Duration.between(clock.instant(), calls.since().plus(MINUTE))
        : Duration.ZERO;
  }

  @Override
  public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler)
      throws IOException {
    if (request.getDispatcherType() != DispatcherType.REQUEST) {
      return true;
    }
    Authentication known = SecurityContextHolder.getContext().getAuthentication();
    SignedIn account =
        known != null && known.getPrincipal() instanceof SignedIn signedIn ? signedIn : null;
    String address = request.getRemoteAddr();
    Duration left = left(count(account == null ? stranger(address) : account.toString(), MINUTE));
    if (!left.isZero()) {
      response.setHeader(HttpHeaders.RETRY_AFTER, String.valueOf(left.toSeconds() + 1));
      response.sendError(429);
      return false;
    }
    if (account != null
        && request.getRequestURI().startsWith(request.getContextPath() + "/api/")
        && count("api " + account + ' ' + address, HOUR).count() == 1) {
      LOG.info("Uses the API: {} from {}", account, address);
    }
    return true;
  }

  @Override
  public void afterCompletion(
      HttpServletRequest request,
      HttpServletResponse response,
      Object handler,
      @Nullable Exception thrown) {
    int status = response.getStatus();
    if (request.getDispatcherType() == DispatcherType.REQUEST && status >= 400 && status < 500) {
      Meters.refused(status);
      if (status != 404 && count("refusals", MINUTE).count() <= REFUSALS_LOGGED) {
        LOG.info(
            "Refused with {}: {} {}",
            status,
            request.getMethod(),
            request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE));
      }
    }
  }
}
