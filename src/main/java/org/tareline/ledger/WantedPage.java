package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.web.savedrequest.RequestCache;
import org.springframework.security.web.savedrequest.SavedRequest;
import org.springframework.security.web.savedrequest.SimpleSavedRequest;

/**
 * The page that a stranger asked for and is led to after signing in: in a cookie, for it is no
 * reason to make a session. It is a path of this server, whatever stands in the cookie.
 */
final class WantedPage implements RequestCache {

  private static final HostCookie COOKIE = new HostCookie("tareline-wanted");
  private static final Duration LIFE = Duration.ofMinutes(30);
  private static final int LONGEST = 2_000;

  @Override
  public void saveRequest(HttpServletRequest request, HttpServletResponse response) {
    String accepted = request.getHeader(HttpHeaders.ACCEPT);
    boolean isPage =
        request.getMethod().equals("GET")
            && request.getHeader("HX-Request") == null
            && (accepted == null || accepted.contains("text/html"));
    String query = request.getQueryString();
    String path =
        request.getRequestURI().substring(request.getContextPath().length())
            + (query == null ? "" : '?' + query);
    if (isPage && path.length() <= LONGEST) {
      byte[] bytes = path.getBytes(StandardCharsets.UTF_8);
      COOKIE.give(
          request, response, Base64.getUrlEncoder().withoutPadding().encodeToString(bytes), LIFE);
    }
  }

  @Override
  public @Nullable SavedRequest getRequest(
      HttpServletRequest request, HttpServletResponse response) {
    String path = path(COOKIE.take(request, response));
    return path == null ? null : new SimpleSavedRequest(path);
  }

  /** Of our own: with one slash in front, and not what a browser takes for another host. */
  static @Nullable String path(@Nullable String kept) {
    try {
      String path =
          kept == null
              ? ""
              : new String(Base64.getUrlDecoder().decode(kept), StandardCharsets.UTF_8);
      return path.matches("/(?![/\\\\])[!-\\[\\]-~]*") ? path : null;
    } catch (IllegalArgumentException notOurs) {
      return null;
    }
  }

  /** It is asked for anew after signing in, with nothing of the request before. */
  @Override
  public @Nullable HttpServletRequest getMatchingRequest(
      HttpServletRequest request, HttpServletResponse response) {
    return null;
  }

  @Override
  public void removeRequest(HttpServletRequest request, HttpServletResponse response) {
    COOKIE.take(request, response);
  }
}
