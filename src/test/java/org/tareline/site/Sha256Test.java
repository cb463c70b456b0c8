package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import org.junit.jupiter.api.Test;

class Sha256Test {

  /** The example of one block that NIST publishes with FIPS 180-4. */
  private static final String OF_ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  @Test
  void a_text_has_the_published_digest() {
    assertThat(Sha256.hex("abc")).isEqualTo(OF_ABC);
  }

  @Test
  void a_text_is_digested_in_utf_8() {
    // As by sha256sum of the bytes c3 a4.
    assertThat(Sha256.hex("ä"))
        .isEqualTo("33e6d73fee82904c8d7afb78de1154d1e8dc2a0edb08120e63df5b9385c2d9cc");
  }

  @Test
  void pieces_have_the_digest_of_the_whole() {
    MessageDigest digest = Sha256.begun();
    digest.update("a".getBytes(StandardCharsets.UTF_8));
    digest.update("bc".getBytes(StandardCharsets.UTF_8));
    assertThat(Sha256.hex(digest)).isEqualTo(OF_ABC);
  }
}
