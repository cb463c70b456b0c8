package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.view.RedirectView;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.HostCookie;
import org.tareline.ledger.Member;
import org.tareline.ledger.MemberOfRequest;
import org.tareline.ledger.OpenSessions;
import org.tareline.ledger.Tokens;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;
import org.tareline.units.Mass;
import org.tareline.units.MassStyle;

/**
 * The account page: how masses are shown to whoever looks, the ledgers and tokens of the account,
 * and its password.
 */
@Controller
class AccountController {

  /** A style with an example of it, so that nobody has to guess. */
  record StyleChoice(String name, String heading, String example, boolean chosen) {}

  /** A ledger that the account is in. */
  public record LedgerRow(String id, String name, String role, boolean here) {}

  /** Where the account is signed in. */
  public record SessionRow(String id, String device, String since, String lastUse, boolean here) {}

  /** A token that was made. */
  public record TokenRow(String id, String name, String words, boolean good) {}

  private static final Tokens.Entry NO_TOKEN = new Tokens.Entry("", "", false);
  private static final HostCookie NEW_TOKEN = new HostCookie("tareline-new-token");
  static final Duration SHOWN_WITHIN = Duration.ofMinutes(2);
  private static final Mass EXAMPLE = Mass.ofGrams("612.4");
  private static final Mass EXAMPLE_UNCERTAINTY = Mass.ofGrams("1.9");

  private final Accounts accounts;
  private final Tokens tokens;
  private final OpenSessions sessions;
  private final MemberOfRequest members;
  private final Moments moments;
  private final Clock clock;

  AccountController(
      Accounts accounts,
      Tokens tokens,
      OpenSessions sessions,
      MemberOfRequest members,
      Moments moments,
      Clock clock) {
    this.accounts = accounts;
    this.tokens = tokens;
    this.sessions = sessions;
    this.members = members;
    this.moments = moments;
    this.clock = clock;
  }

  @GetMapping("/account")
  String account(
      Member member, HttpServletRequest request, HttpServletResponse response, Model model) {
    model.addAttribute("token", NEW_TOKEN.take(request, response));
    return page(member, request, model, "", NO_TOKEN);
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

  /** Shows another of the account's ledgers. */
  @PostMapping("/account/ledger")
  RedirectView goTo(
      Member member, @RequestParam UUID id, HttpServletRequest request, RedirectAttributes flash) {
    accounts.ledgers(member).stream()
        .filter(ledger -> ledger.id().equals(id))
        .findFirst()
        .ifPresent(
            ledger -> {
              members.goTo(request, id);
              flash.addFlashAttribute(
                  "done", "Pages show the ledger " + ledger.name() + " from here on.");
            });
    return SeeOther.page("/account");
  }

  @PostMapping("/account/ledgers")
  Object openLedger(
      Member member,
      @RequestParam(required = false) @Nullable String ledger,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model,
      RedirectAttributes flash) {
    try {
      Accounts.Standing opened = accounts.openLedger(member, ledger);
      members.goTo(request, opened.id());
      flash.addFlashAttribute("done", "The ledger " + opened.name() + " is open, and shown now.");
      return SeeOther.page("/account");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(field -> "ledger"));
      return page(member, request, model, ledger == null ? "" : ledger, NO_TOKEN);
    }
  }

  @PostMapping("/account/tokens")
  Object makeToken(
      Member member,
      @RequestParam(name = "token.name", required = false) @Nullable String name,
      @RequestParam(name = "token.expires", required = false) @Nullable String expires,
      @RequestParam(name = "token.readOnly", defaultValue = "false") boolean readOnly,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model) {
    Tokens.Entry entry = new Tokens.Entry(name, expires, readOnly);
    try {
      NEW_TOKEN.give(request, response, tokens.make(member, entry).text(), SHOWN_WITHIN);
      return SeeOther.page("/account");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(field -> "token." + field));
      return page(member, request, model, "", entry);
    }
  }

  @PostMapping("/account/tokens/{id}/revoke")
  RedirectView revokeToken(Member member, @PathVariable UUID id, RedirectAttributes flash) {
    tokens.revoke(member, id);
    flash.addFlashAttribute("done", "The token opens nothing any more.");
    return SeeOther.page("/account");
  }

  @PostMapping("/account/password")
  Object changePassword(
      Member member,
      @RequestParam(required = false) @Nullable String present,
      @RequestParam(required = false) @Nullable String password,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model,
      RedirectAttributes flash) {
    try {
      accounts.changePassword(member, present, password);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, request, model, "", NO_TOKEN);
    }
    // Whoever changed it stays signed in, under a new id; the others do not.
    sessions.endOthers(member, request.getSession().getId());
    members.signInAnew(request, response, member);
    flash.addFlashAttribute("done", "The password was changed.");
    return SeeOther.page("/account");
  }

  /** Ends one of the account's sessions. */
  @PostMapping("/account/sessions/{id}/end")
  RedirectView endSession(Member member, @PathVariable String id, RedirectAttributes flash) {
    sessions.end(member, id);
    flash.addFlashAttribute("done", "Whoever it was is signed out there.");
    return SeeOther.page("/account");
  }

  @PostMapping("/account/sessions/end-others")
  RedirectView endOtherSessions(
      Member member, HttpServletRequest request, RedirectAttributes flash) {
    sessions.endOthers(member, request.getSession().getId());
    flash.addFlashAttribute("done", "You are signed in here and nowhere else.");
    return SeeOther.page("/account");
  }

  private String page(
      Member member,
      HttpServletRequest request,
      Model model,
      String ledgerTyped,
      Tokens.Entry tokenForm) {
    model.addAttribute(
        "sessions",
        sessions.of(member, request.getSession().getId()).stream()
            .map(
                one ->
                    new SessionRow(
                        one.id(),
                        one.device(),
                        moments.minute(one.since()),
                        moments.minute(one.lastUse()),
                        one.here()))
            .toList());
    model.addAttribute(
        "styles",
        Arrays.stream(MassStyle.values())
            .map(
                style ->
                    new StyleChoice(
                        style.name(),
                        style.heading(),
                        style.withUncertainty(EXAMPLE, EXAMPLE_UNCERTAINTY),
                        style == member.massStyle()))
            .toList());
    model.addAttribute(
        "ledgers",
        accounts.ledgers(member).stream()
            .map(
                ledger ->
                    new LedgerRow(
                        ledger.id().toString(),
                        ledger.name(),
                        ledger.role().word(),
                        ledger.id().equals(member.ledger())))
            .toList());
    model.addAttribute("first", accounts.madeFirst(member));
    model.addAttribute("tokens", tokens.of(member).stream().map(this::row).toList());
    model.addAttribute("ledgerTyped", ledgerTyped);
    model.addAttribute("tokenForm", tokenForm);
    return "ledger/account";
  }

  private TokenRow row(Tokens.Kept token) {
    Instant expires = token.expiresAt();
    boolean ended = expires != null && !expires.isAfter(clock.instant());
    String until =
        token.revokedAt() != null
            ? ", taken back on " + moments.day(token.revokedAt())
            : expires == null
                ? ""
                : (ended ? ", ended on " : ", good until ") + moments.minute(expires);
    return new TokenRow(
        token.id().toString(),
        token.name(),
        (token.readOnly() ? "looks only, " : "") + "made on " + moments.day(token.madeAt()) + until,
        token.revokedAt() == null && !ended);
  }
}
