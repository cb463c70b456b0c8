package org.tareline.ledger.api;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.tareline.ledger.Accounts;
import org.tareline.ledger.Member;
import org.tareline.site.json.Listed;

/** The ledgers that an account is in; the header {@code X-Ledger} takes the id of one. */
@RestController
@RequestMapping("/api/v1/ledgers")
class LedgersResource {

  /** A ledger to be opened. */
  record LedgerRequest(@Nullable String name) {}

  /** A ledger that the account is in, and as what. */
  record LedgerJson(UUID id, String name, String role) {

    static LedgerJson of(Accounts.Standing standing) {
      return new LedgerJson(standing.id(), standing.name(), standing.role().word());
    }
  }

  private final Accounts accounts;

  LedgersResource(Accounts accounts) {
    this.accounts = accounts;
  }

  @GetMapping
  Listed<LedgerJson> all(Member member) {
    return Listed.whole(accounts.ledgers(member).stream().map(LedgerJson::of).toList());
  }

  /** Opens another ledger, which the account then owns. */
  @PostMapping
  @ResponseStatus(HttpStatus.CREATED)
  LedgerJson open(Member member, @RequestBody LedgerRequest sent) {
    return LedgerJson.of(accounts.openLedger(member, sent.name()));
  }
}
