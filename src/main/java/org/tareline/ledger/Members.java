package org.tareline.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.site.Refusal;

/** Who is in a ledger, and who is invited to it. */
@Service
public class Members {

  /** A member as others see them. */
  public record Listed(UUID id, String name, MemberRole role, Instant joinedAt) {}

  /** An invitation as it is shown afterwards. */
  public record Invited(UUID id, MemberRole role, @Nullable String note, Instant expiresAt) {

    static Invited of(Invitation invitation) {
      return new Invited(
          invitation.uuid(), invitation.role(), invitation.note(), invitation.expiresAt());
    }
  }

  /**
   * An invitation just made.
   *
   * @param path where its link leads; the one time that it is there
   */
  public record Made(Invited invitation, String path) {}

  /** What an invitation that can be taken up says. */
  public record Offer(String ledgerName, MemberRole role, Instant expiresAt) {}

  private final MembershipRepository memberships;
  private final InvitationRepository invitations;
  private final LedgerRepository ledgers;
  private final Accounts accounts;
  private final Clock clock;

  Members(
      MembershipRepository memberships,
      InvitationRepository invitations,
      LedgerRepository ledgers,
      Accounts accounts,
      Clock clock) {
    this.memberships = memberships;
    this.invitations = invitations;
    this.ledgers = ledgers;
    this.accounts = accounts;
    this.clock = clock;
  }

  /** Everybody in the ledger, in the order they joined. */
  @Transactional(readOnly = true)
  public List<Listed> of(Member member) {
    return memberships.everybody(member.ledgerId());
  }

  /** Invitations that nobody has taken up yet. */
  @Transactional(readOnly = true)
  public List<Invited> invitations(Member member) {
    return invitations.open(member.ledgerId(), now()).stream().map(Invited::of).toList();
  }

  /**
   * Gives a member another role.
   *
   * @throws Refusal if there is no such role, or the ledger would be left without an owner
   * @throws NotThere if there is no such member
   */
  @Transactional
  public void change(Member owner, UUID id, @Nullable String role) {
    Faults faults = new Faults();
    MemberRole read = role(faults, role);
    faults.refuseIfAny();
    Membership membership = locked(owner, id);
    if (read != MemberRole.OWNER) {
      keepAnOwner(membership, "role");
    }
    membership.become(read);
  }

  /**
   * Takes a member out of the ledger, with the tokens they had for it. Whoever is in no other gets
   * an empty one of their own, for everybody who signs in stands in some ledger.
   *
   * @throws Refusal if the ledger would be left without an owner
   * @throws NotThere if there is no such member
   */
  @Transactional
  public void remove(Member owner, UUID id) {
    Membership membership = locked(owner, id);
    keepAnOwner(membership, "");
    memberships.delete(membership);
    memberships.flush();
    accounts.keepInSomeLedger(membership.accountId());
  }

  /** Changes of who owns a ledger happen one after another, so that the last owner stays. */
  private Membership locked(Member owner, UUID id) {
    ledgers.lock(owner.ledgerId());
    return memberships.one(owner.ledgerId(), id).orElseThrow(() -> new NotThere("member"));
  }

  private void keepAnOwner(Membership membership, String field) {
    if (membership.role() == MemberRole.OWNER && memberships.owners(membership.ledgerId()) == 1) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          field,
          "Make somebody else an owner first: a ledger has at least one.");
    }
  }

  /**
   * Makes an invitation.
   *
   * @throws Refusal if there is no such role
   */
  @Transactional
  public Made invite(Member owner, @Nullable String role, @Nullable String note) {
    Faults faults = new Faults();
    MemberRole read = role(faults, role);
    String readNote = faults.optionalText("note", note, "who it is for", 100);
    faults.refuseIfAny();
    Secret secret = Secret.fresh();
    Invitation invitation = invitations.save(new Invitation(owner, read, readNote, secret, now()));
    return new Made(Invited.of(invitation), "/invitation/" + secret.text());
  }

  private static MemberRole role(Faults faults, @Nullable String typed) {
    Optional<MemberRole> role = typed == null ? Optional.empty() : MemberRole.of(typed);
    if (role.isEmpty()) {
      faults.add("role", "Say owner, editor or reader.");
    }
    return role.orElse(MemberRole.READER);
  }

  /**
   * Withdraws an invitation that nobody has taken up yet.
   *
   * @throws NotThere if the ledger has no such invitation
   */
  @Transactional
  public void withdraw(Member owner, UUID id) {
    Instant now = now();
    invitations
        .one(owner.ledgerId(), id)
        .filter(invitation -> invitation.openAt(now))
        .orElseThrow(() -> new NotThere("invitation"))
        .withdraw(now);
  }

  /**
   * What an invitation offers.
   *
   * @throws NotThere if there is no such invitation, or it is taken up, withdrawn or too old
   */
  @Transactional(readOnly = true)
  public Offer offer(String secret) {
    return offer(open(invitations.findBySecretHash(Secret.hash(secret))));
  }

  private Offer offer(Invitation invitation) {
    return new Offer(
        ledgers.one(invitation.ledgerId()).orElseThrow().name(),
        invitation.role(),
        invitation.expiresAt());
  }

  private Invitation open(Optional<Invitation> found) {
    Instant now = now();
    return found
        .filter(invitation -> invitation.openAt(now))
        .orElseThrow(() -> new NotThere("invitation"));
  }

  /**
   * Makes the account a member. An account that is one already keeps its role unless the invitation
   * offers more.
   *
   * @throws NotThere as {@link #offer}
   */
  @Transactional
  public Offer accept(String secret, Member joining) {
    return accept(secret, joining.accountId());
  }

  /**
   * Makes an account and makes it a member.
   *
   * @throws Refusal if the name is taken or the password too short
   * @throws NotThere as {@link #offer}
   */
  @Transactional
  public Offer accept(String secret, @Nullable String name, @Nullable String password) {
    offer(secret);
    return accept(secret, accounts.add(name, password));
  }

  private Offer accept(String secret, long accountId) {
    Invitation invitation = open(invitations.lock(Secret.hash(secret)));
    memberships
        .of(invitation.ledgerId(), accountId)
        .ifPresentOrElse(
            membership -> {
              if (invitation.role().reaches(membership.role())) {
                membership.become(invitation.role());
              }
            },
            () ->
                memberships.save(
                    new Membership(invitation.ledgerId(), accountId, invitation.role(), now())));
    invitation.accept(accountId, now());
    return offer(invitation);
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
