package org.tareline.ledger;

import jakarta.servlet.Filter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.ServletResponse;
import java.io.IOException;
import java.lang.reflect.InvocationHandler;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.session.SessionRepository;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/**
 * Sessions whose last use is noted only when the last note is some minutes old, and that a request
 * reads once. Otherwise every page that is merely looked at would write to the database and wait
 * for the disk, and read its session again to see that it is still there.
 */
final class SeldomTouched<S extends Session> implements SessionRepository<Session>, Filter {

  /** By so much a session may end too early, counted from its last use. */
  static final Duration NOTED_EVERY = Duration.ofMinutes(10);

  /** What kind of browser began it, as {@link OpenSessions} has words for it. */
  static final String DEVICE = SeldomTouched.class.getName() + ".device";

  private final FindByIndexNameSessionRepository<S> sessions;
  private final Duration longest;
  private final ThreadLocal<@Nullable Session> ofThisRequest = new ThreadLocal<>();

  /**
   * @param longest life of a session, however much it is used
   */
  SeldomTouched(FindByIndexNameSessionRepository<S> sessions, Duration longest) {
    this.sessions = sessions;
    this.longest = longest;
  }

  /** Stands around each request, for none may see what another has read. */
  @Override
  public void doFilter(ServletRequest request, ServletResponse response, FilterChain rest)
      throws IOException, ServletException {
    ofThisRequest.remove();
    try {
      rest.doFilter(request, response);
    } finally {
      ofThisRequest.remove();
    }
  }

  @Override
  public Session createSession() {
    S session = sessions.createSession();
    if (RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes asked) {
      session.setAttribute(
          DEVICE, OpenSessions.device(asked.getRequest().getHeader(HttpHeaders.USER_AGENT)));
    }
    return touched(session);
  }

  @Override
  @SuppressWarnings("unchecked")
  public void save(Session touched) {
    sessions.save(((Touched<S>) Proxy.getInvocationHandler(touched)).session());
    ofThisRequest.set(touched);
  }

  @Override
  public @Nullable Session findById(String id) {
    Session read = ofThisRequest.get();
    if (read != null && read.getId().equals(id)) {
      return read;
    }
    S found = sessions.findById(id);
    if (found != null && isOver(found)) {
      sessions.deleteById(id);
      return null;
    }
    return found == null ? null : touched(found);
  }

  private boolean isOver(S session) {
    return session.getCreationTime().plus(longest).isBefore(Instant.now());
  }

  /** Those in which this account is signed in. */
  List<S> of(String accountName) {
    return sessions.findByPrincipalName(accountName).values().stream()
        .filter(session -> !session.isExpired() && !isOver(session))
        .toList();
  }

  @Override
  public void deleteById(String id) {
    sessions.deleteById(id);
    ofThisRequest.remove();
  }

  private Session touched(S session) {
    return (Session)
        Proxy.newProxyInstance(
            Session.class.getClassLoader(), new Class<?>[] {Session.class}, new Touched<>(session));
  }

  private record Touched<S extends Session>(S session) implements InvocationHandler {

    @Override
    public @Nullable Object invoke(Object proxy, Method method, Object @Nullable [] arguments)
        throws Throwable {
      if (method.getName().equals("setLastAccessedTime")
          && arguments != null
          && Duration.between(session.getLastAccessedTime(), (Instant) arguments[0])
                  .compareTo(NOTED_EVERY)
              < 0) {
        return null;
      }
      try {
        return method.invoke(session, arguments);
      } catch (InvocationTargetException thrown) {
        throw thrown.getTargetException();
      }
    }
  }
}
