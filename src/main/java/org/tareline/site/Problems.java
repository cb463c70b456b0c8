package org.tareline.site;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.orm.ObjectOptimisticLockingFailureException;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.servlet.mvc.method.annotation.ResponseEntityExceptionHandler;
import tools.jackson.core.JacksonException;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.databind.exc.UnrecognizedPropertyException;

/**
 * Every error of the API as a problem detail (RFC 9457). Faults of single fields stand under {@code
 * errors}, each with a JSON pointer (RFC 6901) and a sentence.
 */
// Before the advice for pages, since a resource is a controller too.
@Order(Ordered.HIGHEST_PRECEDENCE)
@RestControllerAdvice(annotations = RestController.class)
class Problems extends ResponseEntityExceptionHandler {

  @ExceptionHandler
  ResponseEntity<ProblemDetail> refused(Refusal refusal) {
    ProblemDetail problem =
        ProblemDetail.forStatusAndDetail(
            HttpStatusCode.valueOf(refusal.kind().status()), String.valueOf(refusal.getMessage()));
    problem.setProperty(
        "errors",
        refusal.faults().stream()
            .map(fault -> Map.of("pointer", fault.pointer(), "detail", fault.message()))
            .toList());
    return answer(problem);
  }

  @ExceptionHandler
  ResponseEntity<ProblemDetail> notThere(NotThere notThere) {
    return answer(
        ProblemDetail.forStatusAndDetail(
            HttpStatus.NOT_FOUND,
            "There is no such " + notThere.getMessage() + " in this ledger."));
  }

  @ExceptionHandler
  ResponseEntity<ProblemDetail> forbidden(AccessDeniedException denied) {
    return answer(
        ProblemDetail.forStatusAndDetail(
            HttpStatus.FORBIDDEN, String.valueOf(denied.getMessage())));
  }

  @ExceptionHandler({
    DataIntegrityViolationException.class,
    ObjectOptimisticLockingFailureException.class
  })
  ResponseEntity<ProblemDetail> atOdds(Exception conflict) {
    return answer(
        ProblemDetail.forStatusAndDetail(
            HttpStatus.CONFLICT,
            "Somebody else wrote at the same moment, and the two do not fit together. Nothing was changed; read again "
                + "and retry."));
  }

  @ExceptionHandler
  ResponseEntity<ProblemDetail> outOfRange(ArithmeticException overflow) {
    return answer(
        ProblemDetail.forStatusAndDetail(
            HttpStatus.BAD_REQUEST, "A sum went out of range: " + overflow.getMessage() + "."));
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleHttpMessageNotReadable(
      HttpMessageNotReadableException unreadable,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    ProblemDetail problem =
        ProblemDetail.forStatusAndDetail(HttpStatus.BAD_REQUEST, whereJsonBroke(unreadable));
    return ResponseEntity.badRequest().body(problem);
  }

  private static String whereJsonBroke(HttpMessageNotReadableException unreadable) {
    if (!(unreadable.getCause() instanceof JacksonException broken)) {
      return "The body is missing, or is not JSON.";
    }
    if (broken instanceof UnrecognizedPropertyException unknown) {
      return "There is no field "
          + Faults.shortened(unknown.getPropertyName())
          + " to be given here, and nothing is dropped unsaid.";
    }
    StringBuilder pointer = new StringBuilder("#");
    for (JacksonException.Reference step : broken.getPath()) {
      pointer
          .append('/')
          .append(step.getPropertyName() == null ? step.getIndex() : step.getPropertyName());
    }
    TokenStreamLocation place = broken.getLocation();
    return "The body is not the JSON that is expected here: it stopped making sense"
        + (place == null ? "" : " at line " + place.getLineNr() + ", column " + place.getColumnNr())
        + (pointer.length() == 1 ? "." : " (" + Faults.shortened(pointer.toString()) + ").");
  }

  private static ResponseEntity<ProblemDetail> answer(ProblemDetail problem) {
    return ResponseEntity.status(problem.getStatus()).body(problem);
  }
}
