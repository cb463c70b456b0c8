package org.tareline.ledger;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.security.crypto.factory.PasswordEncoderFactories;
import org.springframework.security.crypto.password.DelegatingPasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.crypto.password.Pbkdf2PasswordEncoder;

/**
 * Hashes by bcrypt, and by PBKDF2 what bcrypt would cut off: it reads 72 bytes, and 64 characters
 * of some alphabets are more. Each hash says which it is of.
 */
final class LongPasswords implements PasswordEncoder {

  private static final int MOST_OF_BCRYPT = 72;
  private static final String PBKDF2 = "pbkdf2@SpringSecurity_v5_8";

  private final PasswordEncoder all = PasswordEncoderFactories.createDelegatingPasswordEncoder();
  private final PasswordEncoder ofLongOnes =
      new DelegatingPasswordEncoder(
          PBKDF2, Map.of(PBKDF2, Pbkdf2PasswordEncoder.defaultsForSpringSecurity_v5_8()));

  @Override
  public @Nullable String encode(@Nullable CharSequence password) {
    boolean isLong =
        password != null
            && password.toString().getBytes(StandardCharsets.UTF_8).length > MOST_OF_BCRYPT;
    return (isLong ? ofLongOnes : all).encode(password);
  }

  @Override
  public boolean matches(@Nullable CharSequence password, @Nullable String hash) {
    return all.matches(password, hash);
  }
}
