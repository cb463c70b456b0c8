package org.tareline.ledger;

import java.util.Collection;
import java.util.List;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.userdetails.UserDetails;

/**
 * An account as Spring Security knows it: who it is, and nothing of what it may do, for that is
 * asked of the ledger at every request.
 */
record SignedIn(long accountId, String name, String passwordHash) implements UserDetails {

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
