package org.tareline.ledger.web;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.tareline.ledger.PasswordLinks;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** Setting another password by a link. */
@Controller
class NewPasswordController {

  private final PasswordLinks links;
  private final Moments moments;

  NewPasswordController(PasswordLinks links, Moments moments) {
    this.links = links;
    this.moments = moments;
  }

  @GetMapping("/new-password/{secret}")
  String offer(@PathVariable String secret, Model model) {
    return page(secret, model, false);
  }

  @PostMapping("/new-password/{secret}")
  Object take(
      @PathVariable String secret,
      @RequestParam(required = false) @Nullable String password,
      @RequestParam(defaultValue = "false") boolean lost,
      Model model) {
    try {
      links.take(secret, password, lost);
      return SeeOther.page("/sign-in");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(secret, model, lost);
    }
  }

  private String page(String secret, Model model, boolean lost) {
    PasswordLinks.Offer offer = links.offer(secret);
    model.addAttribute("secret", secret);
    model.addAttribute("offer", offer);
    model.addAttribute("until", moments.minute(offer.expiresAt()));
    model.addAttribute("lost", lost);
    return "ledger/new-password";
  }
}
