package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Duration;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.InternalAuthenticationServiceException;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.dao.DaoAuthenticationProvider;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.web.authentication.WebAuthenticationDetails;
import org.tareline.site.Codes;

/**
 * Signing in by name and password, throttled, and with a code where the account asks for one. At
 * the API there is none that does.
 */
final class PasswordSignIn extends DaoAuthenticationProvider {

  private static final Logger LOG = LoggerFactory.getLogger(PasswordSignIn.class);
  private static final int LONGEST_NAME = 200;

  /** What came with the form beside name and password. It is not kept in the session. */
  static final class WithCode extends WebAuthenticationDetails {

    private final transient @Nullable String code;

    WithCode(HttpServletRequest request) {
      super(request);
      this.code = request.getParameter("code");
    }
  }

  private final SignInThrottle throttle;
  private final SecondFactors secondFactors;
  private final Calls calls;

  PasswordSignIn(
      UserDetailsService accounts,
      PasswordEncoder passwords,
      SignInThrottle throttle,
      SecondFactors secondFactors,
      Calls calls) {
    super(accounts);
    setPasswordEncoder(passwords);
    this.throttle = throttle;
    this.secondFactors = secondFactors;
    this.calls = calls;
  }

  private static void refuseUntil(Duration wait) {
    if (!wait.isZero()) {
      throw new LockedException(String.valueOf(wait.toSeconds() + 1));
    }
  }

  private void askForCode(SignedIn account, Authentication attempt) {
    if (account.secondFactor()) {
      refuseUntil(secondFactors.left(account.accountId()));
      String code = attempt.getDetails() instanceof WithCode details ? details.code : null;
      if (!secondFactors.accepts(account.accountId(), code)) {
        throw new BadCredentialsException("no good code");
      }
    }
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
    refuseUntil(throttle.wait(nameKey, address));
    refuseUntil(calls.signingIn(address));
    try {
      Authentication signedIn = super.authenticate(attempt);
      askForCode((SignedIn) Objects.requireNonNull(signedIn.getPrincipal()), attempt);
      throttle.succeeded(nameKey, address);
      calls.takeBack(address);
      return signedIn;
    } catch (BadCredentialsException wrong) {
      throttle.failed(nameKey, address);
      // Without the name: some type their password there.
      LOG.warn("A sign-in from {} was refused: name, password or code is wrong", address);
      throw wrong;
    } catch (InternalAuthenticationServiceException unasked) {
      // The name could not be looked up: that is not a wrong password.
      calls.takeBack(address);
      throw unasked.getCause() instanceof RuntimeException cause ? cause : unasked;
    }
  }
}
