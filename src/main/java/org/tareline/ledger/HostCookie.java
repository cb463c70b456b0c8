package org.tareline.ledger;

import jakarta.servlet.http.Cookie;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseCookie;
import org.springframework.web.util.WebUtils;

/**
 * A cookie of this host alone that no script reads. What a stranger's visit needs is kept in one,
 * so that no row is written for it; and what is to be shown once is, so that no server keeps it.
 * Over TLS its name begins with {@code __Host-}: then no browser takes it from another host, nor
 * over plain HTTP.
 */
public record HostCookie(String name) {

  static final String PREFIX = "__Host-";

  private String nameFor(HttpServletRequest request) {
    return request.isSecure() ? PREFIX + name : name;
  }

  /**
   * Gives it to the browser.
   *
   * @param value of characters that a cookie may have (RFC 6265, 4.1.1)
   * @param life negative until the browser is closed
   */
  public void give(
      HttpServletRequest request, HttpServletResponse response, String value, Duration life) {
    response.addHeader(
        HttpHeaders.SET_COOKIE,
        ResponseCookie.from(nameFor(request), value)
            .path("/")
            .maxAge(life)
            .secure(request.isSecure())
            .httpOnly(true)
            .sameSite("Lax")
            .build()
            .toString());
  }

  /** What the browser sends, or null. */
  @Nullable String read(HttpServletRequest request) {
    Cookie cookie = WebUtils.getCookie(request, nameFor(request));
    return cookie == null || cookie.getValue().isEmpty() ? null : cookie.getValue();
  }

  /** Takes it back from the browser, and hands out what it was. */
  public @Nullable String take(HttpServletRequest request, HttpServletResponse response) {
    String value = read(request);
    if (value != null) {
      give(request, response, "", Duration.ZERO);
    }
    return value;
  }
}
