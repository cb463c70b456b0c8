package org.tareline.ledger;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.data.domain.Limit;
import org.springframework.security.authentication.CredentialsExpiredException;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;
import org.tareline.units.MassStyle;

/** The people who sign in, and the ledgers they are members of. */
@Service
public class Accounts {

  private static final Logger LOG = LoggerFactory.getLogger(Accounts.class);

  private final AccountRepository accounts;
  private final LedgerRepository ledgers;
  private final MembershipRepository memberships;
  private final PasswordEncoder passwords;
  private final SignInThrottle throttle;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  Accounts(
      AccountRepository accounts,
      LedgerRepository ledgers,
      MembershipRepository memberships,
      PasswordEncoder passwords,
      SignInThrottle throttle,
      ApplicationEventPublisher events,
      Clock clock) {
    this.accounts = accounts;
    this.ledgers = ledgers;
    this.memberships = memberships;
    this.passwords = passwords;
    this.throttle = throttle;
    this.events = events;
    this.clock = clock;
  }

  /** Whether nobody has an account yet. */
  @Transactional(readOnly = true)
  public boolean none() {
    return accounts.count() == 0;
  }

  /** Whether this account was made before all others on the server. */
  @Transactional(readOnly = true)
  public boolean madeFirst(Member member) {
    return accounts
        .findFirstByOrderByCreatedAtAscIdAsc()
        .filter(first -> first.id() == member.accountId())
        .isPresent();
  }

  /** A ledger that an account is in, and what it may do there. */
  public record Standing(UUID id, String name, MemberRole role) {}

  /**
   * Makes an account with a ledger of its own.
   *
   * @throws org.tareline.site.Refusal if the name is taken or the password is none to be taken
   */
  @Transactional
  public Member open(@Nullable String name, @Nullable String password, boolean withSample) {
    Account account = one(add(name, password));
    openLedger(account, account.name());
    Member owner = memberAtHome(account.signedIn(), null);
    events.publishEvent(new LedgerOpened(owner, withSample));
    return owner;
  }

  /** Makes an account that is in no ledger yet. */
  long add(@Nullable String name, @Nullable String password) {
    Faults faults = new Faults();
    String readName = faults.text("name", name, "a name to sign in with", 100);
    String readPassword = NewPassword.read(faults, password, readName);
    if (accounts.findByNameKey(Codes.key(readName)).isPresent()) {
      faults.conflict("name", "Choose another name: " + readName + " has an account already.");
    }
    faults.refuseIfAny();
    return accounts.save(new Account(readName, passwords.encode(readPassword), now())).id();
  }

  /**
   * Changes the password. Whoever signed in with the one before is signed out by it. Wrong guesses
   * at it are slowed down by themselves: they do not keep its owner from signing in.
   *
   * @throws org.tareline.site.Refusal if the present one is wrong or was guessed at too often, or
   *     the new one is none to be taken
   */
  @Transactional
  public void changePassword(Member member, @Nullable String present, @Nullable String password) {
    Account account = one(member.accountId());
    Faults faults = new Faults();
    String guesser = "account " + account.id();
    Duration wait = throttle.wait(guesser, "");
    if (!wait.isZero()) {
      faults.add("present", "Wait " + (wait.toSeconds() + 1) + " s, and type it once more.");
    } else if (present == null || !passwords.matches(present, account.passwordHash())) {
      throttle.failed(guesser, "");
      faults.add("present", "Type the password that you sign in with now.");
    } else {
      throttle.succeeded(guesser, "");
    }
    String read = NewPassword.read(faults, password, account.name());
    faults.refuseIfAny();
    account.changePassword(passwords.encode(read));
    LOG.info("Changed its password: account {}", account.id());
  }

  /** The ledgers that the account is in, the one it joined first in front. */
  @Transactional(readOnly = true)
  public List<Standing> ledgers(Member member) {
    return memberships.standings(member.accountId());
  }

  /**
   * Opens another ledger, which the account then owns.
   *
   * @throws org.tareline.site.Refusal if it has no name
   */
  @Transactional
  public Standing openLedger(Member member, @Nullable String name) {
    Faults faults = new Faults();
    String read = faults.text("name", name, "a name for the ledger", 200);
    faults.refuseIfAny();
    Account account = one(member.accountId());
    Ledger ledger = openLedger(account, read);
    events.publishEvent(new LedgerOpened(member(account.signedIn(), ledger.uuid()), false));
    return new Standing(ledger.uuid(), ledger.name(), MemberRole.OWNER);
  }

  private Ledger openLedger(Account account, String name) {
    Ledger ledger = ledgers.save(new Ledger(name, now()));
    memberships.save(new Membership(ledger.id(), account.id(), MemberRole.OWNER, now()));
    return ledger;
  }

  /** Opens an empty ledger for an account that is in none. */
  void keepInSomeLedger(long accountId) {
    if (memberships.ofAccount(accountId) == 0) {
      Account account = one(accountId);
      openLedger(account, account.name());
    }
  }

  /**
   * The account as a member of the ledger named.
   *
   * @throws NotThere if there is no such ledger or the account is no member of it
   * @throws CredentialsExpiredException if its password was changed since it signed in
   */
  @Transactional(readOnly = true)
  Member member(SignedIn signedIn, UUID ledger) {
    return memberships
        .memberOf(signedIn.accountId(), signedIn.passwordHash(), ledger)
        .map(member -> signedIn.readOnly() ? member.readingOnly() : member)
        .orElseThrow(() -> notAMember(signedIn));
  }

  /**
   * The account as a member of the ledger it was last in, or of its first where it was in none or
   * has left that one.
   *
   * @throws NotThere if the account is in no ledger
   * @throws CredentialsExpiredException if its password was changed since it signed in
   */
  @Transactional(readOnly = true)
  Member memberAtHome(SignedIn signedIn, @Nullable UUID last) {
    return Optional.ofNullable(last)
        .flatMap(
            ledger -> memberships.memberOf(signedIn.accountId(), signedIn.passwordHash(), ledger))
        .or(
            () ->
                memberships
                    .membersOf(signedIn.accountId(), signedIn.passwordHash(), Limit.of(1))
                    .stream()
                    .findFirst())
        .orElseThrow(() -> notAMember(signedIn));
  }

  private RuntimeException notAMember(SignedIn signedIn) {
    return one(signedIn.accountId()).passwordHash().equals(signedIn.passwordHash())
        ? new NotThere("ledger")
        : new CredentialsExpiredException("the password was changed");
  }

  /** The account as it would sign in now. */
  @Transactional(readOnly = true)
  SignedIn signedIn(Member member) {
    return one(member.accountId()).signedIn();
  }

  private Account one(long accountId) {
    return accounts.findById(accountId).orElseThrow(() -> new NotThere("account"));
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }

  /** Shows masses to this account in another style from now on. */
  @Transactional
  public void showMassesIn(Member member, MassStyle style) {
    one(member.accountId()).showMassesIn(style);
  }
}
