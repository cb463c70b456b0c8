package org.tareline.ledger;

import jakarta.servlet.http.HttpServletRequest;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.SmartInitializingSingleton;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Component;
import org.tareline.site.Refusal;

/**
 * The making of the first account. From the machine itself anybody may make it; from elsewhere it
 * takes a token that is printed in the log, so that whoever finds an empty server first does not
 * own it. An owner named in the environment is made before the port answers.
 */
@Component
public class FirstVisit implements SmartInitializingSingleton {

  private static final Logger LOG = LoggerFactory.getLogger(FirstVisit.class);

  private final Accounts accounts;
  private final String ownerName;
  private final String ownerPassword;
  private final boolean withSample;
  private final String token;
  private volatile boolean over;

  FirstVisit(
      Accounts accounts,
      @Value("${tareline.first-owner.name:}") String ownerName,
      @Value("${tareline.first-owner.password:}") String ownerPassword,
      @Value("${tareline.sample-ledger:false}") boolean withSample) {
    this.accounts = accounts;
    this.ownerName = ownerName;
    this.ownerPassword = ownerPassword;
    this.withSample = withSample;
    byte[] bytes = new byte[16];
    new SecureRandom().nextBytes(bytes);
    this.token = HexFormat.of().formatHex(bytes);
  }

  @Override
  public void afterSingletonsInstantiated() {
    if (!awaited()) {
      return;
    }
    if (!ownerName.isEmpty()) {
      makeOwner();
    } else {
      LOG.info(
          "No account yet. Open the first page on this machine to make one; from another, the token is {}",
          token);
    }
  }

  private void makeOwner() {
    try {
      accounts.open(ownerName, ownerPassword, withSample);
    } catch (DataIntegrityViolationException | Refusal conflict) {
      // Another server on the same database starts at the same moment and has been quicker.
      if (accounts.none()) {
        throw conflict;
      }
    }
  }

  /** Whether the first account is still to be made. */
  public boolean awaited() {
    if (!over) {
      over = !accounts.none();
    }
    return !over;
  }

  /** Whether this request comes from the machine itself, and by no proxy. */
  public static boolean isLocal(HttpServletRequest request) {
    try {
      return request.getHeader("X-Forwarded-For") == null
          && request.getHeader("Forwarded") == null
          && InetAddress.getByName(request.getRemoteAddr()).isLoopbackAddress();
    } catch (UnknownHostException notAnAddress) {
      return false;
    }
  }

  /**
   * Makes the first account.
   *
   * @throws Refusal if there is one already, if the token is needed and wrong, or as {@link
   *     Accounts#open}
   */
  public synchronized void make(
      HttpServletRequest request,
      @Nullable String name,
      @Nullable String password,
      @Nullable String givenToken,
      boolean withSampleLedger) {
    if (!awaited()) {
      throw Refusal.of(
          Refusal.Kind.CONFLICT,
          "name",
          "The first account has been made already: sign in instead.");
    }
    if (!isLocal(request) && !sameToken(givenToken)) {
      throw Refusal.badInput("token", "Give the token that the server printed in its log.");
    }
    accounts.open(name, password, withSampleLedger);
  }

  private boolean sameToken(@Nullable String given) {
    return given != null
        && MessageDigest.isEqual(
            given.strip().getBytes(StandardCharsets.UTF_8), token.getBytes(StandardCharsets.UTF_8));
  }
}
