package org.tareline.site;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * What a page answers to a refusal: 422. A page takes it up by putting what is wrong into its model
 * as {@code faults}, where its form finds it; to one that does not, the error page is shown.
 */
@ControllerAdvice(annotations = Controller.class)
class PageRefusals implements HandlerInterceptor, WebMvcConfigurer {

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this);
  }

  @Override
  public void postHandle(
      HttpServletRequest request,
      HttpServletResponse response,
      Object handler,
      @Nullable ModelAndView page) {
    if (page != null
        && page.getModel().get("faults") instanceof List<?> faults
        && !faults.isEmpty()) {
      response.setStatus(422);
    }
  }

  @ExceptionHandler
  void notThere(NotThere notThere, HttpServletResponse response) throws IOException {
    response.sendError(HttpServletResponse.SC_NOT_FOUND);
  }

  @ExceptionHandler
  String refused(Refusal refusal, HttpServletResponse response, Model model) {
    return page(String.valueOf(refusal.getMessage()), response, model);
  }

  @ExceptionHandler
  String outOfRange(ArithmeticException overflow, HttpServletResponse response, Model model) {
    return page("A sum went out of range: " + overflow.getMessage(), response, model);
  }

  private static String page(String words, HttpServletResponse response, Model model) {
    response.setStatus(422);
    model.addAttribute("status", 422);
    model.addAttribute("words", words);
    model.addAttribute("reference", "");
    return "error";
  }
}
