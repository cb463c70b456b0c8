package org.tareline.ledger;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.security.GeneralSecurityException;
import java.time.Instant;
import java.util.OptionalLong;
import java.util.stream.LongStream;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** One-time passwords by time (RFC 6238): six digits, SHA-1, steps of 30 s from the Unix epoch. */
final class TimeCodes {

  /** As long as the hash (RFC 4226, 4, R6: 160 bits recommended). */
  static final int SECRET_BYTES = 20;

  private static final int DIGITS = 6;
  private static final int STEP_SECONDS = 30;
  private static final String BASE32 = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

  private TimeCodes() {}

  /** A one-time password by a counter (RFC 4226, 5.3). */
  static String code(byte[] secret, long counter, int digits) {
    try {
      Mac mac = Mac.getInstance("HmacSHA1");
      mac.init(new SecretKeySpec(secret, "HmacSHA1"));
      byte[] hash = mac.doFinal(ByteBuffer.allocate(Long.BYTES).putLong(counter).array());
      int offset = hash[hash.length - 1] & 0xf;
      int number = ByteBuffer.wrap(hash).getInt(offset) & 0x7fffffff;
      String text = "0".repeat(digits) + number;
      return text.substring(text.length() - digits);
    } catch (GeneralSecurityException missing) {
      throw new IllegalStateException("Every Java platform has HmacSHA1", missing);
    }
  }

  static long step(Instant at) {
    return Math.floorDiv(at.getEpochSecond(), STEP_SECONDS);
  }

  /**
   * The step that a code is of: the present one, the one before or the one after it, for clocks
   * differ (RFC 6238, 5.2 and 6).
   */
  static OptionalLong stepOf(String code, byte[] secret, Instant now) {
    long present = step(now);
    return LongStream.rangeClosed(present - 1, present + 1)
        .filter(step -> code(secret, step, DIGITS).equals(code))
        .max();
  }

  /** In the alphabet in which people type secrets (RFC 4648, 6), without padding. */
  static String base32(byte[] secret) {
    StringBuilder text = new StringBuilder();
    // The digits of a number to the base of 32 are those of the other alphabet (RFC 4648, 7).
    for (char digit : new BigInteger(1, secret).toString(32).toCharArray()) {
      text.append(BASE32.charAt(Character.digit(digit, 32)));
    }
    return "A".repeat(secret.length * 8 / 5 - text.length()) + text;
  }
}
