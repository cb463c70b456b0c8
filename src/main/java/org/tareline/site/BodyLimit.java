package org.tareline.site;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.Type;
import org.springframework.core.MethodParameter;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.HttpStatus;
import org.springframework.http.converter.AbstractJacksonHttpMessageConverter;
import org.springframework.http.converter.HttpMessageConverter;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.server.ResponseStatusException;
import org.springframework.web.servlet.mvc.method.annotation.RequestBodyAdviceAdapter;

/** How much JSON is taken in at once: as much as of a form ({@code application.yml}). */
@ControllerAdvice
class BodyLimit extends RequestBodyAdviceAdapter {

  static final int MEGABYTES = 4;
  private static final int MOST = MEGABYTES * 1024 * 1024;

  @Override
  public boolean supports(
      MethodParameter parameter, Type type, Class<? extends HttpMessageConverter<?>> converter) {
    return AbstractJacksonHttpMessageConverter.class.isAssignableFrom(converter);
  }

  @Override
  public HttpInputMessage beforeBodyRead(
      HttpInputMessage sent,
      MethodParameter parameter,
      Type type,
      Class<? extends HttpMessageConverter<?>> converter)
      throws IOException {
    // Whatever length it says it has, or none.
    byte[] body = sent.getBody().readNBytes(MOST + 1);
    if (body.length > MOST) {
      throw new ResponseStatusException(
          HttpStatus.CONTENT_TOO_LARGE,
          "The body is larger than "
              + MEGABYTES
              + " MB, the most that is taken in at once. Nothing was changed.");
    }
    return new HttpInputMessage() {
      @Override
      public InputStream getBody() {
        return new ByteArrayInputStream(body);
      }

      @Override
      public HttpHeaders getHeaders() {
        return sent.getHeaders();
      }
    };
  }
}
