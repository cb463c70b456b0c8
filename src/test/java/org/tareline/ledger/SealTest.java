package org.tareline.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SealTest {

  private static final String KEY = "AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=";
  private static final String ANOTHER = "HxECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=";
  private static final String SHARED = "jdbc:postgresql://one/tareline";

  /** The secret of RFC 6238, appendix B. */
  private static final byte[] SECRET =
      HexFormat.of().parseHex("3132333435363738393031323334353637383930");

  @TempDir private Path folder;

  private Seal under(String key) {
    return new Seal(key, folder, SHARED);
  }

  @Test
  void what_is_sealed_fits_its_column_is_never_twice_the_same_and_opens_under_its_key() {
    String sealed = under(KEY).seal(SECRET);

    assertThat(sealed).hasSize(64).isNotEqualTo(under(KEY).seal(SECRET));
    assertThat(under(KEY).open(sealed)).hasValue(SECRET);
    assertThat(under(KEY).isOpen(sealed)).isFalse();
  }

  @Test
  void under_another_key_or_none_or_changed_it_does_not_open_and_that_is_remembered() {
    String sealed = under(KEY).seal(SECRET);
    String changed = (sealed.startsWith("A") ? "B" : "A") + sealed.substring(1);

    Seal another = under(ANOTHER);
    assertThat(another.keyLost()).isFalse();
    assertThat(another.open(sealed)).isEmpty();
    assertThat(another.keyLost()).isTrue();
    assertThat(under("").open(sealed)).isEmpty();
    assertThat(under(KEY).open(changed)).isEmpty();
  }

  @Test
  void what_was_kept_before_there_was_a_key_opens_and_is_known() {
    String hex = under("").seal(SECRET);

    assertThat(hex).isEqualTo(HexFormat.of().formatHex(SECRET));
    assertThat(under(KEY).open(hex)).hasValue(SECRET);
    assertThat(under(KEY).isOpen(hex)).isTrue();
    assertThat(under("").isOpen(hex)).isFalse();
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void an_embedded_database_has_its_key_in_a_file_for_its_owner_alone() throws IOException {
    Path data = folder.resolve("data");
    String sealed = new Seal("", data, "jdbc:h2:file:here").seal(SECRET);

    Path file = data.resolve("second-factor.key");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    assertThat(new Seal("", data, "jdbc:h2:file:here").open(sealed)).hasValue(SECRET);
    assertThat(under(Files.readString(file)).open(sealed)).hasValue(SECRET);
  }

  @ParameterizedTest
  @ValueSource(strings = {"short", "AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHg==", "!"})
  void a_key_that_is_none_is_refused_and_said_how_to_make_one(String key) {
    assertThatThrownBy(() -> under(key))
        .hasMessageContaining("TARELINE_SECOND_FACTOR_KEY")
        .hasMessageContaining("openssl rand -base64 32");
  }
}
