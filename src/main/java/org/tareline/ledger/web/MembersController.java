package org.tareline.ledger.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;
import org.springframework.web.servlet.view.RedirectView;
import org.tareline.ledger.HostCookie;
import org.tareline.ledger.Member;
import org.tareline.ledger.MemberRole;
import org.tareline.ledger.Members;
import org.tareline.ledger.ShareLinks;
import org.tareline.site.FormFields;
import org.tareline.site.Moments;
import org.tareline.site.Refusal;
import org.tareline.site.SeeOther;

/** The page of who is in a ledger, who is invited, and what is shown by links. */
@Controller
class MembersController {

  private static final HostCookie NEW_LINK = new HostCookie("tareline-new-link");
  private static final List<FormFields.Choice> ROLES =
      List.of(choice(MemberRole.EDITOR), choice(MemberRole.READER), choice(MemberRole.OWNER));

  /** What was typed for an invitation. */
  record InvitationForm(@Nullable String role, @Nullable String note) {}

  /** A row of the table of members. */
  public record Row(String id, String name, String role, String joined, boolean you) {}

  /** An invitation that is still open, or a link that still shows something. */
  public record Open(String id, String words, String when) {}

  private final Members members;
  private final ShareLinks links;
  private final Moments moments;

  MembersController(Members members, ShareLinks links, Moments moments) {
    this.members = members;
    this.links = links;
    this.moments = moments;
  }

  @GetMapping("/members")
  String all(Member member, HttpServletRequest request, HttpServletResponse response, Model model) {
    String path = NEW_LINK.take(request, response);
    if (path != null) {
      model.addAttribute(
          "link", ServletUriComponentsBuilder.fromContextPath(request).path(path).toUriString());
    }
    return page(member, model, new InvitationForm("editor", ""));
  }

  @PostMapping("/members/invitations")
  Object invite(
      Member member,
      @ModelAttribute InvitationForm form,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model) {
    try {
      Members.Made made = members.invite(member, form.role(), form.note());
      NEW_LINK.give(request, response, made.path(), AccountController.SHOWN_WITHIN);
      return SeeOther.page("/members");
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults());
      return page(member, model, form);
    }
  }

  @PostMapping("/members/invitations/{id}/withdraw")
  RedirectView withdraw(Member member, @PathVariable UUID id, RedirectAttributes flash) {
    members.withdraw(member, id);
    flash.addFlashAttribute("done", "The invitation was withdrawn.");
    return SeeOther.page("/members");
  }

  @PostMapping("/members/{id}/role")
  Object change(
      Member member,
      @PathVariable UUID id,
      @RequestParam(required = false) @Nullable String role,
      Model model,
      RedirectAttributes flash) {
    try {
      members.change(member, id, role);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(MembersController::noField));
      return page(member, model, new InvitationForm("editor", ""));
    }
    flash.addFlashAttribute("done", "The role was changed.");
    return SeeOther.page("/members");
  }

  @PostMapping("/members/{id}/remove")
  Object remove(Member member, @PathVariable UUID id, Model model, RedirectAttributes flash) {
    try {
      members.remove(member, id);
    } catch (Refusal refusal) {
      model.addAttribute("faults", refusal.faults(MembersController::noField));
      return page(member, model, new InvitationForm("editor", ""));
    }
    flash.addFlashAttribute("done", "The member is no longer in this ledger.");
    return SeeOther.page("/members");
  }

  /** A row's own small form has no field of that name alone. */
  private static String noField(String field) {
    return "";
  }

  @PostMapping("/share-links")
  RedirectView share(
      Member member,
      @RequestParam String page,
      HttpServletRequest request,
      HttpServletResponse response) {
    ShareLinks.Made made = links.make(member, page);
    NEW_LINK.give(request, response, made.path(), AccountController.SHOWN_WITHIN);
    return SeeOther.page("/members");
  }

  @PostMapping("/share-links/{id}/revoke")
  RedirectView revoke(Member member, @PathVariable UUID id, RedirectAttributes flash) {
    links.revoke(member, id);
    flash.addFlashAttribute("done", "The link shows nothing any more.");
    return SeeOther.page("/members");
  }

  private String page(Member member, Model model, InvitationForm form) {
    boolean owner = member.role() == MemberRole.OWNER;
    model.addAttribute("owner", owner);
    model.addAttribute(
        "rows",
        members.of(member).stream()
            .map(
                one ->
                    new Row(
                        one.id().toString(),
                        one.name(),
                        one.role().word(),
                        moments.day(one.joinedAt()),
                        one.name().equals(member.accountName())))
            .toList());
    model.addAttribute(
        "invitations",
        owner
            ? members.invitations(member).stream()
                .map(
                    one ->
                        new Open(
                            one.id().toString(),
                            one.role().word() + (one.note() == null ? "" : ", " + one.note()),
                            moments.minute(one.expiresAt())))
                .toList()
            : List.of());
    model.addAttribute(
        "links",
        links.of(member).stream()
            .map(one -> new Open(one.id().toString(), one.title(), moments.day(one.madeAt())))
            .toList());
    model.addAttribute("roles", ROLES);
    model.addAttribute("form", form);
    return "ledger/members";
  }

  private static FormFields.Choice choice(MemberRole role) {
    return new FormFields.Choice(role.word(), role.word());
  }
}
