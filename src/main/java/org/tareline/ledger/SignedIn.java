package org.tareline.ledger;

import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.userdetails.UserDetails;

/**
 * An account as Spring Security knows it: who it is, and nothing of what it may do, for that is
 * asked of the ledger at every request.
 *
 * @param passwordHash as it was when the account signed in: another since then ends the session
 * @param ledger the one ledger that a token opens; null where no token was used
 * @param readOnly whether the token opens it for reading alone
 * @param secondFactor whether the account asks for a code beside its password
 */
record SignedIn(
    long accountId,
    String name,
    String passwordHash,
    @Nullable UUID ledger,
    boolean readOnly,
    boolean secondFactor)
    implements UserDetails {

  /** By a token. */
  SignedIn(long accountId, String name, String passwordHash, UUID ledger, boolean readOnly) {
    this(accountId, name, passwordHash, ledger, readOnly, false);
  }

  @Override
  public String getUsername() {
    return name;
  }

  @Override
  public String getPassword() {
    return passwordHash;
  }

  @Override
  public Collection<? extends GrantedAuthority> getAuthorities() {
    return List.of();
  }

  @Override
  public String toString() {
    return "account " + accountId;
  }
}
