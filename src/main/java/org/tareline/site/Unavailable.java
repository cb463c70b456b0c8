package org.tareline.site;

import jakarta.servlet.Filter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.ServletResponse;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionExecution;
import org.springframework.transaction.TransactionExecutionListener;
import org.springframework.web.context.request.RequestAttributes;
import org.springframework.web.context.request.RequestContextHolder;
import org.thymeleaf.ITemplateEngine;
import org.thymeleaf.context.WebContext;
import org.thymeleaf.web.servlet.JakartaServletWebApplication;
import tools.jackson.databind.json.JsonMapper;

/**
 * What is answered while the database fails. It stands around everything, since sessions are in the
 * database too, and asks it for nothing. It says whether what was sent was kept, and a page carries
 * it, to be sent again.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class Unavailable implements Filter, TransactionExecutionListener {

  private static final Logger LOG = LoggerFactory.getLogger(Unavailable.class);
  private static final String KEPT = Unavailable.class.getName() + ".kept";
  private static final Set<String> READING = Set.of("GET", "HEAD", "OPTIONS");
  private static final Set<String> SECRETS = Set.of("password", "present", "token");

  private final ITemplateEngine templates;
  private final JsonMapper json;

  Unavailable(ITemplateEngine templates, JsonMapper json) {
    this.templates = templates;
    this.json = json;
  }

  /** A field of a form, as it was sent. */
  record Sent(String name, String value) {}

  /** From here on it is not known, until it is. */
  @Override
  public void beforeCommit(TransactionExecution transaction) {
    note(transaction, false);
  }

  @Override
  public void afterCommit(TransactionExecution transaction, @Nullable Throwable failed) {
    if (failed == null) {
      note(transaction, true);
    }
  }

  /** Notes whether the request is known to have written. */
  private static void note(TransactionExecution transaction, boolean known) {
    RequestAttributes request = RequestContextHolder.getRequestAttributes();
    if (request != null
        && !transaction.isReadOnly()
        && (known || request.getAttribute(KEPT, RequestAttributes.SCOPE_REQUEST) == null)) {
      request.setAttribute(KEPT, known, RequestAttributes.SCOPE_REQUEST);
    }
  }

  @Override
  public void doFilter(ServletRequest request, ServletResponse response, FilterChain rest)
      throws IOException, ServletException {
    try {
      rest.doFilter(request, response);
    } catch (IOException | ServletException | RuntimeException failed) {
      DatabaseFailure failure = DatabaseFailure.of(failed);
      if (failure == null || response.isCommitted()) {
        throw failed;
      }
      LOG.warn("The database fails ({}): {}", failure, failed.getMessage());
      answer((HttpServletRequest) request, (HttpServletResponse) response, failure);
    }
  }

  private void answer(
      HttpServletRequest request, HttpServletResponse response, DatabaseFailure failure)
      throws IOException {
    response.resetBuffer();
    response.setStatus(failure.status());
    response.setCharacterEncoding(StandardCharsets.UTF_8.name());
    response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
    response.setIntHeader(HttpHeaders.RETRY_AFTER, failure.secondsToWait());
    if (request.getRequestURI().startsWith(request.getContextPath() + "/api/")) {
      ProblemDetail problem =
          ProblemDetail.forStatusAndDetail(
              HttpStatus.valueOf(failure.status()),
              words(failure) + ' ' + whatBecameOfIt(request, failure, true));
      problem.setInstance(URI.create(request.getRequestURI()));
      response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
      json.writeValue(response.getWriter(), problem);
      return;
    }
    response.setContentType("text/html");
    response.setHeader(
        "Content-Security-Policy",
        "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'");
    WebContext page =
        new WebContext(
            JakartaServletWebApplication.buildApplication(request.getServletContext())
                .buildExchange(request, response),
            Locale.ENGLISH,
            Map.of(
                "words", words(failure),
                "whatBecameOfIt", whatBecameOfIt(request, failure, false),
                "address", address(request),
                "sent", sent(request)));
    templates.process("unavailable", page, response.getWriter());
  }

  /** Within this server, however many slashes somebody put in front. */
  private static String address(HttpServletRequest request) {
    String query = request.getQueryString();
    return request.getRequestURI().replaceFirst("^/+", "/") + (query == null ? "" : '?' + query);
  }

  private static String words(DatabaseFailure failure) {
    return switch (failure) {
      case AWAY -> "The database cannot be reached just now.";
      case CONFLICT -> "Somebody else wrote at the same moment.";
      case FULL -> "The server's disk is full, or cannot be written to.";
    };
  }

  private static String whatBecameOfIt(
      HttpServletRequest request, DatabaseFailure failure, boolean byProgram) {
    if (READING.contains(request.getMethod())) {
      return "Nothing is lost: ask again in a while.";
    }
    Object kept = request.getAttribute(KEPT);
    boolean takenBack = failure == DatabaseFailure.CONFLICT && !Boolean.TRUE.equals(kept);
    if (kept == null || takenBack) {
      return "Nothing was written: send it again in a while.";
    }
    if (Boolean.TRUE.equals(kept)) {
      return "What was sent had been kept by then: do not send it again, but look.";
    }
    return "Whether what was sent was kept is not known: look before it is sent again."
        + (byProgram ? " What has a key may be sent again in any case." : "");
  }

  /** What a form held; nothing where it is better not sent again, or is not there any more. */
  private static List<Sent> sent(HttpServletRequest request) {
    List<Sent> sent = new ArrayList<>();
    String type = request.getContentType();
    if (request.getMethod().equals("POST")
        && type != null
        && type.startsWith(MediaType.APPLICATION_FORM_URLENCODED_VALUE)
        && !Boolean.TRUE.equals(request.getAttribute(KEPT))) {
      request
          .getParameterMap()
          .forEach(
              (name, values) -> {
                if (!SECRETS.contains(name)) {
                  for (String value : values) {
                    sent.add(new Sent(name, value));
                  }
                }
              });
    }
    return sent;
  }
}
