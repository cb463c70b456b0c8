package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.security.web.csrf.CsrfTokenRepository;
import org.springframework.security.web.csrf.DefaultCsrfToken;
import org.springframework.security.web.csrf.HttpSessionCsrfTokenRepository;

/**
 * The keys against forged requests: in the session of whoever has one, and in a cookie of a
 * stranger, for whom no session is made.
 */
final class FormKeys implements CsrfTokenRepository {

  private static final HostCookie COOKIE = new HostCookie("tareline-form");
  private static final Duration UNTIL_CLOSED = Duration.ofSeconds(-1);

  private final HttpSessionCsrfTokenRepository inSession = new HttpSessionCsrfTokenRepository();

  @Override
  public CsrfToken generateToken(HttpServletRequest request) {
    return inSession.generateToken(request);
  }

  @Override
  public void saveToken(
      @Nullable CsrfToken token, HttpServletRequest request, HttpServletResponse response) {
    if (token == null) {
      COOKIE.take(request, response);
      inSession.saveToken(null, request, response);
    } else if (request.getSession(false) != null) {
      inSession.saveToken(token, request, response);
    } else {
      COOKIE.give(request, response, token.getToken(), UNTIL_CLOSED);
    }
  }

  @Override
  public @Nullable CsrfToken loadToken(HttpServletRequest request) {
    if (request.getSession(false) != null) {
      return inSession.loadToken(request);
    }
    String kept = COOKIE.read(request);
    CsrfToken names = generateToken(request);
    return kept == null
        ? null
        : new DefaultCsrfToken(names.getHeaderName(), names.getParameterName(), kept);
  }
}
