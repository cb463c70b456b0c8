package org.tareline.testing;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.security.crypto.bcrypt.BCryptPasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;

/**
 * Tests open accounts by the thousand, and a good hash is slow on purpose: these are hashed with
 * the fewest rounds there are, and matched as fast, for a hash says how many it has. Whatever the
 * server hashes for somebody who asks is hashed as it ships.
 */
final class CheapHashes implements BeanPostProcessor {

  private static final PasswordEncoder CHEAP = new BCryptPasswordEncoder(4);
  private static final ThreadLocal<Boolean> OPENING = ThreadLocal.withInitial(() -> false);

  /** Opens an account for a test, in this thread. */
  static <T> T during(Supplier<T> opening) {
    OPENING.set(true);
    try {
      return opening.get();
    } finally {
      OPENING.remove();
    }
  }

  @Override
  public Object postProcessAfterInitialization(Object bean, String name) {
    return bean instanceof PasswordEncoder shipped ? new Either(shipped) : bean;
  }

  private record Either(PasswordEncoder shipped) implements PasswordEncoder {

    @Override
    public @Nullable String encode(@Nullable CharSequence password) {
      return OPENING.get() ? "{bcrypt}" + CHEAP.encode(password) : shipped.encode(password);
    }

    @Override
    public boolean matches(@Nullable CharSequence password, @Nullable String hash) {
      return shipped.matches(password, hash);
    }

    @Override
    public boolean upgradeEncoding(@Nullable String hash) {
      return shipped.upgradeEncoding(hash);
    }
  }
}
