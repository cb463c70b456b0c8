package org.tareline.ledger.web;

import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.view.RedirectView;
import org.tareline.ledger.Member;
import org.tareline.ledger.Members;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** Taking up an invitation to a ledger. */
@Controller
class InvitationController {

  /** What a stranger typed, as typed; the password is not given back. */
  record NewcomerForm(@Nullable String name, @Nullable String password) {}

  private final Members members;
  private final Moments moments;

  InvitationController(Members members, Moments moments) {
    this.members = members;
    this.moments = moments;
  }

  @GetMapping("/invitation/{secret}")
  String offer(@PathVariable String secret, Model model) {
    return page(secret, model, new NewcomerForm("", null));
  }

  /** For whoever has an account: signing in is asked for here, and leads back to the offer. */
  @GetMapping("/invitation/{secret}/sign-in")
  RedirectView signedIn(@PathVariable String secret) {
    return SeeOther.page("/invitation/{secret}", secret);
  }

  @PostMapping("/invitation/{secret}")
  Object accept(
      @PathVariable String secret,
      @ModelAttribute("member") @Nullable Member member,
      @ModelAttribute NewcomerForm form,
      HttpServletRequest request,
      Model model,
      RedirectAttributes flash)
      throws ServletException {
    try {
      Members.Offer taken =
          member == null
              ? members.accept(secret, form.name(), form.password())
              : members.accept(secret, member);
      if (member == null) {
        request.login(String.valueOf(form.name()).strip(), form.password());
      }
      flash.addFlashAttribute(
          "done",
          "You are in the ledger " + taken.ledgerName() + " now, as " + taken.role().word() + ".");
      return SeeOther.page("/account");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(secret, model, form);
    }
  }

  private String page(String secret, Model model, NewcomerForm form) {
    Members.Offer offer = members.offer(secret);
    model.addAttribute("secret", secret);
    model.addAttribute("offer", offer);
    model.addAttribute("until", moments.minute(offer.expiresAt()));
    model.addAttribute("form", form);
    return "ledger/invitation";
  }
}
