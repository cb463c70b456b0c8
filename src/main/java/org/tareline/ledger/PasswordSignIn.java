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
 * Signing in by name and password, throttled: at the form with a code where the account asks for
 * one, at the API for accounts that ask for none.
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

  /** The password is right, and is not enough where no code can be asked for. */
  static final class TokenNeeded extends AuthenticationException {

    TokenNeeded() {
      super("a token is needed");
    }
  }

  private final SignInThrottle throttle;
  private final SecondFactors secondFactors;
  private final boolean byForm;

  PasswordSignIn(
      UserDetailsService accounts,
      PasswordEncoder passwords,
      SignInThrottle throttle,
      SecondFactors secondFactors,
      boolean byForm) {
    super(accounts);
    setPasswordEncoder(passwords);
    this.throttle = throttle;
    this.secondFactors = secondFactors;
    this.byForm = byForm;
  }

  private void askForCode(SignedIn account, Authentication attempt) {
    if (!byForm && (account.secondFactor() || secondFactors.required())) {
      throw new TokenNeeded();
    }
    if (account.secondFactor()) {
      Duration wait = secondFactors.left(account.accountId());
      if (!wait.isZero()) {
        throw new LockedException(String.valueOf(wait.toSeconds() + 1));
      }
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
    Duration wait = throttle.wait(nameKey, address);
    if (!wait.isZero()) {
      throw new LockedException(String.valueOf(wait.toSeconds() + 1));
    }
    try {
      Authentication signedIn = super.authenticate(attempt);
      askForCode((SignedIn) Objects.requireNonNull(signedIn.getPrincipal()), attempt);
      throttle.succeeded(nameKey, address);
      return signedIn;
    } catch (BadCredentialsException wrong) {
      throttle.failed(nameKey, address);
      // Without the name: some type their password there.
      LOG.warn("A sign-in from {} was refused: name, password or code is wrong", address);
      throw wrong;
    } catch (InternalAuthenticationServiceException unasked) {
      // The name could not be looked up: that is not a wrong password.
      throw unasked.getCause() instanceof RuntimeException cause ? cause : unasked;
    }
  }
}
