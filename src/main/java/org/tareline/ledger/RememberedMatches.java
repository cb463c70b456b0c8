package org.tareline.ledger;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.jspecify.annotations.Nullable;
import org.springframework.security.crypto.password.PasswordEncoder;

/**
 * Remembers for some minutes that a password matched, since the API signs in at every request and a
 * good hash is slow on purpose. Kept is a keyed digest under a key that is never written anywhere,
 * of the password and of the very hash it matched: a changed password is asked anew. A password
 * that did not match is never remembered.
 */
final class RememberedMatches implements PasswordEncoder {

  private static final Duration KEPT_FOR = Duration.ofMinutes(5);
  private static final int MOST_KEPT = 1_000;

  private final PasswordEncoder encoder;
  private final Clock clock;
  private final SecretKeySpec key;
  private final Map<String, Instant> matched =
      new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Instant> eldest) {
          return size() > MOST_KEPT;
        }
      };

  RememberedMatches(PasswordEncoder encoder, Clock clock) {
    this.encoder = encoder;
    this.clock = clock;
    byte[] bytes = new byte[32];
    new SecureRandom().nextBytes(bytes);
    this.key = new SecretKeySpec(bytes, "HmacSHA256");
  }

  @Override
  public @Nullable String encode(@Nullable CharSequence password) {
    return encoder.encode(password);
  }

  @Override
  public boolean matches(@Nullable CharSequence password, @Nullable String hash) {
    if (password == null || hash == null) {
      return false;
    }
    String digest = digest(password, hash);
    Instant now = clock.instant();
    synchronized (matched) {
      Instant until = matched.get(digest);
      if (until != null && now.isBefore(until)) {
        return true;
      }
    }
    boolean matches = encoder.matches(password, hash);
    if (matches) {
      synchronized (matched) {
        matched.put(digest, now.plus(KEPT_FOR));
      }
    }
    return matches;
  }

  @Override
  public boolean upgradeEncoding(@Nullable String hash) {
    return encoder.upgradeEncoding(hash);
  }

  private String digest(CharSequence password, String hash) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(key);
      mac.update(hash.getBytes(StandardCharsets.UTF_8));
      mac.update((byte) 0);
      return Base64.getEncoder()
          .encodeToString(mac.doFinal(password.toString().getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException missing) {
      throw new IllegalStateException("Every Java platform has HmacSHA256", missing);
    }
  }
}
