package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.WebAttributes;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestAttribute;
import org.springframework.web.bind.annotation.RequestParam;
import org.tareline.ledger.FirstVisit;
import org.tareline.ledger.SecondFactors;
import org.tareline.site.Refusal;

/** The first visit, and signing in. */
@Controller
class SignInController {

  /** What was typed on the first visit, as typed; the password is not given back. */
  record FirstVisitForm(
      @Nullable String name,
      @Nullable String password,
      @Nullable String token,
      @Nullable String sample) {}

  private final FirstVisit firstVisit;
  private final SecondFactors secondFactors;

  SignInController(FirstVisit firstVisit, SecondFactors secondFactors) {
    this.firstVisit = firstVisit;
    this.secondFactors = secondFactors;
  }

  @GetMapping("/sign-in")
  String signIn(Model model) {
    return firstVisit.awaited() ? "redirect:/first-visit" : signIn(model, "");
  }

  /** Where whoever was not signed in is sent on to, with the name as typed. */
  @PostMapping("/sign-in/refused")
  String refused(
      @RequestParam(defaultValue = "") String name,
      @RequestAttribute(name = WebAttributes.AUTHENTICATION_EXCEPTION, required = false)
          @Nullable AuthenticationException why,
      Model model) {
    String problem =
        why instanceof LockedException wait
            ? "Too many wrong names or passwords came from here. Wait "
                + wait.getMessage()
                + " s and try again."
            : secondFactors.anywhere()
                ? "The name and the password do not go together, or the code is not good."
                    + keyLost()
                : "The name and the password do not go together.";
    model.addAttribute("faults", List.of(new Refusal.Fault("name", problem)));
    return signIn(model, name);
  }

  private String keyLost() {
    return secondFactors.keyLost()
        ? " This server cannot check the codes of some devices now: give a code from paper, or ask whoever runs it"
            + " for a link."
        : "";
  }

  private String signIn(Model model, String name) {
    model.addAttribute("codes", secondFactors.anywhere());
    model.addAttribute("name", name);
    return "ledger/sign-in";
  }

  @GetMapping("/first-visit")
  String firstVisit(HttpServletRequest request, Model model) {
    if (!firstVisit.awaited()) {
      return "redirect:/sign-in";
    }
    return page(request, model, new FirstVisitForm("", null, "", "on"));
  }

  @PostMapping("/first-visit")
  String makeFirstAccount(
      HttpServletRequest request, Model model, @ModelAttribute FirstVisitForm form) {
    try {
      firstVisit.make(request, form.name(), form.password(), form.token(), form.sample() != null);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(request, model, form);
    }
    // Signed in at once: whoever made the account has just typed its password.
    try {
      request.login(String.valueOf(form.name()).strip(), form.password());
    } catch (jakarta.servlet.ServletException notSignedIn) {
      return "redirect:/sign-in";
    }
    return "redirect:/";
  }

  private static String page(HttpServletRequest request, Model model, FirstVisitForm form) {
    model.addAttribute("form", form);
    model.addAttribute("local", FirstVisit.isLocal(request));
    return "ledger/first-visit";
  }
}
