package org.tareline.site;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;

/** What a page answers when its own form did not take up a refusal. */
@ControllerAdvice(annotations = Controller.class)
class PageRefusals {

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
