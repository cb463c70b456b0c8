package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import org.springframework.session.web.http.CookieSerializer;
import org.springframework.session.web.http.DefaultCookieSerializer;

/** The cookie of a session, as a {@link HostCookie} is: another name over TLS. */
final class SessionCookie implements CookieSerializer {

  private static final String NAME = "JSESSIONID";

  private final CookieSerializer plain = named(NAME);
  private final CookieSerializer secure = named(HostCookie.PREFIX + NAME);

  private static CookieSerializer named(String name) {
    DefaultCookieSerializer serializer = new DefaultCookieSerializer();
    serializer.setCookieName(name);
    serializer.setCookiePath("/");
    return serializer;
  }

  private CookieSerializer of(HttpServletRequest request) {
    return request.isSecure() ? secure : plain;
  }

  @Override
  public void writeCookieValue(CookieValue value) {
    of(value.getRequest()).writeCookieValue(value);
  }

  @Override
  public List<String> readCookieValues(HttpServletRequest request) {
    return of(request).readCookieValues(request);
  }
}
