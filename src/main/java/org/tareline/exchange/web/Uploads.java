package org.tareline.exchange.web;

import jakarta.servlet.MultipartConfigElement;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Bean;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.util.unit.DataSize;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.multipart.MaxUploadSizeExceededException;
import org.tareline.exchange.ReceivedFile;

/**
 * How much of a form with a file in it is read: more than a file may have, so that one that is
 * somewhat larger is refused on its page, with the rest of the form. What is far larger is not
 * read, and the page for errors says what fits.
 */
@ControllerAdvice
class Uploads {

  private final ReceivedFile received;

  Uploads(ReceivedFile received) {
    this.received = received;
  }

  @Bean
  static MultipartConfigElement mostOfAForm(@Value("${tareline.import.limit}") DataSize file) {
    return new MultipartConfigElement("", -1, 2 * file.toBytes(), 0);
  }

  /** Before any handler is known, so that the advice for the API does not hear of it. */
  @ExceptionHandler
  ResponseEntity<ProblemDetail> tooLarge(MaxUploadSizeExceededException tooLarge) {
    return ResponseEntity.status(HttpStatus.CONTENT_TOO_LARGE)
        .body(
            ProblemDetail.forStatusAndDetail(
                HttpStatus.CONTENT_TOO_LARGE,
                "The file is larger than " + received.words() + ". Nothing was changed."));
  }
}
