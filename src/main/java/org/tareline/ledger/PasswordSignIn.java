package org.tareline.ledger;

import java.time.Duration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.InternalAuthenticationServiceException;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.dao.DaoAuthenticationProvider;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.authentication.WebAuthenticationDetails;
import org.tareline.site.Codes;

/** Signing in by name and password, at the form and at the API alike, throttled. */
final class PasswordSignIn extends DaoAuthenticationProvider {

  private static final Logger LOG = LoggerFactory.getLogger(PasswordSignIn.class);
  private static final int LONGEST_NAME = 200;

  private final SignInThrottle throttle;

  PasswordSignIn(
      org.springframework.security.core.userdetails.UserDetailsService accounts,
      org.springframework.security.crypto.password.PasswordEncoder passwords,
      SignInThrottle throttle) {
    super(accounts);
    setPasswordEncoder(passwords);
    this.throttle = throttle;
  }

  @Override
  public Authentication authenticate(Authentication attempt) throws AuthenticationException {
    String name = attempt.getName() == null ? "" : attempt.getName();
    if (name.length() > LONGEST_NAME) {
      throw new BadCredentialsException("name too long");
    }
    String nameKey = Codes.key(name);
    String address =
        attempt.getDetails() instanceof WebAuthenticationDetails details
            ? details.getRemoteAddress()
            : "";
    Duration wait = throttle.wait(nameKey, address);
    if (!wait.isZero()) {
      throw new LockedException(String.valueOf(wait.toSeconds() + 1));
    }
    try {
      Authentication signedIn = super.authenticate(attempt);
      throttle.succeeded(nameKey, address);
      return signedIn;
    } catch (BadCredentialsException wrong) {
      throttle.failed(nameKey, address);
      // Without the name: some type their password there.
      LOG.warn("A sign-in from {} was refused: name and password do not go together", address);
      throw wrong;
    } catch (InternalAuthenticationServiceException unasked) {
      // The name could not be looked up: that is not a wrong password.
      throw unasked.getCause() instanceof RuntimeException cause ? cause : unasked;
    }
  }
}
