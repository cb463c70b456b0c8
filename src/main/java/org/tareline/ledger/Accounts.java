package org.tareline.ledger;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.data.domain.Limit;
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

  /**
   * OWASP ASVS 4.0.3, 2.1.1 and 2.1.2: at least 12 characters; bcrypt takes no more than 72 bytes.
   */
  private static final int SHORTEST_PASSWORD = 12;

  private static final int LONGEST_PASSWORD = 72;

  private final AccountRepository accounts;
  private final LedgerRepository ledgers;
  private final MembershipRepository memberships;
  private final PasswordEncoder passwords;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  Accounts(
      AccountRepository accounts,
      LedgerRepository ledgers,
      MembershipRepository memberships,
      PasswordEncoder passwords,
      ApplicationEventPublisher events,
      Clock clock) {
    this.accounts = accounts;
    this.ledgers = ledgers;
    this.memberships = memberships;
    this.passwords = passwords;
    this.events = events;
    this.clock = clock;
  }

  /** Whether nobody has an account yet. */
  @Transactional(readOnly = true)
  public boolean none() {
    return accounts.count() == 0;
  }

  /**
   * Makes an account with a ledger of its own.
   *
   * @throws org.tareline.site.Refusal if the name is taken or the password too short
   */
  @Transactional
  public Member open(@Nullable String name, @Nullable String password, boolean withSample) {
    Faults faults = new Faults();
    String readName = faults.text("name", name, "a name to sign in with", 100);
    String readPassword = password == null ? "" : password;
    if (readPassword.length() < SHORTEST_PASSWORD) {
      faults.add("password", "Choose a password of at least " + SHORTEST_PASSWORD + " characters.");
    } else if (readPassword.getBytes(java.nio.charset.StandardCharsets.UTF_8).length
        > LONGEST_PASSWORD) {
      faults.add("password", "Choose a password of at most " + LONGEST_PASSWORD + " bytes.");
    }
    if (accounts.findByNameKey(Codes.key(readName)).isPresent()) {
      faults.conflict("name", "Choose another name: " + readName + " has an account already.");
    }
    faults.refuseIfAny();

    var now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    Account account = accounts.save(new Account(readName, passwords.encode(readPassword), now));
    Ledger ledger = ledgers.save(new Ledger(readName, now));
    memberships.save(new Membership(ledger, account, MemberRole.OWNER, now));
    Member owner = member(account.id(), null);
    events.publishEvent(new LedgerOpened(owner, withSample));
    return owner;
  }

  /**
   * The account as a member of the ledger named, or of its first.
   *
   * @throws NotThere if there is no such ledger or the account is no member of it
   */
  @Transactional(readOnly = true)
  public Member member(long accountId, @Nullable UUID ledger) {
    return (ledger == null
            ? memberships.membersOf(accountId, Limit.of(1)).stream().findFirst()
            : memberships.memberOf(accountId, ledger))
        .orElseThrow(() -> new NotThere("ledger"));
  }

  /** Shows masses to this account in another style from now on. */
  @Transactional
  public void showMassesIn(Member member, MassStyle style) {
    accounts
        .findById(member.accountId())
        .orElseThrow(() -> new NotThere("account"))
        .showMassesIn(style);
  }
}
