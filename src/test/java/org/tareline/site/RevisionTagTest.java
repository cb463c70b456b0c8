package org.tareline.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;

class RevisionTagTest {

  @Test
  void a_tag_names_the_revision_it_was_made_of() {
    assertThat(RevisionTag.expected(RevisionTag.of(17))).isEqualTo(17);
  }

  @ParameterizedTest
  @NullSource
  @ValueSource(strings = {"*", " * "})
  void no_tag_and_any_tag_guard_nothing(String ifMatch) {
    assertThat(RevisionTag.expected(ifMatch)).isNull();
  }

  @ParameterizedTest
  @ValueSource(strings = {"3", "W/\"3\"", "\"x\"", "\"-1\"", "\"12345678901\"", "", "\"1\", \"2\""})
  void a_tag_that_cannot_be_compared_does_not_match(String ifMatch) {
    assertThatThrownBy(() -> RevisionTag.expected(ifMatch))
        .isInstanceOfSatisfying(
            Refusal.class, refusal -> assertThat(refusal.kind()).isEqualTo(Refusal.Kind.STALE))
        .hasMessageContaining("Nothing was changed");
  }
}
