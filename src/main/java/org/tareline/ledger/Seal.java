package org.tareline.ledger;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import javax.crypto.spec.SecretKeySpec;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.security.crypto.encrypt.AesBytesEncryptor;
import org.springframework.security.crypto.encrypt.AesBytesEncryptor.CipherAlgorithm;
import org.springframework.security.crypto.encrypt.BytesEncryptor;
import org.springframework.security.crypto.keygen.KeyGenerators;
import org.springframework.stereotype.Component;

/**
 * Seals the secrets of second factors by AES-256-GCM (NIST SP 800-38D), under a key that is neither
 * in the database nor in its backups: one that is set, else one in a file beside an embedded
 * database. Where there is neither, they are kept as they are.
 */
@Component
class Seal {

  private static final Logger LOG = LoggerFactory.getLogger(Seal.class);
  private static final int KEY_BYTES = 32;

  /** As 800-38D, 8.2 recommends. */
  private static final int NONCE_BYTES = 12;

  /** 20 bytes with nonce and tag in base 64; what is not sealed is in hexadecimal, and shorter. */
  private static final int SEALED_LENGTH = 64;

  private final @Nullable BytesEncryptor encryptor;
  private volatile boolean keyLost;

  Seal(
      @Value("${tareline.second-factor-key}") String set,
      @Value("${tareline.data-dir}") Path folder,
      @Value("${spring.datasource.url}") String database) {
    Path file = folder.resolve("second-factor.key");
    if (!set.isBlank()) {
      encryptor = encryptor(set, "TARELINE_SECOND_FACTOR_KEY");
    } else if (database.startsWith("jdbc:h2:file:")) {
      encryptor = encryptor(kept(file), file.toString());
    } else {
      encryptor = null;
    }
  }

  private static BytesEncryptor encryptor(String key, String where) {
    try {
      byte[] bytes = Base64.getDecoder().decode(key.strip());
      if (bytes.length == KEY_BYTES) {
        return new AesBytesEncryptor(
            new SecretKeySpec(bytes, "AES"),
            KeyGenerators.secureRandom(NONCE_BYTES),
            CipherAlgorithm.GCM);
      }
    } catch (IllegalArgumentException notBase64) {
      // said below
    }
    throw new IllegalStateException(
        where + " has to be 32 random bytes in base 64, as openssl rand -base64 32 prints them.");
  }

  private static String kept(Path file) {
    try {
      if (Files.notExists(file)) {
        Files.createDirectories(file.getParent());
        // Under another name first, so that a server that is killed here leaves no half of a key.
        // As any such file, it is
        // its owner's alone.
        Path written = Files.createTempFile(file.getParent(), "second-factor", ".new");
        Files.writeString(
            written,
            Base64.getEncoder().encodeToString(KeyGenerators.secureRandom(KEY_BYTES).generateKey()),
            StandardOpenOption.WRITE,
            StandardOpenOption.SYNC);
        Files.move(written, file, StandardCopyOption.ATOMIC_MOVE);
      }
      return Files.readString(file);
    } catch (IOException unusable) {
      throw new UncheckedIOException(unusable);
    }
  }

  /** As it is to be kept. */
  String seal(byte[] secret) {
    return encryptor == null
        ? HexFormat.of().formatHex(secret)
        : Base64.getEncoder().encodeToString(encryptor.encrypt(secret));
  }

  /** What is kept, sealed or not; nothing where it was sealed under a key that is not here. */
  Optional<byte[]> open(String kept) {
    if (kept.length() != SEALED_LENGTH) {
      return Optional.of(HexFormat.of().parseHex(kept));
    }
    try {
      if (encryptor != null) {
        return Optional.of(encryptor.decrypt(Base64.getDecoder().decode(kept)));
      }
    } catch (IllegalStateException sealedUnderAnother) {
      // said below
    }
    keyLost = true;
    LOG.error(
        "The secret of a second factor was sealed under a key that this server has not: codes of that device cannot"
            + " be checked. Give it the key (TARELINE_SECOND_FACTOR_KEY, or second-factor.key in its folder)."
            + " Until then a code from paper signs in, or a link of --new-password-for.");
    return Optional.empty();
  }

  /** Whether it was kept before there was a key. */
  boolean isOpen(String kept) {
    return encryptor != null && kept.length() != SEALED_LENGTH;
  }

  /** Whether something could not be opened since the server was started. */
  boolean keyLost() {
    return keyLost;
  }
}
