package org.tareline.ledger;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.UUID;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.tareline.site.Codes;

/** Who did what is in a ledger that was brought here from elsewhere. */
@Service
public class Authors {

  private final AccountRepository accounts;
  private final Clock clock;

  Authors(AccountRepository accounts, Clock clock) {
    this.accounts = accounts;
    this.clock = clock;
  }

  /**
   * The account of the member of this name. Where the ledger has none, one that has the name and
   * nothing else: nobody can sign in to it, it is in no ledger, and it is this ledger's alone, so
   * that nothing is put down to somebody else of the same name on this server.
   *
   * @return its id
   */
  @Transactional(propagation = Propagation.MANDATORY)
  public long named(Member member, String name) {
    String key = Codes.key(name);
    return accounts
        .idOfMember(member.ledgerId(), key)
        .orElseGet(
            () -> {
              // A name is sought in small letters, so this one is never found by typing it.
              String known =
                  "KNOWN BY NAME "
                      + UUID.nameUUIDFromBytes(
                              (member.ledger() + " " + key).getBytes(StandardCharsets.UTF_8))
                          .toString()
                          .toUpperCase(Locale.ROOT);
              return accounts
                  .findByNameKey(known)
                  .orElseGet(
                      () ->
                          accounts.save(
                              Account.knownByName(
                                  name, known, clock.instant().truncatedTo(ChronoUnit.MICROS))))
                  .id();
            });
  }
}
