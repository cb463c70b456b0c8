package org.tareline.ledger;

import java.security.SecureRandom;
import java.util.Base64;
import org.tareline.site.Sha256;

/**
 * What opens a door to whoever holds it. Its text is shown once, when it is made; kept is a digest,
 * by which it is found. It is 256 random bits, so a fast digest will do.
 */
record Secret(String text, String hash) {

  private static final SecureRandom RANDOM = new SecureRandom();

  static Secret fresh() {
    byte[] bytes = new byte[32];
    RANDOM.nextBytes(bytes);
    String text = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    return new Secret(text, hash(text));
  }

  static String hash(String text) {
    return Sha256.hex(text);
  }

  /** Not its text: what is logged by mistake should open nothing. */
  @Override
  public String toString() {
    return "a secret";
  }
}
