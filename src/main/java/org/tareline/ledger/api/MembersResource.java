package org.tareline.ledger.api;

import com.fasterxml.jackson.annotation.JsonInclude;
import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;
import org.tareline.ledger.Member;
import org.tareline.ledger.Members;
import org.tareline.site.json.Listed;

/** Who is in a ledger, and who is invited to it. */
@RestController
@RequestMapping("/api/v1")
class MembersResource {

  /** A member. */
  record MemberJson(UUID id, String name, String role, Instant joinedAt) {}

  /** The role that a member is to have. */
  record RoleRequest(@Nullable String role) {}

  /** An invitation to be made. */
  record InvitationRequest(@Nullable String role, @Nullable String note) {}

  /**
   * An invitation.
   *
   * @param link where it is taken up; left out but in the answer to its making, for it is kept
   *     nowhere
   */
  record InvitationJson(
      UUID id,
      String role,
      @Nullable String note,
      Instant expiresAt,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable String link) {

    static InvitationJson of(Members.Invited invited, @Nullable String link) {
      return new InvitationJson(
          invited.id(), invited.role().word(), invited.note(), invited.expiresAt(), link);
    }
  }

  private final Members members;

  MembersResource(Members members) {
    this.members = members;
  }

  @GetMapping("/members")
  Listed<MemberJson> all(Member member) {
    return Listed.whole(
        members.of(member).stream()
            .map(one -> new MemberJson(one.id(), one.name(), one.role().word(), one.joinedAt()))
            .toList());
  }

  @PutMapping("/members/{id}")
  @ResponseStatus(HttpStatus.NO_CONTENT)
  void change(Member member, @PathVariable UUID id, @RequestBody RoleRequest sent) {
    members.change(member, id, sent.role());
  }

  @DeleteMapping("/members/{id}")
  @ResponseStatus(HttpStatus.NO_CONTENT)
  void remove(Member member, @PathVariable UUID id) {
    members.remove(member, id);
  }

  @GetMapping("/invitations")
  Listed<InvitationJson> invitations(Member member) {
    return Listed.whole(
        members.invitations(member).stream()
            .map(invited -> InvitationJson.of(invited, null))
            .toList());
  }

  @PostMapping("/invitations")
  @ResponseStatus(HttpStatus.CREATED)
  InvitationJson invite(
      Member member, @RequestBody InvitationRequest sent, HttpServletRequest request) {
    Members.Made made = members.invite(member, sent.role(), sent.note());
    return InvitationJson.of(
        made.invitation(),
        ServletUriComponentsBuilder.fromContextPath(request).path(made.path()).toUriString());
  }

  @DeleteMapping("/invitations/{id}")
  @ResponseStatus(HttpStatus.NO_CONTENT)
  void withdraw(Member member, @PathVariable UUID id) {
    members.withdraw(member, id);
  }
}
