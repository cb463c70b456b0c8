package org.tareline.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Codes;
import org.tareline.site.Faults;
import org.tareline.site.NotThere;

/**
 * Another password for whoever forgot theirs. There is no mail: whoever runs the server makes a
 * link and hands it over.
 */
@Service
public class PasswordLinks {

  /** What a link that can still be used says. */
  public record Offer(String accountName, boolean secondFactor, Instant expiresAt) {}

  private static final Logger LOG = LoggerFactory.getLogger(PasswordLinks.class);

  private final PasswordLinkRepository links;
  private final AccountRepository accounts;
  private final SecondFactors secondFactors;
  private final OpenSessions sessions;
  private final PasswordEncoder passwords;
  private final Clock clock;

  PasswordLinks(
      PasswordLinkRepository links,
      AccountRepository accounts,
      SecondFactors secondFactors,
      OpenSessions sessions,
      PasswordEncoder passwords,
      Clock clock) {
    this.links = links;
    this.accounts = accounts;
    this.secondFactors = secondFactors;
    this.sessions = sessions;
    this.passwords = passwords;
    this.clock = clock;
  }

  /**
   * Makes a link for the account of that name. Those that are spent go: what came of them is in the
   * log.
   *
   * @return where it leads; the one time that it is there
   * @throws NotThere if nobody of that name signs in here
   */
  @Transactional
  String make(String name) {
    Account account =
        accounts.findByNameKey(Codes.key(name)).orElseThrow(() -> new NotThere("account"));
    links.deleteSpent(now());
    Secret secret = Secret.fresh();
    links.save(new PasswordLink(account.id(), secret, now()));
    LOG.info("Made a link for a new password: account {}", account.id());
    return "/new-password/" + secret.text();
  }

  /**
   * Whose password a link sets.
   *
   * @throws NotThere if there is no such link, or it is used or too old
   */
  @Transactional(readOnly = true)
  public Offer offer(String secret) {
    PasswordLink link = open(links.findBySecretHash(Secret.hash(secret)));
    Account account = accounts.findById(link.accountId()).orElseThrow();
    return new Offer(account.name(), account.asksForCode(), link.expiresAt());
  }

  /**
   * Sets the password, signs everybody out who was signed in by the one before, and uses the link
   * up.
   *
   * @param dropSecondFactor whether the second factor is lost as well
   * @throws org.tareline.site.Refusal if the password is none to be taken
   * @throws NotThere as {@link #offer}
   */
  @Transactional
  public void take(String secret, @Nullable String password, boolean dropSecondFactor) {
    PasswordLink link = open(links.lock(Secret.hash(secret)));
    Account account = accounts.findById(link.accountId()).orElseThrow();
    Faults faults = new Faults();
    String read = NewPassword.read(faults, password, account.name());
    faults.refuseIfAny();
    link.use(now());
    account.changePassword(passwords.encode(read));
    if (dropSecondFactor) {
      secondFactors.forget(account);
    }
    sessions.endAll(account.name());
    LOG.info("Changed its password by a link: account {}", account.id());
  }

  private PasswordLink open(Optional<PasswordLink> found) {
    Instant now = now();
    return found.filter(link -> link.openAt(now)).orElseThrow(() -> new NotThere("link"));
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
