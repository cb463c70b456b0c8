package org.tareline.ledger;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;

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
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException missing) {
      throw new IllegalStateException("Every Java platform has SHA-256", missing);
    }
  }

  /** Not its text: what is logged by mistake should open nothing. */
  @Override
  public String toString() {
    return "a secret";
  }
}
