package org.tareline.site;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URI;
import java.security.SecureRandom;
import java.util.HexFormat;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.web.WebAttributes;
import org.springframework.security.web.csrf.CsrfException;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.unit.DataSize;
import org.springframework.web.bind.annotation.RequestMapping;

/**
 * What is answered when nothing else would: our own words and, where it is our fault, a number by
 * which the log tells what happened. Never the exception's text.
 */
@Controller
class ErrorPages implements ErrorController {

  private static final Logger LOG = LoggerFactory.getLogger(ErrorPages.class);
  private static final SecureRandom RANDOM = new SecureRandom();

  private final DataSize file;

  ErrorPages(@Value("${tareline.import.limit}") DataSize file) {
    this.file = file;
  }

  @RequestMapping("/error")
  Object error(HttpServletRequest request, HttpServletResponse response, Model model) {
    HttpStatus status = status(request);
    String reference = status.is5xxServerError() ? reference(request) : "";
    String path = String.valueOf(request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI));
    if (path.startsWith("/api/")) {
      ProblemDetail problem = ProblemDetail.forStatusAndDetail(status, detail(status, reference));
      problem.setInstance(URI.create(path));
      return ResponseEntity.status(status)
          .contentType(MediaType.APPLICATION_PROBLEM_JSON)
          .body(problem);
    }
    response.setStatus(status.value());
    model.addAttribute("status", status.value());
    model.addAttribute("words", words(status));
    model.addAttribute("more", more(status, request));
    model.addAttribute("reference", reference);
    return "error";
  }

  private static HttpStatus status(HttpServletRequest request) {
    HttpStatus status =
        request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer code
            ? HttpStatus.resolve(code)
            : HttpStatus.NOT_FOUND;
    return status == null ? HttpStatus.INTERNAL_SERVER_ERROR : status;
  }

  private static String reference(HttpServletRequest request) {
    byte[] bytes = new byte[4];
    RANDOM.nextBytes(bytes);
    String reference = HexFormat.of().formatHex(bytes);
    LOG.error(
        "Reference {}",
        reference,
        (Throwable) request.getAttribute(RequestDispatcher.ERROR_EXCEPTION));
    return reference;
  }

  private String words(HttpStatus status) {
    return switch (status) {
      case NOT_FOUND -> "There is no such page or thing in this ledger";
      case FORBIDDEN -> "This was not allowed";
      case METHOD_NOT_ALLOWED -> "That cannot be done at this address";
      case TOO_MANY_REQUESTS -> "Too many calls in a minute: wait a little, and try again";
      case CONTENT_TOO_LARGE ->
          "That was more than is taken in at once: "
              + file.toMegabytes()
              + " MB of a file, "
              + BodyLimit.MEGABYTES
              + " MB of all else";
      default ->
          status.is5xxServerError()
              ? "Something broke on our side"
              : "That could not be understood";
    };
  }

  /** What to do about it, in a sentence; empty where there is nothing to be said. */
  private static String more(HttpStatus status, HttpServletRequest request) {
    return switch (status) {
      case NOT_FOUND -> "It may have been renamed, or the address may be mistyped.";
      case FORBIDDEN -> {
        Object denied = request.getAttribute(WebAttributes.ACCESS_DENIED_403);
        // A form from before somebody signed in or out, or without its hidden field.
        yield denied instanceof AccessDeniedException why && !(why instanceof CsrfException)
            ? String.valueOf(why.getMessage())
            : "The form was older than your signing in. Nothing was written: go back, where what you"
                + " typed should still be, copy what is long, load that page anew and send it again.";
      }
      case CONTENT_TOO_LARGE ->
          "Nothing was written. Go back: what you typed should still be there.";
      default -> "";
    };
  }

  private String detail(HttpStatus status, String reference) {
    return words(status)
        + (reference.isEmpty() ? "." : ". The log has it under reference " + reference + ".");
  }
}
