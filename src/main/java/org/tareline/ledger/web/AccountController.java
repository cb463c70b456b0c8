package org.tareline.ledger.web;

import java.util.Arrays;
import java.util.List;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.view.RedirectView;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.Member;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/** The account page: how masses are shown to whoever looks. */
@Controller
class AccountController {

  /** A style with an example of it, so that nobody has to guess. */
  record StyleChoice(String name, String heading, String example, boolean chosen) {}

  private static final Mass EXAMPLE = Mass.ofGrams("612.4");
  private static final Mass EXAMPLE_UNCERTAINTY = Mass.ofGrams("1.9");

  private final Accounts accounts;

  AccountController(Accounts accounts) {
    this.accounts = accounts;
  }

  @GetMapping("/account")
  String account(Member member, Model model) {
    List<StyleChoice> styles =
        Arrays.stream(MassStyle.values())
            .map(
                style ->
                    new StyleChoice(
                        style.name(),
                        style.heading(),
                        style.withUncertainty(EXAMPLE, EXAMPLE_UNCERTAINTY),
                        style == member.massStyle()))
            .toList();
    model.addAttribute("styles", styles);
    return "ledger/account";
  }

  @PostMapping("/account/mass-style")
  RedirectView showMassesIn(Member member, @RequestParam String style, RedirectAttributes flash) {
    MassStyle chosen =
        Arrays.stream(MassStyle.values())
            .filter(known -> known.name().equals(style))
            .findFirst()
            .orElseThrow(() -> Refusal.badInput("style", "Choose one of the styles shown."));
    accounts.showMassesIn(member, chosen);
    flash.addFlashAttribute("done", "Masses are now shown in " + chosen.heading() + ".");
    return SeeOther.page("/account");
  }
}
