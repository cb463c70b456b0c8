package org.tareline.site;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** The digest SHA-256 (FIPS 180-4), and how it is written here: in 64 small hexadecimal digits. */
public final class Sha256 {

  private Sha256() {}

  /** A digest to begin with, of what is read in pieces. */
  public static MessageDigest begun() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException missing) {
      throw new IllegalStateException("Every Java platform has SHA-256", missing);
    }
  }

  /** The digest of all that was read; afterwards it is as begun. */
  public static String hex(MessageDigest digest) {
    return HexFormat.of().formatHex(digest.digest());
  }

  /** The digest of a text in UTF-8. */
  public static String hex(String text) {
    MessageDigest digest = begun();
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    return hex(digest);
  }
}
