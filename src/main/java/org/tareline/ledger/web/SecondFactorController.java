package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.tareline.ledger.HostCookie;
import org.tareline.ledger.Member;
import org.tareline.ledger.MemberOfRequest;
import org.tareline.ledger.OpenSessions;
import org.tareline.ledger.SecondFactors;
import org.tareline.site.QrCode;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** Switching the second factor of an account on and off. */
@Controller
class SecondFactorController {

  private static final HostCookie NEW_CODES = new HostCookie("tareline-new-codes");

  private final SecondFactors secondFactors;
  private final OpenSessions sessions;
  private final MemberOfRequest members;

  SecondFactorController(
      SecondFactors secondFactors, OpenSessions sessions, MemberOfRequest members) {
    this.secondFactors = secondFactors;
    this.sessions = sessions;
    this.members = members;
  }

  @GetMapping("/account/second-factor")
  String shown(
      Member member, HttpServletRequest request, HttpServletResponse response, Model model) {
    String codes = NEW_CODES.take(request, response);
    model.addAttribute("codes", codes == null ? List.of() : List.of(codes.split("\\.")));
    return page(member, model);
  }

  @PostMapping("/account/second-factor/begin")
  Object begin(Member member, Model model) {
    try {
      secondFactors.begin(member);
      return SeeOther.page("/account/second-factor");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, model);
    }
  }

  @PostMapping("/account/second-factor/confirm")
  Object confirm(
      Member member,
      @RequestParam(required = false) @Nullable String code,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model,
      RedirectAttributes flash) {
    try {
      List<String> codes = secondFactors.confirm(member, code);
      NEW_CODES.give(request, response, String.join(".", codes), AccountController.SHOWN_WITHIN);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, model);
    }
    sessions.endOthers(member, request.getSession().getId());
    members.signInAnew(request, response, member);
    flash.addFlashAttribute("done", "From now on a code is asked for when you sign in.");
    return SeeOther.page("/account/second-factor");
  }

  @PostMapping("/account/second-factor/off")
  Object switchOff(
      Member member,
      @RequestParam(required = false) @Nullable String present,
      @RequestParam(required = false) @Nullable String code,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model,
      RedirectAttributes flash) {
    try {
      secondFactors.switchOff(member, present, code);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, model);
    }
    members.signInAnew(request, response, member);
    flash.addFlashAttribute("done", "No code is asked for any more.");
    return SeeOther.page("/account/second-factor");
  }

  private String page(Member member, Model model) {
    SecondFactors.Standing standing = secondFactors.of(member);
    SecondFactors.ToShare secret = standing.secret();
    model.addAttribute("standing", standing);
    model.addAttribute("qr", secret == null ? null : QrCode.of(secret.address()));
    return "ledger/second-factor";
  }
}
